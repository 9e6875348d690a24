"""One collection on disk: schema, records, history, photographs, search index and backup."""
