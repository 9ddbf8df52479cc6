"""What single views promise: only holding strands cross the bag, arrows are to scale, ropes keep their length."""

import math
import re
from fractions import Fraction

import pytest

from gantline.figure import VIEWS, NotDrawable, Path, Strand, Wrap, describe, draw, kinematics
from gantline.mechanics import solve
from gantline.output import svg
from rigs import SHELF, drawable, laid_out, rig_of

RIGS = drawable()
each_rig = pytest.mark.parametrize("path", RIGS, ids=[path.stem for path in RIGS])
BY_NAME = {path.stem: path for path in SHELF}


def of_role(scene, role):
    return [mark for mark in scene.marks if mark.role == role]


@pytest.mark.parametrize(("name", "count"), [("planter", 4), ("gun-up", 3), ("ten-strands", 10), ("ends-on-load", 3),
                                             ("rider-own-rope", 2), ("luff-up", 4)])  # fmt: skip
def test_the_bag_is_crossed_by_the_strands_that_hold(name, count):
    scene = draw(*laid_out(BY_NAME[name])[:2], "cut")
    ticks = of_role(scene, "tick")
    assert len(ticks) == count
    outline = of_role(scene, "cut")[0]
    top = min(float(n) for n in re.findall(r"V(-?[\d.]+)q", outline.d)) - 15
    assert all(f" {top - 4:.1f}h16" in tick.d for tick in ticks)


@each_rig
def test_arrows_of_a_balance_are_to_the_stated_scale(path):
    rig, answer, layout = laid_out(path)
    try:
        scene = draw(rig, answer, "balance", layout=layout)
    except NotDrawable:
        return
    if scene.scale is None:
        return
    column = layout.right * 30
    tall = {"force": 0.0, "weight": 0.0}
    for mark in scene.marks:
        if isinstance(mark, Path) and mark.role in tall and mark.x > column + 60:
            tall[mark.role] += max(abs(float(n)) for n in re.findall(r"L0 (-?[\d.]+)", mark.d))
    weights = sum(tall.values())
    assert weights > 0
    assert tall["weight"] < 0.7 * scene.height


@each_rig
def test_free_bodies_are_in_balance_on_the_page(path):
    """Where it holds, arrows up and arrows down on each part are equally long."""
    rig, answer, layout = laid_out(path)
    if answer.status != "holds" or any(True in wheel.level for wheel in layout.wheels):
        return
    scene = draw(rig, answer, "free-body", layout=layout)
    if scene.scale is None:
        return
    for panel in scene.panels:
        total = 0.0
        for mark in scene.marks:
            inside = isinstance(mark, Path) and panel.x <= mark.x <= panel.x + panel.width
            if inside and mark.role in ("force", "weight"):
                total += float(re.search(r"L0 (-?[\d.]+)", mark.d).group(1))
        assert abs(total) < 0.1, panel.name


@each_rig
def test_ways_on_the_page_have_the_ratio_of_the_answer(path):
    rig, answer, layout = laid_out(path)
    ratio = answer.velocity_ratio.number if answer.velocity_ratio else None
    try:
        scene = draw(rig, answer, "displacement", layout=layout)
    except NotDrawable:
        return
    heads = of_role(scene, "way")
    dots = [m for m in of_role(scene, "way-fill") if hasattr(m, "r")]
    assert len(heads) == len(dots)
    if ratio is None or len(dots) != 2 or not ratio:
        return
    tips = [
        float(re.match(r"M-?[\d.]+ (-?[\d.]+)", m.d).group(1))
        for m in of_role(scene, "way-fill")
        if isinstance(m, Path)
    ]
    ways = [abs(tip - dot.y) for tip, dot in zip(tips, dots, strict=True)]
    assert ways[1] == pytest.approx(float(abs(ratio)) * ways[0], abs=0.02 * (1 + float(abs(ratio))))


@each_rig
def test_ropes_keep_their_length_while_the_rig_moves(path):
    rig, answer, layout = laid_out(path)
    moves = kinematics(rig, answer, layout)
    if moves is None:
        return
    rates: dict[str, float] = {}
    for strand in moves.strands:
        if strand.x1 != strand.x2:
            continue
        down = 1 if strand.y2 > strand.y1 else -1
        rope = strand.strand.rsplit(":", 1)[0]
        rates[rope] = rates.get(rope, 0.0) + down * (strand.rate2 - strand.rate1)
    rider = rig.hand is not None and rig.hand.rides
    for rope, rate in rates.items():
        hauled = rider and any(s.end.part == "hand" or s.start.part == "hand" for s in rig.strands if s.rope == rope)
        assert rate == pytest.approx(-1.0 if hauled else 0.0, abs=1e-9), rope
    assert moves.most >= 0


