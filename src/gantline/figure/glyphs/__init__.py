"""How each kind of part looks. One kind, one file; nothing here knows a view."""

from . import fixed, hand, load, moving, rope, sheave

PARTS = {"fixed": fixed, "moving": moving, "load": load, "hand": hand, "sheave": sheave, "rope": rope}

__all__ = ["PARTS", "fixed", "hand", "load", "moving", "rope", "sheave"]
