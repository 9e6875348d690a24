"""A history and provenance catalogue of quilts for guilds and small collections."""
