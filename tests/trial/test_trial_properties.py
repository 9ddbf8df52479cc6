"""What must hold on every rig that is tried, whatever its numbers."""

from itertools import pairwise

import pytest
from tried_rigs import named, rig, standing, tried

from gantline.mechanics import Moment, Setup, Trial, solve, trial

RIGS = {
    "four": named("four", 90), "four-string": named("four", 80, "string"), "six": named("six", 80),
    "six-mid": named("six-mid", 90), "three-off": named("three-off", 90), "burton": named("burton", 90),
    "drag": named("four", 95, "cord", ", drag 0.05 N"), "on-load": named("on-load", 90), "two": named("two", 85),
    "runner": named("runner", 90), "gun": named("gun", 80),
}  # fmt: skip
EACH = pytest.mark.parametrize("text", RIGS.values(), ids=RIGS)
READ = {"raising": tuple(n / 4 for n in range(481)), "lowering": tuple(n / 2 for n in range(20, 481))}  # mm
WAYS = pytest.mark.parametrize("way", READ)


def path(text: str, way: str = "raising") -> Trial:
    """A long way in small steps, up from the start or down from 240 mm."""
    found = tried(text, READ[way], way)
    assert found.ending is None
    return found


# -- energy ---------------------------------------------------------------------------------------------------------


def energy(setup: Setup, moment: Moment) -> float:
    """What rope and heights hold (J)."""
    stretch = sum(moment.tensions[span.name] ** 2 / span.stiffness / 2 for span in setup.spans)
    blocks = sum(body.weight * moment.rises[body.name] for body in setup.bodies)
    return stretch + blocks + sum(body.load * moment.load[body.loads[0]] for body in setup.bodies if body.loads)


def lost(setup: Setup, first: Moment, second: Moment) -> float:
    """What the sheaves take between two moments, by the trapezoid rule (J)."""
    total = 0.0
    for wheel in setup.wheels:
        before, after = setup.spans[wheel.before].name, setup.spans[wheel.after].name
        drive = [moment.tensions[after] - moment.tensions[before] for moment in (first, second)]
        total += sum(drive) / 2 * (second.slips[wheel.name] - first.slips[wheel.name])
    return total


@EACH
@WAYS
def test_the_work_of_the_hand_is_held_or_lost(text: str, way: str) -> None:
    events = tuple(1000 * event.hand for event in path(text, way).events)
    found = tried(text, (*READ[way], *events), way)  # between two readings nothing turns round
    given = taken = 0.0
    for first, second in pairwise(found.history):
        given += (first.effort + second.effort) / 2 * (second.hand - first.hand)
        step = lost(found.setup, first, second)
        assert step > -1e-10
        taken += step
    gained = energy(found.setup, found.history[-1]) - energy(found.setup, found.history[0])
    assert given == pytest.approx(gained + taken, abs=3e-5)  # of about 0.4 J; the trapezoid's error


# -- limits ---------------------------------------------------------------------------------------------------------


@EACH
@WAYS
def test_no_pull_leaves_its_cone_and_no_load_its_floor(text: str, way: str) -> None:
    found = path(text, way)
    setup = found.setup
    for moment in found.history:
        assert min(moment.tensions.values()) > -1e-7
        for wheel in setup.wheels:
            before, after = (moment.tensions[setup.spans[n].name] for n in (wheel.before, wheel.after))
            assert after <= wheel.ratio * before + wheel.drag + 1e-7
            assert before <= wheel.ratio * after + wheel.drag + 1e-7
        for body in setup.bodies:
            if body.loads:
                floor, gap = moment.floor[body.name], moment.load[body.loads[0]]
                assert floor > -1e-7
                assert gap > -1e-9
                assert floor * gap < 1e-9


@EACH
def test_forces_and_moments_balance_at_every_moment(text: str) -> None:
    """Written out here once more, from the touches alone."""
    from math import cos, sin

    found = path(text)
    setup = found.setup
    for moment in found.history[::40]:
        for n, body in enumerate(setup.bodies):
            tilt = moment.tilt.get(body.name, 0.0)
            pulls = [(t, t.pull * moment.tensions[s.name]) for s in setup.spans for t in s.touches if t.body == n]
            hanging = body.load - (moment.floor[body.name] if body.load else 0.0)
            assert sum(pull for _, pull in pulls) == pytest.approx(body.weight + hanging, abs=1e-7)
            if body.tilts:
                turning = sum(pull * (t.x * cos(tilt) + t.side * t.radius - t.z * sin(tilt)) for t, pull in pulls)
                assert turning == pytest.approx(hanging * body.hook * sin(tilt), abs=1e-9)


