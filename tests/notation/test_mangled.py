"""Whatever is typed, cut or pasted gives a rig or problems: never an exception, never a wait."""

import re
import subprocess
import sys
from itertools import pairwise
from pathlib import Path
from zlib import crc32

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from gantline.mechanics import solve
from gantline.notation import ATTRIBUTES, MOST_BYTES, RESERVED, STATEMENTS, parse, parse_bytes, tidy, with_value
from gantline.problems import Problem
from gantline.quantity import UNITS
from gantline.rig import read

SHELF = Path(__file__).parents[2] / "src" / "gantline" / "shelf"
GOOD = [SHELF / f"{name}.rig" for name in ("planter", "burton-heavy", "atwood-heavy-wheel", "old-units", "level-lead")]
FULL = """\
title    Everything  # a comment
gravity  g = 9.8 m/s2
fixed    upper    sheaves 2, efficiency 95 %, radius 3 cm, inertia 0.001 kg m2, spacing 5 cm
moving   lower    sheaves 2, weight w = 12 N, # light
                  carries planter and bell
load     planter  mass 35 kg
load     bell     weight W
rope     fall:    upper, under lower.1, over upper.1, under lower.2, over upper.2, hand at bell
lower    planter 1/2 ft
effort   P = 3e1 lbf
"""


def survives(text: str | bytes) -> None:
    """Read it as the commands do; problems point into the text, and a good text can be tidied."""
    tree, problems = parse(text) if isinstance(text, str) else parse_bytes(text)
    rig, more = read(tree, problems)
    assert_sound(more)
    assert set(problems) <= set(more)
    assert (rig is None) == bool(more)
    if rig is not None and crc32(tidy(tree).encode()) % 12 == 0:
        solve(rig)  # a sample: the solver has tests of its own
    if not problems:
        again, none = parse(tidy(tree))
        assert none == ()
        assert tidy(again) == tidy(tree)


def assert_sound(problems: tuple[Problem, ...]) -> None:
    for problem in problems:
        assert problem.place.line >= 1
        assert 1 <= problem.place.column <= len(problem.text) + 1
        assert problem.says
        assert problem.why
        assert problem.do


@pytest.fixture(params=[*GOOD, None], ids=lambda path: path.stem if path else "everything")
def text(request: pytest.FixtureRequest) -> str:
    whole = request.param.read_text(encoding="utf-8") if request.param else FULL
    return re.sub(r"^# .*\n", "", whole, flags=re.MULTILINE)  # the head says nothing to the machine


def test_cut_anywhere(text: str) -> None:
    for end in range(len(text)):
        survives(text[:end])
        survives(text[end:])


def test_any_character_deleted_doubled_or_swapped(text: str) -> None:
    for at in range(len(text)):
        survives(text[:at] + text[at + 1 :])
        survives(text[:at] + text[at] + text[at:])
        survives(text[:at] + text[at : at + 2][::-1] + text[at + 2 :])


@pytest.mark.parametrize(
    "odd", [",", ":", "=", "#", ".", "-", "\t", "\n", "\r", "\0", "é", "\u202e", "٣", "\ud800", '"']
)
def test_an_odd_character_anywhere(text: str, odd: str) -> None:
    for at in range(0, len(text), 3):
        survives(text[:at] + odd + text[at:])


def test_any_line_dropped_doubled_or_swapped(text: str) -> None:
    lines = text.splitlines(keepends=True)
    for at in range(len(lines)):
        survives("".join(lines[:at] + lines[at + 1 :]))
        survives("".join(lines[: at + 1] + lines[at:]))
        survives("".join(lines[:at] + lines[at : at + 2][::-1] + lines[at + 2 :]))


def test_any_word_in_the_place_of_any_other(text: str) -> None:
    cuts = [found.span() for found in re.finditer(r"[^\s,:]+|[,:]", text)]
    words = sorted({text[start:end] for start, end in cuts})
    for start, end in cuts:
        for word in words:
            survives(text[:start] + word + text[end:])


def test_any_two_words_swapped(text: str) -> None:
    cuts = [found.span() for found in re.finditer(r"[^\s]+", text)]
    for (a, b), (c, d) in pairwise(cuts):
        survives(text[:a] + text[c:d] + text[b:c] + text[a:b] + text[d:])


NAMES = ("upper", "lower", "lower.1", "upper.2", "bell", "hand", "fall", "W", "at", "and", "is")
NUMBERS = ("0", "-0", "1", "2.5", "1/3", "1/0", "1e12", "1e13", "9" * 41, "nan", "٣", "95%", "2,5", "0x10")
TOKENS = (*STATEMENTS, *ATTRIBUTES, *RESERVED, *UNITS, *NAMES, *NUMBERS, ",", ":", "=", "#", "\n", "\r\n", " ", "\t")


@settings(max_examples=500, deadline=None)
@given(st.lists(st.sampled_from(TOKENS), max_size=60).map(" ".join))
def test_words_of_the_notation_in_any_order(text: str) -> None:
    survives(text)


@settings(max_examples=300, deadline=None)
@given(st.text(max_size=300))
def test_any_text(text: str) -> None:
    survives(text)


@settings(max_examples=300, deadline=None)
@given(st.binary(max_size=300))
def test_any_bytes(data: bytes) -> None:
    survives(data)


@settings(max_examples=300, deadline=None)
@given(
    st.text(max_size=20) | st.sampled_from(("upper.weight", "raise", "gravity", "lower.sheaves")), st.text(max_size=20)
)
def test_any_setting(target: str, text: str) -> None:
    tree, _ = parse(FULL)
    changed, _ = with_value(tree, target, text)
    read(changed)


LONG = {
    "one long word": "a" * 65_000,
    "digits": "effort " + "9" * 65_000 + " N",
    "exponents": "effort 1e" + "9" * 65_000 + " N",
    "fraction": "effort " + "1/" * 32_000,
    "signs": "effort " + "+-" * 32_000,
    "points": "effort " + "1." * 32_000,
    "brackets": "fixed " + "(" * 65_000,
    "commas": "rope fall: " + "," * 65_000,
    "equals": "effort W" + "=" * 65_000,
    "blanks": " " * 65_000 + "x",
    "hashes": "#" * 65_000,
    "titles": "title" + " #" * 32_000,
    "lines": "\n" * 65_000,
    "lines that go on": "rope fall: a" + ",\n" * 32_000,
    "bad lines": "x\n" * 32_000,
    "names nearly alike": "".join(
        [f"load x{n:03d}{'a' * 30} weight 1 N\n" for n in range(400)]
        + [f"raise y{n:03d}{'a' * 30} 1 m\n" for n in range(900)]
    ),
    "many sheaves": "\n".join(f"fixed a{n} sheaves 1000" for n in range(400)),
    "a chain of ropes": "\n".join([*(f"moving a{n} sheaves 1" for n in range(400)), "fixed z", "rope r: z, a0"]
    + [f"rope r{n}: a{n}, a{n + 1}" for n in range(399)]),
    "one circle of ropes": "\n".join([*(f"moving a{n} sheaves 1" for n in range(400))]
    + [f"rope r{n}: a{n}, a{(n + 1) % 400}" for n in range(400)]),
}  # fmt: skip


@pytest.mark.parametrize("kind", LONG)
def test_nothing_takes_long(kind: str) -> None:
    """A guard in a process of its own, generous: the time itself is bounded by the size of a text."""
    assert len(LONG[kind]) <= MOST_BYTES
    code = "import sys; from gantline.api import read; read(sys.stdin.read())"
    subprocess.run([sys.executable, "-c", code], input=LONG[kind], text=True, check=True, timeout=10)
