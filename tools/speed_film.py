"""How long a film takes against its encoders alone, how much memory, and how long it takes after one changed sentence.

`python tools/speed_film.py` prints the table of docs/speed.md. Everything is made in one run, side by side, at 1080p30:
the film as `gantline film` makes it; then the same frames, drawn before the clock runs, given to the same
encoders in as many threads; then the film again after a sentence of its script was changed.
"""

import argparse
import resource
import shutil
import sys
import tempfile
import time
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from importlib.resources import files
from pathlib import Path
from typing import Any

import gantline
from gantline.film import board, takes
from gantline.output import film_acts, film_pieces
from gantline.output.film_folder import CORES
from gantline.output.film_paint import Painter
from gantline.output.film_pieces import Look, Piece


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
    parser.add_argument("rigs", nargs="*", default=["planter"])
    parser.add_argument("--only", choices=("mp4", "webm"))
    parser.add_argument("--size", type=int, default=1080)
    arguments = parser.parse_args()
    rigs = [rig(name) for name in arguments.rigs]
    kinds = (arguments.only,) if arguments.only else ("mp4", "webm")
    folder = Path(tempfile.mkdtemp(prefix="gantline-film-"))
    try:
        report(rigs, kinds, arguments.size, folder)
    finally:
        shutil.rmtree(folder)


def rig(name: str) -> Any:
    found, _ = gantline.read(files("gantline").joinpath(f"shelf/{name}.rig").read_text("utf-8"))
    return found


def report(rigs: list[Any], kinds: tuple[str, ...], size: int, folder: Path) -> None:
    def make() -> Any:
        return gantline.film(rigs, folder / "film", size=size, kinds=kinds, cache=folder / "shots")

    look = Look(size=size, kinds=kinds)
    whole = timed(make)
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    acts = film_acts.acts([(one.rig, one.answer) for one in map(gantline.solve, rigs)])
    pieces = film_pieces.pieces(takes(board(acts)), look)
    (folder / "alone").mkdir()
    alone = encoders_alone(pieces, look, folder / "alone")
    (folder / "film" / "script.md").write_text(changed(acts), "utf-8")
    again = timed(make)
    frames = sum(piece.count for piece in pieces)
    print(f"{frames} frames, {frames / look.rate:.0f} s, {size}p30, {' and '.join(kinds)}")
    rows = [("the film", whole), ("the encoders alone", alone), ("again after one changed sentence", again)]
    for words, (wall, cpu) in rows:
        print(f"  {words:34} wall {wall:6.1f} s   CPU {cpu:6.1f} s")
    print(f"  film : encoders alone              wall {whole[0] / alone[0]:6.2f}     CPU {whole[1] / alone[1]:6.2f}")
    print(f"  again : film                       wall {again[0] / whole[0]:6.3f}    CPU {again[1] / whole[1]:6.3f}")
    print(f"  most memory while it was made      {peak:.0f} MB", file=sys.stdout)


def timed(work: Callable[[], Any]) -> tuple[float, float]:
    """Wall and processor seconds."""
    wall, cpu = time.perf_counter(), time.process_time()
    work()
    return time.perf_counter() - wall, time.process_time() - cpu


def encoders_alone(pieces: tuple[Piece, ...], look: Look, folder: Path) -> tuple[float, float]:
    """Wall and processor seconds of the encoders, as many shots at a time as in the film."""
    wall = cpu = 0.0
    together = max(1, CORES // len(look.kinds))
    order = sorted(pieces, key=lambda piece: -piece.count)  # shots of much the same length: no thread waits long
    with ThreadPoolExecutor(together) as pool:
        for at in range(0, len(order), together):
            drawn = [(piece, Drawn(piece, look)) for piece in order[at : at + together]]
            one = timed(
                lambda drawn=drawn: [*pool.map(lambda d: film_pieces.encode(d[0], look, d[1], folder), drawn)]
            )
            wall, cpu = wall + one[0], cpu + one[1]
    return wall, cpu


def changed(acts: Any) -> str:
    """A script with one sentence of the tutor's own."""
    step = acts[0].account.steps[1]
    return f"# A film\n\n## {acts[0].rig.title} {{#{acts[0].key}}}\n\n[{step.id}]\nFollow the rope with your finger.\n"


if __name__ == "__main__":
    main()
