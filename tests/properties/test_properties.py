"""What must be true of every rig, on thousands of generated ones. The draws are the same on every run."""

import json
import sys
from fractions import Fraction
from pathlib import Path

import msgspec
from hypothesis import given, reject, settings
from hypothesis import strategies as st

sys.path.insert(0, str(Path(__file__).parent))

from sketches import Sketch, hauled, sketches, tackles, tangles

from gantline.account import Refusal, accounts, verdict
from gantline.mechanics import Answer, solve
from gantline.notation import Remark, Tree, parse, tidy
from gantline.output.record import answer_record
from gantline.rig import Rig, read

STATUSES = {"holds", "accelerates", "indeterminate", "impossible", "slack"}
MANY, SOME, FEW = 400, 200, 100


def rig_from(text: str) -> Rig:
    """The rig of a text; a draw that is no rig is thrown away."""
    tree, problems = parse(text)
    assert not problems, (text, problems)
    rig, more = read(tree)
    if rig is None or more:
        reject()
    return rig


def answered(sketch: Sketch, **how) -> Answer:
    return solve(rig_from(sketch.text(**how)))


def number(value):
    return None if value is None else value.number


def digest(answer: Answer, back=lambda name: name, flipped: bool = False) -> dict:
    """Everything an answer says in numbers, by the names of the parts; `flipped` counts strands from the other end."""
    lengths: dict[str, int] = {}
    for pull in answer.ideal.strands:
        lengths[pull.rope] = max(lengths.get(pull.rope, 0), pull.index)
    said: dict = {
        "status": answer.status, "ratio": number(answer.velocity_ratio), "aim": answer.aim and back(answer.aim),
        "freedoms": answer.freedoms, "helps": frozenset(map(back, answer.helps)),
        "travel": {back(name): number(way) for name, way in answer.travel},
    }  # fmt: skip
    for regime in answer.regimes:
        said[regime.way] = {
            "effort": number(regime.effort), "gain": number(regime.mechanical_advantage), "load": number(regime.load),
            "efficiency": number(regime.efficiency),
            "pulls": {
                (back(p.rope), lengths[p.rope] + 1 - p.index if flipped else p.index): number(p.tension)
                for p in regime.strands
            },
            "supports": {back(s.name): (number(s.force), number(s.sideways)) for s in regime.supports},
            "motions": {back(m.name): (number(m.per_hand), number(m.acceleration)) for m in regime.motions},
            "work": regime.work and (number(regime.work.put_in), number(regime.work.out), number(regime.work.lost)),
        }  # fmt: skip
    return said


@settings(max_examples=MANY)
@given(sketches)
def test_every_answer_is_certified_exactly(sketch):
    answer = answered(sketch)
    assert answer.status in STATUSES
    assert answer.certificate.largest_residual == 0
    if answer.status in {"holds", "accelerates"}:
        assert answer.certificate.checks
        assert all(number(pull.tension) >= 0 for pull in answer.ideal.strands)


@settings(max_examples=MANY)
@given(tangles())
def test_tangles_are_certified_exactly(sketch):
    assert answered(sketch).certificate.largest_residual == 0


@settings(max_examples=SOME)
@given(sketches)
def test_other_names_change_no_answer(sketch):
    new = sketch.renamed(lambda name: f"z_{name[::-1]}")
    assert digest(answered(new), lambda name: name if name == "hand" else name[2:][::-1]) == digest(answered(sketch))


@settings(max_examples=SOME)
@given(sketches, st.integers(0, 99))
def test_order_of_statements_changes_no_answer(sketch, order):
    assert digest(answered(sketch, order=order)) == digest(answered(sketch))


@settings(max_examples=SOME)
@given(sketches)
def test_reading_a_rope_from_its_other_end_changes_no_answer(sketch):
    assert digest(answered(sketch.reversed()), flipped=True) == digest(answered(sketch))


@settings(max_examples=SOME)
@given(sketches)
def test_other_units_change_no_answer(sketch):
    assert digest(answered(sketch, other_units=True)) == digest(answered(sketch))


@settings(max_examples=SOME)
@given(sketches, st.sampled_from((2, 3, 10)))
def test_twice_the_weights_twice_the_pulls(sketch, factor):
    once, more = answered(sketch), answered(sketch.scaled(factor))
    assert (once.status, once.velocity_ratio, once.travel) == (more.status, more.velocity_ratio, more.travel)
    for before, after in zip(once.regimes, more.regimes, strict=True):
        assert before.way == after.way
        grown = [None if p.tension is None else p.tension.number * factor for p in before.strands]
        assert [number(p.tension) for p in after.strands] == grown
        assert [number(m.acceleration) for m in after.motions] == [number(m.acceleration) for m in before.motions]


