"""Frames probed against the mechanics: what is measured in the pixels of motion shots is what was solved."""

from itertools import pairwise
from math import asin, atan2, degrees, hypot, pi

import numpy as np
import pytest
from filmed import SHELF, layer, middle, only, pixels, shots, story

from gantline.figure import Circle, Path, Strand, Wrap
from gantline.film import Picture, Take
from gantline.mechanics import steady

RIG = (0.0, 0.0, 1500.0, 900.0)
HAULED = [
    "planter",
    "runner-up",
    "threefold-down",
    "luff-upon-luff",
    "burton-heavy",
    "gun-upon-runner",
    "runners-three",
]


def hauled(*names: str) -> tuple[Take, float, float]:
    """The first shot that hauls, with the times at which the haul begins and ends."""
    for take in shots("level", *names):
        for move in take.shot.moves:
            if move.verb == "haul":
                return take, move.start, move.end
    raise AssertionError("nothing is hauled")


@pytest.mark.parametrize("name", HAULED)
@pytest.mark.parametrize("share", [0.5, 1.0])
def test_hand_and_load_go_by_the_velocity_ratio(name: str, share: float) -> None:
    take, start, end = hauled(name)
    first, later = take.at(start + 1e-6).picture, take.at(start + share * (end - start)).picture
    answer = story(name).acts[0].answer
    loads = {load.name for load in story(name).acts[0].rig.loads}
    hand = [
        middle(picture, lambda mark: mark.part == "hand" and mark.layer == "hand", RIG)[1] for picture in (first, later)
    ]
    load = [
        middle(picture, lambda mark: mark.part in loads and mark.layer == "body", RIG)[1] for picture in (first, later)
    ]
    ratio = abs(hand[1] - hand[0]) / abs(load[1] - load[0])
    assert ratio == pytest.approx(float(answer.velocity_ratio.number), rel=0.01)


@pytest.mark.parametrize("name", HAULED)
def test_wheels_turn_by_the_rope_that_runs_over_them(name: str) -> None:
    take, start, end = hauled(name)
    first, later = take.at(start + 1e-6).picture, take.at((start + end) / 2).picture
    scale = layer(first, "rig").scale
    for sheave in sorted({mark.sheave for mark in layer(first, "rig").marks if mark.role == "index"}):
        turned = (angle(later, sheave) - angle(first, sheave)) % 360
        radius = next(m.r for m in layer(first, "rig").marks if isinstance(m, Wrap) and m.sheave == sheave) * scale
        run = passed(later, sheave, scale) - passed(first, sheave, scale)
        expected = degrees(abs(run) / radius)
        assert min(turned, 360 - turned) == pytest.approx(expected, abs=1.0), sheave
        assert expected < 180, "the turn is told from its angle only up to half a turn"


def angle(picture, sheave: str) -> float:
    """Where the dot on the wheel's rim stands, seen from its middle."""
    place = layer(picture, "rig")
    rim = next(m for m in place.marks if isinstance(m, Circle) and m.sheave == sheave)
    hub, reach = (place.x + rim.x * place.scale, place.y + rim.y * place.scale), (rim.r + 6) * place.scale
    zone = (hub[0] - reach, hub[1] - reach, hub[0] + reach, hub[1] + reach)
    x, y = middle(picture, lambda mark: mark.sheave == sheave and mark.role == "index", zone, 3.0)
    return degrees(atan2(y - hub[1], x - hub[0]))


def passed(picture, sheave: str, scale: float) -> float:
    """The length of rope between its first end and the wheel, in px, from the strands that are drawn."""
    marks = layer(picture, "rig").marks
    wrap = next(m for m in marks if isinstance(m, Wrap) and m.sheave == sheave)
    runs = [m for m in marks if isinstance(m, Strand) and m.part == wrap.part]
    last = int(wrap.name.rpartition(":")[2])
    return sum(hypot(m.x2 - m.x1, m.y2 - m.y1) for m in runs if int(m.name.rpartition(":")[2]) <= last) * scale


