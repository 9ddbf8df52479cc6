"""Named mistaken laws: what each gives for a rig, as a formula in the rig's own letters.

The ids are those of the catalogue of wrong ideas. A rule gives nothing where nobody can commit it.
"""

from collections.abc import Callable
from fractions import Fraction
from typing import Literal

from msgspec import Struct

from gantline.quantity import Formula, Number, Product, Quotient, Sum, Symbol
from gantline.rig import Load

from .facts import Body, Facts

What = Literal["effort", "load", "haul", "work", "support", "tension", "acceleration"]
Law = Callable[[Facts], "Formula | None"]


class WrongRule(Struct, frozen=True):
    """`what` is the quantity it mistakes, `idea` the thought it goes against, `prior` how often it is met (1 to 5)."""

    id: str
    what: What
    law: Law
    idea: str = "strands"
    prior: int = 2


def _n(number: int | Fraction) -> Number:
    return Number(Fraction(number))


def _over(top: Formula, number: int | Fraction) -> Formula | None:
    if number == 0:
        return None
    return top if number == 1 else Quotient(top, _n(number))


def _sum(terms: list[Formula]) -> Formula | None:
    return None if not terms else terms[0] if len(terms) == 1 else Sum(tuple(terms))


def _aim(facts: Facts) -> Body | None:
    """The body asked about, where a pull is asked and a rig is at rest."""
    return facts.aim if facts.answer.status == "holds" and facts.rig.hand and facts.rig.effort is None else None


def _held(facts: Facts) -> Formula | None:
    """All that the cut around the load holds: W + w."""
    body = _aim(facts)
    return _sum([v.formula for _, v in facts.body_weights(body) if v.formula]) if body else None


def _load(facts: Facts) -> Formula | None:
    value = facts.weight(facts.load) if _aim(facts) else None
    return value.formula if value else None


def _ratio(facts: Facts) -> Fraction | None:
    value = facts.answer.velocity_ratio
    return value.number if value and value.number else None


def _blocks(facts: Facts) -> list[tuple[str, Formula]]:
    """Every moving block that weighs."""
    found = [(block.name, facts.weights.get(block.name)) for block in facts.rig.moving]
    return [(name, value.formula) for name, value in found if value and value.formula and value.number != 0]


def _shared(by: Callable[[Facts], int | Fraction | None], when: Callable[[Facts], bool] = lambda _: True) -> Law:
    """The law (W + w) / so many."""

    def law(facts: Facts) -> Formula | None:
        held = _held(facts)
        if held is None or not when(facts):
            return None
        number = by(facts)
        return _over(held, number) if number else None

    return law


def _strands(facts: Facts) -> int:
    return len(facts.aim.up) if facts.aim else 0


def _one_rope(facts: Facts) -> bool:
    return len(facts.rig.ropes) == 1


def _outside(facts: Facts) -> bool:
    return _one_rope(facts) and not facts.hand_inside and not facts.rides


def _sharing(facts: Facts) -> bool:
    """Whether several ropes hold the load at once."""
    return facts.aim is not None and len(facts.aim.ropes) > 1


def _moves(facts: Facts) -> bool:
    return bool(facts.moving_sheaves)


def _chain(facts: Facts) -> bool:
    """Whether ropes follow one another, the load on the first alone."""
    return len(facts.rig.ropes) > 1 and not _sharing(facts)


def _stage_sum(facts: Facts) -> int:
    """The strands at every moving body, added."""
    return sum(len(body.up) if body == facts.aim else len(body.strands) - 1 for body in facts.bodies)


def _block_ignored(facts: Facts) -> Formula | None:
    load, ratio = _load(facts), _ratio(facts)
    return _over(load, ratio) if load and ratio and _blocks(facts) else None


def _block_whole(facts: Facts) -> Formula | None:
    load, ratio, blocks = _load(facts), _ratio(facts), _blocks(facts)
    if load is None or ratio is None or not blocks:
        return None
    share = _over(load, ratio)
    return Sum((share, *(weight for _, weight in blocks))) if share else None


def _block_less(facts: Facts) -> Formula | None:
    load, ratio, blocks = _load(facts), _ratio(facts), _blocks(facts)
    if load is None or ratio is None or not blocks:
        return None
    return _over(Sum((load, *(Product((_n(-1), weight)) for _, weight in blocks))), ratio)


def _sinking_as_load(facts: Facts) -> Formula | None:
    """A block that sinks is carried as if it rose as fast."""
    load, ratio = _load(facts), _ratio(facts)
    if load is None or ratio is None or not facts.answer.helps:
        return None
    terms = [load]
    for name, weight in _blocks(facts):
        rate = abs(facts.rise(name) or Fraction(0))
        if rate:
            terms.append(weight if rate == 1 else Product((_n(rate), weight)))
    return _over(Sum(tuple(terms)), ratio) if len(terms) > 1 else None


