"""The vocabulary of the notation and its limits. A keyword, an attribute, a reserved word is a row here."""

# What unit stands behind a keyword: the kinds are those of the units table.
KINDS: dict[str, str] = {
    "gravity": "acceleration", "effort": "force", "raise": "length", "lower": "length",
    "weight": "force", "mass": "mass", "radius": "length", "disc": "mass", "inertia": "inertia",
    "efficiency": "ratio", "spacing": "length",
}  # fmt: skip

STATEMENTS = ("title", "gravity", "fixed", "moving", "load", "rope", "raise", "lower", "effort")
PARTS = ("fixed", "moving", "load")
ONCE = ("title", "gravity", "effort")
ATTRIBUTES = (
    "sheaves", "carries", "weight", "mass", "radius", "disc", "inertia", "efficiency", "spacing",
)  # fmt: skip
SIDES = ("over", "under")

# No part or rope may be called so: they are words of a path, today or in a later notation.
RESERVED = frozenset(
    ("hand", "over", "under", "round", "left", "right", "level", "plumb", "along", "at", "near", "and")
)  # fmt: skip

MOST_BYTES = 64 * 1024
MOST_PARTS = 400
MOST_CONTACTS = 2000
MOST_SHEAVES = 2000  # of a whole file: each that is used needs a contact
MOST_DIGITS = 40  # characters of a number, counted before it is converted
MOST_EXPONENT = 12
MOST_LETTERS = 64  # of a name or a symbol
MOST_TITLE = 200
