"""The pages: thin views over the collection, one module a subject."""
