"""`gantline shelf`, `gantline tidy`, `gantline draw` and `gantline explain`."""

import json

import pytest
from running import PLANTER, SHELF, record, run

VIEWS = ("bare", "labelled", "numbered", "cut", "free-body", "displacement", "tensions", "motion", "as-built", "tried")


def test_the_shelf_lists_all_with_both_lines(capsys) -> None:
    said = run(capsys, "shelf")
    rigs = record(capsys, "shelf")["rigs"]
    assert {rig["name"] for rig in rigs} == {path.stem for path in SHELF.glob("*.rig")}
    for rig in rigs:
        assert rig["teaches"] in said.out
        assert rig["wrong_ideas"] in said.out


def test_the_shelf_is_searched_by_words(capsys) -> None:
    names = {rig["name"] for rig in record(capsys, "shelf", "spanish", "burton")["rigs"]}
    assert {"burton-light", "burton-double-1"} <= names
    assert "planter" not in names
    said = run(capsys, "shelf", "zeppelin")
    assert said.status == 1
    assert "zeppelin" in said.err


def test_a_copy_is_the_rig_and_never_overwrites(tmp_path, capsys) -> None:
    copy = tmp_path / "mine.rig"
    assert run(capsys, "shelf", "planter", "-o", str(copy)).status == 0
    assert copy.read_bytes() == (SHELF / "planter.rig").read_bytes()
    copy.write_text("mine now")
    said = run(capsys, "shelf", "gyn", "-o", str(copy))
    assert said.status == 1
    assert "there already" in said.err
    assert copy.read_text() == "mine now"


def test_a_name_nearly_right_gets_a_suggestion(capsys, tmp_path) -> None:
    said = run(capsys, "shelf", "plantr", "-o", str(tmp_path / "x"))
    assert said.status == 1
    assert "Did you mean planter?" in said.err


def test_tidy_writes_checks_and_prints(tmp_path, capsys) -> None:
    file = tmp_path / "rough.rig"
    file.write_text("load bell weight 5 N\nfixed top sheaves 1\nrope fall: bell,over top , hand\n")
    assert run(capsys, "tidy", str(file), "--check").status == 1
    printed = run(capsys, "tidy", str(file), "--stdout").out
    assert "over top, hand" in printed
    assert file.read_text() != printed
    assert run(capsys, "tidy", str(file)).status == 0
    assert file.read_text() == printed
    assert run(capsys, "tidy", str(file), "--check").status == 0


def test_tidy_leaves_a_file_with_problems_alone(tmp_path, capsys) -> None:
    file = tmp_path / "bad.rig"
    file.write_text("laod bell weight 5 N\n")
    assert run(capsys, "tidy", str(file)).status == 2
    assert file.read_text() == "laod bell weight 5 N\n"


@pytest.mark.parametrize("view", VIEWS)
def test_each_view_is_drawn(tmp_path, capsys, view) -> None:
    file = tmp_path / "figure.svg"
    assert run(capsys, "draw", PLANTER, "--view", view, "-o", str(file)).status == 0
    assert file.read_text(encoding="utf-8").startswith("<svg")


def test_each_theme_is_drawn(tmp_path, capsys) -> None:
    drawn = set()
    for theme in ("light", "dark", "grey"):
        drawn.add(run(capsys, "draw", PLANTER, "--theme", theme, "-o", "-").out)
    assert len(drawn) == 3


def test_a_png(tmp_path, capsys) -> None:
    file = tmp_path / "figure.png"
    assert run(capsys, "draw", PLANTER, "-o", str(file), "--width", "600").status == 0
    data = file.read_bytes()
    assert data[:8] == b"\x89PNG\r\n\x1a\n"
    assert int.from_bytes(data[16:20], "big") == 600


@pytest.mark.parametrize(
    "words",
    [
        ("--view", "cutt", "-o", "x.svg"),
        ("-o", "x.gif"),
        ("--part", "nobody", "-o", "x.svg"),
        ("-o", "no/such/folder/x.svg"),
    ],
)
def test_what_cannot_be_drawn_says_so(tmp_path, capsys, monkeypatch, words) -> None:
    monkeypatch.chdir(tmp_path)
    said = run(capsys, "draw", PLANTER, *words)
    assert said.status == 1
    assert "  do   " in said.err
    assert not list(tmp_path.iterdir())


def test_explaining_names_the_best_method_and_the_others(capsys) -> None:
    account = record(capsys, "explain", PLANTER)
    assert account["method"] == "count"
    assert account["accepted"]
    assert account["result"]["exact"] == "90"
    assert len(account["steps"]) >= 8
    others = {other["method"]: other for other in account["others"]}
    assert set(others) == {"free-body", "carry", "rope-length", "work", "stages", "newton"}
    assert not others["newton"]["accepted"]
    assert others["newton"]["reason"]


@pytest.mark.parametrize("method", ["count", "free-body", "carry", "rope-length", "work", "stages", "newton"])
def test_each_method_explains_or_refuses(capsys, method) -> None:
    said = run(capsys, "explain", PLANTER, "--method", method)
    assert said.status == 0
    assert len(said.out) > 60
    assert "{" not in said.out


def test_an_unknown_method_says_so(capsys) -> None:
    said = run(capsys, "explain", PLANTER, "--method", "magic")
    assert said.status == 1
    assert "magic" in said.err


def test_json_never_holds_what_json_has_not(capsys) -> None:
    for path in SHELF.glob("*.rig"):
        text = run(capsys, "solve", str(path), "--json").out
        assert not {"NaN", "Infinity"} & set(json.dumps(json.loads(text)).replace('"', " ").split())
