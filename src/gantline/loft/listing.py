"""The rigs of the folder as the shelf lists them: title, when each was last changed, and what is wrong where one does
not read. A file is looked through again only when it has changed."""

from datetime import UTC, datetime

from msgspec import Struct

from gantline import api

from .asked import Refused
from .folder import Folder
from .keeping import text_of

MOST = 500  # files that are looked through; of those behind them only the names are given
Stamp = tuple[int, int]  # when it was changed (ns), and its length


class Listed(Struct, frozen=True):
    """A file: its name and title, when it was changed (UTC), and what is wrong with it."""

    name: str
    title: str
    at: str
    wrong: str


class Listing:
    """What is known of the files of a folder."""

    def __init__(self, folder: Folder) -> None:
        self._folder = folder
        self._known: dict[str, tuple[Stamp, Listed]] = {}

    def rigs(self) -> list[Listed]:
        """Every rig of the folder, by its name."""
        found = self._folder.stamps()
        looked = dict(list(found.items())[:MOST])
        self._known = {name: self._look(name, stamp) for name, stamp in looked.items()}
        return [self._known[name][1] if name in looked else _unread(name, stamp) for name, stamp in found.items()]

    def _look(self, name: str, stamp: Stamp) -> tuple[Stamp, Listed]:
        known = self._known.get(name)
        return known if known and known[0] == stamp else (stamp, _read(self._folder, name, stamp))


def _read(folder: Folder, name: str, stamp: Stamp) -> Listed:
    try:
        state = folder.read(name)
        text = text_of(state.data) if state else ""
    except Refused as refused:
        return Listed(name, "", _at(stamp), refused.says)
    rig, problems = api.read(text)
    wrong = "" if rig else f"Line {problems[0].place.line}: {problems[0].says}."
    if len(problems) > 1 and not rig:
        wrong = f"{wrong} {len(problems)} problems."
    return Listed(name, rig.title if rig else _title(text), _at(stamp), wrong if text.strip() else "")


def _unread(name: str, stamp: Stamp) -> Listed:
    return Listed(name, "", _at(stamp), "")


def _title(text: str) -> str:
    lines = (line.split(None, 1) for line in text.splitlines() if line.startswith("title"))
    return next((words[1].strip() for words in lines if len(words) > 1), "")


def _at(stamp: Stamp) -> str:
    return datetime.fromtimestamp(stamp[0] / 1e9, UTC).isoformat(timespec="seconds")
