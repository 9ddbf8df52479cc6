"""A kit is read whole or not at all: broken in many ways, it says what is wrong, where, why, and what to do."""

import ast
import re
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from planned import SHELF, SMALL

from gantline.bench import read_kit

ROOT = Path(__file__).resolve().parents[2]
BENCH = ROOT / "src" / "gantline" / "bench"


def without(line: str) -> str:
    return SMALL.replace(f"{line}\n", "")


def with_(line: str, new: str) -> str:
    assert line in SMALL
    return SMALL.replace(line, new, 1)


BROKEN = {
    "not-toml": ("title = \n" + SMALL, "kit-not-toml", 1),
    "not-closed": (with_('"ten"', '"ten'), "kit-not-toml", 12),
    "key-twice": (with_('span = "10 N"', 'span = "10 N"\nspan = "5 N"'), "kit-not-toml", 14),
    "no-stand": (SMALL.replace('[stand]\nheight = "1.6 m"\n', ""), "kit-table-missing", 14),
    "no-mass": (SMALL.replace("[[mass]]", "[[block]]").replace("count = 4", 'count = 4\nsheaves = 1\nradius = "18 mm"'),
                "kit-table-missing", 18),
    "stand-as-list": (with_("[stand]", "[[stand]]"), "kit-shape", 2),
    "mass-alone": (with_("[[mass]]", "[mass]"), "kit-shape", 4),
    "title-of-lines": (with_('"Small kit"', '"Small\\nkit"'), "kit-text-unreadable", 1),
    "name-too-long": (with_('"bag"', f'"{"b" * 61}"'), "kit-text-unreadable", 5),
    "name-hidden": (with_('"bag"', '"b\\u202eag"'), "kit-text-unreadable", 5),
    "key-unknown": (SMALL + 'colour = "red"\n', "kit-key-unknown", 16),
    "table-unknown": (SMALL + "[[ladder]]\n", "kit-key-unknown", 16),
    "height-missing": (without('height = "1.6 m"'), "kit-key-missing", 2),
    "weight-missing": (without('weight = "0.5 N"'), "kit-key-missing", 11),
    "count-of-none": (with_("count = 4", "count = 0"), "kit-count-unreadable", 7),
    "count-in-quotes": (with_("count = 4", 'count = "4"'), "kit-count-unreadable", 7),
    "count-true": (with_("count = 4", "count = true"), "kit-count-unreadable", 7),
    "bare-number": (with_('"1.6 m"', "1.6"), "kit-value-unreadable", 3),
    "letter-alone": (with_('"1.6 m"', '"H"'), "kit-value-unreadable", 3),
    "over-lines": (with_('"1.6 m"', '"""\n1.6 m"""'), "kit-value-unreadable", 3),
    "tared-maybe": (SMALL + 'tared = "yes"\n', "kit-value-unreadable", 16),
    "no-unit": (with_('"500 g"', '"500"'), "unit-missing", 6),
    "unit-unknown": (with_('"500 g"', '"500 grams"'), "no-such-unit", 6),
    "unit-of-weight": (with_('"500 g"', '"5 N"'), "unit-of-another-kind", 6),
    "comma": (with_('"1.6 m"', '"1,6 m"'), "comma-in-number", 3),
    "no-number": (with_('"10 N"', '"ten N"'), "something-left-over", 13),
    "below-zero": (with_('"10 N"', '"-10 N"'), "not-positive", 13),
    "by-zero": (with_('"10 N"', '"1/0 N"'), "division-by-zero", 13),
    "long-number": (with_('"10 N"', f'"{"1" * 41} N"'), "number-too-long", 13),
    "huge": (with_('"10 N"', '"1e99 N"'), "number-too-large", 13),
    "name-twice": (SMALL + '[[mass]]\nname = "bag"\nmass = "1 kg"\n', "kit-name-twice", 17),
    "too-coarse": (with_('"0.2 N"', '"10 N"'), "kit-scale-too-coarse", 14),
    "rated-by-nobody": (with_('"1.6 m"', '"1.6 m"\nrated = "200 N"'), "kit-rating-incomplete", 4),
    "named-not-rated": (with_('"1.6 m"', '"1.6 m"\nrated_by = "me"'), "kit-rating-incomplete", 4),
    "limit-unrated": (with_('"1.6 m"', '"1.6 m"\nlimit = "12 kg"'), "kit-limit-unrated", 4),
    "too-many": (SMALL + '[[mass]]\nname = "more"\nmass = "1 g"\n' * 41, "kit-too-many", 133),
    "too-large": ("#" * 70_000, "kit-too-large", 1),
}  # fmt: skip


