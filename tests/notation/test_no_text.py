"""What cannot be read is named: the right code, the right place, and what to do. Never an exception."""

from pathlib import Path

import pytest
from corpus import Bad, corpus

from gantline.notation import MOST_BYTES, MOST_CONTACTS, MOST_PARTS, Statement, parse, parse_bytes

TEXTS = corpus(Path(__file__).with_name("bad.txt"))


def check(text: str, expected: list[tuple[str, int, int]]) -> None:
    _, problems = parse(text)
    assert [(one.code, one.place.line, one.place.column) for one in problems] == expected
    for problem in problems:
        assert problem.says
        assert problem.why
        assert problem.do.endswith((".", "?"))
        assert len(problem.says) < 300
        assert problem.place.length >= 0


@pytest.mark.parametrize("bad", TEXTS, ids=lambda bad: ascii(bad.text[:40]))
def test_the_problem_and_its_place(bad: Bad) -> None:
    check(bad.text, bad.expected)


def test_there_are_many() -> None:
    assert len(TEXTS) >= 200


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ("lod sack weight 5 N", "load"), ("rise sack 1 m", "raise"), ("efort 5 N", "effort"), ("Load sack", "load"),
        ("moving a sheavs 2", "sheaves"), ("moving a wieght 2 N", "weight"), ("moving a carry b", "carries"),
    ],
)  # fmt: skip
def test_a_word_nearly_right_gets_a_suggestion(written: str, meant: str) -> None:
    _, (problem,) = parse(written)
    assert f"`{meant}`" in problem.do


# -- bytes -----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("data", "code", "line", "column"),
    [
        (b"\xff\xfef\x00i\x00", "text-not-utf8", 1, 1),
        (b"\xfe\xff\x00f\x00i", "text-not-utf8", 1, 1),
        (b"fixed beam\nload s\xfcd weight 5 N\n", "text-not-utf8", 2, 7),
        (b"fixed beam\r\r\nload \xe9", "text-not-utf8", 3, 6),
        (b"title \xc0\xaf", "text-not-utf8", 1, 7),
        (b"title \xed\xa0\x80", "text-not-utf8", 1, 7),
        ("title \u9418".encode()[:-1], "text-not-utf8", 1, 7),
        (b"\xef\xbb\xbftitle \xff", "text-not-utf8", 1, 8),
        (b"PK\x03\x04...", "not-a-rig-text", 1, 1),
        (b"%PDF-1.7\n", "not-a-rig-text", 1, 1),
        (b"\x89PNG\r\n\x1a\n", "not-a-rig-text", 1, 1),
        (b"\xd0\xcf\x11\xe0", "not-a-rig-text", 1, 1),
        (b"#" * (MOST_BYTES + 1), "text-too-large", 1, 1),
        (b"\xff" * (MOST_BYTES + 1), "text-too-large", 1, 1),
    ],
)
def test_bytes_that_are_no_rig(data: bytes, code: str, line: int, column: int) -> None:
    tree, (problem,) = parse_bytes(data)
    assert not tree.items
    assert (problem.code, problem.place.line, problem.place.column) == (code, line, column)
    assert problem.do


def test_a_byte_that_is_not_utf8_is_named() -> None:
    _, (problem,) = parse_bytes(b"load s\xfcd")
    assert "byte 7" in problem.says
    assert "0xFC" in problem.says


# -- limits, on both sides -------------------------------------------------------------------------------------------


