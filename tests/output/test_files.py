"""Files: whole or not there, edits never lost, the same bytes again."""

import os
import signal
import stat
import subprocess
import sys
import textwrap
import time
from contextlib import suppress
from pathlib import Path

import pytest

from gantline.output import files

FIRST = {"index.html": b"first", "figures/a.svg": b"<svg/>", "script.md": b"words"}
SECOND = {"index.html": b"second", "figures/b.svg": b"<svg/>", "script.md": b"words"}


def tree(folder: Path) -> dict[str, bytes]:
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def shown(folder: Path) -> dict[str, bytes]:
    return {name: data for name, data in tree(folder).items() if name != files.MANIFEST}


def test_build_writes_the_files_and_nothing_else(tmp_path: Path) -> None:
    built = files.build(tmp_path / "lesson", FIRST)
    assert shown(tmp_path / "lesson") == FIRST
    assert built.kept == ()
    assert [path.name for path in tmp_path.iterdir()] == ["lesson"]


def test_second_build_replaces_and_removes_what_it_made(tmp_path: Path) -> None:
    files.build(tmp_path / "lesson", FIRST)
    files.build(tmp_path / "lesson", SECOND)
    assert shown(tmp_path / "lesson") == SECOND


def test_same_files_give_the_same_bytes(tmp_path: Path) -> None:
    files.build(tmp_path / "one", FIRST)
    files.build(tmp_path / "two", FIRST)
    before = tree(tmp_path / "one")
    files.build(tmp_path / "one", FIRST)
    assert tree(tmp_path / "one") == before == tree(tmp_path / "two")


def test_edited_file_is_kept_and_the_new_one_stands_beside_it(tmp_path: Path) -> None:
    files.build(tmp_path / "lesson", FIRST)
    (tmp_path / "lesson/index.html").write_bytes(b"mine")
    for _ in range(2):
        built = files.build(tmp_path / "lesson", SECOND)
        assert built.kept == (files.Kept("index.html", "index.new.html"),)
        assert (tmp_path / "lesson/index.html").read_bytes() == b"mine"
        assert (tmp_path / "lesson/index.new.html").read_bytes() == b"second"


def test_edited_new_file_is_kept_as_well(tmp_path: Path) -> None:
    files.build(tmp_path / "lesson", FIRST)
    (tmp_path / "lesson/index.html").write_bytes(b"mine")
    files.build(tmp_path / "lesson", SECOND)
    (tmp_path / "lesson/index.new.html").write_bytes(b"mine too")
    files.build(tmp_path / "lesson", FIRST)
    kept = shown(tmp_path / "lesson")
    assert (kept["index.html"], kept["index.new.html"], kept["index.new.new.html"]) == (b"mine", b"mine too", b"first")


def test_edited_file_that_is_no_longer_made_stays(tmp_path: Path) -> None:
    files.build(tmp_path / "lesson", FIRST)
    (tmp_path / "lesson/figures/a.svg").write_bytes(b"mine")
    files.build(tmp_path / "lesson", SECOND)
    assert shown(tmp_path / "lesson") == {**SECOND, "figures/a.svg": b"mine"}


def test_foreign_files_and_links_stay(tmp_path: Path) -> None:
    folder = tmp_path / "lesson"
    folder.mkdir()
    (folder / "notes.txt").write_bytes(b"my notes")
    (folder / "link").symlink_to("notes.txt")
    files.build(folder, FIRST)
    assert (folder / "notes.txt").read_bytes() == b"my notes"
    assert os.readlink(folder / "link") == "notes.txt"


def test_file_of_the_users_in_the_way_is_not_overwritten(tmp_path: Path) -> None:
    folder = tmp_path / "lesson"
    folder.mkdir()
    (folder / "index.html").write_bytes(b"my own page")
    built = files.build(folder, FIRST)
    assert (folder / "index.html").read_bytes() == b"my own page"
    assert built.kept[0].beside == "index.new.html"


def test_folder_behind_a_link_and_its_mode(tmp_path: Path) -> None:
    (tmp_path / "real").mkdir(mode=0o750)
    (tmp_path / "lesson").symlink_to("real")
    files.build(tmp_path / "lesson", FIRST)
    assert (tmp_path / "lesson").is_symlink()
    assert shown(tmp_path / "real") == FIRST
    assert stat.S_IMODE((tmp_path / "real").stat().st_mode) == 0o750


def test_modes_of_files_are_kept(tmp_path: Path) -> None:
    files.build(tmp_path / "lesson", FIRST)
    (tmp_path / "lesson/index.html").chmod(0o640)
    files.build(tmp_path / "lesson", SECOND)
    assert stat.S_IMODE((tmp_path / "lesson/index.html").stat().st_mode) == 0o640