@settings(max_examples=SOME)
@given(sketches)
def test_wheels_of_a_hundred_per_cent_are_ideal(sketch):
    without = digest(answered(sketch.with_efficiency(None)))
    whole = digest(answered(sketch.with_efficiency(Fraction(100))))
    assert {key: whole[key] for key in without} == without
    for way in ("raising", "lowering"):
        assert whole.get(way, whole["ideal"])["pulls"] == whole["ideal"]["pulls"]


def pushes(regime) -> bool:
    """Whether a way of running is none, as a rope would have to push."""
    return regime is None or any(number(pull.tension) < 0 for pull in regime.strands)


@settings(max_examples=SOME)
@given(hauled, st.fractions(min_value=40, max_value=99, max_denominator=3))
def test_lowering_takes_less_than_ideal_and_raising_more(sketch, efficiency):
    answer = answered(sketch.with_efficiency(efficiency))
    raising, lowering = answer.regime("raising"), answer.regime("lowering")
    if answer.status != "holds" or any(pushes(regime) for regime in (raising, lowering)):
        return  # slack, or so much loss that it jams: no pull raises it, or it does not run back
    low, ideal, high = (number(r.effort) for r in (lowering, answer.ideal, raising))
    assert low <= ideal <= high if answer.velocity_ratio.number > 0 else low >= ideal >= high
    if raising.work:
        assert raising.work.lost.number >= 0


@settings(max_examples=SOME)
@given(tackles())
def test_effort_times_way_is_the_work_of_all_weights(sketch):
    answer = answered(sketch.with_efficiency(None))
    work = answer.ideal.work
    if work is None or work.put_in is None:
        return
    assert work.put_in.number == work.out.number == sum(share.number for _, share in work.shares)


def placeless(tree: Tree) -> object:
    """A tree without the places of its words, and without how it is broken into lines."""

    def strip(value):
        if isinstance(value, dict):
            return {key: strip(entry) for key, entry in value.items() if key not in {"place", "comments_within"}}
        return [strip(entry) for entry in value] if isinstance(value, list | tuple) else value

    items = [item for item in tree.items if not (isinstance(item, Remark) and item.comment is None)]
    return strip(msgspec.to_builtins(items, builtin_types=(Fraction,), enc_hook=str))


@settings(max_examples=MANY)
@given(sketches, st.integers(0, 99), st.booleans())
def test_tidying_says_the_same(sketch, order, other_units):
    tree, _ = parse(sketch.text(order=order, other_units=other_units))
    tidied = tidy(tree)
    again, problems = parse(tidied)
    assert not problems
    assert placeless(again) == placeless(tree)
    assert tidy(again) == tidied


@settings(max_examples=FEW)
@given(sketches)
def test_every_accepted_account_agrees_with_the_engine(sketch):
    rig = rig_from(sketch.text())
    answer = solve(rig)
    ideal = answer.ideal
    right = {number(v) for v in (ideal.effort, ideal.load, answer.velocity_ratio, dict(answer.travel).get("hand"))}
    right |= {number(m.acceleration) for m in ideal.motions} | {number(p.tension) for p in ideal.strands}
    told = accounts(rig, answer)
    assert {one.method for one in told} == {
        "count", "free-body", "carry", "rope-length", "work", "stages", "newton"
    }  # fmt: skip
    for account in told:
        if isinstance(account, Refusal):
            assert account.reason
        elif account.result is not None:
            assert account.result.number in right, account.method


@settings(max_examples=SOME)
@given(sketches)
def test_the_record_survives_json(sketch):
    rig = rig_from(sketch.text())
    answer = solve(rig)
    record = answer_record(rig, answer, verdict(rig, answer))
    assert json.loads(json.dumps(record, allow_nan=False)) == record
    for regime in answer.regimes:
        strands = record["regimes"][regime.way]["strands"]
        for pull, written in zip(regime.strands, strands, strict=True):
            assert (pull.tension is None) == (written["tension"] is None)
            if pull.tension is not None:
                assert Fraction(written["tension"]["exact"]) == pull.tension.number
