"""The plan as it is written: print, page, record, text, folder; and what the command says."""

import json
import re
import shutil
import subprocess
import sys
import warnings
from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path
from typing import Any

import pikepdf
import pytest
from lxml import html as parser
from msgspec.structs import replace
from planned import PLANNED, SHELF, SMALL, kit_of, planned, ready

from gantline import api
from gantline.bench import Sheet, sheet
from gantline.cli import main
from gantline.output import bench_html, bench_pdf
from gantline.output.bench_folder import build
from gantline.output.bench_record import plan_record

ROOT = Path(__file__).resolve().parents[2]
CHECKER = ROOT / "tools" / "node_modules" / "vnu-jar" / "build" / "dist" / "vnu.jar"
HOSTILE = [
    "<script>alert(1)</script>",
    "</title><img src=x onerror=alert(2)>",
    '#eval("1") $x$ *b* @r',
    "{{7*7}} %s {0}",
]
MANY = ("planter", "ten-strands", "runners-three", "leads-two", "luff-upon-luff", "gun-upon-runner", "ends-on-load")


def words(page: Sheet) -> Iterator[str]:
    """Everything a sheet says."""
    yield from (page.title, page.lead, page.general, *page.steps)
    yield from (says for _, says in page.facts)
    yield from (caution.says for caution in page.cautions)
    for table in (page.readings, page.marks, page.anchors, page.laws):
        yield from (table.caption, table.note, *table.head, *(cell for row in table.rows for cell in row))


@pytest.mark.parametrize("name", MANY)
def test_the_print_is_one_tagged_page(name: str, tmp_path: Path) -> None:
    (tmp_path / "plan.pdf").write_bytes(bench_pdf.write(sheet(planned(ready(name)))))
    with pikepdf.open(tmp_path / "plan.pdf") as document:
        assert len(document.pages) == 1
        width, height = (float(side) / 72 * 25.4 for side in document.pages[0].MediaBox[2:])
        assert (round(width), round(height)) == (210, 297)
        set_in = [
            float(given[1]) for given, does in pikepdf.parse_content_stream(document.pages[0]) if str(does) == "Tf"
        ]
        assert min(set_in) >= 9, "nothing on the wall is smaller than 9 pt"
        assert document.Root.MarkInfo.Marked
        assert document.Root.Lang == "en"
        with document.open_metadata() as metadata:
            assert metadata["pdfuaid:part"] == "1"
            assert metadata["dc:title"].endswith("bench plan")
        kinds = [str(o.S) for o in document.objects if isinstance(o, pikepdf.Dictionary) and "/S" in o and "/P" in o]
        assert kinds.count("/H1") == 1
        assert kinds.count("/H2") == 6
        assert kinds.count("/Figure") == 1
        assert kinds.count("/Table") >= 4
        assert "/TH" in kinds


def test_the_same_plan_gives_the_same_bytes() -> None:
    page = sheet(planned(ready("gun-up")))
    assert bench_pdf.write(page) == bench_pdf.write(page)
    assert bench_html.write(page) == bench_html.write(page)


def test_a_plan_without_a_figure_is_printed_all_the_same(tmp_path: Path) -> None:
    page = replace(sheet(planned(ready("planter"))), scene=None)
    (tmp_path / "plan.pdf").write_bytes(bench_pdf.write(page))
    with pikepdf.open(tmp_path / "plan.pdf") as document:
        assert len(document.pages) == 1
    assert "<svg" not in bench_html.write(page)


def test_markup_is_valid(tmp_path: Path) -> None:
    if shutil.which("java") is None or not CHECKER.exists():
        warnings.warn(f"HTML IS NOT CHECKED: Java or {CHECKER.name} is missing", UserWarning, stacklevel=1)
        pytest.skip("needs Java and tools/node_modules (npm ci)")
    page = tmp_path / "plan.html"
    page.write_text(bench_html.write(sheet(planned(ready("runners-three")))), encoding="utf-8")
    command = ["java", "-jar", str(CHECKER), "--errors-only", str(page)]
    found = subprocess.run(command, capture_output=True, text=True, check=False)
    assert found.stderr.splitlines()[:20] == []
    assert found.returncode == 0


def test_the_page_says_the_whole_sheet_and_points_to_what_is_there() -> None:
    page = sheet(planned(ready("planter")))
    tree = parser.fromstring(bench_html.write(page))
    said = " ".join(tree.text_content().split())
    for words_ in words(page):
        assert " ".join(words_.split()) in said
    ids = [tag.get("id") for tag in tree.iter() if tag.get("id")]
    assert len(ids) == len(set(ids))
    assert {name for tag in tree.iter() for name in (tag.get("aria-labelledby") or "").split()} <= set(ids)
    assert [heading.tag for heading in tree.xpath("//h1|//h2|//h3")] == ["h1", *["h2"] * 6]
    assert all(item.get("data-source") for item in tree.xpath("//section[@aria-labelledby='before-h']//li"))


