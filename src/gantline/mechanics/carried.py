"""One unit of pull carried along the ropes: every strand's pull in terms of the hand's, with what block weights add."""

from fractions import Fraction

from msgspec import Struct
from msgspec.structs import replace

from gantline.quantity import Formula, Number, value
from gantline.rig import Given, Rig

from .answer import Value
from .numbers import exact, numbers
from .solver import solve


class Carried(Struct, frozen=True):
    """The pull of one strand: `formula` in the hand's pull F and the weights, which is `multiple` F + `extra` (N)."""

    strand: str
    formula: Formula
    multiple: Value
    extra: Value


def carry(rig: Rig) -> tuple[Carried, ...]:
    """Each strand's pull in terms of the hand's, for free wheels at rest, whatever the load asked about weighs.

    Empty where no hand pulls, no load is asked about, or the pulls are not decided so.
    """
    if rig.hand is None or rig.aim not in {load.name for load in rig.loads}:
        return ()
    open_rig = _load_left_open(rig)
    answer = solve(open_rig)
    if answer.status not in ("holds", "slack") or answer.ideal.load is None:
        return ()
    of = {symbol: exact(number) for symbol, number in numbers(open_rig).of.items()}
    none, one = {**of, rig.effort_symbol: Fraction(0)}, {**of, rig.effort_symbol: Fraction(1)}
    found = []
    for pull in answer.ideal.strands:
        if pull.tension is None or pull.tension.formula is None:
            return ()
        extra = value(pull.tension.formula, none)
        multiple = value(pull.tension.formula, one) - extra
        found.append(
            Carried(
                pull.name, pull.tension.formula,
                Value(multiple, "1", Number(multiple)), Value(extra, "N", None),
            )
        )  # fmt: skip
    return tuple(found)


def _load_left_open(rig: Rig) -> Rig:
    """The same rig with the pull given by its letter and the load's weight asked; no loss."""
    effort = Given(rig.effort_symbol, None, "force", "N", rig.gravity.place)
    load = next(load for load in rig.loads if load.name == rig.aim)
    given = load.weight if load.weight is not None else load.mass
    assert given is not None
    left_open = replace(load, weight=replace(given, number=None, kind="force"), mass=None)
    parts = tuple(left_open if part is load else part for part in rig.parts)
    return replace(rig, parts=parts, effort=effort)
