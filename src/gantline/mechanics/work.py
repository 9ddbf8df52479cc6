"""Advantage and work: what the pull is worth, and where it goes."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING, Any

from .answer import Value, Way, Work
from .forces import Solved
from .laws.sheave import heaviness
from .numbers import exact
from .ring import Ratio

if TYPE_CHECKING:
    from .regime import Reader

Both = tuple[Any, Ratio | None]  # a number, and the function it is of the symbols


def load_over_effort(reader: Reader, solved: Solved, effort: tuple[Value, Any, Ratio | None] | None) -> Both | None:
    """Mechanical advantage as measured: the load asked about over the pull, None where there is not one of each."""
    aim = reader.rig.aim
    if (
        effort is None
        or aim is None
        or effort[1] == 0
        or not solved.numbers.decides({solved.numbers.equations.load: 1})
    ):
        return None
    number, ratio = reader.weight(solved, aim)
    return number / effort[1], ratio / effort[2] if ratio is not None and effort[2] is not None and effort[2] else None


def scaled(reader: Reader, value: Both, factor: Fraction) -> Value:
    """A pure number times a plain factor."""
    ratio = value[1] * reader.symbolic.ring.constant(factor) if value[1] is not None and reader.symbolic else None
    return reader.value(value[0] * reader.system.ring.constant(factor), ratio, "1")


def work(reader: Reader, way: Way, solved: Solved, effort: tuple[Value, Any, Ratio | None] | None) -> Work | None:
    """Work for the motion asked; in the regime of the other way, for the same way run backwards.

    None where no motion is asked, or where a part with weight is free of it.
    """
    asked = reader.rig.asked
    if asked is None or not solved.numbers.unique:
        return None
    backwards = way in ("raising", "lowering") and (way == "raising") != (asked.sense > 0)
    sense = -asked.sense if backwards else asked.sense
    distance: Both = (reader.numbers.of[asked.distance.symbol] * sense, None)
    if reader.symbolic is not None and solved.symbols is not None:
        distance = (distance[0], reader.symbolic.ring.given(asked.distance) * reader.symbolic.ring.constant(sense))
    shares = _shares(reader, solved, distance)
    if shares is None:
        return None
    out = _total(reader, [share for _, share in shares])
    put_in = _put_in(reader, effort, distance)
    kinetic = _kinetic(reader, solved, distance) if solved.moving else _zero(reader)
    lost = _total(reader, [put_in, _minus(out), _minus(kinetic)])
    return Work(
        reader.value(*put_in, "J") if effort is not None else None,
        reader.value(*out, "J"),
        reader.value(*lost, "J"),
        tuple((name, reader.value(*share, "J")) for name, share in shares),
        reader.value(*kinetic, "J") if solved.moving else None,
    )


def _put_in(reader: Reader, effort: tuple[Value, Any, Ratio | None] | None, distance: Both) -> Both:
    rate = reader.per_aim("hand") if effort is not None else None
    if effort is None or rate is None:
        return _zero(reader)
    return _times(reader, effort[1:], rate, distance)


def _shares(reader: Reader, solved: Solved, distance: Both) -> list[tuple[str, Both]] | None:
    """What each weight gains."""
    found: list[tuple[str, Both]] = []
    for name in reader.movers:
        weight = reader.weight(solved, name)
        if weight[0] == 0:
            continue
        rate = reader.per_aim(name)
        if rate is None:
            return None
        found.append((name, _times(reader, weight, rate, distance)))
    return found


def _kinetic(reader: Reader, solved: Solved, distance: Both) -> Both:
    """Energy of motion gained: mass times acceleration times way, for bodies and for the rims of heavy sheaves."""
    columns = solved.numbers.equations.acceleration
    gained: list[Both] = []
    for coordinate, column in columns.items():
        rate = reader.per_aim(coordinate.part)
        if rate is None or coordinate not in reader.system.masses:
            continue
        number = reader.system.masses[coordinate] * solved.numbers.values[column]
        ratio = None
        if reader.symbolic is not None and solved.symbols is not None:
            ratio = reader.symbolic.masses[coordinate] * solved.symbols.values[column]
        gained.append(_times(reader, (number, ratio), rate, distance))
    return _total(reader, gained + _spinning(reader, solved, distance))


def _spinning(reader: Reader, solved: Solved, distance: Both) -> list[Both]:
    found: list[Both] = []
    for tie, flow in zip(reader.system.ties, reader.flowing, strict=True):
        heavy = heaviness(tie.sheave, reader.system.ring)
        rates = {c: reader.per_aim(c.part) for c in flow if c in reader.system.coordinates}
        if heavy is None or None in rates.values():
            continue
        run = sum((flow[c] * rate for c, rate in rates.items()), reader.system.ring.zero)
        speeding = solved.speed(flow)
        ratio = None
        if reader.symbolic is not None and solved.symbols is not None:
            ring, columns = reader.symbolic.ring, solved.symbols.equations.acceleration
            total = ring.zero
            for c in rates:
                total = total + ring.constant(exact(flow[c])) * solved.symbols.values[columns[c]]
            ratio = heaviness(tie.sheave, ring) * total
        found.append(_times(reader, (heavy * speeding, ratio), run, distance))
    return found


def _zero(reader: Reader) -> Both:
    return reader.system.ring.zero, reader.symbolic.ring.zero if reader.symbolic else None


def _times(reader: Reader, force: Both, rate: Any, distance: Both) -> Both:
    number = force[0] * rate * distance[0]
    if force[1] is None or distance[1] is None or reader.symbolic is None:
        return number, None
    return number, force[1] * reader.symbolic.ring.constant(exact(rate)) * distance[1]


def _minus(both: Both) -> Both:
    return -both[0], -both[1] if both[1] is not None else None


def _total(reader: Reader, parts: list[Both]) -> Both:
    number, ratio = _zero(reader)
    for share, function in parts:
        number = number + share
        ratio = ratio + function if ratio is not None and function is not None else None
    return number, ratio
