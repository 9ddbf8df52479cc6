"""Tables as spreadsheets save them: every row is used, refused or empty; no number is guessed; no name is kept."""

import csv
import io
import re
from fractions import Fraction
from pathlib import Path

import pytest
from tackles import FOUR, RUNNER, from_table, rig

from gantline.bench.measured.measuring import read_measured
from gantline.bench.measured.readings import REASONS, Readings, read_readings
from gantline.output import readings_csv

G = Fraction(981, 100)
HEAD = "load (g);raise (N);lower (N)\n"
SOURCES = Path(__file__).parents[2] / "src" / "gantline" / "bench" / "measured"


def read(table: str | bytes) -> Readings:
    found, problems = read_readings(table if isinstance(table, bytes) else table.encode(), G)
    assert found is not None, problems
    assert found.read == len(found.rows) + len(found.refused) + found.empty
    return found


def refused(table: str) -> list[tuple[int, str]]:
    return [(one.line, one.code) for one in read(table).refused]


def problem(table: str | bytes) -> str:
    found, (one,) = read_readings(table if isinstance(table, bytes) else table.encode(), G)
    assert found is None
    assert one.says
    assert one.why
    assert one.do
    return one.code


LIKE = [
    "load (g);raise (N);lower (N)\n500;1,45;1,15\n1000;2,9;2,25\n",
    "load (g),raise (N),lower (N)\n500,1.45,1.15\n1000,2.9,2.25\n",
    "load (g)\traise (N)\tlower (N)\n500\t1.45\t1.15\n1000\t2.9\t2.25\n",
    'load (g),raise (N),lower (N)\n500,"1,45","1,15"\n1000,"2,9","2,25"\n',
    "sep=;\nload (g);raise (N);lower (N)\n500;1,45;1,15\n1000;2,9;2,25\n",
    "load/g;raise/N;lower/N\n500;1,45;1,15\n1000;2,9;2,25\n",
    "LOAD [g] ; Pull up [N];Pull down [N]\n 500 ; 1,45 ;1,15\n1000;2,9;2,25\n",
    "Load in g;Raise in N;Lower in N\n500;1,45;1,15\n1000;2,9;2,25\n",
    "load (kg);raise (kN);lower (N)\n0,5;0,00145;1,15\n1,0;0,0029;2,25\n",
    "load;raise;lower\n500 g;1,45 N;1,15 N\n1 kg;2,9 N;2,25N\n",
    "load (g);raise (N);lower (N);;\n500;1,45;1,15;;\n1 000;2,9;2,25;;\n",
    "lower (N);notes;load (g);raise (N)\n1,15;slow;500;1,45\n2,25;;1.000,0;2,9\n",
    'load (g),raise (N),lower (N)\n"500",1.45,1.15\n"1,000",2.9,2.25\n',
    "load (g);raise (N);lower (N)\r\n500;1,45;1,15\r\n1000;2,9;2,25\r\n",
    "load (g);raise (N);lower (N)\r500;1,45;1,15\r1000;2,9;2,25\r",
    "School tackle, 4 strands\n\nload (g);raise (N);lower (N)\n500;1,45;1,15\n1000;2,9;2,25",
    "Last (g);Heben (N);Senken (N)\n500;1,45;1,15\n1000;2,9;2,25\n",
    "load (g);raise (N);lower (N)\n5e2;1,45;1,15\n1000;2,9;2,25\n",
    "load (g);raise (N);lower (N)\n500;1,45;1,15\n1'000;2,9;2,25\n",
]


@pytest.mark.parametrize("table", LIKE, ids=range(len(LIKE)))
@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16"])
def test_one_table_in_many_spellings(table: str, encoding: str) -> None:
    found = read(table.encode(encoding))
    assert [(row.load, row.raising, row.lowering) for row in found.rows] == [
        (G / 2, (Fraction("1.45"),), (Fraction("1.15"),)),
        (G, (Fraction("2.9"),), (Fraction("2.25"),)),
    ]
    assert not found.refused


def test_windows_letters_are_said_aloud() -> None:
    found = read("load (g);raise (N);lower (N);Schüler\n500;1,45;1,15;Jörg\n".encode("cp1252"))
    assert "Windows-1252" in found.told[0]
    assert len(found.rows) == 1
    assert "decimals by a comma" in found.told[0]


