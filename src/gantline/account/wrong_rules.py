"""Named mistaken laws: what each gives for a rig, as a formula in the rig's own letters.

The ids are those of the catalogue of wrong ideas. A rule gives nothing where nobody can commit it.
"""

from collections.abc import Callable
from fractions import Fraction

from gantline.quantity import Formula, Product, Sum, Symbol

from .facts import Body, Facts
from .wrong_lossy import LOSSY
from .wrong_moving import MOVING
from .wrong_stuck import STUCK
from .wrong_terms import Law, WrongRule, added, over, weights, whole


def _aim(facts: Facts) -> Body | None:
    """The body asked about, where a pull is asked and a rig is at rest."""
    return facts.aim if facts.answer.status == "holds" and facts.rig.hand and facts.rig.effort is None else None


def _held(facts: Facts) -> Formula | None:
    """All that the cut around the load holds: W + w."""
    body = _aim(facts)
    return weights(facts, body) if body else None


def _load(facts: Facts) -> Formula | None:
    """The loads on its hook, without the block."""
    body = _aim(facts)
    loads = facts.loads_of(body) if body else ()
    return added([value.formula for name in loads if (value := facts.weight(name)) and value.formula])


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
        return over(held, number) if number else None

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


def _stages(facts: Facts) -> list[int]:
    """How many strands haul at every moving body."""
    return [len(body.up) if body == facts.aim else len(body.strands) - 1 for body in facts.bodies]


def _tackles(facts: Facts) -> bool:
    """Whether two stages at least gain something, each on the rope of the one before."""
    return _chain(facts) and sum(stage > 1 for stage in _stages(facts)) > 1


def _block_ignored(facts: Facts) -> Formula | None:
    load, ratio = _load(facts), _ratio(facts)
    return over(load, ratio) if load and ratio and _blocks(facts) else None


def _block_whole(facts: Facts) -> Formula | None:
    load, ratio, blocks = _load(facts), _ratio(facts), _blocks(facts)
    if load is None or ratio is None or not blocks:
        return None
    share = over(load, ratio)
    return Sum((share, *(weight for _, weight in blocks))) if share else None


def _block_less(facts: Facts) -> Formula | None:
    load, ratio, blocks = _load(facts), _ratio(facts), _blocks(facts)
    if load is None or ratio is None or not blocks:
        return None
    return over(Sum((load, *(Product((whole(-1), weight)) for _, weight in blocks))), ratio)


def _sinking_as_load(facts: Facts) -> Formula | None:
    """A block that sinks is carried as if it rose as fast."""
    load, ratio = _load(facts), _ratio(facts)
    if load is None or ratio is None or not facts.answer.helps:
        return None
    terms = [load]
    for name, weight in _blocks(facts):
        rate = abs(facts.rise(name) or Fraction(0))
        if rate:
            terms.append(weight if rate == 1 else Product((whole(rate), weight)))
    return over(Sum(tuple(terms)), ratio) if len(terms) > 1 else None


def _lumped(facts: Facts) -> Formula | None:
    """All block weights hung on the load, though some rise slower or faster."""
    load, ratio, blocks = _load(facts), _ratio(facts), _blocks(facts)
    others = [name for name, _ in blocks if facts.aim and name not in facts.aim.parts]
    if load is None or ratio is None or not others or facts.answer.helps:
        return None
    return over(Sum((load, *(weight for _, weight in blocks))), ratio)


def _rider(facts: Facts) -> Formula | None:
    return over(_held(facts), max(_strands(facts) - 1, 1)) if facts.rides and (_held(facts)) else None  # type: ignore[arg-type]


def _all_fixed(facts: Facts) -> Formula | None:
    """Every fixed wheel halves the pull."""
    ratio, fixed = _ratio(facts), len(facts.sheaves) - len(facts.moving_sheaves)
    held = _held(facts)
    return over(held, ratio * (1 << fixed)) if held and ratio and fixed else None


def _way(facts: Facts, factor: Callable[[Facts], Fraction | int | None]) -> Formula | None:
    number = factor(facts)
    if not facts.rig.asked or not _aim(facts) or not number:
        return None
    letter = Symbol(facts.rig.asked.distance.symbol)
    return letter if number == 1 else Product((whole(number), letter))


def _work_short(facts: Facts) -> Formula | None:
    effort = facts.ideal.effort
    if not facts.rig.asked or not _aim(facts) or effort is None or effort.formula is None:
        return None
    return Product((effort.formula, Symbol(facts.rig.asked.distance.symbol)))


def _work_long(facts: Facts) -> Formula | None:
    held, ratio = _held(facts), _ratio(facts)
    if not facts.rig.asked or held is None or not ratio:
        return None
    return Product((held, whole(ratio), Symbol(facts.rig.asked.distance.symbol)))


def _support(facts: Facts) -> Formula | None:
    return _held(facts) if any(s.force for s in facts.ideal.supports) else None


_AT_REST: tuple[WrongRule, ...] = (
    WrongRule("M01", "effort", _shared(lambda f: len(f.sheaves)), prior=5),
    WrongRule("M02", "effort", _shared(lambda f: _strands(f) + 1, _outside), prior=4),
    WrongRule("M03", "effort", _shared(lambda f: len(f.moving_sheaves))),
    WrongRule("M04", "effort", _shared(lambda f: 2 ** len(f.sheaves)), "share"),
    WrongRule("M05", "effort", _shared(lambda f: 2 ** len(f.moving_sheaves), _moves), prior=3),
    WrongRule("M06", "effort", _shared(lambda f: sum(_stages(f)), _tackles), "chain", 4),
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
    WrongRule("M51", "effort", _shared(lambda f: _strands(f) - 1, lambda f: _one_rope(f) and f.hand_inside), prior=4),
    WrongRule("M52", "effort", _sinking_as_load, "share", 4),
    WrongRule("M53", "effort", _shared(_strands, lambda f: _sharing(f) or _chain(f)), prior=3),
    WrongRule("M57", "effort", _lumped, "chain", 4),
)

RULES: tuple[WrongRule, ...] = (*_AT_REST, *LOSSY, *MOVING, *STUCK)