@pytest.mark.parametrize("name", BROKEN)
def test_a_broken_kit_says_what_and_where(name: str) -> None:
    text, code, line = BROKEN[name]
    kit, problems = read_kit(text.encode())
    assert kit is None
    assert [(problem.code, problem.place.line) for problem in problems] == [(code, line)]
    for problem in problems:
        assert problem.says
        assert problem.why
        assert problem.do.endswith((".", "?"))
        shown = problem.text[problem.place.column - 1 :][: problem.place.length]
        assert shown or problem.place.column <= len(problem.text) + 1


def test_bytes_that_are_not_utf8() -> None:
    kit, (problem,) = read_kit(SMALL.encode() + b"# \xff\n")
    assert kit is None
    assert (problem.code, problem.place.line) == ("kit-not-utf8", 16)


def test_all_problems_are_told_together_and_near_names_are_offered() -> None:
    text = with_("division", "divison").replace('"500 g"', '"500"').replace('"1.6 m"', '"1.6 kg"')
    _, problems = read_kit(text.encode())
    assert [problem.place.line for problem in problems] == [3, 6, 11, 14]
    assert "`division`" in problems[-1].do


def test_a_byte_order_mark_and_the_line_ends_of_other_systems_are_read() -> None:
    kit, problems = read_kit(b"\xef\xbb\xbf" + SMALL.replace("\n", "\r\n").encode())
    assert problems == ()
    assert kit is not None
    assert kit.masses[0].count == 4


def test_the_sample_is_marked_as_invented_and_reads() -> None:
    text = (SHELF / "kit.toml").read_text(encoding="utf-8")
    assert text.startswith("# Invented for teaching")
    assert read_kit(text.encode())[1] == ()


def noted() -> set[str]:
    """Every code that the reader of kits can note."""
    texts = (
        node.value
        for path in BENCH.glob("*.py")
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.Constant) and isinstance(node.value, str)
    )
    return {text for text in texts if re.fullmatch(r"(?:kit|bench)(?:-[a-z0-9]+)+", text)}


def test_every_code_is_produced_and_documented() -> None:
    page = (ROOT / "docs" / "bench.md").read_text(encoding="utf-8")
    documented = set(re.findall(r"^\| `((?:kit|bench)-[a-z0-9-]+)` \| \w", page, re.MULTILINE))
    assert documented == noted()
    kit = {code for code in noted() if code.startswith("kit-")}
    assert kit <= {code for _, code, _ in BROKEN.values()} | {"kit-not-utf8"}


def test_every_key_of_a_kit_is_documented() -> None:
    from gantline.bench.fields import TABLES

    example = (ROOT / "docs" / "bench.md").read_text(encoding="utf-8").split("```toml\n")[1].split("```")[0]
    assert read_kit(example.encode())[1] == ()
    for table, fields in TABLES.items():
        body = example.split(f"[{table}]")[1].split("\n[")[0]
        assert {key for key in fields if re.search(rf"^{key} *=", body, re.MULTILINE)} == set(fields)


SIGNS = ["", '"', "[", "=", "\n", "é", "9", "N", "#", "{", "\\"]


@settings(max_examples=150)
@given(st.integers(0, len(SMALL) - 1), st.sampled_from(SIGNS), st.booleans())
def test_a_kit_mangled_anywhere_never_ends_in_a_traceback(at: int, new: str, over: bool) -> None:
    text = SMALL[:at] + new + SMALL[at + over :]
    kit, problems = read_kit(text.encode())
    assert (kit is None) == bool(problems)


@settings(max_examples=60)
@given(st.binary(max_size=200))
def test_no_bytes_end_in_a_traceback(data: bytes) -> None:
    assert read_kit(data)[1]


def test_a_comma_in_a_kit_has_a_reason_of_its_own() -> None:
    (problem,) = read_kit(with_('"1.6 m"', '"1,6 m"').encode())[1]
    assert (problem.code, problem.place.line, problem.place.column) == ("comma-in-number", 3, 12)
    assert "attribute" not in problem.why
    assert problem.do == 'write "1.6 m" for a decimal, and thousands without a separator.'
