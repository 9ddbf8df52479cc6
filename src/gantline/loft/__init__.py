"""The loft: a local page where rigs are made and shown. Stateless at heart: each request carries the whole text."""

from .starting import NotStarted, Opened, start

__all__ = ["NotStarted", "Opened", "start"]
