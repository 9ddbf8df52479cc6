"""How a rig can move at all: the null space of its ropes' length rules, J q' = 0."""

from typing import Any

from msgspec import Struct

from gantline.rig import Rig

from .linear import Row, plan, undecided
from .system import HAND, Coordinate, System


class Motions(Struct, frozen=True):
    """A basis of the motions, one rate for each coordinate that runs.

    `way` is the motion the question is about: the aim rises (else the hand takes up rope); None where the freedoms
    leave it open.
    """

    basis: tuple[dict[Coordinate, Any], ...]
    way: dict[Coordinate, Any] | None

    def ratio(self, first: Coordinate, second: Coordinate) -> Any | None:
        """first's rate for each unit of second's, None where it is not fixed or second never moves."""
        found = None
        for motion in self.basis:
            over, under = motion.get(first, 0), motion.get(second, 0)
            if under == 0:
                if over != 0:
                    return None
                continue
            if found is not None and found != over / under:
                return None
            found = over / under
        return found


def motions(rig: Rig, system: System) -> Motions:
    """The motions of a rig, over rationals."""
    place = {coordinate: n for n, coordinate in enumerate(system.coordinates)}
    rows: dict[str, Row] = {}
    for element in system.elements:
        row = rows.setdefault(element.strand.rope, {})
        for coordinate, share in element.growth:
            n = place.get(coordinate)
            if n is not None:
                row[n] = row[n] + share if n in row else share
    lengths = [{c: v for c, v in row.items() if v} for row in rows.values()]
    steps, work, _ = plan(lengths, [system.ring.zero] * len(lengths), len(system.coordinates))
    basis = tuple(
        {system.coordinates[n]: system.ring.one * rate for n, rate in vector.items()}
        for vector in undecided(steps, work)
    )
    return Motions(basis, _way(rig, system, basis))


def reference(rig: Rig, system: System) -> Coordinate | None:
    """The coordinate that says which way is raising: the load asked about, else the first load."""
    name = rig.aim or (rig.loads[0].name if rig.loads else None)
    return Coordinate(system.body[name], "rise") if name else None


def _way(rig: Rig, system: System, basis: tuple[dict[Coordinate, Any], ...]) -> dict[Coordinate, Any] | None:
    if len(basis) != 1:
        return None
    motion = basis[0]
    aim = reference(rig, system)
    lead = next((motion[c] for c in (aim, HAND) if c is not None and c in motion), None)
    if lead is None:
        lead = next(iter(motion.values()))
    size = abs(lead)
    return {coordinate: rate / (size if lead > 0 else -size) for coordinate, rate in motion.items()}
