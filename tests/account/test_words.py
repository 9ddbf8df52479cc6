"""The words of every account of every rig: whole, true, speakable, and not those of a program."""

import re
from fractions import Fraction
from itertools import pairwise

import pytest
from saying import FILES, refused, solved, told

from gantline.account import METHODS, verdict
from gantline.account.phrases import en
from gantline.account.tags import KNOWN, STEP

each = pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
MANY = "strands|wheels|ropes|newtons|metres|kilograms|joules"


@each
def test_every_slot_is_filled_and_every_sentence_is_whole(path):
    for account in told(path):
        for step in account.steps:
            line = account.line(step)
            assert not re.search(r"[\[\]{}<>]", line), line
            assert line[0].isupper() or line[0].isdigit(), line
            assert line.rstrip()[-1] in ".?!", line
            assert "  " not in line


@each
def test_number_and_article_agree(path):
    for account in told(path):
        for step in account.steps:
            line = account.line(step).lower()
            assert not re.search(rf"(?<![\d.])\b(1|one) ({MANY})\b", line), line
            assert not re.search(r"\b(a|an|the) (a|an|the)\b", line), line
            assert not re.search(r"\ba [aeio]\w", line.replace("a one", "")), line
            assert not re.search(r"\b(\w+) \1\b", line), line


@each
def test_no_sentence_is_said_twice_in_an_account(path):
    for account in told(path):
        lines = [account.line(step) for step in account.steps]
        assert len(lines) == len(set(lines)), [line for line in lines if lines.count(line) > 1]


@each
def test_no_connective_twice_running(path):
    for account in told(path):
        firsts = [step.say.split()[0] for step in account.steps]
        for before, after in pairwise(firsts):
            assert before != after or after not in en.CONNECTIVES, after


@each
def test_steps_are_short_enough_to_be_said(path):
    for account in told(path):
        for step in account.steps:
            words = en.spoken_words(account.line(step))
            assert words <= 40, (words, account.line(step))
            assert step.seconds == pytest.approx(words / en.WORDS_A_SECOND + en.BETWEEN_STEPS, abs=0.06)


@each
def test_identifiers_and_titles_never_enter_speech(path):
    rig, _ = solved(path)
    odd = {part.name for part in rig.parts if re.search(r"[\d_]", part.name)}
    for account in told(path):
        for step in account.steps:
            words = set(re.findall(r"[\w_]+", account.line(step)))
            assert not words & odd


@each
def test_parts_of_a_step_are_parts_of_the_rig(path):
    rig, answer = solved(path)
    known = {part.name for part in rig.parts} | {rope.name for rope in rig.ropes} | {s.name for s in rig.strands}
    known |= {sheave.name for sheave in rig.sheaves} | {"hand"}
    cites = {relation.id for relation in answer.relations}
    for account in told(path):
        for step in account.steps:
            parts = {*(step.lit or ()), *step.struck, *(part for part, _ in step.marks)}
            assert parts <= known, parts - known
            assert set(step.cites) <= cites


@each
def test_a_refusal_names_a_part_of_this_rig(path):
    rig, _ = solved(path)
    names = {part.name for part in rig.parts}
    for refusal in refused(path):
        assert refusal.reason.endswith(".")
        assert len(re.findall(r"\.(?!\d)", refusal.reason)) == 1
        assert en.spoken_words(refusal.reason) <= 40, refusal.reason
        assert refusal.parts
        assert set(refusal.parts) <= names
        assert not re.search(r"invalid|not applicable|condition|[\[\]{}]", refusal.reason)


@each
def test_every_answer_has_a_sentence(path):
    sentence = verdict(*solved(path))
    assert sentence.endswith(".")
    assert not re.search(r"[\[\]{}]", sentence)


@each
def test_every_method_accepts_or_says_why_not(path):
    assert {account.method for account in told(path)} | {refusal.method for refusal in refused(path)} == set(METHODS)


def test_frames_ask_only_for_facts_there_are():
    """Tags of a step alone stand in STEP; those of the rig stand in KNOWN."""
    for frames in en.FRAMES.values():
        for step, found in frames.items():
            for frame in found:
                asked = {tag.lstrip("!") for tag in frame.when.split()}
                assert asked <= KNOWN | STEP | METHODS.keys(), (step, frame.when)


def test_every_account_ends_where_the_engine_does():
    for path in FILES:
        rig, answer = solved(path)
        ideal = answer.ideal
        right = {ideal.effort, ideal.load, answer.velocity_ratio, *(m.acceleration for m in ideal.motions), None}
        for account in told(path):
            assert account.result in right, (path.stem, account.method)
            half = account.method == "rope-length" and answer.velocity_ratio is None
            if answer.status == "holds" and rig.hand and not answer.regime("holding") and not half:
                assert account.result is not None


def test_three_hundred_and_more_sentences_are_not_one_template():
    lines = {account.line(step) for path in FILES for account in told(path) for step in account.steps}
    shapes = {re.sub(r"[\d.,]+", "0", line) for line in lines}
    assert len(lines) > 1000
    assert len(shapes) > 600
    assert Fraction(len(shapes), len(lines)) > Fraction(1, 3)
