"""The plan's numbers, each found again by another way than the one it was made by."""

from collections.abc import Iterator
from fractions import Fraction
from itertools import product
from math import pi

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from planned import PLANNED, SMALL, kit_of, planned, rates, ready, rig_of

from gantline import api
from gantline.bench import Declined, Plan, plan
from gantline.rig import Rig

G = Fraction(981, 100)
PARALLEL = {  # rig -> strands at the moving block, sheaves
    "planter": (4, 4), "twofold-up": (5, 4), "luff-down": (3, 3), "luff-up": (4, 3), "threefold-down": (6, 6),
    "gun-down": (2, 2), "gyn": (5, 5), "ten-strands": (10, 10), "single-fixed": (1, 1),
}  # fmt: skip


def by_ratio(load: Fraction, strands: int, sheaves: int, efficiency: Fraction) -> tuple[Fraction, Fraction]:
    """The pull raising and lowering by the closed form of one ratio K a sheave."""
    pulls = []
    for k in (1 / efficiency, efficiency):
        pulls.append(load * k**sheaves / sum(k**n for n in range(strands)))
    return pulls[0], pulls[1]


@pytest.mark.parametrize("name", PARALLEL)
def test_readings_are_those_of_the_closed_form(name: str) -> None:
    made = planned(ready(name))
    strands, sheaves = PARALLEL[name]
    fixed = {part.name for part in made.rig.fixed}
    load = sum(weight.number for part, weight in made.answer.weights if part not in fixed)
    assert load > made.choice.hung.mass * G or strands == 1
    raising, ideal, lowering = made.readings
    low, high = made.efficiency
    for way, reading in ((0, raising), (1, lowering)):
        ends = sorted(by_ratio(load, strands, sheaves, e)[way] for e in (low, high))
        assert list(reading.pulls) == ends
    assert ideal.pull == load / strands
    for reading in made.readings:
        lost = 2 * Fraction(6, 100) if made.choice.held.way == "case" and made.choice.held.span == 5 else None
        if lost is not None:
            assert reading.shown == reading.pull - lost
        if made.choice.held.way == "up":
            assert reading.shown == reading.pull


@pytest.mark.parametrize("name", PLANNED)
def test_every_reading_lies_in_the_band_or_it_is_said(name: str) -> None:
    made = planned(ready(name))
    span = made.choice.held.span
    inside = [span * 3 / 10 <= low and high <= span * 8 / 10 for low, high in (r.shows for r in made.readings)]
    assert [reading.well for reading in made.readings] == inside
    assert all(inside) == (made.choice.outside == 0)
    assert all(low > 0 and high <= span for low, high in (r.shows for r in made.readings))
    assert made.choice.hung.mass <= 5
    assert made.choice.hung.mass == sum(count * mass.mass.number for count, mass in made.choice.hung.pieces)
    assert all(count <= mass.count for count, mass in made.choice.hung.pieces)
    assert made.answer.certificate.largest_residual == 0


def test_the_file_gives_way_to_what_the_kit_measured() -> None:
    kit = SMALL + (
        '[[block]]\nname = "double"\nsheaves = 2\ncount = 2\nradius = "18 mm"\nmass = "72 g"\nefficiency = "93 %"\n'
    )
    made = planned(rig_of((ready_text("planter")).replace("weight 12 N", "weight 12 N, efficiency 85 %")), kit_of(kit))
    moved = made.choice.hung.mass * G + Fraction(72, 1000) * G
    assert made.readings[0].pull == by_ratio(moved, 4, 4, Fraction(93, 100))[0]
    assert made.efficiency == (Fraction(90, 100), Fraction(98, 100))


def test_the_band_is_widened_to_hold_the_files_own_efficiency() -> None:
    text = ready_text("planter").replace("weight 12 N", "weight 1 N, efficiency 85 %")
    made = planned(rig_of(text), kit_of(SMALL))
    assert made.efficiency == (Fraction(85, 100), Fraction(98, 100))


