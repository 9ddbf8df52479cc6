"""The script: a tutor's sentences are kept, on the page and in the text, with their numbers live."""

from pathlib import Path

import pytest
from lxml import html
from ready import SHELF, shelf, solved

from gantline.account import Account, explain
from gantline.film import board
from gantline.output import film_acts, lesson_json, script
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


def sentences(folder: Path) -> dict[str, str]:
    return {line.step: line.say for line in script.read((folder / "script.md").read_text(encoding="utf-8"))}


def sentence(folder: Path, step: str) -> str:
    return sentences(folder)[step]


def make(folder: Path, weight: int = 224) -> Made:
    return build([solved(RUNNER.format(weight=weight))], folder)


def said_on_page(folder: Path) -> str:
    return " ".join(
        html.fromstring((folder / "index.html").read_text(encoding="utf-8")).xpath("//p[@class='say']/text()")
    )


def test_script_has_every_step_with_live_numbers(folder: Path) -> None:
    text = (folder / "script.md").read_text(encoding="utf-8")
    page = html.fromstring((folder / "index.html").read_text(encoding="utf-8"))
    lines = script.read(text)
    assert len({(line.rig, line.step) for line in lines}) == len(lines) == len(page.find_class("step"))
    assert "{" in next(line.say for line in lines if line.step == "solve")


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


# -- steps of one id --------------------------------------------------------------------------------------------------

TWO_WEIGHTS = """title Sack against bag
fixed top sheaves 1
load sack mass {sack} kg
load bag mass 3 kg
rope line: sack, over top, bag
"""


def weighed(folder: Path, sack: str = "2") -> Made:
    return build([solved(TWO_WEIGHTS.format(sack=sack))], folder)


def test_two_steps_of_one_id_are_edited_apart_and_keep_their_sentences_when_numbers_change(tmp_path: Path) -> None:
    there = tmp_path / "lesson"
    weighed(there)
    assert {"newton:sack", "newton:bag"} <= sentences(there).keys()
    edit(there, sentence(there, "newton:sack"), "Now the sack alone.")
    edit(there, sentence(there, "newton:bag"), "And now the bag alone.")
    for sack in ("2", "5"):
        made = weighed(there, sack)
        assert (made.kept, made.problems) == ((), ())
        said = [step.text for step in html.fromstring((there / "index.html").read_bytes()).xpath("//p[@class='say']")]
        assert said.index("And now the bag alone.") == said.index("Now the sack alone.") + 1
    assert sentence(there, "newton:bag") == "And now the bag alone."


def test_headings_of_an_older_script_belong_to_their_steps_in_order(tmp_path: Path) -> None:
    there = tmp_path / "lesson"
    weighed(there)
    edit(there, sentence(there, "newton:sack"), "Now the sack alone.")
    edit(there, sentence(there, "newton:bag"), "And now the bag alone.")
    for name, key in (("script.md", "[newton:{}]"), ("lesson.json", '"key": "newton:{}",')):
        text = (there / name).read_text(encoding="utf-8")
        for part in ("sack", "bag"):
            assert key.format(part) in text
            text = text.replace(key.format(part), "[newton]" if name == "script.md" else "")
        (there / name).write_text(text, encoding="utf-8")
    made = weighed(there)
    assert made.problems == ()
    assert (sentence(there, "newton:sack"), sentence(there, "newton:bag")) == (
        "Now the sack alone.",
        "And now the bag alone.",
    )


def test_every_ready_rig_has_a_heading_of_its_own_for_every_step() -> None:
    for name in sorted(path.stem for path in SHELF.glob("*.rig")):
        account = explain(*shelf(name))
        if isinstance(account, Account):
            assert len(set(account.keys)) == len(account.keys), name
            assert all(script.read(f"## x {{#x}}\n[{key}]\nwords")[0].step == key for key in account.keys), name


# -- sentences whose step has gone ------------------------------------------------------------------------------------


