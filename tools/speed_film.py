"""How long a film takes against its encoders alone, how much memory, and how long it takes after one changed sentence.

It renews its section of docs/speed.md. At 1080p30, shot by shot in turn, so that whatever else the machine does slows
both alike: the shots as `gantline film` makes them, and the same frames, drawn before the clock runs, given to the same
encoders in as many threads. What a film takes besides (storyboard, stills, putting together) is measured as a film
whose shots are kept and whose stills are gone. Memory is that of whole films, each made in a process of its own.
"""

import argparse
import os
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Sequence
from concurrent.futures import ThreadPoolExecutor
from importlib.resources import files
from pathlib import Path
from typing import Any

import numpy as np

import gantline
from gantline.film import Tap, Taps, board, takes
from gantline.output import film_acts, film_pieces, taps, voice
from gantline.output.film_folder import CORES
from gantline.output.film_paint import Painter
from gantline.output.film_pieces import Look, Piece
from gantline.output.film_sound import RATE

ROOT = Path(__file__).resolve().parents[1]
HEAD = "## A film"
LONG = ("runner-up", "planter", "gun-up")
Spent = tuple[float, float]  # wall and processor seconds


class Drawn:
    """Stands where a painter stands, with all frames of one shot drawn already."""

    def __init__(self, piece: Piece, look: Look) -> None:
        painter = Painter(look.theme, look.size)
        moments = film_pieces.held(piece.take, piece.count, look.rate)
        self.frames = iter([painter.frame(moment).copy() for moment, _ in moments])

    def frame(self, _: Any) -> Any:
        return next(self.frames)


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("rig", nargs="?", default="planter")
    rig = parser.parse_args().rig
    folder = Path(tempfile.mkdtemp(prefix="gantline-film-"))
    try:
        renew(f"{HEAD}\n\n{report(rig, folder)}")
    finally:
        shutil.rmtree(folder)


def report(name: str, folder: Path) -> str:
    """The section of docs/speed.md."""
    memory = lengths(folder)
    text = files("gantline").joinpath(f"shelf/{name}.rig").read_text("utf-8")
    rig, _ = gantline.read(text)
    solved = gantline.solve(rig)
    acts = film_acts.acts([(solved.rig, solved.answer)])
    rows, frames, seconds = [], 0, 0.0
    for kinds in (("mp4", "webm"), ("mp4",)):
        look = Look(kinds=kinds)
        pieces = film_pieces.pieces(takes(board(acts)), look)
        frames, seconds = sum(piece.count for piece in pieces), pieces[-1].take.shot.end
        place = folder / "-".join(kinds)
        place.mkdir()
        shots, alone = in_turn(pieces, look, place)
        rest, again = besides(rig, acts, kinds, place)
        film = shots[0] + rest[0], shots[1] + rest[1]
        rows.append((" and ".join(kinds), film, alone, again))
    lines = "\n".join(
        f"| {words} | {film[0]:.1f} s | {alone[0]:.1f} s | {film[0] / alone[0]:.2f} | {film[1] / alone[1]:.2f} "
        f"| {again[0] / film[0]:.3f} | {again[1] / film[1]:.3f} |"
        for words, film, alone, again in rows
    )
    return f"""The film of `{name}`, 1080p30, {seconds:.0f} s, {frames} frames, on two cores; in turn with its encoders
alone on the same frames already drawn (aimed at: at most 1.5 times as long; after one changed sentence at most 0.15 of
a film).

| kinds | the film | encoders alone | ratio, wall | ratio, processor | changed sentence, wall | processor |
|---|---|---|---|---|---|---|
{lines}

Most memory of the one process that makes a film of both kinds (aimed at: under 450 MB, whatever the length):

| rigs | length | size | voice | most memory |
|---|---|---|---|---|
{memory}
"""


def lengths(folder: Path) -> str:
    """Rows of most memory by the length of the film, and of one with a voice, small; the last in full size."""
    rows = []
    for names, size, voiced in ((LONG[:1], 360, False), (LONG, 360, False), (LONG, 360, True), (LONG[:1], 1080, False)):
        seconds, memory = peak(names, size, voiced, folder / "peak")
        voice = "a voice" if voiced else "none"
        rows.append(f"| {len(names)} | {seconds / 60:.1f} min | {size} | {voice} | {memory:.0f} MB |")
    return "\n".join(rows)


