"""Keeping what was recorded: one server at a time, verified copies, restoring, archiving."""
