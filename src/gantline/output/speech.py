"""A scratch voice: a program that speaks, where this machine has one, says each step so that a film can be judged."""

import shutil
import subprocess
from pathlib import Path
from tempfile import TemporaryDirectory

from gantline.film import HOLD, LEVELS, Storyboard, Tap, Taps

from . import film_sound
from .film_sound import RATE, Sound

PROGRAM = "espeak-ng"  # run as a process of its own; nothing of it is in Gantline
NOTE = "The voice is a scratch voice, spoken by a machine; it stands in until a person has spoken."
_PATIENCE = 120  # s for one sentence


def here() -> bool:
    """Whether this machine has the program."""
    return shutil.which(PROGRAM) is not None


def speak(board: Storyboard) -> tuple[Sound, Taps]:
    """Every step spoken at the pace of the film's level, with its pause after it, and where each begins.

    Raises FileNotFoundError where there is no such program, OSError where it fails, ImportError without PyAV.
    """
    sounds, taps, now = [], [], 0
    with TemporaryDirectory() as folder:
        for shot in board.shots:
            if not shot.says:
                continue
            taps.append(Tap(shot.id, now / RATE, shot.says))
            said = _said(shot.says, round(60 * LEVELS[board.level].pace), Path(folder, "said.wav"))
            rest = max(HOLD + shot.pause, shot.seconds - said.seconds)  # no faster than the level reads
            sounds.append(said.pcm + bytes(2 * round(rest * RATE)))
            now += len(sounds[-1]) // 2
    return Sound(b"".join(sounds)), Taps(now / RATE, tuple(taps))


def _said(words: str, pace: int, file: Path) -> Sound:
    """One sentence. It goes in as plain text on standard input, so that nothing in it can be an option or markup."""
    done = subprocess.run(
        [PROGRAM, "-v", "en", "-s", str(pace), "-w", str(file), "--stdin"],
        input=words.encode(), capture_output=True, timeout=_PATIENCE, check=False,
    )  # fmt: skip
    if done.returncode:
        raise OSError(f"{PROGRAM} failed: {done.stderr.decode(errors='replace').strip()[:200]}")
    return film_sound.read(file)