def peak(names: Sequence[str], size: int, voiced: bool, folder: Path) -> tuple[float, float]:
    """The seconds of a film of both kinds over ready rigs, and the most MB of the process that makes it."""
    folder.mkdir()
    rigs = [folder / f"{name}.rig" for name in names]
    for rig in rigs:
        rig.write_text(files("gantline").joinpath(f"shelf/{rig.name}").read_text("utf-8"), "utf-8")
    seconds = told(rigs, folder)
    voices = ["--voice", str(folder / "voice.wav"), "--taps", str(folder / "taps.json")] if voiced else []
    command = [
        "film",
        *map(str, rigs),
        "-o",
        str(folder / "film"),
        "--cache",
        str(folder / "kept"),
        "--size",
        str(size),
    ]
    process = subprocess.Popen([sys.executable, "-m", "gantline", *command, *voices], stdout=subprocess.DEVNULL)
    _, status, used = os.wait4(process.pid, 0)
    if status:
        raise SystemExit(f"no film of {', '.join(names)}")
    shutil.rmtree(folder)
    return seconds, used.ru_maxrss / 1024


def told(rigs: Sequence[Path], folder: Path) -> float:
    """Writes a voice (a tone) and its taps for the film of these rigs; its seconds."""
    solved = [gantline.solve(gantline.read(rig.read_text("utf-8"))[0]) for rig in rigs]
    story = board(film_acts.acts([(each.rig, each.answer) for each in solved]))
    second = np.rint(8000 * np.sin(2 * np.pi * 440 * np.arange(RATE) / RATE)).astype("<i2").tobytes()
    voice.save(folder / "voice.wav", (second for _ in range(round(story.seconds))))
    steps = tuple(Tap(shot.id, shot.start) for shot in story.shots if shot.says)
    (folder / "taps.json").write_bytes(taps.write(Taps(story.seconds, steps)))
    return story.seconds


def in_turn(pieces: tuple[Piece, ...], look: Look, place: Path) -> tuple[Spent, Spent]:
    """Shots drawn and encoded, and encoders alone, as many shots at a time as a film has."""
    together = max(1, CORES // len(look.kinds))
    order = sorted(pieces, key=lambda piece: -piece.count)  # shots of much the same length: no thread waits long
    painters = [Painter(look.theme, look.size) for _ in range(together)]
    kept, aside = place / "shots", place / "aside"
    kept.mkdir(), aside.mkdir()
    whole, alone = (0.0, 0.0), (0.0, 0.0)
    with ThreadPoolExecutor(together) as pool:
        for at in range(0, len(order), together):
            some = order[at : at + together]
            whole = added(whole, timed(lambda: encoded(pool, some, painters, look, kept)))  # noqa: B023
            drawn = [Drawn(piece, look) for piece in some]
            alone = added(alone, timed(lambda: encoded(pool, some, drawn, look, aside)))  # noqa: B023
    return whole, alone


def encoded(pool: ThreadPoolExecutor, some: list[Piece], painters: list[Any], look: Look, folder: Path) -> None:
    for job in [
        pool.submit(film_pieces.encode, one, look, by, folder) for one, by in zip(some, painters, strict=False)
    ]:
        job.result()


def besides(rig: Any, acts: Any, kinds: tuple[str, ...], place: Path) -> tuple[Spent, Spent]:
    """What a film takes besides its shots; and a whole film after one changed sentence."""

    def make() -> None:
        gantline.film([rig], place / "film", kinds=kinds, cache=place / "shots")

    rest = timed(make)
    (place / "film" / "script.md").write_text(changed(acts), "utf-8")
    return rest, timed(make)


def timed(work: Callable[[], Any]) -> Spent:
    wall, cpu = time.perf_counter(), time.process_time()
    work()
    return time.perf_counter() - wall, time.process_time() - cpu


def added(one: Spent, other: Spent) -> Spent:
    return one[0] + other[0], one[1] + other[1]


def changed(acts: Any) -> str:
    """A script with one sentence of the tutor's own."""
    key = acts[0].account.keys[1]
    return f"# A film\n\n## {acts[0].rig.title} {{#{acts[0].key}}}\n\n[{key}]\nFollow the rope with your finger.\n"


def renew(section: str) -> None:
    """Puts a fresh section in the place of the old one."""
    path = ROOT / "docs/speed.md"
    before, found, rest = path.read_text("utf-8").partition(f"{HEAD}\n")
    after = rest[rest.find("\n## ") + 1 :] if "\n## " in rest else ""
    head = before if found else before.rstrip() + "\n\n"
    path.write_text(f"{head}{section}{chr(10) if after else ''}{after}", "utf-8")


if __name__ == "__main__":
    main()
