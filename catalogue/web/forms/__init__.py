"""What people fill in: fields that read as people write, rows that repeat, sections."""
