"""Making by hand: what is offered, what text comes of it, and that only the characters concerned change."""

import random
from contextlib import suppress

import pytest
from handmade import IN_THE_MAKING, SHELF, as_people_write, codes, comments
from hypothesis import given, settings
from hypothesis import strategies as st

from gantline import api
from gantline.figure import NotDrawable, draw
from gantline.loft.making import FROM_NOTHING, draft, edit, offers, tag
from gantline.notation import Statement, parse
from gantline.output.record import written as formula
from gantline.rig import Rig

TWOFOLD = ("upper", "under lower.1", "over upper.1", "under lower.2", "over upper.2", "hand")
VALUES = {"weight": "37.5 N", "mass": "4 kg", "efficiency": "90 %", "radius": "40 mm", "spacing": "90 mm"}


def led(text: str, *ids: str, rope: str = "") -> str:
    """The text after leading a rope from place to place, each of them offered."""
    for id in ids:
        offered = offers(text, rope)
        assert offered is not None
        assert id in [place.id for place in offered.places], (id, offered.places)
        done = edit(text, {"do": "take", "rope": offered.rope, "place": id})
        assert not done.refused
        text, rope = done.text, done.rope
    return text


def effort(text: str) -> str:
    rig, problems = api.read(text)
    assert rig is not None, problems
    found = api.solve(rig).answer.ideal.effort
    assert found is not None
    return formula(found.formula)


def test_a_twofold_tackle_from_nothing_in_six_contacts() -> None:
    text = led(FROM_NOTHING, *TWOFOLD)
    assert text == (
        "fixed    upper   sheaves 2\n"
        "moving   lower   sheaves 2, carries sack\n"
        "load     sack    weight W\n"
        "rope     fall:   upper, under lower.1, over upper.1, under lower.2, over upper.2, hand\n"
    )
    assert effort(text) == "W/4"


def test_the_first_place_is_always_the_next_of_a_plain_tackle() -> None:
    text, rope = FROM_NOTHING, ""
    for id in TWOFOLD[:-1]:
        offered = offers(text, rope)
        assert offered is not None
        assert offered.places[0].id == id
        done = edit(text, {"do": "take", "rope": offered.rope, "place": id})
        text, rope = done.text, done.rope


def test_a_single_burton_from_nothing_with_its_ropes_named_for_what_they_do() -> None:
    text = led(led(FROM_NOTHING, "sack", "over upper.1", "mid"), "sack", "over mid.1", "hand")
    assert "rope     lift:   sack, over upper.1, mid\n" in text
    assert "rope     fall:   sack, over mid.1, hand\n" in text
    assert effort(text) == "W/3"


def test_places_come_in_their_stated_order() -> None:
    started = offers(FROM_NOTHING)
    assert started is not None
    assert [place.id for place in started.places] == ["upper", "beam", "sack", "lower"]
    text = led(FROM_NOTHING, *TWOFOLD[:4])
    wheels = edit(text, {"do": "add-sheave", "part": "upper"}).text
    found = offers(wheels, "fall")
    assert found is not None
    assert [(p.group, p.id) for p in found.places if p.group != "more"] == [
        ("wheel", "over upper.2"), ("sheave", "over upper.3"), ("hand", "hand"), ("fast", "upper"), ("fast", "beam"),
    ]  # fmt: skip
    assert found.says == "under lower.2. Rope goes up. 5 places."
    assert found.places[0].pull == "F = W/4"
    assert "upper.1 already carries fall. A groove takes one rope" in next(
        c.why for c in found.closed if c.id == "upper.1"
    )


def test_a_level_run_and_a_rider_stand_among_more_places_with_their_sentence() -> None:
    found = offers(led(SHELF["level-lead"].replace("beam, under runner, over top, over yard, hand", "beam"),
                       "under runner.1", "over top.1", rope="fall"), "fall")  # fmt: skip
    assert found is not None
    more = {place.id: place.why for place in found.places if place.group == "more"}
    assert "turns the rope and lifts nothing" in more["over yard.1"]
    assert "Never try it with a person" in more["hand at nets"]


@pytest.mark.parametrize("name", sorted(SHELF))
def test_every_rope_of_the_shelf_can_be_led_by_pointing(name: str) -> None:
    """Each rope taken out to its first contact and led again, place by place, gives the same rig."""
    text = SHELF[name]
    for rope in (item for item in parse(text)[0].items if isinstance(item, Statement) and item.keyword.text == "rope"):
        assert rope.name
        if rope.contacts[0].part is None:
            continue
        ids = [
            f"{c.side.text} {c.part.text}.{c.sheave or 1}" if c.side and c.part else c.part.text if c.part
            else f"hand at {c.at.text}" if c.at else "hand" for c in rope.contacts
        ]  # fmt: skip
        out = edit(text, {"do": "out", "strand": f"{rope.name.text}:1"})
        again = led(out.text, *ids[1:], rope=rope.name.text)
        one, other = (api.read(each)[0] for each in (text, again))
        assert isinstance(one, Rig)
        assert isinstance(other, Rig)
        assert [[c.name for c in r.contacts] for r in one.ropes] == [[c.name for c in r.contacts] for r in other.ropes]


