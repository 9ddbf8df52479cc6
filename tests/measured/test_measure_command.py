"""`gantline measure` from the outside: what it prints, what it builds, what it refuses, and what a rig makes of it."""

import json
import re
import tomllib
from itertools import pairwise
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pikepdf
import pytest
from lxml import html

from gantline import api
from gantline.cli import main
from gantline.output import measured_toml

SHELF = Path(__file__).parents[2] / "src" / "gantline" / "shelf"
PLANTER, READINGS = str(SHELF / "planter.rig"), str(SHELF / "readings.csv")
FILES = ["measured.toml", "readings.csv", "report.html", "report.pdf"]


def run(capsys: Any, *words: str) -> SimpleNamespace:
    try:
        status = main(words)
    except SystemExit as exit:
        status = int(exit.code or 0)
    out, err = capsys.readouterr()
    return SimpleNamespace(status=status, out=out, err=err)


@pytest.fixture(scope="module")
def lab(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("lab")
    assert main(["measure", PLANTER, READINGS, "-o", str(folder / "lab"), "--masses", "1%", "--gain", "1%"]) == 0
    return folder / "lab"


@pytest.fixture(scope="module")
def page(lab: Path) -> Any:
    return html.fromstring((lab / "report.html").read_text("utf-8"))


def test_the_folder_holds_four_files(lab: Path) -> None:
    assert sorted(path.name for path in lab.iterdir() if not path.name.startswith(".")) == FILES


def test_the_same_readings_give_the_same_bytes(lab: Path, tmp_path: Path) -> None:
    assert main(["measure", PLANTER, READINGS, "-o", str(tmp_path / "again"), "--masses", "1%", "--gain", "1%"]) == 0
    for name in FILES:
        assert (tmp_path / "again" / name).read_bytes() == (lab / name).read_bytes(), name


def test_a_report_that_was_edited_stays(tmp_path: Path) -> None:
    rig, _ = api.load(PLANTER)
    found, _ = api.measure(rig, Path(READINGS).read_bytes())
    found.save(tmp_path / "lab")
    (tmp_path / "lab" / "measured.toml").write_text("mine")
    found.save(tmp_path / "lab")
    assert (tmp_path / "lab" / "measured.toml").read_text() == "mine"
    assert (tmp_path / "lab" / "measured.new.toml").exists()


# -- the page ---------------------------------------------------------------------------------------------------------


def test_every_table_has_its_caption_and_heads(page: Any) -> None:
    tables = page.xpath("//table")
    assert len(tables) == 6
    for table in tables:
        assert table.xpath("./caption/text()")
        assert table.xpath("./thead//th[@scope='col']")
        assert all(row.xpath("./th[@scope='row']") for row in table.xpath("./tbody/tr"))
        assert len({len(row) for row in table.xpath(".//tr")}) == 1


def test_every_figure_says_what_it_shows(page: Any) -> None:
    figures = page.xpath("//*[local-name()='svg'][@role='img']")
    assert len(figures) == 3
    names = [figure.get("aria-labelledby").split() for figure in figures]
    for title, description in names:
        assert page.xpath(f"//*[@id='{title}']/text()")
        assert len(page.xpath(f"//*[@id='{description}']")[0].text) > 40
    ids = page.xpath("//@id")
    assert len(ids) == len(set(ids))
    words = [page.xpath(f"//*[@id='{names[1][1]}']")[0].text, page.xpath(f"//*[@id='{names[2][1]}']")[0].text]
    assert "1.96 and 0.800" in words[0]
    assert "12 of 12 lie within 2" in words[1]


def test_plots_keep_text_as_text_and_differ_by_shape(page: Any) -> None:
    (plot, _) = page.xpath("//div[@class='plots']//*[local-name()='svg']")
    words = " ".join("".join(text.itertext()) for text in plot.iter("{*}text"))
    assert "load, N" in words
    assert "raising" in words
    assert len(plot.xpath(".//*[local-name()='circle'][@data-part='raising']")) == 7
    looks = {c.get("class") for c in plot.xpath(".//*[local-name()='circle']")}
    assert looks == {"dot", "disc"}
    assert not plot.xpath(".//*[local-name()='path'][@d='']")


def test_levels_of_headings_are_never_skipped(page: Any) -> None:
    levels = [int(heading.tag[1]) for heading in page.xpath("//h1|//h2|//h3|//h4")]
    assert levels[0] == 1
    assert all(after - before <= 1 for before, after in pairwise(levels))


def test_nothing_is_fetched(lab: Path, page: Any) -> None:
    text = (lab / "report.html").read_text("utf-8")
    assert not re.search(r"""(?:src|href)=["'](?!#|data:)""", text)
    assert page.xpath("//meta[@http-equiv='Content-Security-Policy']/@content")[0].startswith("default-src 'none'")


def test_every_number_of_the_results_stands_in_the_record(page: Any, capsys: Any) -> None:
    record = json.loads(run(capsys, "measure", PLANTER, READINGS, "--masses", "1%", "--gain", "1%", "--json").out)
    rows = page.xpath("//table[caption='What the readings say']/tbody/tr")
    for row, result in zip(rows, record["results"].values(), strict=True):
        cells = [cell.text_content().replace("\u2212", "-") for cell in row]
        shown = [float(word) for cell in cells[1:] for word in re.findall(r"-?\d+\.\d+", cell)]
        known = [result["value"], result["standard_uncertainty"], *result["interval_95"],
                 *result["monte_carlo"]["interval_95"]]  # fmt: skip
        assert shown == pytest.approx(known, abs=6e-5)


def test_a_hostile_title_stays_text(tmp_path: Path) -> None:
    text = Path(PLANTER).read_text("utf-8").replace("Planter onto the roof terrace", "<script>alert(1)</script>&amp;")
    rig, _ = api.read(text)
    found, _ = api.measure(rig, Path(READINGS).read_bytes())
    found.save(tmp_path / "lab")
    page = html.fromstring((tmp_path / "lab" / "report.html").read_text("utf-8"))
    assert page.xpath("//h1")[0].text == "<script>alert(1)</script>&amp;"
    assert len(page.xpath("//script")) == 1
    assert tomllib.loads((tmp_path / "lab" / "measured.toml").read_text("utf-8"))["title"].startswith("<script>")


# -- the print --------------------------------------------------------------------------------------------------------


def test_the_print_is_tagged(lab: Path) -> None:
    with pikepdf.open(lab / "report.pdf") as document:
        assert document.Root.MarkInfo.Marked
        assert document.Root.Lang == "en"
        with document.open_metadata() as metadata:
            assert metadata["pdfuaid:part"] == "1"
            assert metadata["dc:title"] == "Planter onto the roof terrace: lab report"
        kinds, alternatives = [], []
        for thing in document.objects:
            if isinstance(thing, pikepdf.Dictionary) and "/S" in thing and "/P" in thing:
                kinds.append(str(thing.S))
                alternatives += [str(thing.get("/Alt", ""))] if str(thing.S) == "/Figure" else []
        assert kinds.count("/Table") == 6
        assert "/TH" in kinds
        assert kinds.count("/H1") == 1
        assert len(alternatives) == 3
        assert all(len(words) > 40 for words in alternatives)


# -- what a rig makes of it -------------------------------------------------------------------------------------------


def test_the_values_are_toml_that_says_what_was_measured(lab: Path) -> None:
    record = tomllib.loads((lab / "measured.toml").read_text("utf-8"))
    assert record["format"] == "gantline-measured/1"
    assert record["efficiency"]["measured"] is True
    low, high = record["efficiency"]["interval_95"]
    assert low < record["efficiency"]["value"] < high
    assert record["block"]["name"] == "lower"
    assert record["how"] == {
        "rows_used": 19, "rows_refused": 2, "division_newtons": 0.02,
        "fit": "ordinary weighted least squares, both branches", "interval": "95 %, law of propagation",
    }  # fmt: skip
    assert set(record["set"]) == {"upper.efficiency", "lower.efficiency", "lower.weight", "fall.drag"}


@pytest.mark.parametrize("command", ["solve", "explain", "draw", "lesson"])
def test_a_rig_uses_what_was_measured(command: str, lab: Path, tmp_path: Path, capsys: Any) -> None:
    """As if each value had been set by hand."""
    values = measured_toml.read((lab / "measured.toml").read_bytes())
    extra = {"draw": ["--view", "tensions", "-o"], "lesson": ["-o"]}.get(command, [])
    said = []
    by_hand = [word for name, value in values.items() for word in ("--set", f"{name}={value}")]
    for n, how in enumerate((["--measured", str(lab / "measured.toml")], by_hand)):
        target = [str(tmp_path / (f"{n}.svg" if command == "draw" else str(n)))] if extra else []
        done = run(capsys, command, PLANTER, *extra, *target, *how)
        assert done.status == 0, done.err
        said.append(done.out.replace(*target, "") if target else done.out)
        if command == "draw":
            said[-1] = Path(target[0]).read_text("utf-8")
        if command == "lesson":
            said[-1] = (Path(target[0]) / "index.html").read_text("utf-8")
    assert said[0] == said[1]
    plain = run(capsys, "solve", PLANTER).out
    assert command != "solve" or said[0] != plain


def test_what_stands_later_wins(lab: Path, capsys: Any) -> None:
    def pull(*how: str) -> float:
        record = json.loads(run(capsys, "solve", PLANTER, "--json", *how).out)
        return record["regimes"]["raising"]["effort"]["value"]

    measured, other = ("--measured", str(lab / "measured.toml")), ("--set", "lower.weight=20N")
    assert pull(*measured, *other) > pull(*other, *measured) == pull(*measured)


@pytest.mark.parametrize(("text", "says"), [
    ("", "does not begin"), ("format = 'gantline-kit/1'\n", "does not begin"), ("a = [", "no TOML"),
    ("format = 'gantline-measured/1'\nset = 3\n", "[set]"),
    ("format = 'gantline-measured/1'\n[set]\n'lower.weight' = 3\n", "[set]"),
    ("#" + "x" * 70_000, "bytes"),
])  # fmt: skip
def test_another_file_is_no_measurement(text: str, says: str, tmp_path: Path, capsys: Any) -> None:
    (tmp_path / "m.toml").write_text(text)
    done = run(capsys, "solve", PLANTER, "--measured", str(tmp_path / "m.toml"))
    assert done.status == 1
    assert says in done.err
    assert "  do   " in done.err


def test_a_value_that_does_not_fit_the_rig_is_a_problem_of_its_own(tmp_path: Path, capsys: Any) -> None:
    (tmp_path / "m.toml").write_text("format = 'gantline-measured/1'\n[set]\n'midde.weight' = '3 N'\n")
    done = run(capsys, "solve", PLANTER, "--measured", str(tmp_path / "m.toml"))
    assert done.status == 2
    assert "nothing-to-set" in done.err


def test_an_efficiency_above_one_is_used_as_one() -> None:
    rig, _ = api.load(PLANTER)
    rows = ("4,1.12,1.12,0", "8,2.11,2.11,", "12,3.12,3.12,", "4,1.13,1.12,", "8,2.12,2.13,")
    found, _ = api.measure(rig, "\n".join(("load (N),raise (N),lower (N),zero (N)", *rows)).encode())
    efficiency = found.measured.estimate("efficiency").value
    settings = measured_toml.settings(found.measured, rig)
    shown = float(settings["lower.efficiency"].split()[0])
    assert shown == pytest.approx(min(efficiency, 1.0) * 100, rel=1e-5)
    assert shown <= 100


# -- words and refusals -----------------------------------------------------------------------------------------------


def test_the_screen_says_result_check_and_next_step(capsys: Any) -> None:
    done = run(capsys, "measure", PLANTER, READINGS)
    assert done.status == 0
    assert "Each sheave passes on 92.97 % of the pull" in done.out
    assert "K to the power 5" in done.out
    assert "24 rows read: 19 used, 2 refused, 3 empty." in done.out
    assert "What would improve this most" in done.out
    assert max(map(len, done.out.splitlines())) <= 105


@pytest.mark.parametrize(("words", "says"), [
    (["--division", "0.1"], "--division 0.1 is no force"), (["--division", "1kg"], "no force"),
    (["--masses", "1"], "no ratio"), (["--gain", "-1%"], "expected one argument"),
    (["--take", "gain"], "invalid choice"),
    (["-o", "/dev/null/lab"], "cannot write"),
])  # fmt: skip
def test_what_makes_no_sense_is_said(words: list[str], says: str, capsys: Any) -> None:
    done = run(capsys, "measure", PLANTER, READINGS, *words)
    assert done.status in (1, 2)
    assert says in done.err
    assert "  do   " in done.err


def test_a_table_that_is_not_there(capsys: Any) -> None:
    done = run(capsys, "measure", PLANTER, "nowhere.csv")
    assert done.status == 1
    assert "there is no such file" in done.err


def test_problems_of_a_table_as_text_and_as_a_record(tmp_path: Path, capsys: Any) -> None:
    (tmp_path / "bad.csv").write_text("Aminata;Björn\n1;2\n", "utf-8")
    done = run(capsys, "measure", PLANTER, str(tmp_path / "bad.csv"))
    assert done.status == 2
    assert "readings-no-heading" in done.err
    assert "Aminata" not in done.err
    done = run(capsys, "measure", PLANTER, str(tmp_path / "bad.csv"), "--json")
    assert done.status == 2
    assert json.loads(done.out)["problems"][0]["code"] == "readings-no-heading"
    assert "Aminata" not in done.out


def test_no_name_of_the_table_reaches_a_file(tmp_path: Path) -> None:
    rows = (
        Path(READINGS)
        .read_text("utf-8-sig")
        .replace("columns mixed up", "Aminata Quenneville")
        .replace("1,36;1,94", "Björn;1,94")
    )
    rig, _ = api.load(PLANTER)
    found, _ = api.measure(rig, rows.encode())
    found.save(tmp_path / "lab")
    for path in (tmp_path / "lab").iterdir():
        data = path.read_bytes()
        for name in ("Aminata", "Quenneville", "Björn"):
            assert name.encode() not in data
            assert name.encode("utf-16-be") not in data
