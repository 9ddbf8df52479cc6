"""What the page may ask, one noun a request; every field is checked when it is read."""

import json
import re
from typing import Any, Literal, TypeVar

import msgspec
from msgspec import Struct

from gantline.mechanics import Way

WhatIf = dict[str, str]  # `chest.weight` (or its letter, `W`) -> `600 N`


class Asked(Struct, frozen=True, forbid_unknown_fields=True):
    """Any request: the words of the rig, and the what-if values set on top of them."""

    text: str
    what_if: WhatIf = {}


class StepOf(Struct, frozen=True, forbid_unknown_fields=True):
    """A step of an account, by its method and its own id."""

    method: str
    id: str


class See(Asked, frozen=True):
    """The rig seen: `view` names the figure, `lit` the parts in ink (None: all), `step` a step to draw instead; `hand`
    is the rope taken up (m) in the view of what is tried, None for as much as there is a round number for."""

    view: str = "labelled"
    way: Way = "ideal"
    lit: tuple[str, ...] | None = None
    step: StepOf | None = None
    hand: float | None = None


class Tell(Asked, frozen=True):
    """The rig explained by a method, None for the one that fits best; `script` has the tutor's own sentences."""

    method: str | None = None
    script: str = ""


class Say(Tell, frozen=True):
    """A step's sentence in the tutor's own words, its numbers in braces; empty for the program's."""

    step: str = ""
    say: str = ""


class Offers(Struct, frozen=True, forbid_unknown_fields=True):
    """The places where a rope may be led next; `rope` names one that has begun, empty for a new one."""

    text: str
    rope: str = ""


class Edit(Struct, frozen=True, forbid_unknown_fields=True):
    """A change of the words: what is wished, as `making` knows it."""

    text: str
    action: dict[str, Any]


class Tag(Struct, frozen=True, forbid_unknown_fields=True):
    """What can be done with a part, or under a word of *Make*; see `making`."""

    text: str
    of: str


class HandOut(Asked, frozen=True):
    """What to hand out of a rig, and the name of the file before its ending; `script` has the tutor's own sentences,
    the rest is for figures."""

    what: Literal["page", "lesson", "svg", "png", "answer"] = "page"
    name: str = "rig"
    view: str = "labelled"
    theme: Literal["light", "dark", "grey"] = "light"
    lit: tuple[str, ...] | None = None
    script: str = ""


class Thumbnail(Struct, frozen=True, forbid_unknown_fields=True):
    """A ready rig of the shelf, in the colours of a light or a dark page."""

    name: str
    theme: Literal["light", "dark"] = "light"


class Keep(Struct, frozen=True, forbid_unknown_fields=True):
    """A file to save: `base` is the text it began from, None for a new file; `says` what was done, for *Earlier*, where
    states that follow each other in one `group` are one entry."""

    name: str
    text: str
    base: str | None = None
    says: str = ""
    group: str = ""


Kind = TypeVar("Kind", bound=Struct)

_HALF = re.compile(rb"\\u[dD][89a-fA-F]")  # a character beyond the first plane, escaped: it may be but one half of it


class Refused(Exception):
    """A request that cannot be answered: the status of HTTP, and a sentence."""

    def __init__(self, status: int, says: str) -> None:
        super().__init__(says)
        self.status = status
        self.says = says


def read(body: bytes, kind: type[Kind]) -> Kind:
    """A request read from JSON. Raises Refused, saying which field is not as it should be."""
    try:
        if _HALF.search(body):
            return msgspec.convert(json.loads(body), kind)
        return msgspec.json.decode(body, type=kind)
    except (msgspec.MsgspecError, ValueError, RecursionError) as error:
        raise Refused(400, f"This request cannot be read: {error}.") from error


def written(record: Any) -> bytes:
    """An answer as JSON. Halves of characters stay escaped: a text may have one, and is told where."""
    try:
        return msgspec.json.encode(record)
    except UnicodeEncodeError:
        return json.dumps(record, separators=(",", ":")).encode("ascii")


Answer = dict[str, Any]