@settings(max_examples=15, deadline=None)
@given(seed=st.integers(0, 10**6))
def test_wherever_a_rope_is_led_the_rig_stays_lawful_and_can_be_drawn(seed: int) -> None:
    chance, text = random.Random(seed), FROM_NOTHING
    for _ in range(7):
        found = offers(text)
        assert found is not None, text
        place = chance.choice(found.places)
        done = edit(text, {"do": "take", "rope": found.rope, "place": place.id})
        assert not done.refused
        assert codes(done.text) <= IN_THE_MAKING
        rig, _ = api.read(done.text)
        drawn = draft(done.text)
        with suppress(NotDrawable):  # a lawful rig may have no figure; nothing else may go wrong
            assert drawn is None or drawn.scene.marks
            assert rig is None or draw(rig, api.solve(rig).answer).marks
        if not done.ended:
            back = edit(done.text, {"do": "back", "rope": done.rope})
            assert codes(back.text) <= IN_THE_MAKING
        text = done.text


def wishes(text: str, chance: random.Random) -> dict[str, object]:
    """Any edit that a text lets one wish for."""
    statements = [item for item in parse(text)[0].items if isinstance(item, Statement) and item.name]
    parts = [s for s in statements if s.keyword.text in ("fixed", "moving", "load")]
    ropes = [s for s in statements if s.keyword.text == "rope"]
    part, rope = chance.choice(parts).name, chance.choice(ropes)
    assert part
    assert rope.name
    strand = f"{rope.name.text}:{chance.randint(1, len(rope.contacts) - 1)}"
    key = chance.choice(list(VALUES))
    return chance.choice([
        {"do": "set", "target": f"{part.text}.{key}", "value": chance.choice((VALUES[key], f"q = {VALUES[key]}", ""))},
        {"do": "set", "target": "title", "value": "Another title"},
        {"do": "set", "target": "gravity", "value": "9.8 m/s2"},
        {"do": "raise", "part": part.text, "value": "0.7 m"}, {"do": "rename", "part": part.text, "to": "renamed"},
        {"do": "rename", "part": rope.name.text, "to": "renamed"}, {"do": "remove", "part": part.text},
        {"do": "remove", "part": f"{part.text}.1"}, {"do": "remove", "part": "hand"},
        {"do": "remove", "part": rope.name.text},
        {"do": "add-sheave", "part": part.text}, {"do": "take-sheave", "part": part.text},
        {"do": "add-block", "kind": chance.choice(("fixed", "moving"))}, {"do": "hang-load"},
        {"do": "hang-load", "part": part.text}, {"do": "out", "strand": strand}, {"do": "lead", "strand": strand},
        {"do": "back", "rope": rope.name.text},
    ])  # fmt: skip


@settings(max_examples=250, deadline=None)
@given(name=st.sampled_from(sorted(SHELF)), seed=st.integers(0, 10**6))
def test_an_edit_changes_only_the_words_concerned(name: str, seed: int) -> None:
    chance = random.Random(seed)
    text = as_people_write(SHELF[name], seed)
    wish = wishes(text, chance)
    done = edit(text, wish)
    if done.refused:
        assert done.text == text
        assert not done.changes
        return
    assert applied(text, done.changes) == done.text
    assert comments(done.text) == comments(text)
    assert codes(done.text) <= IN_THE_MAKING | {"nothing-described"}, (wish, done.text)
    old = units(text)
    for step in done.changes:  # whole words go, and never a word of a comment
        assert b"#" not in old[2 * step.start : 2 * step.end]
    back = [(step.start, units(step.new), old[2 * step.start : 2 * step.end]) for step in done.changes]
    assert undone(units(done.text), back) == old


def units(text: str) -> bytes:
    return text.encode("utf-16-le", "surrogatepass")


def applied(text: str, steps: tuple[object, ...]) -> str:
    """The text with its changes made as a browser makes them."""
    made = units(text)
    for step in sorted(steps, key=lambda one: -one.start):  # type: ignore[attr-defined]
        made = made[: 2 * step.start] + units(step.new) + made[2 * step.end :]  # type: ignore[attr-defined]
    return made.decode("utf-16-le", "surrogatepass")


