"""What several test folders share: a rig's answer record, a number looked up in it by its path, and a browser."""

import functools
from collections.abc import Callable, Iterator
from fractions import Fraction
from pathlib import Path
from typing import Any

import hypothesis
import pytest

from gantline.mechanics import solve
from gantline.notation import parse
from gantline.output.record import answer_record
from gantline.rig import Rig, read

hypothesis.settings.register_profile(
    "steady", derandomize=True, deadline=None, print_blob=False,
    suppress_health_check=[hypothesis.HealthCheck.too_slow, hypothesis.HealthCheck.data_too_large],
)  # fmt: skip
hypothesis.settings.load_profile("steady")

RIGS = tuple(sorted((Path(__file__).parent / "rigs").glob("*.rig")))


def rig_of(text: str) -> Rig:
    """The rig a text describes; fails with the problems where it has any."""
    tree, problems = parse(text)
    rig, more = read(tree)
    assert not problems + more, [f"{p.code} {p.place.line}: {p.says}" for p in problems + more]
    assert rig is not None
    return rig


@functools.cache
def record_of(text: str) -> dict[str, Any]:
    """The answer record of a rig's text."""
    rig = rig_of(text)
    return answer_record(rig, solve(rig), "")


def looked_up(record: dict[str, Any], path: str) -> Any:
    """What stands at a dotted path: an exact number as a Fraction, else as it is.

    Members of lists are found by name: `strands.fall:2.tension`, `supports.upper.force`, `motions.bell.acceleration`.
    """
    found: Any = record
    for step in path.split("."):
        found = _member(found, step) if isinstance(found, list) else found[step]
    if isinstance(found, dict) and found.get("exact") is not None:
        return Fraction(found["exact"])
    return found


def _member(members: list[dict[str, Any]], name: str) -> dict[str, Any]:
    for member in members:
        if member.get("name", f"{member.get('rope')}:{member.get('index')}") == name:
            return member
    raise KeyError(name)


@pytest.fixture(scope="session")
def rig_from() -> Callable[[str], Rig]:
    return rig_of


@pytest.fixture(scope="session")
def record_from() -> Callable[[str], dict[str, Any]]:
    return record_of


@pytest.fixture(scope="session")
def look() -> Callable[[dict[str, Any], str], Any]:
    return looked_up


ARGUMENTS = (
    "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync",
)  # fmt: skip


@pytest.fixture(scope="session")
def launch() -> Iterator[Callable[..., Any]]:
    """Starts a Chromium, with further arguments. One driver serves a whole process: it cannot have two."""
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        yield lambda *more: playwright.chromium.launch(executable_path="/usr/bin/chromium", args=[*ARGUMENTS, *more])


@pytest.fixture(scope="session")
def chromium(launch: Callable[..., Any]) -> Iterator[Any]:
    """One browser for all that look at pages."""
    browser = launch()
    yield browser
    browser.close()
