"""The published values and how one is looked up: one TOML a case, in `cases/`."""

import math
import tomllib
from collections.abc import Mapping
from fractions import Fraction
from pathlib import Path
from typing import Any

from gantline.quantity import UNITS

HERE = Path(__file__).parent
BASES = ("read in the source", "partly from memory", "from memory, unverified", "common practice", "own calculation")

_SI = {name: unit.factor for name, unit in UNITS.items()}
_NAMED = {**{name: _SI[name] for name in ("N", "kN", "lbf", "kgf", "kg", "lb", "m", "ft")}, "inch": _SI["in"]}
_FACTORS = {
    **_SI,
    **dict.fromkeys(("", "J", "W", "Pa", "N m", "m/s", "rad/s", "rad/s2", "kg/m"), Fraction(1)),
    "GPa": Fraction(10**9), "kJ": Fraction(1000), "ft lbf": _SI["ft"] * _SI["lbf"],
}  # fmt: skip


def load_cases() -> dict[str, dict[str, Any]]:
    return {path.stem: tomllib.loads(path.read_text("utf-8")) for path in sorted((HERE / "cases").glob("*.toml"))}


def load_not_yet() -> dict[str, dict[str, str]]:
    return tomllib.loads((HERE / "not_yet.toml").read_text("utf-8"))


def printed(text: str, unit: str) -> Fraction:
    """A number as printed, in SI."""
    return Fraction(text) * _FACTORS[unit]


def half_a_digit(text: str) -> Fraction:
    """Half a unit of the last printed digit."""
    return Fraction(1, 2 * 10 ** len(text.partition(".")[2]))


def computed(found: list[Any], asked: Mapping[str, Any]) -> Any:
    """What the case asks, from the values found in the record: the first of them, or a sum of x, y, z, u, v in SI."""
    if "compute" not in asked:
        return found[0]
    names = dict(zip("xyzuv", found, strict=False))
    known = {"Fraction": Fraction, "sqrt": math.sqrt, "max": max, "__builtins__": {}}
    return eval(asked["compute"], known | _NAMED | names)
