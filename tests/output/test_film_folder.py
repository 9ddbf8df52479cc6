"""A film folder: whole or not there, shots kept and used again, the same bytes from the same rig, words in the file."""

import os
import signal
import subprocess
import sys
import time
from contextlib import suppress
from io import StringIO
from pathlib import Path
from threading import Thread

import av
import numpy
import pytest
import webvtt
from ready import shelf

from gantline.account import Account, explain
from gantline.film import Act, board
from gantline.output import film_folder, film_mux, film_pieces
from gantline.output.film_pieces import Look
from gantline.output.narration import Narrated

SMALL = Look(size=90, rate=10)
SAID = {("runner", "path"): "Follow the rope with your finger."}


def told(words: dict[tuple[str, str], str] | None = None) -> Narrated:
    rig, answer = shelf("runner-up")
    account = explain(rig, answer)
    assert isinstance(account, Account)
    return Narrated(board([Act("runner", rig, answer, account)], words))


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Path]:
    """A film of both kinds, and the folder of its kept shots."""
    there = tmp_path_factory.mktemp("films")
    film_folder.build(told(), there / "film", SMALL, there / "kept")
    return there / "film", there / "kept"


def contents(folder: Path) -> dict[str, bytes]:
    return {str(path.relative_to(folder)): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def test_the_folder_holds_all_that_is_promised(made: tuple[Path, Path]) -> None:
    names = set(contents(made[0]))
    assert {"film.mp4", "film.webm", "captions.vtt", "captions.srt", "chapters.vtt", "descriptions.vtt",
            "transcript.txt", "poster.png", "contact-sheet.png"} <= names  # fmt: skip
    shots = told().board.shots
    for ending in ("png", "svg"):
        assert len([name for name in names if name.startswith("stills/") and name.endswith(ending)]) == len(shots)
    assert not [path for path in made[1].iterdir() if path.name.startswith(".")], "nothing half made is left"


@pytest.mark.parametrize(("name", "codec"), [("film.mp4", "h264"), ("film.webm", "vp9")])
def test_the_video_has_every_frame_in_its_time(made: tuple[Path, Path], name: str, codec: str) -> None:
    story = told().board
    with av.open(str(made[0] / name)) as film:
        video = film.streams.video[0]
        assert video.codec_context.codec.canonical_name == codec
        times = [float(frame.time) for frame in film.decode(video)]
        titles = [chapter["metadata"]["title"] for chapter in film.chapters()]
    assert len(times) == round(story.seconds * SMALL.rate)
    assert times == pytest.approx([number / SMALL.rate for number in range(len(times))], abs=2e-3)
    assert len(titles) == len(story.shots)


def test_captions_inside_the_film_are_those_beside_it_and_begin_with_their_step(made: tuple[Path, Path]) -> None:
    with av.open(str(made[0] / "film.mp4")) as film:
        track = film.streams.subtitles[0]
        inside = [
            (float(packet.pts * packet.time_base), bytes(packet)[2:].decode())
            for packet in film.demux(track)
            if packet.pts is not None and packet.size > 2
        ]
    beside = list(webvtt.from_buffer(StringIO((made[0] / "captions.vtt").read_text("utf-8"))))
    assert [words for _, words in inside] == [cue.text for cue in beside]
    assert [at for at, _ in inside] == pytest.approx([seconds(cue.start) for cue in beside], abs=0.002)
    for shot in told().board.shots:
        if shot.says:
            assert min(abs(at - shot.start) for at, _ in inside) < 0.1, shot.id


def seconds(clock: str) -> float:
    hours, minutes, rest = clock.split(":")
    return 3600 * int(hours) + 60 * int(minutes) + float(rest)


def test_the_same_rig_gives_the_same_bytes(made: tuple[Path, Path], tmp_path: Path) -> None:
    film_folder.build(told(), tmp_path / "film", SMALL, tmp_path / "kept")
    one, other = contents(tmp_path / "film"), contents(made[0])
    assert [name for name in one if one[name] != other[name]] == []
    assert set(one) == set(other)


def test_only_what_changed_is_drawn_anew(made: tuple[Path, Path], tmp_path: Path) -> None:
    again = film_folder.build(told(), tmp_path / "film", SMALL, made[1])
    assert again.drawn == 0
    edited = film_folder.build(told(SAID), tmp_path / "film", SMALL, made[1])
    assert edited.drawn == 1
    assert SAID["runner", "path"] in (tmp_path / "film" / "captions.vtt").read_text("utf-8").replace("\n", " ")


def test_a_full_disk_leaves_the_old_film_whole(
    made: tuple[Path, Path], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    film_folder.build(told(), tmp_path / "film", SMALL, made[1])
    before = contents(tmp_path / "film")

    def full(path: Path, *_: object) -> None:
        path.write_bytes(b"half")
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(film_mux, "write", full)
    with pytest.raises(OSError, match="No space left"):
        film_folder.build(told(SAID), tmp_path / "film", SMALL, made[1])
    assert contents(tmp_path / "film") == before
    assert not [path for path in made[1].iterdir() if path.name.startswith(".")]


def test_disk_that_is_full_at_the_last_byte_of_a_shot_is_an_error_and_no_endless_wait(tmp_path: Path) -> None:
    """What is written is buffered, so that a small shot fails only when its file is closed: after its last frame."""
    writer = film_pieces._Writer(Path("/dev/full"), "mp4", SMALL)
    tried = Thread(target=lambda: write_one_frame(writer), daemon=True)
    tried.start()
    tried.join(60)
    assert not tried.is_alive()
    assert isinstance(writer.failed, OSError)


def write_one_frame(writer: film_pieces._Writer) -> None:
    with suppress(OSError), writer:
        writer.frames.put((numpy.zeros((SMALL.frame[1] * 3 // 2, SMALL.frame[0]), "u1"), 1))


def test_shots_used_longest_ago_make_room_and_nothing_else_goes(tmp_path: Path) -> None:
    new, used, old = (f"{letter * 32}.mp4" for letter in "abc")
    for age, name in enumerate(["notes.txt", new, used, old, f".{'d' * 32}.1.mp4", ".hidden"]):
        (tmp_path / name).write_bytes(bytes(100))
        os.utime(tmp_path / name, (time.time() - 25_000 * age,) * 2)
    film_folder.make_room(tmp_path, 1000)
    assert {path.name for path in tmp_path.iterdir()} == {"notes.txt", new, used, old, ".hidden"}
    film_folder.make_room(tmp_path, 250)
    assert {path.name for path in tmp_path.iterdir()} == {"notes.txt", new, used, ".hidden"}


def test_a_killed_build_goes_on_where_it_was(tmp_path: Path) -> None:
    rig = tmp_path / "runner.rig"
    subprocess.run([sys.executable, "-m", "gantline", "shelf", "runner-up", "-o", str(rig)], check=True)
    command = [sys.executable, "-m", "gantline", "film", str(rig), "-o", str(tmp_path / "film"), "--size", "360",
               "--only", "mp4", "--cache", str(tmp_path / "kept")]  # fmt: skip
    first = subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    kept: list[Path] = []
    deadline = time.monotonic() + 60
    while len(kept) < 2 and first.poll() is None and time.monotonic() < deadline:
        kept = [path for path in tmp_path.glob("kept/*.mp4") if not path.name.startswith(".")]
        time.sleep(0.02)
    os.kill(first.pid, signal.SIGKILL)
    first.wait()
    assert len(kept) >= 2
    assert not (tmp_path / "film").exists(), "it was killed before it was whole"
    stamps = {path: path.read_bytes() for path in kept}
    subprocess.run(command, check=True, stdout=subprocess.DEVNULL)
    assert (tmp_path / "film" / "film.mp4").exists()
    assert all(path.read_bytes() == data for path, data in stamps.items())
