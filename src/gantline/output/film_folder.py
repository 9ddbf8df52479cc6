"""A film as a folder: video with captions and chapters, the words beside it, a still of every step. Whole or not."""

import os
import re
import time
from collections.abc import Callable, Iterator, Mapping, Sequence
from concurrent.futures import ThreadPoolExecutor, as_completed
from contextlib import contextmanager
from pathlib import Path
from threading import local

from msgspec import Struct
from msgspec.structs import replace

from gantline.film import FORMATS, Act, Cue, Storyboard, Take, board, captions, chapters, descriptions, takes
from gantline.lesson import Solved
from gantline.problems import Problem

from . import captions as text
from . import files, film_acts, film_mux, film_pieces, film_stills, lesson_json, taps
from .film_pieces import Look, Piece
from .narration import TAPS, Narrated, Narration, narrated
from .script import At

FILM, SCRIPT = "film", "script.md"
CORES = 2
LARGE = 4 << 20  # bytes: more than a frame has in 1080p, less than what it is drawn in
MOST, DAY = 4_000_000_000, 86_400.0  # bytes of kept shots, s
_OURS = re.compile(r"[0-9a-f]{32}\.(mp4|webm|png)|\.([0-9a-f]{32}|film)\.\d+\.(mp4|webm|wav)")
Progress = Callable[[str], None]


class Made(Struct, frozen=True):
    """What a build did: the film, the files left alone because the user edited them, steps too fast to be read, and how
    many shots were drawn anew."""

    film: Path
    kept: tuple[files.Kept, ...]
    problems: tuple[Problem, ...]
    drawn: int
    script: str = ""  # the file whose words were said
    unsaid: tuple[Problem, ...] = ()  # which sentences of it were not, and why
    starts: str = ""  # where the steps begin in the voice, to look through, where that was told from its pauses


def cut(
    solved: Sequence[Solved], folder: Path, look: Look, level: str = "middle", title: str = "",
    script: Path | None = None, cache: Path | None = None, narration: Narration | None = None,
    progress: Progress | None = None,
) -> Made:  # fmt: skip
    """The film over solved rigs, in the words of a script where there is one (`script`, else script.md in the folder).

    Sentences that name no number of their account are said as problems, and not used. Raises as `build` does,
    film_acts.NoAccount for a rig that no method explains, narration.NoVoice for a voice that cannot be used.
    """
    made = film_acts.acts(solved)
    read_from = script or (folder / SCRIPT if (folder / SCRIPT).is_file() else None)
    words, wrong = _words_in(made, read_from) if read_from else ({}, ())
    kept = cache or kept_shots()
    with _aside(kept, ("wav",)) as asides:
        told = narrated(board(made, words, level, title), narration or Narration(), asides["wav"])
        done = build(told, folder, look, kept, progress)
    return replace(done, unsaid=wrong, script=str(read_from or ""))


def _words_in(made: Sequence[Act], path: Path) -> tuple[Mapping[At, str], tuple[Problem, ...]]:
    """The tutor's own sentences in a script; what a lesson wrote there itself is told by the record beside it."""
    record = path.with_name(lesson_json.NAME)
    built = lesson_json.built(record.read_bytes()) if record.is_file() else ()
    return film_acts.words(made, path.read_bytes().decode("utf-8", "replace"), built)


def kept_shots() -> Path:
    """Where drawn shots are kept: the user's cache."""
    return Path(os.environ.get("XDG_CACHE_HOME") or Path.home() / ".cache") / "gantline" / "film"


def build(told: Narrated, folder: Path, look: Look, cache: Path, progress: Progress | None = None) -> Made:
    """Builds a film. Shots that are in `cache` are not drawn again, also where a build was stopped half way.

    Raises OSError where files cannot be written, files.Busy while another build writes the folder, NotDrawable,
    ImportError.
    """
    tell, story = progress or (lambda _: None), told.board
    tell("storyboard")
    all_takes = takes(story, look.format)
    all_pieces = film_pieces.pieces(all_takes, look)
    cache.mkdir(parents=True, exist_ok=True)
    drawn = _encode(all_pieces, look, cache, tell)
    cues, problems = captions(story, told.paces)
    tell("stills")
    made = film_stills.make(all_takes, look, cache) | _words(story, cues, all_takes, look, told.note)
    if told.taps:
        made[TAPS] = taps.write(told.taps)
    with _aside(cache, look.kinds) as asides:
        for kind, path in asides.items():
            tell(f"{kind} file")
            film_mux.write(path, kind, all_pieces, cache, look.rate, story.title, cues, chapters(story),
                           told.track)  # fmt: skip
        tell("writing")
        films: dict[str, files.Content] = {f"{FILM}.{kind}": path for kind, path in asides.items()}
        done = files.build(folder, {**made, **films}, merged=() if told.starts else (TAPS,))
    make_room(cache)
    film = done.folder / f"{FILM}.{look.kinds[0]}"
    return Made(film, done.kept, told.problems + problems, drawn, starts=told.starts)


