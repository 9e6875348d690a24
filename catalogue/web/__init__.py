"""The pages: thin views over the collection, one module a subject."""

from catalogue.web.application import create_app

__all__ = ["create_app"]