@pytest.mark.parametrize("name", ["planter", "burton-heavy"])
def test_painted_marks_keep_their_place_on_the_rope(name: str) -> None:
    """Between two marks on one strand no rope comes or goes; and rope is neither made nor lost."""
    take, start, end = hauled(name)
    lengths = []
    for share in (0.001, 0.4, 0.8, 0.999):
        marks = layer(take.at(start + share * (end - start)).picture, "rig").marks
        strands = [mark for mark in marks if isinstance(mark, Strand)]
        lengths.append(sum(hypot(s.x2 - s.x1, s.y2 - s.y1) for s in strands))
    assert lengths == pytest.approx([lengths[0]] * 4, abs=1e-6)
    painted = [
        [mark for mark in layer(take.at(start + share * (end - start)).picture, "over").marks if mark.layer == "paint"]
        for share in (0.001, 0.999)
    ]
    moved = [hypot(a.x - b.x, a.y - b.y) for a, b in zip(*painted, strict=True)]
    assert max(moved) > 20, "a mark that is carried along is seen to move"


@pytest.mark.parametrize("name", ["planter", "burton-heavy", "threefold-up", "gyn"])
def test_the_lay_runs_with_the_rope(name: str) -> None:
    """On a strand that keeps a painted mark for a while, the marks of the lay go as far as that mark goes: told from
    the phase of their pattern in the pixels."""
    take, start, end = hauled(name)
    found = 0
    for first, later in ((0.2, 0.3), (0.4, 0.5), (0.6, 0.7)):
        pictures = [take.at(start + share * (end - start)).picture for share in (first, later)]
        marks = layer(pictures[0], "rig").marks
        for strand in sorted({m.name for m in marks if isinstance(m, Strand) and not m.pencil}):
            places = [_painted_on(picture, strand) for picture in pictures]
            if None in places:
                continue
            phases = [_phase(picture, strand) for picture in pictures]
            scale = layer(pictures[0], "rig").scale
            expected = (places[1] - places[0]) * scale
            pitch = 4.6 * scale
            off = ((phases[1] - phases[0]) * pitch / (2 * pi) - expected + pitch / 2) % pitch - pitch / 2
            assert off == pytest.approx(0.0, abs=0.08 * pitch), (strand, first)
            found += 1
    assert found, "no painted mark stays on a strand"


def _painted_on(picture: Picture, strand: str) -> float | None:
    """How far down a painted mark stands that is on this strand and well inside of it (px of the figure)."""
    run = next(m for m in layer(picture, "rig").marks if isinstance(m, Strand) and m.name == strand and not m.pencil)
    low, high = sorted((run.y1, run.y2))
    inside = [
        mark.y
        for mark in layer(picture, "over").marks
        if mark.layer == "paint" and abs(mark.x - run.x1) < 0.01 and low + 12 < mark.y < high - 12
    ]
    return inside[0] if len(inside) == 1 and run.x1 == run.x2 else None


def _phase(picture: Picture, strand: str) -> float:
    """The phase of the pattern of a strand's lay, down its middle."""
    place = layer(picture, "rig")
    run = next(m for m in place.marks if isinstance(m, Strand) and m.name == strand)
    low, high = sorted((run.y1, run.y2))
    alone = only(picture, lambda mark: isinstance(mark, Strand) and mark.name == strand)
    x = place.x + run.x1 * place.scale
    zone = (x - 1, place.y + (low + 4) * place.scale, x + 1, place.y + (high - 4) * place.scale)
    dark = pixels(alone, 4.0, zone).astype(float).mean(axis=1)
    down = (np.arange(dark.size) + 0.5) / 4.0 + zone[1]
    wave = ((dark - dark.mean()) * np.exp(-2j * pi * down / (4.6 * place.scale))).sum()
    return -float(np.angle(wave))


@pytest.mark.parametrize("name", HAULED)
def test_the_lay_on_a_wheel_turns_with_it(name: str) -> None:
    take, start, end = hauled(name)
    first, later = (take.at(start + share * (end - start)).picture for share in (1e-6, 0.5))
    for sheave in sorted({mark.sheave for mark in layer(first, "rig").marks if mark.role == "index"}):
        wrap = next(m for m in layer(later, "rig").marks if isinstance(m, Wrap) and m.sheave == sheave)
        turned = (angle(later, sheave) - angle(first, sheave) + 180) % 360 - 180
        assert wrap.run == pytest.approx(turned, abs=1.0), sheave


