"""What goes wrong is said in one kind way, with the right exit status, and never as a traceback."""

import json
import os
import signal
import subprocess
import sys
import time

import pytest
from running import PLANTER, Terminal, fresh, run

from gantline.output.plain import painter, problems_text
from gantline.problems import Place, Problem

BAD = "fixed upper sheaves 1\nload bell weight 5 Kgs\nrope fall: bell, over uper, hand\n"


def test_problems_are_shown_with_place_line_caret_and_advice(tmp_path, capsys) -> None:
    file = tmp_path / "bad.rig"
    file.write_text(BAD)
    said = run(capsys, "solve", str(file))
    assert said.status == 2
    assert said.out == ""
    assert f"{file}:2:" in said.err
    assert f"{file}:3:" in said.err
    assert "  why  " in said.err
    assert "  do   " in said.err
    shown = said.err.splitlines()
    caret = next(number for number, line in enumerate(shown) if set(line.strip()) == {"^"})
    start = shown[caret].index("^")
    assert shown[caret - 1][start : start + len(shown[caret].strip())] == "Kgs"


@pytest.mark.parametrize("command", [("solve", "--json"), ("explain", "--json")])
def test_problems_as_a_record(tmp_path, capsys, command) -> None:
    file = tmp_path / "bad.rig"
    file.write_text(BAD)
    name, *options = command
    said = run(capsys, name, str(file), *options)
    assert said.status == 2
    problems = json.loads(said.out)["problems"]
    assert {"code", "line", "column", "text", "says", "why", "do"} == set(problems[0])
    assert [problem["line"] for problem in problems] == sorted(problem["line"] for problem in problems)
    assert problems[0]["text"] == BAD.splitlines()[1]


@pytest.mark.parametrize(
    ("before", "columns"), [("鐘鐘", 4), ("e\u0301te\u0301", 3), ("\t", 4), ("\x1b", 4), ("abc", 3)]
)
def test_the_caret_stands_under_the_right_glyph(before, columns) -> None:
    place = Place(1, len(before) + 2, 3)
    shown = problems_text([Problem("slip", place, f"{before} 鐘Kg", "s", "w", "d")], "f", painter(False)).splitlines()
    caret = next(line for line in shown if "^" in line)
    assert caret == f"    {' ' * (columns + 1)}^^^^"


def test_a_terminal_obeys_nothing_that_a_file_says(tmp_path, capsys) -> None:
    file = tmp_path / "rude.rig"
    file.write_text("load bell\x1b[2J\x07 weight 5\u202e N\nodd \x9b31m\u200b\n", encoding="utf-8")
    said = run(capsys, "solve", str(file))
    assert said.status == 2
    assert not set(said.err) & set("\x1b\x07\u202e\x9b\u200b")


@pytest.mark.parametrize(
    ("file", "words"),
    [
        ("nowhere.rig", "no such file"),
        (".", "is a folder"),
        ("a\0b", "cannot hold"),
        ("x" * 5000, "do  "),
    ],
)
@pytest.mark.parametrize("command", ["solve", "explain", "tidy"])
def test_a_file_that_cannot_be_read(capsys, command, file, words) -> None:
    said = run(capsys, command, file)
    assert said.status == 1
    assert words in said.err
    assert "  do   " in said.err


def test_a_file_that_may_not_be_read(tmp_path, capsys, monkeypatch) -> None:
    from gantline import api

    def refuse(path):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(api, "contents", refuse)
    said = run(capsys, "solve", PLANTER)
    assert said.status == 1
    assert "may not be opened" in said.err


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no named pipes here")
def test_a_pipe_that_nobody_writes_to_does_not_hang(tmp_path) -> None:
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)
    assert fresh("solve", str(pipe)).returncode == 2


@pytest.mark.skipif(not os.path.exists("/dev/zero"), reason="no /dev/zero here")
def test_an_endless_file_is_not_read_whole() -> None:
    assert fresh("solve", "/dev/zero").returncode == 2


def test_bytes_that_are_no_text() -> None:
    assert fresh("solve", "-", input=b"title \xff\xfe\x00").returncode == 2


def test_a_closed_pipe_is_quiet() -> None:
    reader = subprocess.Popen(["head", "-c", "1"], stdin=subprocess.PIPE, stdout=subprocess.DEVNULL)
    code = (
        "import sys, time; time.sleep(.3); sys.exit(__import__('gantline.cli', fromlist=['main']).main(sys.argv[1:]))"
    )
    writer = subprocess.Popen(
        [sys.executable, "-c", code, "solve", PLANTER, "--json"], stdout=reader.stdin, stderr=subprocess.PIPE
    )
    reader.stdin.close()
    reader.kill()
    reader.wait()
    _, err = writer.communicate(timeout=60)
    assert err == b""
    assert writer.returncode == 141


def test_interrupting_is_quiet(tmp_path) -> None:
    code = "import sys, gantline.cli; print(flush=True); sys.exit(gantline.cli.main(['solve', '-']))"
    running = subprocess.Popen(
        [sys.executable, "-c", code], stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.PIPE
    )
    running.stdout.readline()
    time.sleep(0.3)
    running.send_signal(signal.SIGINT)
    _, err = running.communicate(timeout=60)
    assert (running.returncode, err) == (130, b"")


def test_our_own_mistakes_are_owned_in_one_line(capsys, monkeypatch) -> None:
    from gantline import api

    def stumble(*_):
        raise ZeroDivisionError("secret \x1b[2J")

    monkeypatch.setattr(api, "solve", stumble)
    said = run(capsys, "solve", PLANTER)
    assert said.status == 70
    assert "mistake of ours" in said.err
    assert "ZeroDivisionError at test_trouble.py" in said.err
    assert "Traceback" not in said.err
    assert len(said.err.splitlines()) == 2
    monkeypatch.setenv("GANTLINE_TRACE", "1")
    assert "Traceback" in run(capsys, "solve", PLANTER).err


@pytest.mark.parametrize("words", [(), ("shlf",), ("solve",), ("solve", PLANTER, "--jso n"), ("draw", PLANTER)])
def test_wrong_use_says_where_help_is(capsys, words) -> None:
    said = run(capsys, *words)
    assert said.status == 2
    assert "--help" in said.err


def test_colour_only_on_a_terminal_and_only_where_welcome(monkeypatch, capsys) -> None:
    from gantline.cli import console

    monkeypatch.delenv("NO_COLOR", raising=False)
    monkeypatch.setenv("TERM", "xterm")
    assert console.coloured(Terminal())
    assert not console.coloured(sys.stdin)
    monkeypatch.setenv("NO_COLOR", "1")
    assert not console.coloured(Terminal())


def test_progress_only_where_somebody_watches(monkeypatch, capsys) -> None:
    from gantline.cli import console

    watched = Terminal()
    monkeypatch.setattr(sys, "stderr", watched)
    console.progress()("drawing planter")
    assert "drawing planter" in watched.getvalue()


def test_an_ascii_terminal_gets_escapes_and_no_error() -> None:
    done = fresh("solve", PLANTER, environment={"PYTHONIOENCODING": "ascii", "PYTHONUTF8": "0", "LC_ALL": "C"})
    assert done.returncode == 0, done.stderr
