"""Spreadsheets in and out, open museum formats out, and the static site."""
