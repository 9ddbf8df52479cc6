"""Wrong ideas about what gathers speed: pulls, accelerations and supports as a learner would have them."""

from msgspec.structs import replace

from gantline.mechanics import Motion, Value, solve
from gantline.quantity import Formula, Product, Quotient, Sum, Symbol
from gantline.rig import Load, with_sheaves

from .facts import Body, Facts
from .wrong_terms import WrongRule, added, one_rope_up, over, weights, whole


def _whole_weight(facts: Facts) -> Formula | None:
    """The support of what speeds up carries all that hangs there."""
    if facts.answer.status != "accelerates" or len([s for s in facts.ideal.supports if s.force]) != 1:
        return None
    values = [facts.weights.get(part.name) for part in facts.rig.movers]
    return added([value.formula for value in values if value and value.formula])


def moving_loads(facts: Facts) -> tuple[Load, ...]:
    return facts.rig.loads if facts.answer.status == "accelerates" else ()


def _two_on_one_rope(facts: Facts) -> tuple[Load, Load] | None:
    """The two loads of a simple Atwood machine, both given by mass, the one asked about first."""
    loads = moving_loads(facts)
    if len(loads) != 2 or len(facts.rig.ropes) != 1 or facts.rig.moving or facts.rig.hand:
        return None
    if any(load.mass is None or load.mass.number is None for load in loads):
        return None
    return loads if loads[0].name == facts.load else (loads[1], loads[0])


def _gravity(facts: Facts) -> Formula:
    return Symbol(facts.rig.gravity.symbol)


def _mass(load: Load) -> Formula:
    assert load.mass is not None
    return Symbol(load.mass.symbol)


def _heavier(facts: Facts) -> Load | None:
    pair = _two_on_one_rope(facts)
    return max(pair, key=lambda load: load.mass.number) if pair else None  # type: ignore[union-attr,arg-type,return-value]


def _heavier_weight(facts: Facts) -> Formula | None:
    heavier = _heavier(facts)
    return Product((_mass(heavier), _gravity(facts))) if heavier else None


def _heavier_pull(facts: Facts) -> Value | None:
    heavier = _heavier(facts)
    return pull_at(facts, facts.body(heavier.name)) if heavier else None


def _drive(facts: Facts, pair: tuple[Load, Load]) -> Formula:
    """The difference of the two weights, upward for the one asked about."""
    return Product((Sum((_mass(pair[1]), Product((whole(-1), _mass(pair[0]))))), _gravity(facts)))


def _one_mass_only(facts: Facts) -> Formula | None:
    pair, heavier = _two_on_one_rope(facts), _heavier(facts)
    return Quotient(_drive(facts, pair), _mass(heavier)) if pair and heavier else None


def _whole_wheel(facts: Facts) -> Formula | None:
    """Every wheel counted with its whole mass, as if all of it ran as fast as the rope."""
    pair = _two_on_one_rope(facts)
    discs = [sheave.disc for sheave in facts.sheaves]
    if pair is None or not discs or any(disc is None or disc.number is None for disc in discs):
        return None
    wheels = [Symbol(disc.symbol) for disc in discs if disc]
    return Quotient(_drive(facts, pair), Sum((*(_mass(load) for load in pair), *wheels)))


def _alike_both_sides(facts: Facts) -> Formula | None:
    """Wheels that are heavy or stiff taken for light and free ones, which pull alike on both sides."""
    runs = facts.answer.status == "accelerates" or facts.held
    if not runs or not (facts.heavy_sheaves or facts.lossy):
        return None
    free = solve(with_sheaves(facts.rig, lambda s: replace(s, efficiency=None, disc=None, inertia=None)))
    found = _of(free.ideal.motions, facts.load)
    return found.formula if found else None


def _really(facts: Facts) -> Value | None:
    """How the load gathers speed over the wheels that there are."""
    return _of(facts.answer.regimes[-1].motions, facts.load)


