"""What must be true of every figure, read back from its SVG text."""

from pathlib import Path

import pytest
import readback

from gantline.figure import VIEWS, NotDrawable, Strand, Text, draw, lay_out
from gantline.output import svg
from rigs import NOT_DRAWABLE, ODD, drawable, laid_out, solved

RIGS = drawable()
IDS = [path.stem for path in RIGS]
each_rig = pytest.mark.parametrize("path", RIGS, ids=IDS)
ONE_RIG_VIEWS = [view for view in VIEWS if view not in ("free-body", "motion", "as-built")]
STEPS = ["ask", "count", "equal", "balance", "solve", "gain", "work", "units", "newton"]


def bare(path: Path) -> str:
    rig, answer, layout = laid_out(path)
    return svg.write(draw(rig, answer, "bare", layout=layout))


@each_rig
def test_as_many_strands_are_drawn_as_solved(path):
    rig, _, _ = laid_out(path)
    assert sorted(run.name for run in readback.runs(bare(path))) == sorted(strand.name for strand in rig.strands)


@each_rig
def test_every_run_is_plumb_or_level_and_tangent_to_its_sheaves(path):
    drawn = bare(path)
    assert all(run.x1 == run.x2 or run.y1 == run.y2 for run in readback.runs(drawn))
    assert readback.loose_joints(drawn) == []


@each_rig
def test_strands_keep_clear_of_each_other_and_of_foreign_wheels(path):
    drawn = bare(path)
    assert readback.crowded(drawn) == []
    assert readback.through_wheels(drawn) == []


@each_rig
def test_a_body_hangs_where_its_pulls_balance(path):
    """The bar is level: the pulls' moments about the hook cancel."""
    rig, answer, layout = laid_out(path)
    if answer.status != "holds" or any(True in wheel.level for wheel in layout.wheels):
        return
    pulls = {
        p.name: float(p.tension.number) for p in answer.ideal.strands if p.tension and p.tension.number is not None
    }
    if len(pulls) != len(rig.strands):
        return
    for body in layout.bodies:
        if not body.bar or not body.level:
            continue
        moments = []
        for wheel in layout.wheels:
            if wheel.body == body.name:
                moments.append(
                    (pulls[wheel.before] + pulls[wheel.after]) * (1 if wheel.up else -1) * (wheel.x - body.x)
                )
        for end in layout.ends:
            if end.body == body.name:
                moments.append(pulls[end.strand] * (1 if end.up else -1) * (end.x - body.x))
        assert abs(sum(moments)) <= 1e-6 * max(map(abs, moments), default=1.0) + 1e-6


@each_rig
@pytest.mark.parametrize("view", [view for view in VIEWS if view != "units"])
def test_words_are_readable_in_the_frame_and_meet_no_other_words(path, view):
    rig, answer, layout = laid_out(path)
    try:
        scene = draw(rig, answer, view, layout=layout)
    except NotDrawable:
        return
    left, top, right, bottom = readback.view_box(svg.write(scene))
    texts = [mark for mark in scene.marks if isinstance(mark, Text)]
    for number, one in enumerate(texts):
        x1, y1, x2, y2 = one.box
        assert left <= x1, (one.words, "left")
        assert x2 <= right, (one.words, "right")
        assert top <= y1, (one.words, "top")
        assert y2 <= bottom, (one.words, "bottom")
        for other in texts[number + 1 :]:
            a1, b1, a2, b2 = other.box
            assert not (x1 < a2 and a1 < x2 and y1 < b2 and b1 < y2), (one.words, other.words)
    assert min(word.size for word in readback.words(svg.write(scene))) >= 10.5


@each_rig
def test_the_rig_never_moves_from_step_to_step(path):
    rig, answer, layout = laid_out(path)
    frames, places = set(), set()
    for view in (*STEPS, "bare", "numbered", "labelled"):
        try:
            scene = draw(rig, answer, view, layout=layout, frame="steps", caption=False)
        except (NotDrawable, AssertionError):
            continue
        frames.add((scene.left, scene.top, scene.width, scene.height))
        places.add(tuple((m.name, m.x1, m.y1, m.x2, m.y2) for m in scene.marks if isinstance(m, Strand)))
    assert len(frames) == 1
    assert len(places) == 1


@pytest.mark.parametrize("path", [path for path in ODD if path.stem in NOT_DRAWABLE], ids=lambda path: path.stem)
def test_what_cannot_be_drawn_says_why(path):
    rig, answer = solved(path)
    with pytest.raises(NotDrawable) as refused:
        lay_out(rig, answer)
    assert refused.value.sentence.endswith(".")
    assert refused.value.parts