def undone(made: bytes, steps: list[tuple[int, bytes, bytes]]) -> bytes:
    """The old text again: each new stretch put back, from the first on, where it then begins as it did before."""
    for start, new, old in sorted(steps, key=lambda one: one[0]):
        made = made[: 2 * start] + old + made[2 * start + len(new) :]
    return made


@pytest.mark.parametrize(("wish", "code"), [
    ({"do": "set", "target": "planter.weight", "value": "348"}, "unit-missing"),
    ({"do": "set", "target": "planter.weight", "value": "3 4 8 N"}, "number-unreadable"),
    ({"do": "set", "target": "planter.weight", "value": "9 N, sheaves 2"}, "something-left-over"),
    ({"do": "set", "target": "planter.weight", "value": "9 N\nload other"}, None),
    ({"do": "set", "target": "planter.weight", "value": "9 m"}, "unit-of-another-kind"),
    ({"do": "set", "target": "upper.efficiency", "value": "190 %"}, "efficiency-out-of-range"),
    ({"do": "set", "target": "planter.radius", "value": "9 mm"}, "attribute-not-here"),
    ({"do": "set", "target": "nobody.weight", "value": "9 N"}, "nothing-to-set"),
    ({"do": "set", "target": "title", "value": "x" * 201}, "title-too-long"),
    ({"do": "set", "target": "title", "value": "two\nlines"}, None),
    ({"do": "set", "target": "title", "value": "a # comment"}, None),
    ({"do": "rename", "part": "upper", "to": "over"}, "word-reserved"),
    ({"do": "rename", "part": "upper", "to": "two words"}, None),
    ({"do": "rename", "part": "upper", "to": "lower"}, "name-twice"),
    ({"do": "raise", "part": "upper", "value": "1 m"}, "fixed-cannot-move"),
    ({"do": "write-in", "values": {"planter.weight": "9 N", "lower.weight": "9"}}, "unit-missing"),
])  # fmt: skip
def test_what_will_not_do_is_refused_with_its_problem_and_changes_nothing(
    wish: dict[str, object], code: str | None
) -> None:
    done = edit(SHELF["planter"], wish)
    assert done.refused
    assert done.text == SHELF["planter"]
    assert code is None or code in [problem.code for problem in done.problems]


@pytest.mark.parametrize("wish", [
    {}, {"do": "nonsense"}, {"do": "take", "place": "over nowhere.1"}, {"do": "take", "rope": "fall", "place": "hand"},
    {"do": "back", "rope": "none"}, {"do": "lead", "strand": "fall:99"}, {"do": "lead", "strand": "fall"},
    {"do": "remove", "part": "beam"}, {"do": "remove", "part": ""}, {"do": "hang", "part": "planter", "on": "upper"},
    {"do": "hang-load", "part": "upper"}, {"do": "add-sheave", "part": "planter"},
    {"do": "take-sheave", "part": "upper"},
    {"do": "write-in", "values": {}}, {"do": "write-in", "values": 7}, {"do": "add-block", "kind": "wheel"},
    {"do": "rename", "part": "ghost", "to": "host"}, {"do": "set", "target": "upper.weight", "value": ""},
])  # fmt: skip
def test_a_wish_that_makes_no_sense_is_refused_in_a_sentence(wish: dict[str, object]) -> None:
    done = edit(SHELF["planter"], wish)
    assert done.refused.endswith(".")
    assert done.text == SHELF["planter"]


def test_sentences_of_the_live_line() -> None:
    text = SHELF["planter"]
    says = {
        "Weight of planter 400 newtons. Pull 103 newtons.": {"do": "set", "target": "planter.weight", "value": "400 N"},
        "planter is called tub now.": {"do": "rename", "part": "planter", "to": "tub"},
        "upper taken away; rope fall went with it.": {"do": "remove", "part": "upper"},
        "lower taken away; rope fall ends before it.": {"do": "remove", "part": "lower"},
        "lower has 1 wheel; rope fall ends before it.": {"do": "remove", "part": "lower.2"},
        "The hand lets go of fall.": {"do": "remove", "part": "hand"},
        "Taken back: hand.": {"do": "back", "rope": "fall"},
        "Rope fall runs in both. Take the rope out first.": {"do": "take-sheave", "part": "upper"},
        "upper has 3 wheels.": {"do": "add-sheave", "part": "upper"},
        "Written in. Pull 153 newtons.": {"do": "write-in", "values": {"planter.weight": "600 N"}},
    }
    assert {edit(text, wish).says for wish in says.values()} == set(says)