def _lumped(facts: Facts) -> Formula | None:
    """All block weights hung on the load, though some rise slower or faster."""
    load, ratio, blocks = _load(facts), _ratio(facts), _blocks(facts)
    others = [name for name, _ in blocks if facts.aim and name not in facts.aim.parts]
    if load is None or ratio is None or not others or facts.answer.helps:
        return None
    return _over(Sum((load, *(weight for _, weight in blocks))), ratio)


def _rider(facts: Facts) -> Formula | None:
    return _over(_held(facts), max(_strands(facts) - 1, 1)) if facts.rides and (_held(facts)) else None  # type: ignore[arg-type]


def _all_fixed(facts: Facts) -> Formula | None:
    """Every fixed wheel halves the pull."""
    ratio, fixed = _ratio(facts), len(facts.sheaves) - len(facts.moving_sheaves)
    held = _held(facts)
    return _over(held, ratio * (1 << fixed)) if held and ratio and fixed else None


def _way(facts: Facts, factor: Callable[[Facts], Fraction | int | None]) -> Formula | None:
    number = factor(facts)
    if not facts.rig.asked or not _aim(facts) or not number:
        return None
    letter = Symbol(facts.rig.asked.distance.symbol)
    return letter if number == 1 else Product((_n(number), letter))


def _work_short(facts: Facts) -> Formula | None:
    effort = facts.ideal.effort
    if not facts.rig.asked or not _aim(facts) or effort is None or effort.formula is None:
        return None
    return Product((effort.formula, Symbol(facts.rig.asked.distance.symbol)))


def _work_long(facts: Facts) -> Formula | None:
    held, ratio = _held(facts), _ratio(facts)
    if not facts.rig.asked or held is None or not ratio:
        return None
    return Product((held, _n(ratio), Symbol(facts.rig.asked.distance.symbol)))


def _support(facts: Facts) -> Formula | None:
    return _held(facts) if any(s.force for s in facts.ideal.supports) else None


def _whole_weight(facts: Facts) -> Formula | None:
    """The support of what speeds up carries all that hangs there."""
    if facts.answer.status != "accelerates" or len([s for s in facts.ideal.supports if s.force]) != 1:
        return None
    values = [facts.weights.get(part.name) for part in facts.rig.movers]
    return _sum([value.formula for value in values if value and value.formula])


def moving_loads(facts: Facts) -> tuple[Load, ...]:
    return facts.rig.loads if facts.answer.status == "accelerates" else ()


def _two_on_one_rope(facts: Facts) -> tuple[Formula, Formula] | None:
    """The two masses of a simple Atwood machine, the heavier first."""
    loads = moving_loads(facts)
    if len(loads) != 2 or not _one_rope(facts) or facts.rig.moving or facts.rig.hand:
        return None
    masses = [(facts.weights[load.name].number, load.mass) for load in loads]
    if any(mass is None or number is None for number, mass in masses):
        return None
    ordered = sorted(masses, key=lambda pair: pair[0] or 0, reverse=True)
    return Symbol(ordered[0][1].symbol), Symbol(ordered[1][1].symbol)  # type: ignore[union-attr]


def _gravity(facts: Facts) -> Formula:
    return Symbol(facts.rig.gravity.symbol)


def _heavier_weight(facts: Facts) -> Formula | None:
    pair = _two_on_one_rope(facts)
    return Product((pair[0], _gravity(facts))) if pair else None


def _one_mass_only(facts: Facts) -> Formula | None:
    pair = _two_on_one_rope(facts)
    return Quotient(Product((Sum((pair[0], Product((_n(-1), pair[1])))), _gravity(facts))), pair[0]) if pair else None


def pair_on_wheel(facts: Facts) -> tuple[str, tuple[str, str], str] | None:
    """A load against a light wheel that carries two more: (that load, the pair, the wheel)."""
    blocks, loads = facts.rig.moving, moving_loads(facts)
    if len(blocks) != 1 or len(loads) != 3 or len(facts.rig.ropes) != 2 or facts.rig.hand or blocks[0].carries:
        return None
    wheel = blocks[0].name
    over = next((r for r in facts.rig.ropes if any(c.sheave and c.sheave.block == wheel for c in r.contacts)), None)
    if over is None or len(over.contacts) != 3:
        return None
    pair = (over.contacts[0].part, over.contacts[-1].part)
    single = [load.name for load in loads if load.name not in pair]
    return (single[0], pair, blocks[0].name) if len(single) == 1 else None


