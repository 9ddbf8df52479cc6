"""What may stand in a kit file: each table with its keys, and what each must measure."""

from msgspec import Struct

MOST_ENTRIES = 40  # of one table
MOST_COUNT = 100  # of one entry
LONGEST_NAME = 60  # characters


class Field(Struct, frozen=True):
    """`kind` is text, count, yes (true or false), or what a value with a unit measures. `such_as` is an example."""

    kind: str
    such_as: str
    needed: bool = False


TITLE = Field("text", '"Bench kit"')
_NAME = Field("text", '"spring scale 10 N"', True)
_COUNT = Field("count", "4")

TABLES: dict[str, dict[str, Field]] = {
    "stand": {
        "height": Field("length", '"1.60 m"', True), "anchor": Field("text", '"hook of the stand"'),
        "rated": Field("force", '"200 N"'), "rated_by": Field("text", '"the estates office, March"'),
        "limit": Field("mass", '"2 kg"'),
    },
    "mass": {
        "name": _NAME, "mass": Field("mass", '"100 g"', True), "count": _COUNT, "height": Field("length", '"45 mm"'),
    },
    "cord": {
        "name": _NAME, "diameter": Field("length", '"2 mm"', True), "length": Field("length", '"30 m"'),
        "stiffness": Field("force", '"3 kN"'),
    },
    "block": {
        "name": _NAME, "sheaves": Field("count", "2", True), "radius": Field("length", '"18 mm"', True),
        "mass": Field("mass", '"72 g"', True), "count": _COUNT, "efficiency": Field("ratio", '"94 %"'),
        "reach": Field("length", '"25 mm"'), "hook": Field("length", '"48 mm"'),
        "spacing": Field("length", '"45 mm"'),
    },
    "scale": {
        "name": _NAME, "span": Field("force", '"10 N"', True), "division": Field("force", '"0.2 N"', True),
        "weight": Field("force", '"0.55 N"', True), "zero": Field("force", '"0.05 N"'),
        "moving": Field("force", '"0.07 N"'), "tared": Field("yes", "true"),
    },
}  # fmt: skip
ALONE = ("stand",)  # tables that stand once; the others are lists, [[mass]]
NEEDED = ("stand", "mass", "scale", "cord")