def test_the_size_of_a_text() -> None:
    full = "# " + "é" * ((MOST_BYTES - 2) // 2)
    assert parse(full)[1] == ()
    assert parse_bytes(full.encode())[1] == ()
    assert [one.code for one in parse(full + "x")[1]] == ["text-too-large"]


def test_the_number_of_parts() -> None:
    lines = [f"load sack{n} weight 5 N" for n in range(MOST_PARTS)]
    assert parse("\n".join(lines))[1] == ()
    check("\n".join([*lines, "", "fixed beam"]), [("too-many-parts", MOST_PARTS + 2, 1)])


def test_the_number_of_contacts() -> None:
    path = ", ".join(["over a"] * (MOST_CONTACTS - 1))
    assert parse(f"rope long: {path}, hand")[1] == ()
    check(f"rope long: {path}, hand\nrope more: a, b", [("too-many-contacts", 2, 1)])


@pytest.mark.parametrize(
    ("good", "bad", "code"),
    [
        ("1" * 40, "1" * 41, "number-too-long"),
        ("1e12", "1e13", "number-too-large"),
        ("1e-12", "1e-13", "number-too-large"),
        ("1e+0000012", "1e+0000013", "number-too-large"),
    ],
)
def test_the_size_of_a_number(good: str, bad: str, code: str) -> None:
    assert parse(f"effort {good} N")[1] == ()
    check(f"effort {bad} N", [(code, 1, 8)])


def test_the_length_of_names_titles_symbols_and_counts() -> None:
    for good, bad, code, column in (
        (f"fixed {'a' * 64}", f"fixed {'a' * 65}", "name-unreadable", 7),
        (f"title {'a' * 200}", f"title {'a' * 201}", "title-too-long", 1),
        (f"effort {'a' * 16}", f"effort {'a' * 17}", "symbol-too-long", 8),
        ("fixed a sheaves 1000", "fixed a sheaves 1001", "count-unreadable", 17),
    ):
        assert parse(good)[1] == ()
        check(bad, [(code, 1, column)])


def test_of_very_many_problems_the_first_hundred_are_shown_and_the_rest_counted() -> None:
    assert len(parse("lod\n" * 100)[1]) == 100
    _, problems = parse("lod\n" * 10_000)
    assert [one.code for one in problems] == ["no-such-statement"] * 100 + ["too-many-problems"]
    assert "9900" in problems[-1].says
    assert [one.place.line for one in problems[:100]] == list(range(1, 101))


# -- what is accepted ------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
@pytest.mark.parametrize("last", [True, False])
@pytest.mark.parametrize("mark", ["", "\ufeff"])
def test_every_way_to_end_a_line(end: str, last: bool, mark: str) -> None:
    text = mark + end.join(["title A", "", "fixed beam", "lod x"]) + end * last
    tree, problems = parse(text)
    assert [(one.code, one.place.line, one.place.column, one.text) for one in problems] == [
        ("no-such-statement", 4, 1, "lod x")
    ]
    assert parse_bytes(text.encode()) == (tree, problems)


@pytest.mark.parametrize(
    ("written", "number"),
    [("5", "5"), ("0.1", "1/10"), (".5", "1/2"), ("5.", "5"), ("1/3", "1/3"), ("1.5e2", "150"), ("+7", "7"),
     ("0.1/0.3", "1/3"), ("1E-3", "1/1000"), ("2e2/3", "200/3"), ("-4", "-4")],
)  # fmt: skip
def test_numbers_are_read_exactly(written: str, number: str) -> None:
    for text in (f"effort {written} N", f"effort {written}N", f"effort P={written} N"):
        tree, problems = parse(text)
        assert problems == ()
        statement = tree.items[0]
        assert isinstance(statement, Statement)
        assert str(statement.value.number) == number
        assert statement.value.unit.text == "N"


def test_places_count_characters_and_a_tab_as_one() -> None:
    tree, _ = parse("\tmoving\tlower  sheaves 2,\n\t# on it\n  weight w = 12 N  # light")
    statement = tree.items[0]
    weight = statement.attributes[1]
    assert (statement.name.place.column, statement.name.place.length) == (9, 5)
    assert (weight.keyword.place.line, weight.keyword.place.column) == (3, 3)
    assert (weight.value.place.column, weight.value.place.length) == (10, 8)
    assert (weight.value.unit.place.column, weight.value.unit.place.length) == (17, 1)
    assert statement.comments_within == ("", "on it")
    assert statement.comment == "light"


TITLES = ("{{7*7}}", "%n%s", "=1+1", "</script>", "]]>", "&#0;", "A#1, and: more", "fixed beam", "鐘 ١٢ é", "a,")


def test_a_title_is_plain_text_whatever_it_says() -> None:
    for title in TITLES:
        tree, problems = parse(f"title  {title}  # said")
        assert problems == ()
        assert (tree.items[0].title, tree.items[0].comment) == (title, "said")
