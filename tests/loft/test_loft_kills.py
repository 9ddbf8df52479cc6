"""Killed while it saves, two hundred times at moments drawn by chance: nothing kept is lost, and nothing is half."""

import contextlib
import json
import os
import random
import re
import signal
import threading
import time
from pathlib import Path

import pytest
from inside import PLANTER
from outside import Outside, loft, status

from gantline.loft.asked import Keep
from gantline.loft.folder import Folder
from gantline.loft.keeping import keep

KILLS, WITH_A_SERVER = 190, 10
NUMBER = re.compile(r"weight (\d+) N\n")


def text(number: int) -> str:
    return PLANTER.replace("weight 348 N\n", f"weight {number} N\n")


def number_of(words: str) -> int:
    """Which of the texts this is. Fails for anything that is none of them, whole."""
    found = NUMBER.search(words)
    assert found, words
    assert words == text(int(found[1]))
    return int(found[1])


def save_on(folder: Path, start: int, heard: int) -> None:
    """Saves one text after the other, and says so after each, until it is killed."""
    opened = Folder(folder)
    for number in range(start, start + 10_000):
        before = text(number - 1) if number > start else (folder / "planter.rig").read_text(encoding="utf-8")
        answer, _ = keep(opened, Keep("planter.rig", text(number), before, str(number)))
        os.write(heard, f"{number} {answer}\n".encode())


def kept_earlier(folder: Path) -> set[str]:
    found = set()
    for line in (folder / ".gantline" / "planter.rig.earlier").read_bytes().split(b"\n"):
        try:
            found.add(json.loads(line)["text"])
        except ValueError:
            continue
    return found


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "planter.rig").write_text(text(1000), encoding="utf-8")
    return tmp_path


@pytest.mark.filterwarnings("ignore:.*multi-threaded, use of fork:DeprecationWarning")  # the child only saves
def test_killed_at_moments_drawn_by_chance(folder: Path) -> None:
    chance = random.Random(20)
    kept = 1000
    for _ in range(KILLS):
        hears, says = os.pipe()
        child = os.fork()
        if child == 0:
            try:
                save_on(folder, kept + 1, says)
            finally:
                os._exit(1)
        os.close(says)
        with os.fdopen(hears, "rb") as told:
            first = told.readline()  # it is at work: what comes may come at any moment of a save
            time.sleep(chance.random() * 0.02)
            os.kill(child, signal.SIGKILL)
            lines = [first, *told.read().split(b"\n")]
        os.waitpid(child, 0)
        answers = [line.split() for line in lines if line.strip()]
        assert answers, "it was killed before it saved anything"
        assert {answer for _, answer in answers} == {b"200"}
        said = int(answers[-1][0])
        kept = number_of((folder / "planter.rig").read_text(encoding="utf-8"))
        assert kept in (said, said + 1), "what was said to be kept is kept; at most one more"
        earlier = kept_earlier(folder)
        assert {text(int(number)) for number, _ in answers} <= earlier


def saved(running: Outside, number: int) -> int:
    record = json.dumps({"name": "planter.rig", "text": text(number), "base": text(number - 1)}).encode()
    head = b"PUT /api/file HTTP/1.1\r\n" + running.head + b"content-type: application/json\r\nx-gantline: 1\r\n"
    return status(running.say(head + b"content-length: %d\r\n\r\n" % len(record) + record))


def test_a_server_killed_while_pages_save(folder: Path) -> None:
    chance = random.Random(21)
    kept = 1000
    for _ in range(WITH_A_SERVER):
        with loft(folder) as running:
            said = kept + 1
            assert saved(running, said) == 200
            kill = threading.Timer(chance.random() * 0.2, running.process.kill)
            kill.start()
            with contextlib.suppress(OSError):
                while saved(running, said + 1) == 200:
                    said += 1
            kill.join()
        kept = number_of((folder / "planter.rig").read_text(encoding="utf-8"))
        assert kept in (said, said + 1)


def test_what_a_killed_save_left_is_swept_at_the_next_start(folder: Path) -> None:
    left = folder / ".planter.rig.0123456789ab.part"
    young = folder / ".planter.rig.ba9876543210.part"
    others = folder / ".lesson.part"
    for path in (left, young, others):
        path.write_text("half", encoding="utf-8")
    os.utime(left, (0, 0))
    os.utime(others, (0, 0))
    Folder(folder).sweep()
    assert {path.name for path in folder.iterdir()} == {young.name, others.name, "planter.rig"}


def edit_on(folder: Path, name: str, edits: int) -> None:
    """One server's window: adds a remark of its own above its line, merging what it is told, until all are in."""
    opened = Folder(folder)
    base = mine = (folder / "planter.rig").read_text(encoding="utf-8")
    for number in range(edits):
        mine = mine.replace(f"\n{name} ", f"\n# {name} {number}\n{name} ", 1)
        while True:
            status_, told = keep(opened, Keep("planter.rig", mine, base, str(number)))
            if status_ == 200:
                base = mine
                break
            mine, base = told["merged"], told["theirs"]


@pytest.mark.filterwarnings("ignore:.*multi-threaded, use of fork:DeprecationWarning")  # the children only save
def test_two_servers_on_one_folder_lose_no_edit(folder: Path) -> None:
    words, edits = ("title", "moving", "raise"), 25
    children = []
    for word in words:
        child = os.fork()
        if child == 0:
            try:
                edit_on(folder, word, edits)
                os._exit(0)
            finally:
                os._exit(1)
        children.append(child)
    assert [os.waitpid(child, 0)[1] for child in children] == [0] * len(words)
    kept = (folder / "planter.rig").read_text(encoding="utf-8")
    assert all(f"# {word} {number}\n" in kept for word in words for number in range(edits))