def ready_text(name: str) -> str:
    from planned import SHELF

    return (SHELF / f"{name}.rig").read_text(encoding="utf-8")


# -- choosing ---------------------------------------------------------------------------------------------------------


def shows(rig: Rig, mass: Fraction, span: int) -> list[Fraction]:
    """What a scale of 0.5 N, upside down with its ring on the rope, shows at the worst, solved anew from the text."""
    name = rig.loads[0].name
    text = ready_text(TITLES[rig.title])
    changes = {f"{name}.weight": f"{mass * G} N"}
    changes |= {f"{block.name}.efficiency": "90 %" for block in (*rig.fixed, *rig.moving) if block.sheaves}
    solved, problems = api.read(text, changes)
    assert solved is not None, problems
    answer = api.solve(solved).answer
    return [answer.regime(way).effort.number - Fraction(1, 2) for way in ("raising", "lowering")]


TITLES = {ready(name).title: name for name in ("single-fixed", "runner-down")}


MASSES = st.lists(st.tuples(st.sampled_from([50, 100, 200, 500, 1000]), st.integers(1, 2)), min_size=1, max_size=3)
SPANS = st.lists(st.sampled_from([1, 2, 5, 10, 50]), min_size=1, max_size=2, unique=True)


@settings(max_examples=25)
@given(st.sampled_from(sorted(TITLES.values())), MASSES, SPANS)
def test_no_other_choice_of_the_kit_would_be_better(name: str, masses: list[tuple[int, int]], spans: list[int]) -> None:
    rig = ready(name)
    made = plan(rig, kit_of(kit_text(masses, spans)))
    sums = sorted({Fraction(total, 1000) for total in totals(masses) if 0 < total <= 5000})
    fits = [
        mass for mass in sums for span in spans
        if all(Fraction(3 * span, 10) <= shown <= Fraction(8 * span, 10) for shown in shows(rig, mass, span))
    ]  # fmt: skip
    if isinstance(made, Declined):
        assert not fits
        return
    ample = [mass for mass in fits if mass >= Fraction(1, 2)]
    assert bool(fits) == (made.choice.outside == 0)
    if fits:
        assert made.choice.hung.mass == (min(ample) if ample else max(fits))


def totals(masses: list[tuple[int, int]]) -> Iterator[int]:
    for counts in product(*(range(count + 1) for _, count in masses)):
        yield sum(count * mass for count, (mass, _) in zip(counts, masses, strict=True))


def kit_text(masses: list[tuple[int, int]], spans: list[int]) -> str:
    text = '[stand]\nheight = "2 m"\n[[cord]]\nname = "line"\ndiameter = "2 mm"\n'
    for n, (mass, count) in enumerate(masses):
        text += f'[[mass]]\nname = "m{n}"\nmass = "{mass} g"\ncount = {count}\nheight = "1 mm"\n'
    for span in spans:
        text += f'[[scale]]\nname = "s{span}"\nspan = "{span} N"\ndivision = "0.01 N"\nweight = "0.5 N"\n'
    return text


# -- room, cord, marks ------------------------------------------------------------------------------------------------


def heights(made: Plan, rise: Fraction) -> dict[str, Fraction]:
    """Every body's depth below the hook when the load has risen so far; what stands at the floor is at the table."""
    way = rates(made)
    depths = dict(made.room.depths)
    return {
        name: depths[name] - way[name] * rise if name in depths else made.room.height for name in bodies(made).values()
    }


def bodies(made: Plan) -> dict[str, str]:
    """A carried load is where its block is, and so are blocks that share a load."""
    found = {part.name: part.name for part in made.rig.parts}
    for block in made.rig.moving:
        for load in block.carries:
            found[load] = found[block.name] if found[load] == load else found[load]
            found[block.name] = found[load]
    return found