@pytest.mark.parametrize("words_", HOSTILE)
def test_text_from_rig_and_kit_never_becomes_markup(words_: str, tmp_path: Path) -> None:
    kit = kit_of(SMALL.replace('"Small kit"', json.dumps(words_)).replace('"ten"', json.dumps(words_)))
    page = sheet(planned(replace(ready("planter"), title=words_), kit))
    tree = parser.fromstring(bench_html.write(page))
    assert " ".join(tree.xpath("//h1")[0].text_content().split()) == " ".join(words_.split())
    assert len(tree.xpath("//script")) == 1
    assert [name for tag in tree.iter() for name in tag.attrib if name.startswith("on") or name == "src"] == []
    (tmp_path / "plan.pdf").write_bytes(bench_pdf.write(page))
    with pikepdf.open(tmp_path / "plan.pdf") as document:
        assert str(document.docinfo["/Title"]).startswith(words_)


def numbers(record: Any) -> Iterator[Fraction]:
    """Every exact number of a record."""
    if isinstance(record, dict):
        if "exact" in record:
            yield Fraction(record["exact"])
        yield from (found for entry in record.values() for found in numbers(entry))
    elif isinstance(record, list):
        yield from (found for entry in record for found in numbers(entry))
    elif isinstance(record, float):
        yield Fraction(record)


@pytest.mark.parametrize("name", PLANNED)
def test_every_number_of_the_tables_is_found_again_in_the_record(name: str) -> None:
    made = planned(ready(name))
    page, record = sheet(made), plan_record(made)
    known = {f"{float(number):#.3g}".rstrip(".") for number in numbers(record)}
    known |= {f"{float(number):.0f}" for number in numbers(record)}
    for table in (page.readings, page.anchors):
        for row in table.rows:
            for shown in re.findall(r"[−\d.]+", " ".join(row[1:])):
                assert shown.replace("−", "-") in known, (table.caption, shown)
    for row, law in zip(page.laws.rows, (law for law in made.laws if law.pull is not None), strict=True):
        assert row[0] == law.name
        assert row[2] in known


def test_every_caution_that_fits_is_on_the_page_with_its_source() -> None:
    page = sheet(planned(ready("planter")))
    ids = [caution.id for caution in page.cautions]
    assert {"person", "small", "under", "beam", "hold", "fingers", "tilt", "inspect", "met", "snap"} == set(ids)
    assert all(caution.source and caution.says.endswith(".") for caution in page.cautions)
    assert "competent person" in page.general
    assert "makers' ratings" in page.general
    says = {caution.id: caution.says for caution in page.cautions}
    assert says["small"].startswith("800\u00a0g hang")
    assert "745\u00a0N at upper" in says["met"]


def test_a_plan_outside_the_band_says_so() -> None:
    page = sheet(planned(ready("ten-strands")))
    read_on = dict(page.facts)["Read on"]
    assert "No load of the kit keeps every reading" in read_on
    assert "comes nearest" in read_on
    assert "No load" not in dict(sheet(planned(ready("planter"))).facts)["Read on"]


@pytest.mark.parametrize(
    ("rig", "more", "way", "says"),
    [
        ("planter", "", "ring", "its own weight"),
        ("planter", 'moving = "0.07 N"\n', "case", "twice what hook and rod"),
        ("planter", "tared = true\n", "tared", "as you hold it"), ("gun-up", "", "up", "lift the ring"),
        ("gun-up", 'zero = "-0.1 N"\n', "up", "Empty, it shows −0.1\u00a0N"),
    ],
)  # fmt: skip
def test_the_scale_is_read_the_way_up_it_is_held(rig: str, more: str, way: str, says: str) -> None:
    made = planned(ready(rig), kit_of(SMALL + more))
    assert made.choice.held.way == way
    assert says in dict(sheet(made).facts)["Read on"]
    lost = {"ring": Fraction(1, 2), "case": Fraction(14, 100)}.get(way, Fraction(0))
    zero = Fraction(-1, 10) if "zero" in more else Fraction(0)
    for reading in made.readings:
        assert reading.shown == reading.pull - lost + zero


def test_the_folder_is_whole_and_keeps_what_was_edited(tmp_path: Path) -> None:
    made = planned(ready("planter"))
    folder = tmp_path / "plan"
    build(made, folder)
    names = sorted(path.name for path in folder.iterdir())
    assert names == [".gantline.json", "plan.html", "plan.json", "plan.pdf"]
    assert json.loads((folder / "plan.json").read_text("utf-8"))["format"] == "gantline-bench/1"
    (folder / "plan.html").write_text("mine", encoding="utf-8")
    built = build(made, folder)
    assert (folder / "plan.html").read_text("utf-8") == "mine"
    assert [kept.beside for kept in built.kept] == ["plan.new.html"]
    assert list(tmp_path.iterdir()) == [folder]


