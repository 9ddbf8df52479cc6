"""Units of measure: what may stand behind a number in a file, as exact factors to SI."""

from fractions import Fraction

from msgspec import Struct


class Unit(Struct, frozen=True):
    """`factor` turns a number in this unit into SI. `kind` is what it measures; `spoken` is singular and plural."""

    name: str
    kind: str
    factor: Fraction
    spoken: tuple[str, str]


_FOOT = Fraction(3048, 10000)
_POUND = Fraction(45359237, 10**8)
_STANDARD_GRAVITY = Fraction(980665, 10**5)

# Exact definitions: SI brochure (9th ed.); foot and pound by the 1959 international agreement (NIST SP 811, App. B);
# lbf and kgf are pound and kilogram times standard gravity 9.80665 m/s2.
UNITS: dict[str, Unit] = {
    unit.name: unit
    for unit in (
        Unit("N", "force", Fraction(1), ("newton", "newtons")),
        Unit("kN", "force", Fraction(1000), ("kilonewton", "kilonewtons")),
        Unit("lbf", "force", _POUND * _STANDARD_GRAVITY, ("pound of force", "pounds of force")),
        Unit("kgf", "force", _STANDARD_GRAVITY, ("kilogram-force", "kilograms-force")),
        Unit("N/m", "force per length", Fraction(1), ("newton per metre", "newtons per metre")),
        Unit("kN/m", "force per length", Fraction(1000), ("kilonewton per metre", "kilonewtons per metre")),
        Unit("kg", "mass", Fraction(1), ("kilogram", "kilograms")),
        Unit("g", "mass", Fraction(1, 1000), ("gram", "grams")),
        Unit("t", "mass", Fraction(1000), ("tonne", "tonnes")),
        Unit("lb", "mass", _POUND, ("pound", "pounds")),
        Unit("m", "length", Fraction(1), ("metre", "metres")),
        Unit("cm", "length", Fraction(1, 100), ("centimetre", "centimetres")),
        Unit("mm", "length", Fraction(1, 1000), ("millimetre", "millimetres")),
        Unit("ft", "length", _FOOT, ("foot", "feet")),
        Unit("in", "length", _FOOT / 12, ("inch", "inches")),
        Unit("m/s2", "acceleration", Fraction(1), ("metre per second squared", "metres per second squared")),
        Unit("m/s²", "acceleration", Fraction(1), ("metre per second squared", "metres per second squared")),
        Unit("ft/s2", "acceleration", _FOOT, ("foot per second squared", "feet per second squared")),
        Unit("kg m2", "inertia", Fraction(1), ("kilogram metre squared", "kilogram metres squared")),
        Unit("%", "ratio", Fraction(1, 100), ("per cent", "per cent")),
        Unit("deg", "angle", Fraction(1), ("degree", "degrees")),
        Unit("s", "time", Fraction(1), ("second", "seconds")),
    )
}

SI: dict[str, str] = {
    "force": "N", "mass": "kg", "length": "m", "acceleration": "m/s2", "inertia": "kg m2", "ratio": "1",
    "angle": "deg", "time": "s", "work": "J", "force per length": "N/m",
}  # fmt: skip