def lengths(made: Plan, rise: Fraction) -> dict[str, Fraction]:
    """Each plumb run that does not go to the hand, in the middle of its sheaves."""
    at, body = heights(made, rise), bodies(made)
    return {
        strand.name: abs(at[body[strand.start.part]] - at[body[strand.end.part]])
        for strand in made.rig.strands
        if strand.course != "level" and "hand" not in (strand.start.part, strand.end.part)
    }


@pytest.mark.parametrize("name", PLANNED)
def test_what_the_strands_give_up_comes_to_the_hand(name: str) -> None:
    made = planned(ready(name))
    before, after = lengths(made, Fraction(0)), lengths(made, made.rise)
    for rope in made.rig.ropes:
        own = [strand.name for strand in rope.strands if strand.name in before]
        given_up = sum(before[strand] - after[strand] for strand in own)
        last = rope.strands[-1]
        if last.end.part != "hand":
            assert given_up == 0
        else:
            with_it = {"up": 1, "down": -1}[last.course] * rates(made)[last.start.part] * made.rise
            assert given_up + with_it == made.haul
    assert made.haul == made.rise * made.answer.velocity_ratio.number


@pytest.mark.parametrize("name", PLANNED)
def test_nothing_meets_and_nothing_sinks_below_the_table_on_the_way(name: str) -> None:
    made = planned(ready(name))
    assert 0 < made.rise <= made.room.rise < made.room.meeting
    for rise in (Fraction(0), made.rise, made.room.rise):
        assert all(length > 0 for length in lengths(made, rise).values())
        assert all(0 <= depth <= made.room.height for depth in heights(made, rise).values())
    shortest = min(lengths(made, made.room.meeting).values())
    assert 0 <= shortest < Fraction(1, 4)
    stack = sum(count * mass.height.number for count, mass in made.choice.hung.pieces)
    load = bodies(made)[made.rig.loads[0].name]
    assert heights(made, Fraction(0))[load] + stack < made.room.height


@pytest.mark.parametrize("name", PLANNED)
def test_the_cord_is_as_long_as_the_rig_needs(name: str) -> None:
    made = planned(ready(name))
    runs = lengths(made, Fraction(0))
    for rope, cut in zip(made.rig.ropes, made.cuts, strict=True):
        plumb = sum(runs[strand.name] for strand in rope.strands if strand.name in runs)
        turns = sum(1 for contact in rope.contacts if contact.sheave)
        assert cut.strands >= plumb
        assert cut.strands - plumb == Fraction(cut.level, 2)
        if not cut.level:
            assert float(cut.wraps) == pytest.approx(turns * pi * 0.019)
        assert cut.cut >= cut.sum > plumb
        assert cut.cut - cut.sum < Fraction(1, 10)
    assert sum(cut.cut for cut in made.cuts) <= made.cord.length.number


def test_apart_in_the_file_is_kept_to() -> None:
    made = planned(rig_of(ready_text("planter") + "apart upper lower 0.6 m\n"))
    assert lengths(made, Fraction(0))["fall:1"] == Fraction(6, 10)
    assert made.room.meeting == Fraction(6, 10) - Fraction(5, 100)
    assert made.rise == Fraction(1, 2)


