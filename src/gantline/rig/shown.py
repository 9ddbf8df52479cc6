"""The unit a reader sees: the one the file's givens of that kind share, else SI."""

from msgspec import Struct

from gantline.quantity import UNITS, Unit

from .given import Given
from .rig import Rig

_KINDS = {"N": "force", "kg": "mass", "m": "length", "m/s2": "acceleration"}


def shown_unit(rig: Rig, unit: str) -> Unit | None:
    """The unit to show a value of this SI unit in, or None where the SI unit itself is shown."""
    kind = _KINDS.get(unit)
    written = {given.unit for given in _givens(rig) if given.kind == kind and given.number is not None}
    return UNITS[written.pop()] if kind and len(written) == 1 else None


def _givens(rig: Rig) -> tuple[Given, ...]:
    """What the file gives, save the measures of sheaves: a radius says nothing of the unit of a rise."""
    asked = (rig.asked.distance,) if rig.asked else ()
    weights = (given for part in rig.parts for given in _fields(part) if given.kind in ("force", "mass"))
    return (rig.gravity, *asked, *((rig.effort,) if rig.effort else ()), *weights)


def _fields(part: Struct) -> tuple[Given, ...]:
    return tuple(value for name in part.__struct_fields__ if isinstance(value := getattr(part, name), Given))
