"""Talks on record: their items in order, the time they take, and what stands in their way."""
