"""The usual published rules for the loss in sheaves, side by side on one rig."""

from collections.abc import Callable
from fractions import Fraction

from msgspec import Struct

from gantline.mechanics import Answer, solve
from gantline.rig import Rig
from gantline.sources import Constant

from .fitting import rubbing

_OWN = "this rig's own sheaves"
_SPON = "Workshop Receipts, 5th series (Spon, 19th c.)"
_DRILLING = "drilling texts, after Bourgoyne et al., Applied Drilling Engineering (1986), table 1.2"
_HEMP = {  # strands -> what of the work was useful, as observed
    n: Constant(Fraction(share), "1", f"{_SPON}: observed, white rope, {n}:1")
    for n, share in ((1, "0.90"), (2, "0.81"), (3, "0.75"), (4, "0.68"), (5, "0.615"))
}
_WIRE = {  # lines -> block efficiency
    n: Constant(Fraction(share), "1", _DRILLING)
    for n, share in ((6, "0.874"), (8, "0.841"), (10, "0.810"), (12, "0.770"), (14, "0.740"))
}
_TENTH = Constant(Fraction(1, 10), "1", "US Navy, NAVEDTRA 14043; Nicholls's Seamanship p 42")
_DEDUCTED = Constant(Fraction(1, 10), "1", _SPON)
_KEEPS = (
    ("each sheave keeps 80 %", Constant(Fraction(8, 10), "1", "small pulley, climbing rope: measured, Pöysti 2020")),
    ("each sheave keeps 90 %", Constant(Fraction(9, 10), "1", "ropelab.com.au, pulley efficiency")),
    ("ratio 1.09 a sheave, plain bearings", Constant(Fraction(100, 109), "1", "Wire Rope Users Manual; API RP 9B")),
    ("ratio 1.04 a sheave, rolling bearings", Constant(Fraction(100, 104), "1", "Wire Rope Users Manual; API RP 9B")),
    ("each sheave keeps 98 %", Constant(Fraction(98, 100), "1", "wire rope, good sheaves: Verope technical notes")),
)


class Law(Struct, frozen=True):
    """The pull while raising by one rule (N), None where it does not fit this rig: then `unfit` says why. `against` is
    how far it lies from the pull with the rig's own sheaves, as a share."""

    name: str
    source: str
    pull: Fraction | None
    against: Fraction | None
    unfit: str = ""


def laws(rig: Rig, own: Answer, symbols: frozenset[str]) -> tuple[Law, ...]:
    """Every rule on this rig, the most hopeful first; those that do not fit stand last."""
    base = _pull(own)
    found = [
        Law("10 % of the load added a sheave", _TENTH.source, *_ruled(rig, own, base, _added)),
        Law("10 % of the gain taken off a sheave", _DEDUCTED.source, *_ruled(rig, own, base, _deducted)),
        Law("table of observed tackles, white rope", _SPON, *_ruled(rig, own, base, _tabled(_HEMP))),
        Law("table of block efficiencies, wire rope", _DRILLING, *_ruled(rig, own, base, _tabled(_WIRE))),
        *(_kept(rig, name, share, base, symbols) for name, share in _KEEPS),
        Law("as reckoned here", _OWN, base, Fraction(0) if base else None),
    ]
    return tuple(sorted(found, key=lambda law: (law.pull is None, law.pull or 0)))


def _pull(answer: Answer) -> Fraction | None:
    regime = answer.regime("raising") or answer.ideal
    return regime.effort.number if regime.effort else None


def _kept(rig: Rig, name: str, share: Constant, base: Fraction | None, symbols: frozenset[str]) -> Law:
    """A rule of one ratio a sheave: each strand followed by the engine."""
    pull = _pull(solve(rubbing(rig, share.value, symbols)))
    return Law(name, share.source, pull, _against(pull, base), "" if pull else "as it does not run with so much loss")


_Rule = Callable[[Fraction, int, Fraction], Fraction | str]  # ideal pull, sheaves, velocity ratio -> pull, or why not


def _ruled(rig: Rig, own: Answer, base: Fraction | None, rule: _Rule) -> tuple[Fraction | None, Fraction | None, str]:
    """A rule that speaks of a whole tackle: it counts the sheaves of one rope between two blocks."""
    ideal, ratio = own.ideal.effort, own.velocity_ratio
    if len(rig.ropes) != 1:
        return None, None, "as it has more than one rope"
    if ideal is None or ideal.number is None or ratio is None or ratio.number is None:
        return None, None, "as its pull without loss is not known"
    found = rule(ideal.number, len(rig.sheaves), ratio.number)
    return (None, None, found) if isinstance(found, str) else (found, _against(found, base), "")


def _against(pull: Fraction | None, base: Fraction | None) -> Fraction | None:
    return pull / base - 1 if pull is not None and base else None


def _added(ideal: Fraction, sheaves: int, ratio: Fraction) -> Fraction:
    return ideal * (1 + _TENTH.value * sheaves)


def _deducted(ideal: Fraction, sheaves: int, ratio: Fraction) -> Fraction | str:
    left = 1 - _DEDUCTED.value * sheaves
    return ideal / left if left > 0 else "as nothing is left of the gain from ten sheaves on"


def _tabled(table: dict[int, Constant]) -> _Rule:
    def rule(ideal: Fraction, sheaves: int, ratio: Fraction) -> Fraction | str:
        row = table.get(int(ratio)) if ratio.denominator == 1 else None
        return ideal / row.value if row else f"as the table stands for {_listed([*table])} strands"

    return rule


def _listed(numbers: list[int]) -> str:
    return f"{', '.join(map(str, numbers[:-1]))} and {numbers[-1]}"
