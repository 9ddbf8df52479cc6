"""The writer: safe, well formed, readable in every theme, the same bytes each time; planted faults are found."""

import re
import subprocess
import sys
from xml.etree import ElementTree

import pytest
import readback
from msgspec.structs import replace

from gantline.figure import VIEWS, NotDrawable, Strand, draw
from gantline.mechanics import solve
from gantline.output import png, svg
from gantline.output.plate_style import LOOKS, THEMES
from rigs import SHELF, laid_out, rig_of

BY_NAME = {path.stem: path for path in SHELF}
THEME_NAMES = [*THEMES, "page"]


@pytest.mark.parametrize("theme", THEME_NAMES)
@pytest.mark.parametrize("view", VIEWS)
def test_every_view_is_well_formed_and_names_its_parts(view, theme):
    rig, answer, layout = laid_out(BY_NAME["planter"])
    text = svg.write(draw(rig, answer, view, layout=layout, lit=("fall", "lower")), theme, prefix="a-")
    tree = ElementTree.fromstring(text)
    shapes = [e for e in tree.iter() if e.tag.rsplit("}")[-1] in ("path", "line", "circle", "rect", "text")]
    assert shapes
    assert all("data-part" in shape.attrib for shape in shapes)
    assert tree.attrib["role"] == "img"
    ids = re.findall(r' id="([^"]+)"', text)
    assert ids
    assert all(name.startswith("a-") for name in ids)


HOSTILE = "<script>alert(1)</script> & \"quoted\" 'x' ]]> --> \x1b[31m \x00 ﷐ }#a{fill:url(x)}"


def test_hostile_text_stays_text():
    rig, answer, _ = laid_out(BY_NAME["planter"])
    scene = draw(replace(rig, title=HOSTILE), answer, "bare")
    text = svg.write(scene)
    tree = ElementTree.fromstring(text)
    assert "<script" not in text
    assert not [e for e in tree.iter() if e.tag.endswith("script")]
    assert "\x1b" not in text
    assert "\x00" not in text


def test_hostile_marks_stay_text():
    rig, answer, _ = laid_out(BY_NAME["planter"])
    text = svg.write(draw(rig, answer, "bare", marks=(("upper", '"/><script>'),)))
    assert "<script" not in text
    ElementTree.fromstring(text)


def test_the_same_rig_gives_the_same_bytes_in_another_process():
    code = (
        "from gantline.notation import parse; from gantline.rig import read; from gantline.mechanics import solve\n"
        "from gantline.figure import draw; from gantline.output import svg; import sys, hashlib\n"
        "rig, _ = read(parse(open(sys.argv[1], encoding='utf-8').read())[0])\n"
        "print(hashlib.sha256(svg.write(draw(rig, solve(rig), 'labelled')).encode()).hexdigest())\n"
    )
    found = {
        subprocess.run(
            [sys.executable, "-c", code, str(BY_NAME["luff-upon-luff"])], env={"PYTHONHASHSEED": seed},
            capture_output=True, text=True, check=True,
        ).stdout
        for seed in ("1", "2")
    }  # fmt: skip
    assert len(found) == 1


def test_png_has_the_width_asked_and_the_same_bytes_twice():
    rig, answer, _ = laid_out(BY_NAME["gun-down"])
    scene = draw(rig, answer, "bare")
    first = png.write(scene, "light", 640)
    assert first[:8] == b"\x89PNG\r\n\x1a\n"
    assert int.from_bytes(first[16:20]) == 640
    assert png.write(scene, "light", 640) == first


def test_png_leaves_the_environment_as_it_was(tmp_path):
    """In a process of its own, for fontconfig is read once: what it starts afterwards has the fonts of its machine."""
    drawing = (
        "import os; before = dict(os.environ); from gantline import api; "
        "rig, _ = api.read('fixed a sheaves 1\\nload bell weight 9 N\\nrope fall: bell, over a.1, hand\\n'); "
        "assert api.draw(rig).png(200); assert dict(os.environ) == before"
    )
    done = subprocess.run([sys.executable, "-c", drawing], cwd=tmp_path, capture_output=True, text=True)
    assert done.returncode == 0, done.stderr


def luminance(colour: str) -> float:
    parts = [int(colour[n : n + 2], 16) / 255 for n in (1, 3, 5)]
    linear = [p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    a, b = sorted((luminance(one), luminance(other)), reverse=True)
    return (a + 0.05) / (b + 0.05)


@pytest.mark.parametrize("theme", THEMES)
def test_strokes_have_three_to_one_and_words_four_and_a_half(theme):
    colours = THEMES[theme]
    inner = {"metal", "load", "weave", "paper", "hemp", "lay"}  # always within a casing of ink
    strokes = {look.stroke for role, look in LOOKS.items() if look.stroke} - inner
    for token in strokes | {"pencil"}:
        assert contrast(colours[token], colours["paper"]) >= 3.0, token
    for token in {look.fill for role, look in LOOKS.items() if role.endswith("-text")}:
        assert contrast(colours[token], colours["paper"]) >= 4.5, token
    assert contrast(colours["ink"], colours["load"]) >= 4.5


def test_a_plate_stays_small():
    rig, answer, _ = laid_out(BY_NAME["gun-down"])
    assert len(svg.write(draw(rig, answer, "bare"))) < 14_000


def test_an_embedded_typeface_needs_nothing_from_outside():
    rig, answer, _ = laid_out(BY_NAME["gun-down"])
    text = svg.write(draw(rig, answer, "bare"), fonts=True)
    assert "@font-face" in text
    assert re.findall(r"url\((?!data:)", text) == []
    assert re.findall(r"https?://(?!www\.w3\.org/2000/svg)", text) == []


def planted(change):
    """The gun's plate with one strand changed."""
    rig, answer, _ = laid_out(BY_NAME["gun-down"])
    scene = draw(rig, answer, "bare")
    marks = [change(mark) if isinstance(mark, Strand) and mark.name == "fall:2" else mark for mark in scene.marks]
    return svg.write(replace(scene, marks=tuple(mark for mark in marks if mark is not None)))


def test_a_strand_shifted_by_a_twentieth_of_a_radius_is_found():
    assert readback.loose_joints(planted(lambda mark: replace(mark, x1=mark.x1 + 1.5, x2=mark.x2 + 1.5)))


def test_a_missing_strand_is_found():
    drawn = planted(lambda mark: None)
    assert len(readback.runs(drawn)) == 2
    assert readback.loose_joints(drawn)


def test_a_strand_over_a_foreign_wheel_is_found():
    drawn = planted(lambda mark: replace(mark, x1=mark.x1 - 30, x2=mark.x2 - 30))
    assert readback.through_wheels(drawn)


def test_a_leaning_strand_is_found():
    drawn = planted(lambda mark: replace(mark, x2=mark.x2 + 2))
    assert any(run.x1 != run.x2 and run.y1 != run.y2 for run in readback.runs(drawn))


def test_a_rig_with_nothing_to_raise_has_no_bag():
    rig = rig_of("fixed beam\nfixed hook\nload bell weight 10 N\nrope stay: beam, bell\n")
    scene = draw(rig, solve(rig), "bare")
    assert scene.width > 0
    with pytest.raises(NotDrawable):
        draw(rig, solve(rig), "as-built")