# -- the command ------------------------------------------------------------------------------------------------------


def run(capsys: pytest.CaptureFixture[str], *command: str) -> tuple[int, str, str]:
    status = main(["bench", *command])
    said = capsys.readouterr()
    return status, said.out, said.err


PLANTER = str(SHELF / "planter.rig")


def test_the_command_prints_builds_and_refuses(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    status, out, err = run(capsys, PLANTER)
    assert (status, err) == (0, "")
    for heading in (
        "What you will read",
        "Tape marks on",
        "Step by step",
        "Before anything hangs",
        "a sample: invented",
    ):
        assert heading in out
    assert run(capsys, PLANTER, "-o", str(tmp_path / "plan"))[:2] == (0, f"open {tmp_path / 'plan' / 'plan.html'}\n")
    status, out, err = run(capsys, str(SHELF / "rider-runner.rig"))
    assert (status, out) == (1, "")
    assert "bench-person" in err
    assert "\n  why  " in err
    assert "\n  do   " in err


def test_the_records_are_json(capsys: pytest.CaptureFixture[str]) -> None:
    whole = json.loads(run(capsys, PLANTER, "--json")[1])
    assert whole["load"]["mass"]["exact"] == "4/5"
    rules = json.loads(run(capsys, PLANTER, "--laws", "--json")[1])
    assert rules["laws"] == whole["laws"]
    status, out, _ = run(capsys, str(SHELF / "rider-runner.rig"), "--json")
    assert (status, json.loads(out)["refused"]["code"]) == (1, "bench-person")


def test_the_laws_alone_are_one_table(capsys: pytest.CaptureFixture[str]) -> None:
    _, out, _ = run(capsys, PLANTER, "--laws")
    assert out.startswith("The pull while raising, by the usual rules")
    assert "Step by step" not in out


def test_a_broken_kit_is_shown_like_a_broken_rig(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    kit = tmp_path / "kit.toml"
    kit.write_text(SMALL.replace("division", "divison"), encoding="utf-8")
    status, out, err = run(capsys, PLANTER, "--kit", str(kit))
    assert (status, out) == (2, "")
    assert f"{kit}:14:12: kit-key-unknown" in err
    assert "did you mean `division`?" in err
    status, out, _ = run(capsys, PLANTER, "--kit", str(kit), "--json")
    assert (status, [p["code"] for p in json.loads(out)["problems"]]) == (2, ["kit-key-missing", "kit-key-unknown"])
    status = main(["bench", PLANTER, "--kit", str(tmp_path / "none.toml")])
    assert status == 1
    assert "there is no such file" in capsys.readouterr().err


def test_a_changed_value_changes_the_plan(capsys: pytest.CaptureFixture[str]) -> None:
    longer = json.loads(run(capsys, PLANTER, "--set", "raise=0.2m", "--json")[1])
    assert longer["room"]["rise"]["exact"] == "1/5"


def test_the_sample_kit_is_on_the_shelf(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    assert main(["shelf", "kit", "-o", str(tmp_path / "kit.toml")]) == 0
    kit, problems = api.read_kit((tmp_path / "kit.toml").read_bytes())
    assert (kit is not None, problems) == (True, ())
    assert kit.masses == api.sample_kit().masses
    capsys.readouterr()


def test_planning_needs_neither_print_nor_fits() -> None:
    code = (
        "import sys\nfrom gantline.cli import main\n"
        f"main(['bench', {PLANTER!r}, '--laws'])\n"
        "assert not {'typst', 'scipy', 'pyvips', 'lets_plot'} & set(sys.modules)\n"
    )
    subprocess.run([sys.executable, "-c", code], check=True, capture_output=True)


def test_what_the_loss_rests_on_is_said() -> None:
    text = (SHELF / "planter.rig").read_text(encoding="utf-8")
    block = '[[block]]\nname = "double"\nsheaves = 2\ncount = 2\nradius = "18 mm"\nmass = "72 g"\nefficiency = "93 %"\n'
    assert "95\u00a0% of the pull, assumed" in sheet(planned(ready("planter"))).readings.note
    assert "93\u00a0% of the pull;" in sheet(planned(ready("planter"), kit_of(SMALL + block))).readings.note
    rig, _ = api.read(text, {"upper.efficiency": "91 %", "lower.efficiency": "92 %"})
    assert rig is not None
    assert "91\u00a0% to 92\u00a0%, its own, of the pull;" in sheet(planned(rig)).readings.note


@pytest.mark.parametrize(("name", "says"), [("planter", "hanging on the rope"), ("gun-up", "an upward pull as large")])
def test_what_is_assumed_of_whoever_pulls_on_is_said(name: str, says: str) -> None:
    assert says in sheet(planned(ready(name))).anchors.note
