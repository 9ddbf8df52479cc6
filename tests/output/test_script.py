"""The script: a tutor's sentences are kept, on the page and in the text, with their numbers live."""

from pathlib import Path

import pytest
from lxml import html
from ready import shelf, solved

from gantline.output import script
from gantline.output.lesson_folder import Made, build

RUNNER = """title Flour up through the hatch
fixed ring
moving runner sheaves 1, weight 16 N, carries sack
load sack weight {weight} N
rope fall: ring, under runner, hand
raise sack 3 m
"""


def edit(folder: Path, old: str, new: str) -> None:
    file = folder / "script.md"
    text = file.read_text(encoding="utf-8")
    assert old in text
    file.write_text(text.replace(old, new), encoding="utf-8")


def sentence(folder: Path, step: str) -> str:
    return script.read((folder / "script.md").read_text(encoding="utf-8"))["flour-up-through-the-hatch", step].say


def make(folder: Path, weight: int = 224) -> Made:
    return build([solved(RUNNER.format(weight=weight))], folder)


def said_on_page(folder: Path) -> str:
    return " ".join(
        html.fromstring((folder / "index.html").read_text(encoding="utf-8")).xpath("//p[@class='say']/text()")
    )


def test_script_has_every_step_with_live_numbers(folder: Path) -> None:
    text = (folder / "script.md").read_text(encoding="utf-8")
    page = html.fromstring((folder / "index.html").read_text(encoding="utf-8"))
    assert len(script.read(text)) == len(page.find_class("step"))
    assert "{" in script.read(text)["planter-onto-the-roof-terrace", "solve"].say


def test_edited_sentence_is_kept_and_used_and_its_number_follows_the_rig(tmp_path: Path) -> None:
    make(tmp_path / "lesson")
    edit(tmp_path / "lesson", sentence(tmp_path / "lesson", "solve"), "So you pull with {F}, says the old porter & co.")
    made = make(tmp_path / "lesson")
    assert made.kept == ()
    assert "So you pull with 120 newtons, says the old porter & co." in said_on_page(tmp_path / "lesson")
    make(tmp_path / "lesson", weight=144)
    assert "So you pull with 80 newtons, says the old porter & co." in said_on_page(tmp_path / "lesson")
    assert sentence(tmp_path / "lesson", "solve") == "So you pull with {F}, says the old porter & co."


def test_number_that_the_account_has_not_is_a_problem_and_no_crash(tmp_path: Path) -> None:
    make(tmp_path / "lesson")
    before = sentence(tmp_path / "lesson", "solve")
    edit(tmp_path / "lesson", before, "You pull with {pull}.")
    made = make(tmp_path / "lesson")
    (problem,) = made.problems
    assert problem.code == "script-slot-unknown"
    assert "{pull}" in problem.says
    assert (tmp_path / "lesson/script.md").read_text(encoding="utf-8").splitlines()[
        problem.place.line - 1
    ] == problem.text
    assert problem.text[problem.place.column - 1 :].startswith("{pull}")
    assert sentence(tmp_path / "lesson", "solve") == "You pull with {pull}."
    assert "{pull}" not in said_on_page(tmp_path / "lesson")


@pytest.mark.parametrize("bad", ["{", "}", "{}", "{0}", "{F.number}", "{F!r:>9}", "{F[0]}", "a { b } c", "{F", "{{F}"])
def test_odd_braces_are_problems_and_no_crash(tmp_path: Path, bad: str) -> None:
    make(tmp_path / "lesson")
    edit(tmp_path / "lesson", sentence(tmp_path / "lesson", "solve"), f"You pull {bad} now.")
    made = make(tmp_path / "lesson")
    assert [problem.code for problem in made.problems] == ["script-slot-unknown"]


def test_tutors_own_notes_are_never_written_over(tmp_path: Path) -> None:
    make(tmp_path / "lesson")
    with (tmp_path / "lesson/script.md").open("a", encoding="utf-8") as file:
        file.write("\nRemember to bring the long rope.\n")
    made = make(tmp_path / "lesson")
    assert [kept.beside for kept in made.kept] == ["script.new.md"]
    assert "long rope" in (tmp_path / "lesson/script.md").read_text(encoding="utf-8")


def test_sentence_over_several_lines_is_one(tmp_path: Path) -> None:
    make(tmp_path / "lesson")
    edit(tmp_path / "lesson", sentence(tmp_path / "lesson", "solve"), "You pull\nwith {F}.")
    make(tmp_path / "lesson")
    assert "You pull with 120 newtons." in said_on_page(tmp_path / "lesson")


def test_folder_built_again_is_the_same_to_the_byte(tmp_path: Path) -> None:
    rigs = [shelf("gun-up"), shelf("single-fixed")]
    first = build(rigs, tmp_path / "one").page.parent
    build(rigs, tmp_path / "two")
    before = {path.name: path.read_bytes() for path in first.rglob("*") if path.is_file()}
    build(rigs, tmp_path / "one")
    for folder in ("one", "two"):
        assert {path.name: path.read_bytes() for path in (tmp_path / folder).rglob("*") if path.is_file()} == before


def test_unreadable_leftovers_of_an_earlier_build_are_no_obstacle(tmp_path: Path) -> None:
    make(tmp_path / "lesson")
    (tmp_path / "lesson/lesson.json").write_bytes(b"\xff{")
    (tmp_path / "lesson/script.md").write_bytes(b"\xff\xfe[meet]\n{\nmine")
    made = make(tmp_path / "lesson")
    assert {kept.file for kept in made.kept} == {"lesson.json", "script.md"}