def test_a_scale_marked_in_grams_shows_force() -> None:
    row = read("load (g);raise (g);lower (kg)\n500;145;0.115\n").rows[0]
    assert row.load == G / 2
    assert row.raising == (Fraction(145, 1000) * Fraction(980665, 100000),)
    assert row.lowering == (Fraction(115, 1000) * Fraction(980665, 100000),)


def test_repeats_stand_in_rows_or_in_columns() -> None:
    found = read("load (g);raise 1 (N);raise 2 (N);raise (N) 3;lower (N);hand travel (cm);load travel (mm)\n"
                 "500;1,4;1,5;;1,1;40;100\n")  # fmt: skip
    row = found.rows[0]
    assert row.raising == (Fraction(7, 5), Fraction(3, 2))
    assert (row.hand, row.rise) == (Fraction(2, 5), Fraction(1, 10))


def test_a_zero_and_a_weighed_block_may_stand_anywhere() -> None:
    found = read("load (g);raise (N);lower (N);block (g);zero (N)\n500;1,4;1,1;;\n;;;51;-0,05\n;;;;0,05\n")
    assert [row.zero for row in found.rows] == [(), (Fraction(-1, 20),), (Fraction(1, 20),)]
    assert found.rows[1].block == (Fraction(51, 1000) * G,)


def test_empty_rows_are_counted_and_titles_passed_over() -> None:
    found = read("Our day at the tackle\n\nload (g);raise (N);lower (N)\n;;\n500;1,4;1,1\n\n ; ;\n")
    assert (len(found.rows), found.empty, found.above) == (1, 3, 2)


@pytest.mark.parametrize(("row", "code"), [
    ("500;=1+2;1,1", "formula"), ("500;@SUM(A1);1,1", "formula"), ("500;+A1;1,1", "formula"),
    ("500;-A1;1,1", "formula"),
    ("500;one;1,1", "no-number"), ("500;1..4;1,1", "other-mark"), ("500;1.4;1,1", "other-mark"),
    ("500;\u0661;1,1", "no-number"), ("500;1_000;1,1", "unit"), ("500;0x10;1,1", "unit"), ("500;inf;1,1", "no-number"),
    ("500;3-4;1,1", "unit"), ("500;12 34;1,1", "no-number"), ("500;" + "9" * 5000 + ";1,1", "no-number"),
    ("500;1,4 kg m;1,1", "unit"), ("500;1,4 mm;1,1", "unit"), ("500 N m;1,4;1,1", "unit"),
    ("500;1,4;1,1;9", "too-long"), ("500;;", "no-pull"), (";1,4;", "no-load"), (";;1,1", "no-load"),
    ("-500;1,4;1,1", "negative"), ("500;-1,4;1,1", "negative"), ("500;\u22121,4;1,1", "negative"),
    ("500;-;-", "no-pull"), ("500;#N/A;#DIV/0!", "no-pull"), ("absent;absent;absent", "nothing"), ("?;;", "nothing"),
    ("500;1e999;1,1", "unit"), ("500;1,4e99;", None),
])  # fmt: skip
def test_a_row_that_says_no_number_is_refused_by_name(row: str, code: str | None) -> None:
    found = refused(f"{HEAD}500;1,45;1,15\n{row}\n")
    assert found == ([(3, code)] if code else [])


def test_a_decimal_comma_between_commas_is_not_taken_for_a_cell() -> None:
    assert refused("load (g),raise (N),lower (N)\n500,1,45,1,15\n500,1.4,1.1\n") == [(2, "too-long")]


@pytest.mark.parametrize("table", [
    "load (g);raise (N);lower (N)\n500;1.234;1.100\n", 'load (g),raise (N),lower (N)\n500,"1,234","1,100"\n',
])  # fmt: skip
def test_a_number_that_could_be_two_is_not_guessed(table: str) -> None:
    assert problem(table) == "readings-two-ways"
    _, (one,) = read_readings(table.encode(), G)
    assert "row 2, raising: a number that is 1.234 or 1234" in one.says
    assert "--decimals comma or --decimals point" in one.do


def test_a_thousand_among_decimal_commas_is_asked_and_not_guessed() -> None:
    table = "load (g);raise (N);lower (N)\n500;1,45;1,15\n1.000;2,9;2,25\n"
    found, (one,) = read_readings(table.encode(), G)
    assert found is None
    assert (one.code, one.place.line, one.place.column) == ("readings-two-ways", 3, 1)
    assert one.says == "row 3, load: a number that is 1.000 or 1000"
    told, problems = read_readings(table.encode(), G, ",")
    assert told is not None, problems
    assert [row.load for row in told.rows] == [G / 2, G]
    assert told.refused == ()


