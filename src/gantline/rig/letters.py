"""The symbol of every given: the file's own, else the trade's letter, numbered where there are several."""

from collections import Counter
from fractions import Fraction

from gantline.notation import Statement, Tree, Written

_LETTERS = {
    "gravity": "g", "weight": "w", "mass": "m_b", "radius": "r", "disc": "d", "inertia": "I", "efficiency": "e",
    "spacing": "p", "raise": "h", "lower": "h", "effort": "F", "hook": "d_h", "becket": "x_b", "stiffness": "EA",
    "diameter": "d_c", "drag": "c", "apart": "L", "lead": "L_h",
}  # fmt: skip
_OWN_LETTERS = {"load": {"weight": "W", "mass": "m"}, "cord": {"weight": "q"}}


class Letters:
    """Letters for the values of a tree, by the value's place; for loads without one, by the load's name."""

    def __init__(self, tree: Tree) -> None:
        self._statements = [item for item in tree.items if isinstance(item, Statement)]
        self.taken = {value.symbol.text for _, value in self._values() if value.symbol}
        self._of: dict[int, str] = {}
        self._bare: dict[int, str] = {}
        self._assign()

    def of(self, value: Written) -> str:
        return self._of[id(value)]

    def of_bare(self, load: Statement) -> str:
        """The letter of a load that says neither weight nor mass."""
        return self._bare[id(load)]

    def free(self, letter: str) -> str:
        """The letter itself, or the next form of it that nothing else uses."""
        name, n = letter, 2
        while name in self.taken:
            name, n = f"{letter}_{n}", n + 1
        self.taken.add(name)
        return name

    def _values(self) -> list[tuple[str, Written]]:
        """(letter, value) for every value of the file that may have one."""
        found = []
        for statement in self._statements:
            letters = _LETTERS | _OWN_LETTERS.get(statement.keyword.text, {})
            if statement.value is not None:
                found.append((letters[statement.keyword.text], statement.value))
            for attribute in statement.attributes:
                key = attribute.keyword.text
                if attribute.value is not None and key in letters:
                    found.append((letters[key], attribute.value))
        return found

    def _assign(self) -> None:
        bare = [s for s in self._statements if s.keyword.text == "load" and not _weighs(s)]
        values = self._values()
        many = Counter(letter for letter, _ in values)
        many["W"] += len(bare)
        losses = list(dict.fromkeys(value.number for letter, value in values if letter == "e"))
        numbers: Counter[str] = Counter()
        shared: dict[Fraction | None, str] = {}
        for letter, value in values:
            numbers[letter] += 1
            if value.symbol:
                self._of[id(value)] = value.symbol.text
            elif letter == "e":
                if value.number not in shared:
                    shared[value.number] = self.free(
                        letter if len(losses) == 1 else f"e{losses.index(value.number) + 1}"
                    )
                self._of[id(value)] = shared[value.number]
            else:
                self._of[id(value)] = self.free(letter if many[letter] == 1 else f"{letter}{numbers[letter]}")
        for load in bare:
            numbers["W"] += 1
            self._bare[id(load)] = self.free("W" if many["W"] == 1 else f"W{numbers['W']}")


def _weighs(load: Statement) -> bool:
    return any(attribute.keyword.text in _OWN_LETTERS["load"] for attribute in load.attributes)
