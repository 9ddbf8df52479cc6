"""`taps.json`: where each step begins in a recording, to read, to write, and to look through before it is used."""

import json
from collections import Counter
from collections.abc import Iterator, Mapping
from typing import Any

from gantline.film import Storyboard, Tap, Taps
from gantline.problems import Place, Problem

FORMAT = "gantline-taps/1"
_LEAST = 0.05  # s between two starts: less is a key that was pressed twice


def write(taps: Taps) -> bytes:
    """The taps as JSON, a step a line, so that a start can be mended by hand."""
    steps = [
        json.dumps({"step": tap.step, "start": round(tap.start, 6), "says": tap.says}
                   | ({"doubt": tap.doubt} if tap.doubt else {}), ensure_ascii=False)
        for tap in taps.steps
    ]  # fmt: skip
    head = f'{{"format": "{FORMAT}", "seconds": {round(taps.seconds, 6)}, "steps": [\n '
    return (head + ",\n ".join(steps) + "\n]}\n").encode()


def read(data: bytes, board: Storyboard, seconds: float) -> tuple[Taps | None, tuple[Problem, ...]]:
    """The taps of a recording of `seconds`, or None and what is wrong with them. Unknown keys are passed over."""
    try:
        record = json.loads(data)
        if record["format"] != FORMAT:
            raise ValueError(f"its format is {record['format']!r}")
        older = _older_names(board)
        taps = Taps(seconds, tuple(_tap(each, older) for each in record["steps"]))
    except (ValueError, KeyError, TypeError, AttributeError, RecursionError) as error:
        return None, (_not_taps(error),)
    problems = tuple(_problems(taps, board))
    return (None, problems) if problems else (taps, ())


def table(board: Storyboard, taps: Taps) -> str:
    """Every start with its sentence, doubtful ones marked, to look through."""
    says = {shot.id: shot.says for shot in board.shots}
    rows = [
        f"{'?' if tap.doubt else ' '} {tap.start:8.2f} s  {tap.step}\n"
        f"               {says.get(tap.step, tap.says)}" + (f"\n               ? {tap.doubt}" if tap.doubt else "")
        for tap in taps.steps
    ]
    return "\n".join(rows)


def _older_names(board: Storyboard) -> dict[str, str]:
    """What steps of one id were called before their names said what they are about: path, path-2, in their order."""
    found: dict[str, str] = {}
    seen = Counter[str]()
    for shot in board.shots:
        if shot.step:
            stem = f"{board.acts[shot.act].key}/{shot.step.id}"
            seen[stem] += 1
            found[stem if seen[stem] == 1 else f"{stem}-{seen[stem]}"] = shot.id
    return found | {shot.id: shot.id for shot in board.shots}


def _tap(record: Any, older: Mapping[str, str]) -> Tap:
    step, start, says, doubt = record["step"], record["start"], record.get("says", ""), record.get("doubt", "")
    if not all(isinstance(words, str) for words in (step, says, doubt)):
        raise TypeError("a step has a name and a sentence")
    if isinstance(start, bool) or not isinstance(start, int | float) or not 0 <= start < 1e6:
        raise ValueError(f"{start!r} is no start in seconds")
    return Tap(older.get(step, step), float(start), says, doubt)


def _not_taps(error: Exception) -> Problem:
    reason = f"{error.args[0]} is missing" if isinstance(error, KeyError) else str(error)
    return Problem(
        "taps-unreadable", Place(1, 1), "", f"These are no taps: {reason}.",
        "The film has to know at which second of the recording each step begins.",
        "Save the taps once more from the rehearsal, or leave --taps away: then the pauses are matched.",
    )  # fmt: skip


def _problems(taps: Taps, board: Storyboard) -> Iterator[Problem]:
    """Steps that the film has not, starts that do not rise, starts past the end."""
    known = [shot.id for shot in board.shots if shot.says]
    before: Tap | None = None
    for tap in taps.steps:
        if tap.step not in known:
            yield _of(tap, "tap-step-unknown", "there is no such step in this film",
                      "A piece of the voice would belong to no picture.",
                      "Use the rigs, in the order, that were rehearsed, or take its line out of the taps.")  # fmt: skip
        elif before is not None and known.index(tap.step) <= known.index(before.step):
            yield _of(tap, "tap-out-of-order", f"it comes after {before.step}, but in the film before it",
                      "The film tells its steps in one order.",
                      "Put its line where the step stands in the film.")  # fmt: skip
        if before is not None and tap.start < before.start + _LEAST:
            yield _of(tap, "tap-not-later", f"it begins at {tap.start:g} s, not after {before.start:g} s",
                      "Every step needs some of the voice; the second of two presses at once leaves none to the first.",
                      "Mend its start, or take this step again.")  # fmt: skip
        elif tap.start >= taps.seconds:
            yield _of(tap, "tap-past-end", f"it begins at {tap.start:g} s; the recording lasts {taps.seconds:.1f} s",
                      "There is no voice left for it.",
                      "See whether both files are of the same rehearsal.")  # fmt: skip
        before = tap if tap.step in known else before


def _of(tap: Tap, code: str, says: str, why: str, do: str) -> Problem:
    return Problem(
        code, Place(1, 1), json.dumps({"step": tap.step, "start": tap.start}), f"{tap.step}: {says}.", why, do
    )