def test_what_is_told_of_the_decimals_is_kept_to() -> None:
    table = "load (g);raise (N);lower (N)\n500;1.234;1.100\n"
    for mark, pull in ((".", "1.234"), (",", "1234")):
        told, problems = read_readings(table.encode(), G, mark)
        assert told is not None, problems
        assert told.rows[0].raising == (Fraction(pull),)


def test_one_plain_decimal_settles_it() -> None:
    found = read("load (g);raise (N);lower (N)\n1.500,0;1,234;1,1\n")
    assert (found.rows[0].load, found.rows[0].raising) == (G * Fraction(3, 2), (Fraction("1.234"),))


def test_a_merged_cell_is_not_filled_down() -> None:
    found = read(f"{HEAD}500;1,4;1,1\n;1,5;\n;1,5;1,2\n")
    assert [(one.line, one.code) for one in found.refused] == [(3, "no-load")]
    assert found.rows[1].load is None, "raising over lowering needs no load"


def test_a_cell_with_a_line_end_counts_from_where_its_row_begins() -> None:
    table = 'load (g);raise (N);lower (N);notes\n500;1,4;1,1;"two\nlines"\n500;x1;1,1;\n500;1.4;1,1;\n'
    assert refused(table) == [(4, "no-number"), (5, "other-mark")]


@pytest.mark.parametrize(("table", "code"), [
    (b"", "readings-no-heading"), (b"500;1;2\n", "readings-no-heading"), (b"a,b,c\n1,2,3\n", "readings-no-heading"),
    (b"load (g);raise (N)\x00\n", "readings-not-text"), (b"\xff\xfeload", "readings-no-heading"),
    (b"\xef\xbb\xbfload (g);raise (N)\xff\n", "readings-not-text"), (b"load (g);raise (N)\x81\n", "readings-not-text"),
    ("load (g);raise (N)\n1;2\n".encode("utf-16-le"), "readings-not-text"),
    (b"\xff\xfe\x00\xd8\x00", "readings-not-text"),
    (b'load (g);raise (N)\n"500;1,4\n600;1,5\n', "readings-quote-open"),
    (b'load (g);raise (N)\n"500"x;1,4\n', "readings-quote-open"),
    (b"load (g);load (kg);raise (N)\n", "readings-column-twice"), (b"load (g);raise (mm)\n", "readings-unit"),
    (b"load (cm);raise (N)\n", "readings-unit"), (b"load (g);raise (bananas)\n", "readings-unit"),
    (b"load (g);hand travel (cm)\n", "readings-column-missing"), (b"raise (N);block (g)\n", "readings-column-missing"),
    (b"load (g);raise (N)\n" + b"x" * (33 * 1024 * 1024), "readings-too-large"),
    (b"load (g);raise (N)\n" + b"x" * 200_000 + b";1\n", "readings-too-large"),
    (b"load (g);raise (N)\n" + b";" * 2000 + b"\n", "readings-too-large"),
], ids=lambda value: value if isinstance(value, str) else value[:12].decode("latin-1"))  # fmt: skip
def test_a_table_of_which_nothing_can_be_used(table: bytes, code: str) -> None:
    assert problem(table) == code


@pytest.mark.parametrize(("text", "table", "code"), [
    ("fixed top sheaves 1\nload a mass 2 kg\nload b mass 1 kg\nrope r: a, over top, b\n", HEAD + "500;1;1\n",
     "rig-not-measured"),
    (RUNNER, HEAD + "200;;6\n400;;4\n600;;2\n", "readings-no-fit"),
    (FOUR, HEAD + "500;one;two\n", "readings-none"), (FOUR, HEAD, "readings-none"),
])  # fmt: skip
def test_a_rig_or_a_table_that_says_nothing(text: str, table: str, code: str) -> None:
    from gantline.bench import Settings

    found, problems = read_measured(rig(text), table.encode(), Settings(draws=10_000))
    assert found is None
    assert [one.code for one in problems] == [code]