def _lump(facts: Facts) -> Formula | None:
    """The pair on a wheel taken for one body as heavy as the two."""
    found = pair_on_wheel(facts)
    if found is None:
        return None
    masses = [facts.rig.part(name).mass for name in (found[0], *found[1])]
    if any(mass is None for mass in masses):
        return None
    one, two, three = (Symbol(mass.symbol) for mass in masses)  # type: ignore[union-attr]
    return Quotient(Product((Sum((two, three, Product((_n(-1), one)))), _gravity(facts))), Sum((one, two, three)))


def _falling(facts: Facts) -> tuple[Formula, Formula, int] | None:
    """A mass that falls on the hauled end of a tackle: (its mass, the lifted mass, strands)."""
    loads = moving_loads(facts)
    if len(loads) != 2 or len(facts.rig.moving) != 1 or not _one_rope(facts) or facts.rig.hand:
        return None
    lifted = next((load for load in loads if facts.rig.bearer(load.name) != load.name), None)
    other = next((load for load in loads if load is not lifted), None)
    if lifted is None or other is None or lifted.mass is None or other.mass is None:
        return None
    body = facts.body(lifted.name)
    return Symbol(other.mass.symbol), Symbol(lifted.mass.symbol), len(body.up) if body else 0


def _falls_alike(facts: Facts) -> Formula | None:
    found = _falling(facts)
    if found is None or found[2] < 2:
        return None
    small, big, n = found
    left = Sum((small, Product((_n(-1), Quotient(big, _n(n))))))
    return Quotient(Product((left, _gravity(facts))), Sum((small, big)))


def _hand_speed(facts: Facts) -> Formula | None:
    """The load taken to gather speed as fast as the hand."""
    ratio, motion = _ratio(facts), next((m for m in facts.ideal.motions if m.name == facts.load), None)
    if facts.answer.status != "accelerates" or facts.rig.hand is None or not ratio or ratio == 1:
        return None
    if motion is None or motion.acceleration is None or motion.acceleration.formula is None:
        return None
    return Product((_n(ratio), motion.acceleration.formula))


RULES: tuple[WrongRule, ...] = (
    WrongRule("M01", "effort", _shared(lambda f: len(f.sheaves)), prior=5),
    WrongRule("M02", "effort", _shared(lambda f: _strands(f) + 1, _outside), prior=4),
    WrongRule("M03", "effort", _shared(lambda f: len(f.moving_sheaves))),
    WrongRule("M04", "effort", _shared(lambda f: 2 ** len(f.sheaves)), "share"),
    WrongRule("M05", "effort", _shared(lambda f: 2 ** len(f.moving_sheaves), _moves), prior=3),
    WrongRule("M06", "effort", _shared(_stage_sum, _chain), "chain", 4),
    WrongRule("M07", "effort", _shared(lambda f: 2 ** len(f.aim.ropes) if f.aim else 0, _sharing), "share", 5),
    WrongRule("M08", "effort", _all_fixed, prior=3),
    WrongRule("M09", "effort", _shared(lambda f: 2 * _strands(f), lambda f: _one_rope(f) and bool(f.sheaves))),
    WrongRule("M18", "support", _support),
    WrongRule("M19", "effort", _rider, prior=5),
    WrongRule("M20", "haul", lambda f: _way(f, lambda _: 1), "price", 4),
    WrongRule("M21", "haul", lambda f: _way(f, lambda g: 1 / r if (r := _ratio(g)) else None), "price"),
    WrongRule("M22", "haul", lambda f: _way(f, lambda g: len(g.sheaves)), "price"),
    WrongRule("M23", "work", _work_short, "price", 4),
    WrongRule("M24", "work", _work_long, "price"),
    WrongRule("M30", "effort", _block_ignored, "weight", 4),
    WrongRule("M31", "effort", _block_whole, "weight", 3),
    WrongRule("M32", "effort", _block_less, "weight", 1),
    WrongRule("M40", "tension", _heavier_weight, "motion", 5),
    WrongRule("M41", "acceleration", _one_mass_only, "motion", 3),
    WrongRule("M42", "acceleration", _hand_speed, "motion", 3),
    WrongRule("M45", "acceleration", _falls_alike, "motion", 5),
    WrongRule("M46", "acceleration", _lump, "motion", 5),
    WrongRule("M48", "support", _whole_weight, "motion", 3),
    WrongRule("M51", "effort", _shared(lambda f: _strands(f) - 1, lambda f: _one_rope(f) and f.hand_inside), prior=4),
    WrongRule("M52", "effort", _sinking_as_load, "share", 4),
    WrongRule("M53", "effort", _shared(_strands, lambda f: _sharing(f) or _chain(f)), prior=3),
    WrongRule("M57", "effort", _lumped, "chain", 4),
)
