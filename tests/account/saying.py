"""What the tests of accounts share."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from gantline.account import METHODS, Account, Refusal, explain
from gantline.mechanics import Answer, solve
from gantline.notation import parse
from gantline.rig import Rig, read

ROOT = Path(__file__).parents[2]
FILES = tuple(sorted((ROOT / "src/gantline/shelf").glob("*.rig")) + sorted((ROOT / "tests/rigs").glob("*.rig")))


def rig_of(text: str) -> Rig:
    """The rig a text describes."""
    rig, problems = read(parse(text)[0])
    assert rig is not None, problems
    return rig


@cache
def solved(path: Path) -> tuple[Rig, Answer]:
    """A rig of the shelf or of the tests, with its answer."""
    rig = rig_of(path.read_text(encoding="utf-8"))
    return rig, solve(rig)


@cache
def told(path: Path) -> tuple[Account, ...]:
    """Every account of a rig, in full and in short."""
    found = [explain(*solved(path), method, short=short) for method in METHODS for short in (False, True)]
    return tuple(account for account in found if isinstance(account, Account))


@cache
def refused(path: Path) -> tuple[Refusal, ...]:
    """Every refusal of a rig."""
    found = [explain(*solved(path), method) for method in METHODS]
    return tuple(item for item in found if isinstance(item, Refusal))


def shelf(name: str) -> Path:
    return ROOT / "src/gantline/shelf" / f"{name}.rig"


def main(name: str) -> Account:
    """The account a rig of the shelf is told by."""
    account = explain(*solved(shelf(name)))
    assert isinstance(account, Account)
    return account


def said(account: Account, step: str) -> str:
    """The sentence of the first step of that id."""
    return next(account.line(found) for found in account.steps if found.id == step)