# -- no loss, no lean -----------------------------------------------------------------------------------------------


@pytest.mark.parametrize("e", [100, 99.9999])
def test_without_loss_nothing_leans_and_all_strands_shorten_alike(e: float) -> None:
    found = tried(named("six", e), (20, 50, 100))
    assert found.ending is None
    for first, second in pairwise(found.history):
        assert abs(second.tilt["lower"]) < 1e-4
        ideal = (second.hand - first.hand) / 6
        for name in list(second.shortened)[:-1]:
            assert second.shortened[name] - first.shortened[name] == pytest.approx(ideal, abs=1e-7)


# -- symmetries -----------------------------------------------------------------------------------------------------


def mirrored(text: str, count: int) -> str:
    """Left and right exchanged: the sheaves numbered from the other end."""
    marks = {f".{n}": f".{count + 1 - n}" for n in range(1, count + 1)}
    head, _, tail = text.partition("rope fall: ")
    contacts, _, rest = tail.partition("\n")
    words = [word if "." not in word else word[:-2] + marks[word[-2:]] for word in contacts.replace(",", " ,").split()]
    return f"{head}rope fall: {' '.join(words).replace(' ,', ',')}\n{rest}"


@pytest.mark.parametrize(("machine", "count"), [("four", 2), ("six", 3), ("six-mid", 3)])
def test_a_mirrored_machine_leans_the_other_way(machine: str, count: int) -> None:
    text = named(machine, 90)
    one, other = tried(text, (2, 20, 60)), tried(mirrored(text, count), (2, 20, 60))
    for first, second in zip(one.history, other.history, strict=True):
        assert second.tilt["lower"] == pytest.approx(-first.tilt["lower"], abs=1e-12)
        assert second.rises["lower"] == pytest.approx(first.rises["lower"], abs=1e-12)
        assert second.effort == pytest.approx(first.effort, abs=1e-9)
    assert [event.what for event in one.events] == [event.what for event in other.events]


def scaled(text: str, forces: float = 1, lengths: float = 1) -> str:
    """The same rig with all its forces, or all its lengths, times a number."""
    words = text.split(" ")
    factors = {"N": forces, "kN": forces, "mm": lengths, "m": lengths}
    for n, word in enumerate(words[1:], 1):
        unit = word.strip(",\n").partition("\n")[0].strip(",")
        if unit in factors and words[n - 1].replace(".", "").lstrip("-").isdigit():
            words[n - 1] = repr(float(words[n - 1]) * factors[unit])
    return " ".join(words)


@pytest.mark.parametrize("machine", ["four", "six-mid", "three-off", "burton"])
def test_forces_all_times_three_change_no_motion(machine: str) -> None:
    text = named(machine, 85, "cord", ", drag 0.02 N")
    one, other = tried(text, (3, 30)), tried(scaled(text, forces=3), (3, 30))
    for first, second in zip(one.history, other.history, strict=True):
        assert second.effort == pytest.approx(3 * first.effort, rel=1e-9)
        assert dict(second.axles) == pytest.approx(dict(first.axles), abs=1e-12)
        assert second.tilt == pytest.approx(first.tilt, abs=1e-10)


@pytest.mark.parametrize("machine", ["four", "six-mid", "three-off", "burton"])
def test_lengths_all_times_two_double_every_way(machine: str) -> None:
    text = named(machine, 85)
    one, other = tried(text, (3, 30)), tried(scaled(text, lengths=2), (6, 60))
    for first, second in zip(one.history, other.history, strict=True):
        assert second.effort == pytest.approx(first.effort, rel=1e-9)
        assert {k: v / 2 for k, v in second.axles.items()} == pytest.approx(first.axles, abs=1e-11)
        assert second.tilt == pytest.approx(first.tilt, abs=1e-10)


# -- the steady state -----------------------------------------------------------------------------------------------


@EACH
@WAYS
def test_once_steady_only_the_height_changes(text: str, way: str) -> None:
    """The rise is the closed form's line, the pulls and the tilt are the closed form's."""
    found = path(text, way)
    state = found.raising if way == "raising" else found.lowering
    sense = 1 if way == "raising" else -1
    later = [m for m in found.history if sense * (m.hand - found.all_turning) > 0]
    later = [m for m in later if all(m.floor[b.name] < 1e-9 for b in found.setup.bodies if b.loads)]
    assert len(later) > 20
    for moment in later:
        assert moment.effort == pytest.approx(state.effort, rel=1e-9)
        assert moment.tensions == pytest.approx(state.tensions, rel=1e-8)
        assert moment.tilt == pytest.approx(state.tilt, abs=1e-9)
        for name, rise in moment.rises.items():
            line = state.rise_at_zero[name] + state.rise_per_hand[name] * moment.hand
            assert rise == pytest.approx(line, abs=1e-9)


