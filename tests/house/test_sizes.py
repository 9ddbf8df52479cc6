"""Small files, small functions. What is larger stands in the ratchet with its reason, and may only shrink."""

import ast
from collections.abc import Iterator

import pytest
from places import SOURCE, modules

FILE, FUNCTION = 400, 60
LONGER: dict[str, tuple[int, str]] = {}


def functions() -> Iterator[tuple[str, int]]:
    for name, tree in modules().items():
        for node in ast.walk(tree):
            if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
                yield f"{name}:{node.name}", (node.end_lineno or 0) - node.lineno + 1


@pytest.mark.parametrize("name", modules())
def test_files_are_short(name: str) -> None:
    lines = len((SOURCE / name).read_text(encoding="utf-8").splitlines())
    assert lines <= LONGER.get(name, (FILE, ""))[0], f"{name} has {lines} lines"


def test_functions_are_short() -> None:
    long = {name: lines for name, lines in functions() if lines > LONGER.get(name, (FUNCTION, ""))[0]}
    assert not long, f"split these: {long}"


def test_most_functions_are_very_short() -> None:
    sizes = sorted(lines for _, lines in functions())
    assert sizes[len(sizes) // 2] <= 12, f"the median function has {sizes[len(sizes) // 2]} lines"
    assert sizes[len(sizes) * 9 // 10] <= 30, f"one in ten has {sizes[len(sizes) * 9 // 10]} lines or more"


def test_the_ratchet_only_tightens() -> None:
    found = dict(functions()) | {
        name: len((SOURCE / name).read_text(encoding="utf-8").splitlines()) for name in modules()
    }
    for name, (limit, reason) in LONGER.items():
        assert reason, f"{name} needs its reason"
        assert found.get(name) == limit, f"{name} now has {found.get(name)} lines: lower the ratchet from {limit}"