def test_the_division_is_read_off_the_readings() -> None:
    def division(pulls: str) -> Fraction | None:
        return read("load (g);raise (N)\n" + "".join(f"500;{pull}\n" for pull in pulls.split())).steps.pull

    assert division("1.4 1.45 1.5") == Fraction(1, 100)
    assert division("1.4 1.5") == Fraction(1, 10), "two readings are too few to see more"
    assert division("1.05 1.10 1.15 1.20 1.25 1.30 1.35 1.40") == Fraction(1, 20)
    assert division("1.2 1.4 1.6 1.8 2.0 2.2 2.4 2.6") == Fraction(1, 5)


def test_a_table_of_a_hundred_thousand_rows_is_read_whole() -> None:
    rows = "".join(f"{(n % 20 + 1) * 100};{n % 97 / 100 + 1:.2f};{n % 89 / 100:.2f};{n}\n" for n in range(20_000))
    found = read("load (g);raise (N);lower (N);pupil\n" + rows.replace(".", ","))
    assert found.read == 20_000


# -- names ------------------------------------------------------------------------------------------------------------

NAMES = [f"{first} {last}" for first in ("Aminata", "Björn", "Chidi", "Dörte", "Élodie")
         for last in ("Quenneville", "Rasmussen", "Sørby", "Tanaka", "Ueda")]  # fmt: skip


def planted() -> bytes:
    head = "load (g);raise (N);lower (N);" + ";".join(NAMES[:3])
    rows = [f"500;1,4;1,1;{name};;" for name in NAMES]
    rows += [f"{name};1,4;1,1;;;" for name in NAMES] + [f"500;{name};1,1;;;" for name in NAMES]
    rows += [f"500;1,4;1,1 {name};;;" for name in NAMES] + [f"500;0,1;1,1;={name};;" for name in NAMES]
    return f"{NAMES[4]}\n{head}\n{chr(10).join(rows)}\n".encode()


def test_no_name_of_a_table_is_kept_or_told() -> None:
    found = from_table(FOUR, planted())
    assert len(found.readings.refused) == 4 * len(NAMES)
    said = repr(found) + readings_csv.write(found).decode()
    for word in {word for name in NAMES for word in name.split()}:
        assert word not in said


@pytest.mark.parametrize("where", ["raise ({})", "{};raise (N)", 'raise (N)\n"{}'])
def test_no_name_stands_in_a_problem(where: str) -> None:
    table = f"load (g);{where.format(NAMES[0])}\n{NAMES[0]};1\n"
    found, problems = read_readings(table.encode(), G)
    for one in problems:
        assert "Quenneville" not in repr(one)
    assert found is not None or problems


# -- what is written for a spreadsheet --------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "cell", ["=1+1", "+1+1", "-1+1", "@SUM(A1)", "\t=1", "\r=1", " =1", "＝1", "＋1", "－1", "＠a"]
)
def test_a_cell_is_never_worked_out(cell: str) -> None:
    assert readings_csv.harmless(cell).startswith("'")


@pytest.mark.parametrize("cell", ["-2.5", "+3", "-1e-05", "12", "used", "", "a = b"])
def test_numbers_and_words_stay_what_they_are(cell: str) -> None:
    assert readings_csv.harmless(cell) == cell


def test_the_written_table_reads_back() -> None:
    table = "load (N),raise (N),lower (N),zero (N)\n5,1.5,1.2,-0.05\n6,1.8,1.4,\n6,0.1,1.4,\n7,one,1,\n"
    found = from_table(FOUR, table)
    written = readings_csv.write(found)
    rows = list(csv.reader(io.StringIO(written.decode("utf-8-sig"))))
    assert [row[8] for row in rows[1:]] == ["used", "used", "refused", "refused"]
    assert [row[0] for row in rows[1:]] == ["2", "3", "4", "5"]
    again = read(written)
    assert [(row.load, row.raising, row.lowering, row.zero) for row in again.rows] == [
        (row.load, row.raising, row.lowering, row.zero) for row in found.readings.rows
    ]


def test_every_reason_and_every_problem_has_been_met_here() -> None:
    """A code that is added needs a table that produces it, and its words in the docs."""
    told = Path(__file__).read_text("utf-8") + (Path(__file__).parent / "test_measuring_rows.py").read_text("utf-8")
    codes = {code for path in SOURCES.glob("*.py") for code in
             re.findall(r'"((?:readings|rig)-[a-z-]+)"', path.read_text("utf-8"))}  # fmt: skip
    docs = (Path(__file__).parents[2] / "docs" / "measure.md").read_text("utf-8")
    for code in sorted(codes | set(REASONS)):
        assert f'"{code}"' in told, code
        assert f"`{code}`" in docs, code
