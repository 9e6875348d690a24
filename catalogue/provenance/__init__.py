"""Periods of ownership, their notation, their gaps and their contradictions."""