def test_a_wheel_turns_by_the_rope_that_passes_it():
    """Gun tackle, hand 1.4 radii: the lower wheel turns -0.70 rad, the upper +1.40 rad (worked by hand)."""
    rig, answer, layout = laid_out(BY_NAME["gun-down"])
    moves = kinematics(rig, answer, layout)
    turned = {wheel.sheave: math.radians(wheel.turn * 1.4 * 30) for wheel in moves.wheels}
    assert turned["lower.1"] == pytest.approx(-0.70)
    assert turned["upper.1"] == pytest.approx(1.40)


def test_paint_keeps_its_place_on_the_rope():
    """Each mark has the same length of rope behind it in all three states."""
    rig, answer, _ = laid_out(BY_NAME["gun-down"])
    scene = draw(rig, answer, "motion")
    marks = of_role(scene, "paint")
    states = [marks[0:3], marks[3:6], marks[6:9]]
    lengths = []
    for number, state in enumerate(states):
        first, last = scene.panels[number].x - 1, scene.panels[number].x + scene.panels[number].width + 40
        rope = [
            m
            for m in scene.marks
            if isinstance(m, Strand | Wrap) and first < (m.x1 if isinstance(m, Strand) else m.x) < last
        ]
        lengths.append([_behind(rope, mark.x, mark.y) for mark in state])
    assert lengths[1] == pytest.approx(lengths[0], abs=0.05)
    assert lengths[2] == pytest.approx(lengths[0], abs=0.05)


def _behind(rope, x, y):
    """The length of rope from its first end to (x, y)."""
    strands = sorted((m for m in rope if isinstance(m, Strand)), key=lambda m: int(m.name.split(":")[1]))
    wraps = {m.name: m for m in rope if isinstance(m, Wrap)}
    total = 0.0
    for strand in strands:
        low, high = sorted((strand.y1, strand.y2))
        if abs(strand.x1 - x) < 0.02 and low - 0.02 <= y <= high + 0.02:
            return total + abs(y - strand.y1)
        total += high - low
        wrap = wraps.get(strand.name)
        if wrap is None:
            continue
        whole = abs(math.radians(wrap.end - wrap.start)) * wrap.r
        if abs(math.hypot(x - wrap.x, y - wrap.y) - wrap.r) < 0.05:
            angle = math.degrees(math.atan2(y - wrap.y, x - wrap.x)) % 360
            return total + abs(math.radians(angle - wrap.start % 360)) * wrap.r if wrap.start else total
        total += whole
    raise AssertionError("the mark is not on the rope")


@pytest.mark.parametrize("view", VIEWS)
def test_every_view_has_words_for_those_who_do_not_see_it(view):
    rig, answer, _ = laid_out(BY_NAME["planter"])
    told, quiet = describe(rig, answer, view), describe(rig, answer, view, reveal=False)
    assert "under wheel 1 of lower" in told
    assert re.search(r"\b90\b|\b4 times\b|\bFour strands\b", quiet) is None
    assert quiet in told


def test_unknown_names_are_refused():
    rig, answer, _ = laid_out(BY_NAME["planter"])
    with pytest.raises(ValueError, match="no view is named"):
        draw(rig, answer, "sideways")
    for wrong in ({"lit": ("nobody",)}, {"marks": (("nobody", "1"),)}, {"struck": ("nobody",)}):
        with pytest.raises(ValueError, match="no part is named nobody"):
            draw(rig, answer, "bare", **wrong)


def test_what_is_not_lit_is_pencil():
    rig, answer, _ = laid_out(BY_NAME["planter"])
    scene = draw(rig, answer, "bare", lit=("fall:5", "hand"))
    inked = {mark.name for mark in scene.marks if isinstance(mark, Strand) and not mark.pencil}
    assert inked == {"fall:5"}
    assert all(mark.pencil for mark in scene.marks if mark.part in ("upper", "lower", "planter"))
    assert not any(mark.role == "shade" and mark.part != "beam" for mark in scene.marks)


def test_marks_take_the_place_of_the_views_own():
    rig, answer, _ = laid_out(BY_NAME["planter"])
    scene = draw(rig, answer, "count", marks=(("fall:2", "7"),), struck=("fall:2",))
    drawn = svg.write(scene)
    assert ">7<" in drawn
    assert ">1<" not in drawn
    assert len(of_role(scene, "strike")) == 1


def test_a_rig_of_a_hundred_sheaves_is_drawn():
    path = ", ".join(f"under lower.{n}, over upper.{n}" for n in range(1, 61))
    rig = rig_of(
        "fixed upper sheaves 60\nmoving lower sheaves 60, weight 60 N, carries bell\nload bell weight 1140 N\n"
        f"rope fall: upper, {path}, hand\n"
    )
    scene = draw(rig, solve(rig), "bare")
    assert sum(isinstance(mark, Strand) for mark in scene.marks) == 121


def test_a_symbol_without_a_number_draws_no_scale():
    rig = rig_of("fixed ring sheaves 1\nload bell weight W\nrope fall: bell, over ring, hand\n")
    answer = solve(rig)
    assert answer.ideal.effort.number is None
    assert draw(rig, answer, "balance").scale is None
    assert isinstance(rig.gravity.number, Fraction)