def test_file_in_place_of_the_folder_is_refused(tmp_path: Path) -> None:
    (tmp_path / "lesson").write_bytes(b"a file")
    with pytest.raises(NotADirectoryError):
        files.build(tmp_path / "lesson", FIRST)
    assert (tmp_path / "lesson").read_bytes() == b"a file"


def test_two_builds_at_once_are_refused(tmp_path: Path) -> None:
    with files._lock(tmp_path / "lesson"), pytest.raises(files.Busy, match="another build"):
        files.build(tmp_path / "lesson", FIRST)
    files.build(tmp_path / "lesson", FIRST)


@pytest.mark.parametrize(
    "manifest", [b"", b"{", b"[]", b'{"format":"other","files":{}}', b'{"files":{"../x":"1"}}', b"\xff"]
)
def test_broken_manifest_loses_nothing(tmp_path: Path, manifest: bytes) -> None:
    files.build(tmp_path / "lesson", FIRST)
    (tmp_path / "lesson" / files.MANIFEST).write_bytes(manifest)
    built = files.build(tmp_path / "lesson", SECOND)
    assert (tmp_path / "lesson/index.html").read_bytes() == b"first"  # nobody knows whose it is: kept
    assert {kept.file for kept in built.kept} == {"index.html"}


@pytest.mark.parametrize("step", ["open", "fsync", "rename", "rmtree"])
@pytest.mark.parametrize("count", range(1, 6))
def test_failure_at_any_step_leaves_the_old_or_the_new_folder(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, step: str, count: int
) -> None:
    files.build(tmp_path / "lesson", FIRST)
    left = [count]

    def failing(real):  # type: ignore[no-untyped-def]
        def call(*args, **more):  # type: ignore[no-untyped-def]
            left[0] -= 1
            if left[0] == 0:
                raise OSError(28, "no space left")
            return real(*args, **more)

        return call

    places = {
        "open": (os, "open"),
        "fsync": (os, "fsync"),
        "rename": (os, "rename"),
        "rmtree": (files.shutil, "rmtree"),
    }
    monkeypatch.setattr(files, "_exchange", lambda one, other: False)
    monkeypatch.setattr(*places[step], failing(getattr(*places[step])))
    with suppress(OSError):
        files.build(tmp_path / "lesson", SECOND)
    monkeypatch.undo()
    left_behind = shown(tmp_path / "lesson") if (tmp_path / "lesson").exists() else shown(tmp_path / ".lesson.old")
    assert left_behind in (FIRST, SECOND)
    files.build(tmp_path / "lesson", SECOND)
    assert shown(tmp_path / "lesson") == SECOND
    assert [path.name for path in tmp_path.iterdir()] == ["lesson"]


def test_kill_at_random_moments_leaves_a_whole_folder(tmp_path: Path) -> None:
    """The old files or the new ones, all of one build, whenever the builder is killed."""
    builds = [{f"f{n}": bytes([65 + k]) * 20_000 for n in range(30)} for k in (0, 1)]
    files.build(tmp_path / "lesson", builds[0])
    code = f"""
        from pathlib import Path
        from gantline.output import files
        builds = [{{f"f{{n}}": bytes([65 + k]) * 20_000 for n in range(30)}} for k in (0, 1)]
        print("on", flush=True)
        while True:
            for one in builds:
                files.build(Path({str(tmp_path / "lesson")!r}), one)
        """
    for moment in range(12):
        running = subprocess.Popen([sys.executable, "-c", textwrap.dedent(code)], stdout=subprocess.PIPE)
        assert running.stdout is not None
        running.stdout.readline()
        time.sleep(0.01 + 0.017 * moment)
        running.send_signal(signal.SIGKILL)
        running.wait()
        running.stdout.close()
        assert shown(tmp_path / "lesson") in builds
    files.build(tmp_path / "lesson", builds[0])
    assert [path.name for path in tmp_path.iterdir()] == ["lesson"]


def test_write_keeps_link_and_mode_and_refuses_read_only(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    real = tmp_path / "real.rig"
    real.write_bytes(b"old")
    real.chmod(0o640)
    (tmp_path / "link.rig").symlink_to("real.rig")
    files.write(tmp_path / "link.rig", b"new")
    assert (tmp_path / "link.rig").is_symlink()
    assert real.read_bytes() == b"new"
    assert stat.S_IMODE(real.stat().st_mode) == 0o640
    monkeypatch.setattr(os, "access", lambda path, mode, **_: False)
    with pytest.raises(PermissionError, match="read-only"):
        files.write(real, b"newer")
    assert sorted(path.name for path in tmp_path.iterdir()) == ["link.rig", "real.rig"]
