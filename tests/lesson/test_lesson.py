"""The lesson: every number it shows is the rig's own, every caution has a source, every method has its place."""

import json
import re
from collections.abc import Collection, Iterator
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from lxml import html as parser

from gantline.account import METHODS, Account, near, turned
from gantline.lesson import Part, compose, words
from gantline.mechanics import Answer, solve
from gantline.notation import parse
from gantline.output import html, lesson_json, script
from gantline.quantity import UNITS, text
from gantline.rig import Rig, read
from gantline.sources import EXAMPLE_EFFICIENCY

SHELF = Path(__file__).resolve().parents[2] / "src" / "gantline" / "shelf"
NAMES = sorted(path.stem for path in SHELF.glob("*.rig"))
TRIED = (
    "planter", "runner-up", "burton-heavy", "luff-upon-luff", "atwood-double", "old-units", "loss-twofold",
    "effort-holds", "impossible-one-rope", "indeterminate-two-ropes", "rider-own-rope", "formula-only", "ends-on-load",
)  # fmt: skip


def shelf(name: str) -> tuple[Rig, Answer]:
    tree, problems = parse((SHELF / f"{name}.rig").read_text(encoding="utf-8"))
    rig, more = read(tree)
    assert rig is not None, (*problems, *more)
    return rig, solve(rig)


def part_of(name: str) -> Part:
    return compose([shelf(name)]).parts[0]


# -- numbers read back ------------------------------------------------------------------------------------------------

NUMBER = re.compile(r"(?<![\w.])\d+(?:\.\d+)?(?:/\d+)?")


def every(record: Any) -> Iterator[Fraction]:
    """Every exact number of a record, and every number in its formulas."""
    if isinstance(record, dict):
        for key, value in record.items():
            if key in ("exact", "formula", "residual") and isinstance(value, str):
                yield from (Fraction(found) for found in NUMBER.findall(value.replace("-", " ")))
                if key == "exact":
                    yield abs(Fraction(value))
            yield from every(value)
    elif isinstance(record, list):
        for value in record:
            yield from every(value)


def tried(record: Any) -> Iterator[Fraction]:
    """Every number of a trial's record: floats, lengths in mm too."""
    if isinstance(record, dict):
        if isinstance(record.get("value"), float):
            yield abs(Fraction(record["value"])) * (1000 if record["unit"] == "m" else 1)
        for value in record.values():
            yield from tried(value)
    elif isinstance(record, list):
        for value in record:
            yield from tried(value)


def known_numbers(part: Part) -> set[Fraction]:
    """The numbers of the answer records of a rig (the perfect one, and the one with the loss assumed), and its givens,
    in SI and in every unit its kind can be written in."""
    record = json.loads(lesson_json.write(compose([(part.rig, part.answer)]), {}))["rigs"][0]
    found = set(every(record["answer"])) | set(every(record.get("assumed_loss", {})))
    found |= set(tried(record.get("seen", {})))
    found |= {abs(value.number) for _, value in part.answer.givens if value.number is not None}
    found |= {abs(term) for check in part.answer.certificate.checks for term in check.terms}
    found |= {
        share.number for regime in part.answer.regimes if regime.work for _, share in regime.work.shares if share.number
    }
    found |= {EXAMPLE_EFFICIENCY.value, EXAMPLE_EFFICIENCY.value * 100}
    if isinstance(part.account, Account):
        found |= {abs(said.value.number) for said in part.account.values if said.value.number is not None}
    for reply in part.question.replies if part.question else ():
        found.add(Fraction(reply.number.split("\u00a0")[0].replace("−", "-")))
        found |= {Fraction(number) for number in NUMBER.findall(text(reply.formula))}  # of a wrong rule, and said so
    return found | {number / unit.factor for number in found for unit in UNITS.values()}


def rounds(shown: str, known: Collection[Fraction]) -> bool:
    """Whether the numeral is one of the numbers, or one of them rounded to its places."""
    number = Fraction(shown)
    if "/" in shown:
        return number in known
    places = len(shown.partition(".")[2])
    return any(number == value or abs(number - value) * 10**places <= Fraction(1, 2) for value in known)


def shown_numbers(root: parser.HtmlElement) -> list[str]:
    """Numbers with a unit, in formulas, and in tables of pulls; counts, step and line numbers are no quantities."""
    said = " ".join(node.text_content() for node in root.find_class("say"))
    units = "newtons?|joules?|kilograms?|metres?|N|kN|J|kg|m|lbf|kgf|m/s²"
    found = re.findall(rf"(?<![\w.])(\d+(?:\.\d+)?)[\u00a0 ](?:{units})\b", said)
    for math in root.iter("math"):
        fractions = [node for node in math.iter("mfrac") if not node.xpath(".//mi")]
        found += ["/".join(mn.text for mn in node.iter("mn")) for node in fractions if len(node.xpath(".//mn")) == 2]
        inside = {mn for node in fractions for mn in node.iter("mn")}
        found += [mn.text for mn in math.iter("mn") if mn.getparent().tag != "msub" and mn not in inside]
    for table in root.find_class("read"):
        cells = [node.text_content() for node in table.iter("td") if node.text_content() != "–"]
        found += [re.split(r"[\u00a0 ]", cell)[0].lstrip("−") for cell in cells]
    told = " ".join(node.text_content() for node in root.find_class("told"))
    found += re.findall(r"(\d+(?:\.\d+)?) (?:mm|degrees|N|lbf|kN)\b", told)
    return found