def test_a_rope_led_elsewhere_keeps_the_rest_of_its_way_where_that_is_lawful() -> None:
    three = edit(SHELF["planter"], {"do": "add-sheave", "part": "lower"}).text
    cut = edit(three, {"do": "lead", "strand": "fall:3"})
    assert cut.rest == ("over upper.2", "hand")
    done = edit(cut.text, {"do": "take", "rope": "fall", "place": "under lower.3", "rest": cut.rest})
    assert "over upper.1, under lower.3, over upper.2, hand" in done.text
    assert done.ended
    assert effort(done.text) == "(W + w)/4"
    other = edit(cut.text, {"do": "take", "rope": "fall", "place": "hand", "rest": cut.rest})
    assert other.ended
    assert "over upper.1, hand\n" in other.text


def test_a_second_wheel_gives_the_first_its_number_where_ropes_name_it() -> None:
    text = "fixed top sheaves 1\nload sack weight 9 N  # full\nrope fall: sack, over top, hand\n"
    assert edit(text, {"do": "add-sheave", "part": "top"}).text == text.replace("sheaves 1", "sheaves 2").replace(
        "over top", "over top.1"
    )


def test_a_level_run_to_a_load_can_be_drawn() -> None:
    text = led(SHELF["level-lead"].replace("beam, under runner, over top, over yard, hand", "beam"),
               "under runner.1", "over top.1", "over yard.1", "mid", rope="fall")  # fmt: skip
    rig, problems = api.read(text)
    assert rig is not None, problems
    assert api.draw(rig).scene.marks


def test_only_what_is_laid_is_drawn_of_a_rig_in_the_making() -> None:
    drawn = draft(led(FROM_NOTHING, *TWOFOLD[:3]))
    assert drawn is not None
    parts = {mark.part for mark in drawn.scene.marks}
    assert parts == {"beam", "upper", "lower", "sack", "fall"}
    assert [end.going for end in drawn.ends] == ["down"]
    assert not any("·" in mark.part + mark.body + mark.sheave for mark in drawn.scene.marks)
    assert draft(led(FROM_NOTHING, *TWOFOLD)) is None


def test_free_wheels_and_parts_that_hang_on_nothing_are_drawn_too() -> None:
    text = edit(SHELF["planter"], {"do": "out", "strand": "fall:2"}).text
    drawn = draft(edit(text, {"do": "add-block", "kind": "fixed"}).text)
    assert drawn is not None
    assert {mark.sheave for mark in drawn.scene.marks} >= {"upper.1", "upper.2", "lower.1", "lower.2", "top.1"}


def test_what_is_wrong_elsewhere_leaves_no_places_and_no_figure() -> None:
    assert offers("fixed upper\nload sack weigt 9 N\n") is None
    assert draft("fixed upper\nload sack weigt 9 N\n") is None
    assert offers(SHELF["planter"], "fall") is None


@pytest.mark.parametrize("of", ["upper", "planter", "upper.1", "fall:2", "fall", "hand", "beam", "make:add-block",
                                "make:add-sheave", "make:hang-load"])  # fmt: skip
def test_every_line_of_a_tag_does_what_it_says_or_says_why_not(of: str) -> None:
    for verb in tag(SHELF["planter"], of).verbs:
        assert verb.words
        if verb.do and not verb.why:
            assert not edit(SHELF["planter"], verb.do).refused, verb
        elif verb.do:
            assert edit(SHELF["planter"], verb.do).refused == verb.why
        else:
            assert verb.field or verb.start or verb.rename or verb.why


ROVE = "fixed top sheaves 1\nmoving low sheaves 1, carries bag\nload bag\nrope fall: top, under low, over top, hand"


@pytest.mark.parametrize(
    ("target", "value", "line"),
    [("top.low.apart", "0.8 m", "apart top low 0.8 m"), ("fall.stiffness", "2 kN", "cord fall stiffness 2 kN")],
)
def test_what_only_a_real_rig_shows_is_written_changed_and_taken_away(target: str, value: str, line: str) -> None:
    added = edit(ROVE, {"do": "set", "target": target, "value": value}).text
    assert " ".join(added.removeprefix(ROVE).split()) == " ".join(line.split())
    again = edit(added, {"do": "write-in", "values": {target: f"3 {value.split()[1]}"}}).text
    assert again == added.replace(value, f"3 {value.split()[1]}")
    assert edit(added, {"do": "set", "target": target, "value": ""}).refused == ""


def test_a_distance_is_found_whichever_part_is_named_first() -> None:
    text = f"{ROVE}\napart low top 1 m  # at rest\n"
    assert edit(text, {"do": "set", "target": "top.low.apart", "value": "2 m"}).text == text.replace("1 m", "2 m")
    assert edit(text, {"do": "set", "target": "top.low.apart", "value": ""}).text.splitlines()[-1] == "  # at rest"
    assert edit(text, {"do": "set", "target": "top.bag.apart", "value": "2 m"}).refused == ""
    assert edit(text, {"do": "set", "target": "top.nobody.apart", "value": "2 m"}).refused