def _words(
    story: Storyboard, cues: Sequence[Cue], all_takes: Sequence[Take], look: Look, voice: str
) -> dict[str, files.Content]:
    """Captions, chapters, descriptions and the transcript."""
    line = FORMATS[look.format][0].caption_line
    seen = [take.still.says for take in all_takes]
    made = {
        "captions.vtt": text.vtt(cues, line),
        "captions.srt": text.srt(cues),
        "chapters.vtt": text.vtt(chapters(story)),
        "descriptions.vtt": text.vtt(descriptions(story, seen)),
        "transcript.txt": text.transcript(story, seen, voice),
    }
    return {name: words.encode("utf-8") for name, words in made.items()}


def _encode(pieces: Sequence[Piece], look: Look, cache: Path, tell: Progress) -> int:
    """Draws and encodes what is not kept yet, on two cores; says how far it is and how long it will take."""
    _give_back_large_blocks()
    missing = {piece.key: piece for piece in pieces if not _kept(piece, look, cache)}
    whole, ready, began = sum(piece.count for piece in missing.values()), 0, time.monotonic()
    own = local()

    def work(piece: Piece) -> Piece:
        from .film_paint import Painter

        if not hasattr(own, "painter"):
            own.painter = Painter(look.theme, look.size)
        film_pieces.encode(piece, look, own.painter, cache)
        return piece

    with ThreadPoolExecutor(max(1, CORES // len(look.kinds))) as pool:  # each kind has a thread a shot
        longest_first = sorted(missing.values(), key=lambda piece: -piece.count)
        jobs = [pool.submit(work, piece) for piece in longest_first]
        try:
            for job in as_completed(jobs):
                ready += job.result().count
                left = (time.monotonic() - began) * (whole - ready) / ready
                tell(f"frames {ready} of {whole}, about {_clock(left)} left")
        except BaseException:
            pool.shutdown(cancel_futures=True)
            raise
    return len(missing)


def _give_back_large_blocks() -> None:
    """Has the C library (glibc) hand large blocks back to the system at once: what frames are drawn in is large and
    soon done with, and each thread would hold on to some."""
    import ctypes

    settle = getattr(ctypes.CDLL(None), "mallopt", None)
    if settle is not None:
        settle(-3, LARGE)  # M_MMAP_THRESHOLD


def _clock(seconds: float) -> str:
    minutes, rest = divmod(round(seconds), 60)
    return f"{minutes} min {rest:02} s" if minutes else f"{rest} s"


def _kept(piece: Piece, look: Look, cache: Path) -> bool:
    paths = [cache / f"{piece.key}.{kind}" for kind in look.kinds]
    found = all(path.exists() for path in paths)
    for path in paths if found else ():
        os.utime(path)  # used again: it goes last when room is made
    return found


def make_room(cache: Path, most: int = MOST) -> None:
    """Lets go of what was used longest ago where more is kept than `most` bytes, and of what killed builds left."""
    ours = [path for path in cache.iterdir() if _OURS.fullmatch(path.name)]
    found = sorted(((path.stat(), path) for path in ours), key=lambda one: -one[0].st_mtime)
    whole = 0
    for stat, path in found:
        whole += stat.st_size
        if whole > most or (path.name.startswith(".") and time.time() - stat.st_mtime > DAY):
            path.unlink(missing_ok=True)


@contextmanager
def _aside(cache: Path, kinds: Sequence[str]) -> Iterator[dict[str, Path]]:
    """Where the whole films are put together; gone afterwards."""
    paths = {kind: cache / f".film.{os.getpid()}.{kind}" for kind in kinds}
    try:
        yield paths
    finally:
        for path in paths.values():
            path.unlink(missing_ok=True)