@pytest.mark.parametrize("name", ["atwood", "atwood-double", "falling-mass", "effort-speeds-up"])
def test_what_is_let_go_gathers_speed_as_solved(name: str) -> None:
    """Ways are as the accelerations, and grow with the square of the time."""
    take, move = next((t, m) for t in shots("level", name) for m in t.shot.moves if m.verb == "run")
    rates = {m.name: float(m.acceleration.number) for m in story(name).acts[0].answer.ideal.motions if m.acceleration}
    first, half, last = (take.at(move.start + share * move.seconds).picture for share in (1e-6, 0.5, 1.0))
    loads = [load.name for load in story(name).acts[0].rig.loads]
    ways = {}
    for load in loads:
        places = [next(m.y for m in layer(p, "rig").marks if m.role == "load" and m.part == load)
                  for p in (first, half, last)]  # fmt: skip
        ways[load] = places[0] - places[2]
        assert places[0] - places[1] == pytest.approx(ways[load] / 4, abs=0.02), load
    bearer = story(name).acts[0].rig.bearer
    scale = {load: ways[load] / rates.get(load, rates.get(bearer(load))) for load in loads}
    assert len({round(each, 3) for each in scale.values()}) == 1, "one scale of time for all"
    assert min(scale.values()) > 0, "up is up"


@pytest.mark.parametrize("name", SHELF)
def test_the_rig_is_one_filmed_take(name: str) -> None:
    """Nothing of the machine jumps: from shot to shot it stands as it stood; only a haul, a run or a tip moves it."""
    before = None
    for take in shots("level", name):
        if take.shot.step is None:
            continue
        now = take.before
        for change in take.changes:
            if change.move.verb not in ("haul", "run", "tip") and change.move.what != "the tackle turned over":
                assert _stance(change.after) == pytest.approx(_stance(now), abs=1e-6), (take.shot.id, change.move.what)
            now = change.after
        assert before is None or _stance(take.before) == pytest.approx(before, abs=1e-6), take.shot.id
        before = _stance(now)


def _stance(picture: Picture) -> list[float]:
    """Where all wheels stand, and the hand."""
    marks = layer(picture, "rig").marks
    wheels = [part for m in marks if isinstance(m, Circle) and m.role == "wheel" for part in (m.x, m.y)]
    hand = [(m.x, m.y) for m in marks if m.layer == "hand" and isinstance(m, Path)]
    return [*wheels, *(hand[0] if hand else ())]


@pytest.mark.parametrize("name", ["planter", "luff-upon-luff"])
def test_a_haul_is_let_back_before_the_eye(name: str) -> None:
    """After the price and the work the rope runs back by the same motion, before anything else is said of the rig."""
    moves = [(take.shot.id.rsplit("/")[-1], move) for take in shots("level", name) for move in take.shot.moves]
    hauls = [(step, move.what) for step, move in moves if move.verb == "haul"]
    assert [what for _, what in hauls] == ["rope", "rope, back"] * (len(hauls) // 2)
    assert hauls[-1][0] == "wrong"


def test_the_load_never_goes_back() -> None:
    take, start, end = hauled("planter")
    heights = [
        next(m.y for m in layer(take.at(start + share * (end - start) / 40).picture, "rig").marks if m.role == "load")
        for share in range(1, 41)
    ]
    assert heights == sorted(heights, reverse=True)
    steps = [a - b for a, b in pairwise(heights)]
    assert steps[0] < max(steps) / 4, "it begins at rest"
    assert steps[-1] < max(steps) / 4, "it ends at rest"


def test_the_block_tips_to_its_solved_angle() -> None:
    take = next(take for take in shots("level", "planter") if any(move.verb == "tip" for move in take.shot.moves))
    move = next(move for move in take.shot.moves if move.verb == "tip")
    solved = steady(story("planter").acts[0].rig).raising
    assert solved is not None
    seen = [_askew(take.at(at).picture) for at in (move.start + 1e-6, (move.start + move.end) / 2, move.end + 0.05)]
    assert seen[0] == pytest.approx(0, abs=0.02)
    assert seen[0] < seen[1] < seen[2]
    assert seen[2] == pytest.approx(degrees(solved.tilt["lower"]), abs=0.02)


def _askew(picture: Picture) -> float:
    """The angle of the line through the lower axles, right side up positive."""
    hubs = [mark for mark in layer(picture, "rig").marks if isinstance(mark, Circle) and mark.role == "wheel"]
    places = {mark.sheave: (mark.x, mark.y) for mark in hubs if mark.sheave.startswith("lower")}
    (x1, y1), (x2, y2) = places["lower.1"], places["lower.2"]
    return degrees(asin((y1 - y2) / (x2 - x1)))