def test_a_short_stand_asks_for_a_smaller_rise() -> None:
    low = kit_of(SMALL.replace("1.6 m", "0.5 m"))
    made = planned(ready("planter"), low)
    assert made.rise < ready("planter").asked.distance.number
    assert made.rise == Fraction(made.room.rise // Fraction(1, 100), 100)


@pytest.mark.parametrize("name", PLANNED)
def test_marks_move_as_the_rope_runs_past(name: str) -> None:
    """Another way than sheave by sheave: what has run into a strand is what the ones before it have given up."""
    made = planned(ready(name))
    way, told = rates(made), {mark.part: mark for mark in made.marks}
    assert told[made.rig.loads[0].name].way == 1
    for rope in made.rig.ropes:
        strands, sign = rope.strands, {"up": 1, "down": -1, "level": 0}
        assert rope.contacts[0].part != "hand"
        run_in = Fraction(0)
        for strand in strands:
            t = sign[strand.course]
            along = t * way[strand.start.part] + run_in
            mark = told[strand.name]
            assert mark.level == (t == 0)
            assert mark.way == (along if t == 0 else t * along)
            if strand.end.part != "hand":
                run_in -= t * (way[strand.end.part] - way[strand.start.part])
            else:
                assert along == made.answer.velocity_ratio.number


# -- anchors ----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", PLANNED)
def test_anchors_carry_what_hangs_and_what_is_pulled(name: str) -> None:
    """The whole rig from outside: all anchors together carry all weights and the pull, also when blocks have met."""
    made = planned(ready(name))
    weights = sum(weight.number for _, weight in made.answer.weights)
    strand = next(s for s in made.rig.strands if "hand" in (s.start.part, s.end.part))
    sense = 1 if strand.course == ("down" if strand.end.part == "hand" else "up") else -1
    ideal = next(reading for reading in made.readings if reading.way == "ideal")
    assert sum(anchor.rest for anchor in made.anchors) == weights + sense * ideal.pull
    if all(anchor.two_blocked is not None for anchor in made.anchors):
        assert sum(anchor.two_blocked for anchor in made.anchors) == weights + sense * 75 * made.rig.gravity.number
    raising = max(made.readings[0].pulls)
    assert sum(anchor.hauling for anchor in made.anchors) == weights + sense * raising


def test_two_blocked_is_what_the_beam_feels_of_a_person_hanging_on() -> None:
    made = planned(ready("planter"))
    (anchor,) = made.anchors
    hung = made.choice.hung.mass + 2 * Fraction(72, 1000)
    assert anchor.two_blocked == (75 + hung) * G
    assert anchor.rest == (hung + (made.choice.hung.mass + Fraction(72, 1000)) / 4) * G


def test_the_engine_is_asked_again_and_nothing_is_scaled_by_hand() -> None:
    """A flying block that sinks helps: its share of the pull does not shrink with the load."""
    made = planned(ready("burton-heavy"))
    moved = made.choice.hung.mass * G
    assert made.readings[1].pull == (moved - Fraction(38, 1000) * G) / 3


# -- what is seen -----------------------------------------------------------------------------------------------------


def test_the_tilt_is_that_of_a_trial_with_everything_written_out() -> None:
    made = planned(ready("planter"))
    sizes = "radius 18 mm, spacing 45 mm, efficiency 95 %"
    text = f"""fixed upper sheaves 2, {sizes}, hook 48 mm
moving lower sheaves 2, mass 72 g, {sizes}, hook 48 mm, carries planter
load planter mass {made.choice.hung.mass} kg
cord fall stiffness 3 kN, diameter 2 mm
apart upper lower {lengths(made, Fraction(0))["fall:1"]} m
rope fall: upper, under lower.1, over upper.1, under lower.2, over upper.2, hand
"""
    record = api.trial(rig_of(text)).record()
    (block,) = record["blocks"]
    (tilt,) = made.seen.tilts
    assert (tilt.raising, tilt.lowering) == pytest.approx(
        (block["tilt_raising"]["value"], block["tilt_lowering"]["value"]), abs=1e-9
    )
    assert made.seen.stretch == pytest.approx(record["steady"]["raising"]["stretch"]["value"], rel=1e-9)
    assert made.seen.assumed == ()


def test_what_was_not_measured_is_said_to_be_assumed() -> None:
    made = planned(ready("planter"), kit_of(SMALL))
    assert set(made.seen.assumed) == {"stiffness", "spacing", "hook", "radius"}


def test_outside_the_model_of_the_trial_nothing_is_said_of_a_tilt() -> None:
    assert planned(ready("level-lead")).seen is None
