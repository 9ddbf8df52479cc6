"""The hand takes up rope; it has no weight of its own."""

from typing import Any

from gantline.rig import Given, Hand

from ..ring import Ring

HELD = False


def freedoms(part: Hand) -> tuple[str, ...]:
    return ("take",)


def weight(part: Hand, gravity: Given, ring: Ring) -> tuple[Any, Any]:
    return None, None
