"""The command line: a thin skin over `api`."""

from .main import main

__all__ = ["main"]
