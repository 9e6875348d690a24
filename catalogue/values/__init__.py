"""Exact lengths, dates with their doubt, accession numbers and names: pure values, no I/O."""
