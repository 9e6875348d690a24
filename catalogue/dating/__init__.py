"""Phases of making, dating clues with their sources, and the date they allow."""
