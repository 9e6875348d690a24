"""Derivatives, squaring up, block repeat, turned blocks and colours, as arrays and images."""