def test_sentence_whose_step_has_gone_is_told_and_kept_and_said_again_when_it_returns(tmp_path: Path) -> None:
    there = tmp_path / "lesson"
    weighed(there)
    edit(there, sentence(there, "newton:sack"), "Now the sack alone.")
    for _ in range(2):
        made = weighed(there, "3")  # in balance: nothing speeds up, and nothing is said of Newton
        assert [problem.code for problem in made.problems] == ["script-step-gone"]
        assert "[newton:sack]" in made.problems[0].says
        assert made.kept == ()
        assert sentence(there, "newton:sack") == "Now the sack alone."
        assert "newton:bag" not in sentences(there), "what the program said itself goes with its step"
        lines = (there / "script.md").read_text(encoding="utf-8").splitlines()
        assert lines[made.problems[0].place.line - 1] == "Now the sack alone."
        assert "Now the sack alone." not in said_on_page(there)
    assert weighed(there).problems == ()
    assert "Now the sack alone." in said_on_page(there)
    assert "Kept" not in (there / "script.md").read_text(encoding="utf-8")


def test_sentences_of_a_rig_that_is_called_otherwise_now_are_told_once_and_kept(tmp_path: Path) -> None:
    there = tmp_path / "lesson"
    make(there)
    edit(there, sentence(there, "solve"), "You pull with {F}.")
    edit(there, sentence(there, "meet"), "Here is a sack.")
    made = build([solved(RUNNER.format(weight=224).replace("Flour up", "Flour"))], there)
    (problem,) = made.problems
    assert problem.code == "script-rig-gone"
    assert "2 sentences" in problem.says
    assert "{#flour-through-the-hatch}" in problem.do
    text = (there / "script.md").read_text(encoding="utf-8")
    assert text.endswith("{#flour-up-through-the-hatch}\n\n[meet]\nHere is a sack.\n\n[solve]\nYou pull with {F}.\n")


def test_second_sentence_for_one_step_is_told_and_kept(tmp_path: Path) -> None:
    there = tmp_path / "lesson"
    make(there)
    edit(there, sentence(there, "solve"), "You pull with {F}.\n\n[solve]\nOr so.")
    made = make(there)
    assert [problem.code for problem in made.problems] == ["script-step-twice"]
    assert "You pull with 120 newtons." in said_on_page(there)
    assert "Or so." in (there / "script.md").read_text(encoding="utf-8")


# -- the film says the same script ------------------------------------------------------------------------------------


def test_film_says_each_sentence_at_its_own_step_and_tells_of_those_it_cannot(tmp_path: Path) -> None:
    there = tmp_path / "lesson"
    weighed(there)
    edit(there, sentence(there, "newton:bag"), "And now the bag alone.")
    text = (there / "script.md").read_text(encoding="utf-8")
    acts = film_acts.acts([solved(TWO_WEIGHTS.format(sack="2"))])
    words, problems = film_acts.words(acts, text)
    assert (words, problems) == ({("sack-against-bag", "newton:bag"): "And now the bag alone."}, ())
    says = {shot.id: shot.says for shot in board(acts, words).shots}
    assert says["sack-against-bag/newton:bag"] == "And now the bag alone."
    assert says["sack-against-bag/newton:sack"] != "And now the bag alone."

    still = film_acts.acts([solved(TWO_WEIGHTS.format(sack="3"))])
    built = lesson_json.built((there / "lesson.json").read_bytes())
    words, problems = film_acts.words(still, text, built)
    assert ("sack-against-bag", "newton:bag") not in words
    assert [problem.code for problem in problems] == ["script-step-gone"]


def test_film_of_one_rig_of_a_lesson_is_silent_about_the_others_unless_its_own_part_is_missing() -> None:
    text = "## a {#sack-against-bag}\n[meet]\nHere.\n## b {#other}\n[meet]\nThere.\n"
    acts = film_acts.acts([solved(TWO_WEIGHTS.format(sack="2"))])
    assert film_acts.words(acts, text)[1] == ()
    (problem,) = film_acts.words(acts, text.replace("{#sack-against-bag}", "{#sack}"))[1][:1]
    assert problem.code == "script-rig-gone"
