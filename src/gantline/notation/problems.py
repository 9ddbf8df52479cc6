"""Problems of a text while it is read: gathered, never thrown past the statement they stand in."""

from gantline.problems import Place, Problem

from .tree import Word

MOST_PROBLEMS = 100
_LONGEST_GUESS = 40  # words longer than this are not compared with others


class Unreadable(Exception):
    """A statement that cannot be read on; its problem has been noted."""


class Notes:
    """The problems found so far. Past MOST_PROBLEMS they are only counted."""

    def __init__(self, lines: tuple[str, ...], found: tuple[Problem, ...] = ()) -> None:
        self.lines = lines
        self._found = list(found)
        self._more = 0

    def add(self, code: str, place: Place, says: str, why: str, do: str) -> None:
        if len(self._found) >= MOST_PROBLEMS:
            self._more += 1
            return
        line = self.lines[place.line - 1] if place.line <= len(self.lines) else ""
        self._found.append(Problem(code, place, line, says, why, do))

    def stop(self, code: str, place: Place, says: str, why: str, do: str) -> Unreadable:
        """Note a problem after which the statement makes no sense; to be raised."""
        self.add(code, place, says, why, do)
        return Unreadable()

    def all(self) -> tuple[Problem, ...]:
        """Every problem in the order of the text, and how many more there were."""
        found = sorted(self._found, key=lambda problem: (problem.place.line, problem.place.column))
        if self._more:
            last = found[-1]
            says = f"{self._more} more problems were found and are not listed"
            why = "one slip near the top often brings many after it"
            found.append(Problem("too-many-problems", last.place, last.text, says, why, "mend these first."))
        return tuple(found)


def nearest(word: str, known: tuple[str, ...]) -> str | None:
    """A known word that is nearly this one."""
    from difflib import get_close_matches

    if len(word) > _LONGEST_GUESS:
        return None
    small = {each.lower(): each for each in known}
    near = get_close_matches(word.lower(), small, 1, 0.6)
    return small[near[0]] if near else None


def did_you_mean(word: str, known: tuple[str, ...], otherwise: str) -> str:
    """Advice for a word that is not known."""
    near = nearest(word, known)
    return f"did you mean `{near}`?" if near else otherwise


def shown(word: Word | str) -> str:
    """A word as a message shows it: cut short, whatever it is."""
    text = word if isinstance(word, str) else word.text
    return text if len(text) <= _LONGEST_GUESS else text[:_LONGEST_GUESS] + "…"