def _of(motions: tuple[Motion, ...], part: str) -> Value | None:
    return next((motion.acceleration for motion in motions if motion.name == part), None)


def _hanging_weight(facts: Facts) -> Formula | None:
    """The rope at the load pulls with just what hangs there, though nobody hauls and things speed up."""
    body = facts.body(facts.load)
    if facts.answer.status != "accelerates" or facts.rig.hand or body is None or not one_rope_up(body):
        return None
    held = weights(facts, body)
    return over(held, len(body.up)) if held else None


def _load_pull(facts: Facts) -> Value | None:
    return pull_at(facts, facts.body(facts.load))


def pull_at(facts: Facts, body: Body | None) -> Value | None:
    """The pull of the first strand that holds a body."""
    return facts.ideal.tension(body.up[0].name) if body and body.up else None


def pull_at_rest(facts: Facts) -> Value | None:
    """The pull that would just hold the load, where another one is given and it speeds up."""
    if facts.answer.status != "accelerates" or facts.rig.effort is None or facts.answer.freedoms != 1:
        return None
    return solve(replace(facts.rig, effort=None)).ideal.effort


def _rest_still_holds(facts: Facts) -> Formula | None:
    found = pull_at_rest(facts)
    return found.formula if found else None


def pair_on_wheel(facts: Facts) -> tuple[str, tuple[str, str], str] | None:
    """A load against a light wheel that carries two more: (that load, the pair, the wheel)."""
    blocks, loads = facts.rig.moving, moving_loads(facts)
    if len(blocks) != 1 or len(loads) != 3 or len(facts.rig.ropes) != 2 or facts.rig.hand or blocks[0].carries:
        return None
    wheel = blocks[0].name
    rope = next((r for r in facts.rig.ropes if any(c.sheave and c.sheave.block == wheel for c in r.contacts)), None)
    if rope is None or len(rope.contacts) != 3:
        return None
    pair = (rope.contacts[0].part, rope.contacts[-1].part)
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
    return Quotient(Product((Sum((two, three, Product((whole(-1), one)))), _gravity(facts))), Sum((one, two, three)))


def _falling(facts: Facts) -> tuple[Formula, Formula, int] | None:
    """A mass that falls on the hauled end of a tackle: (its mass, the lifted mass, strands)."""
    loads = moving_loads(facts)
    if len(loads) != 2 or len(facts.rig.moving) != 1 or len(facts.rig.ropes) != 1 or facts.rig.hand:
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
    left = Sum((small, Product((whole(-1), Quotient(big, whole(n))))))
    return Quotient(Product((left, _gravity(facts))), Sum((small, big)))


def _hand_speed(facts: Facts) -> Formula | None:
    """The load taken to gather speed as fast as the hand."""
    ratio, motion = facts.answer.velocity_ratio, _of(facts.ideal.motions, facts.load)
    if facts.answer.status != "accelerates" or facts.rig.hand is None or ratio is None or not ratio.number:
        return None
    if ratio.number == 1 or motion is None or motion.formula is None:
        return None
    return Product((whole(ratio.number), motion.formula))


MOVING: tuple[WrongRule, ...] = (
    WrongRule("M39", "tension", _hanging_weight, "motion", 4, _load_pull),
    WrongRule("M40", "tension", _heavier_weight, "motion", 5, _heavier_pull),
    WrongRule("M41", "acceleration", _one_mass_only, "motion", 3),
    WrongRule("M42", "acceleration", _hand_speed, "motion", 3),
    WrongRule("M44", "effort", _rest_still_holds, "motion", 4),
    WrongRule("M45", "acceleration", _falls_alike, "motion", 5),
    WrongRule("M46", "acceleration", _lump, "motion", 5),
    WrongRule("M47", "acceleration", _alike_both_sides, "wheel", 4, _really),
    WrongRule("M48", "support", _whole_weight, "motion", 3),
    WrongRule("M54", "acceleration", _whole_wheel, "wheel", 3),
)