@EACH
def test_the_steady_pulls_are_those_of_the_exact_answer(text: str) -> None:
    """By the exact solver, which knows no drag, no stretch and no tilt."""
    state = standing(text.replace(", drag 0.05 N", ""))
    answer = solve(rig(text))
    for way, found in (("raising", state.raising), ("lowering", state.lowering)):
        regime = answer.regime(way)
        assert found.effort == pytest.approx(float(regime.effort.number), rel=1e-12)
        for name, tension in found.tensions.items():
            assert tension == pytest.approx(float(regime.tension(name).number), rel=1e-12)


@pytest.mark.parametrize(
    ("machine", "strands", "sheaves"), [("four", 4, 4), ("six", 6, 6), ("six-mid", 6, 6), ("three", 3, 3)]
)
def test_pull_up_over_pull_down_needs_no_weight(machine: str, strands: int, sheaves: int) -> None:
    """K to the power 2 S - N + 1."""
    state = standing(named(machine, 88))
    ratio = (1 / 0.88) ** (2 * sheaves - strands + 1)
    assert state.raising.effort / state.lowering.effort == pytest.approx(ratio, rel=1e-12)


@pytest.mark.parametrize(("machine", "strands"), [("four", 4), ("six", 6), ("six-mid", 6)])
def test_the_rise_is_what_stretch_leaves_over_the_strands(machine: str, strands: int) -> None:
    found = path(named(machine, 90))
    for moment in found.history[-20:]:
        assert moment.rises["lower"] == pytest.approx((moment.hand - found.raising.stretch) / strands, abs=1e-9)


def test_longer_hooks_and_smaller_blocks_lean_less_and_less() -> None:
    tilts = [
        standing(named("six", 90).replace("hook 40 mm", f"hook {d} mm")).raising.tilt["lower"] for d in (40, 400, 4000)
    ]
    assert tilts[0] > 9 * tilts[1] > 80 * tilts[2] > 0
    small = named("six", 90).replace("radius 15 mm, spacing 40 mm", "radius 0.0015 mm, spacing 0.004 mm")
    assert 0 < standing(small).raising.tilt["lower"] < 2e-5


def test_a_stiffer_cord_stretches_less_and_leans_the_same() -> None:
    soft, stiff = standing(named("four", 90)), standing(named("four", 90, "20 kN"))
    assert stiff.raising.stretch == pytest.approx(soft.raising.stretch / 10, rel=1e-12)
    assert stiff.raising.tilt == pytest.approx(soft.raising.tilt, rel=1e-12)


def test_three_times_up_and_down_come_back_to_the_same_branch() -> None:
    text = named("four", 90)
    once, again = tried(text, (60, 80)), tried(text, (60, 80), "second", 90, 30)
    for first, second in zip(once.history, again.history, strict=True):
        assert second.effort == pytest.approx(first.effort, rel=1e-9)
        assert second.tilt == pytest.approx(first.tilt, abs=1e-9)
        assert second.rises == pytest.approx(first.rises, abs=1e-10)


# -- steps ----------------------------------------------------------------------------------------------------------


@EACH
def test_the_way_does_not_depend_on_the_steps(text: str) -> None:
    """One reading, a hundred before it, or steps a tenth as long: the same events and the same end."""
    few, many = tried(text, (40,)), tried(text, tuple(n * 0.4 for n in range(1, 101)))
    assert many.history[-1].tensions == pytest.approx(few.history[-1].tensions, abs=1e-7)
    assert many.history[-1].tilt == pytest.approx(few.history[-1].tilt, abs=1e-9)
    assert many.history[-1].slips == pytest.approx(few.history[-1].slips, abs=1e-9)
    assert [(e.part, e.what) for e in many.events] == [(e.part, e.what) for e in few.events]
    for one, other in zip(many.events, few.events, strict=True):
        assert one.hand == pytest.approx(other.hand, abs=1e-9)


def test_readings_may_come_in_any_order_and_twice() -> None:
    found = trial(rig(named("four", 90)), [0.02, 0, 0.005, 0.02])
    assert [moment.hand for moment in found.history] == [0, 0.005, 0.02, 0.02]
    assert found.history[0].effort == pytest.approx(0.125)
    assert found.history[2] == found.history[3]


@pytest.mark.parametrize("hand", [(-0.001,), (float("nan"),), (float("inf"),)])
def test_a_hand_travel_must_be_one(hand: tuple[float, ...]) -> None:
    with pytest.raises(ValueError, match="hand travel"):
        trial(rig(named("four", 90)), hand)
