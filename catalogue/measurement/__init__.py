"""From tape readings to block grid and setting; drafting grid, cutting and diagrams."""
