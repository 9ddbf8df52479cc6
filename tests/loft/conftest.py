"""The loft's checks share what lies beside them, the stock of bad texts, and the accessibility checker."""

import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser

sys.path.insert(0, str(Path(__file__).parents[1] / "notation"))
sys.path.insert(0, str(Path(__file__).parents[1] / "output"))
sys.path.insert(0, str(Path(__file__).parent))

from browsing import Window, chart
from inside import PLANTER, Inside
from outside import loft


@pytest.fixture
def served(tmp_path: Path) -> Iterator[Inside]:
    """A loft on a folder with one rig, called from inside."""
    folder = tmp_path / "rigs"
    folder.mkdir()
    (folder / "planter.rig").write_text(PLANTER, encoding="utf-8")
    inside = Inside(folder, opened_on="planter.rig")
    yield inside
    inside.close()


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder for a module's loft."""
    return tmp_path_factory.mktemp("rigs")


@pytest.fixture(scope="module")
def running(folder: Path) -> Iterator[str]:
    """A loft on that folder: the address that lets one in."""
    chart(folder)
    with loft(folder) as outside:
        yield f"{outside.address}/?token={outside.token}"


@pytest.fixture
def window(chromium: Browser, running: str) -> Iterator[Callable[..., Window]]:
    """Opens windows on the loft; the test fails for anything that must never happen in one."""
    opened: list[Window] = []

    def open_(**options: Any) -> Window:
        opened.append(Window(chromium, running, **options))
        return opened[-1]

    yield open_
    assert not [fault for each in opened for fault in each.end()]