@pytest.mark.parametrize("name", TRIED)
def test_every_number_of_the_page_is_found_in_the_record(name: str) -> None:
    part = part_of(name)
    page = parser.fromstring(html.write(compose([(part.rig, part.answer)])))
    known = known_numbers(part) | {Fraction(n) for n in range(13)}  # small integers count strands and parts
    numbers = shown_numbers(page)
    assert [number for number in numbers if not rounds(number, known)] == []
    assert len(numbers) > (0 if name == "formula-only" else 3)


@pytest.mark.parametrize("name", ["planter", "burton-heavy", "old-units"])
def test_a_number_that_is_nowhere_in_the_record_would_be_found_out(name: str) -> None:
    """The test above can fail."""
    known = known_numbers(part_of(name)) | {Fraction(n) for n in range(13)}
    assert not rounds("87654.3", known)
    assert not rounds("91.7", known)


@pytest.mark.parametrize("name", TRIED)
def test_every_number_of_the_script_is_live_or_the_records(name: str) -> None:
    part = part_of(name)
    known = known_numbers(part) | {Fraction(n) for n in range(13)}
    written = script.write(compose([(part.rig, part.answer)]), {})
    listed = " ".join(line for line in written.splitlines() if line.startswith("> "))
    assert [
        n
        for n in NUMBER.findall(re.sub(r"\{\w+\}", "", listed))
        if not rounds(str(float(Fraction(n))) if "/" in n else n, known)
    ] == []


# -- the whole shelf --------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", NAMES)
def test_every_ready_rig_makes_a_lesson(name: str) -> None:
    part = part_of(name)
    assert part.title
    assert part.standfirst.endswith(".")
    told = {part.account.method, *(way.method for way in part.ways)}
    assert told == set(METHODS)
    assert all(way.refused or way.sentences for way in part.ways)
    assert part.trial.cautions
    same = [beat.scene for beat in part.beats if not beat.scene.panels and turned(part.rig, beat.step) is None]
    assert len({(scene.width, scene.height) for scene in same}) <= 1


@pytest.mark.parametrize("name", NAMES)
def test_cautions_have_sources_and_keep_people_out(name: str) -> None:
    part = part_of(name)
    assert all(caution.source and caution.says.endswith(".") for caution in part.trial.cautions)
    ids = [caution.id for caution in part.trial.cautions]
    rides = part.rig.hand is not None and part.rig.hand.rides is not None
    assert ("rider" if rides else "person") in ids
    assert ids[0] in ("rider", "person")
    assert {"under", "beam", "inspect", "small"} <= set(ids)


def test_beam_caution_names_the_force_while_raising() -> None:
    part = part_of("planter")
    assert part.trial.answer is not None
    raising = part.trial.answer.regime("raising")
    assert raising is not None
    force = near(part.rig, raising.supports[0].force)
    beam = next(caution for caution in part.trial.cautions if caution.id == "beam")
    assert force == "462\u00a0N"
    assert "462\u00a0N at the upper block while raising" in beam.says


def test_loss_of_the_file_is_used_and_an_assumed_one_is_said_to_be_assumed() -> None:
    own, assumed = part_of("loss-twofold").trial, part_of("planter").trial
    assert own.answer is None
    assert "the file" in own.intro
    assert assumed.answer is not None
    assert "Suppose" in assumed.intro
    assert "Assumed" in assumed.note
    assert [row.name for row in assumed.readings] == ["Raising", "Perfect", "Lowering"]


def test_refused_way_says_why_and_names_a_rig_where_it_works() -> None:
    for method, name in words.ELSEWHERE.items():
        rig, answer = shelf(name)
        assert METHODS[method].accepts(rig, answer).__class__.__name__ == "Yes", (method, name)
    refused = [way for way in part_of("planter").ways if way.refused]
    assert len(refused) >= 2
    assert all(way.elsewhere and not way.result for way in refused)


def test_question_knows_the_right_number_and_named_wrong_ones() -> None:
    asked = part_of("planter").question
    assert asked is not None
    assert (asked.letter, asked.number, asked.unit) == ("F", "90\u00a0N", "N")
    assert asked.low < 89.2 < 90.8 < asked.high
    assert any(reply.low < 72 < reply.high for reply in asked.replies)
    assert all(not (reply.low <= 90 <= reply.high) for reply in asked.replies)


def test_rigs_of_one_title_have_keys_of_their_own() -> None:
    rig = shelf("planter")
    assert [part.key for part in compose([rig, rig]).parts] == [
        "planter-onto-the-roof-terrace", "planter-onto-the-roof-terrace-2",
    ]  # fmt: skip


def test_lesson_over_two_rigs_says_what_they_share() -> None:
    lesson = compose([shelf("planter"), shelf("runner-up")])
    assert lesson.title == "A lesson over two rigs"
    assert "Count the strands" in lesson.moral
    assert lesson.wrong_count.replace("\u00a0", " ") == (
        "Counting the wheels gives 90 N for the planter, right by luck; 240 N for the sack, where 120 N hold it."
    )
    assert compose([shelf("planter"), shelf("atwood")]).wrong_count == ""
    assert "Count the strands" not in compose([shelf("planter"), shelf("atwood")]).moral


def test_a_worked_solution_calls_parts_as_a_tutor_does() -> None:
    solution = part_of("burton-heavy").worked
    reasons = [line.reason for line in solution.lines]
    assert "The flying block: no speeding up, so up equals down" in reasons
    assert "The long rope keeps its length" in reasons
    assert ("flying block", "w = 24 N") in solution.given
    assert "Pull on both sides of 4 wheels" in [check.name for check in part_of("planter").worked.checks]
