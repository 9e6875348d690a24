"""Exhibits on record: what hangs where, in what light, booked when, and the lists for it."""
