"""A lesson folder built once, and a real browser to open it in."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page
from ready import Open, shelf

from gantline.output.lesson_folder import build


@pytest.fixture(scope="session")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A lesson over two rigs."""
    return build([shelf("planter"), shelf("runner-up")], tmp_path_factory.mktemp("made") / "lesson").page.parent


@pytest.fixture(scope="session")
def single(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A lesson over one rig."""
    return build([shelf("planter")], tmp_path_factory.mktemp("made") / "lesson").page.parent


@pytest.fixture
def open_page(chromium: Browser) -> Iterator[Open]:
    """Opens a page from disk; the test fails where it asks for anything else, or says anything on the console."""
    said: list[str] = []
    contexts = []

    def open_(path: Path, **options: Any) -> Page:
        options.setdefault("viewport", {"width": 1440, "height": 900})
        context = chromium.new_context(**options)
        contexts.append(context)
        page = context.new_page()
        page.on("console", lambda message: said.append(message.text))
        page.on("pageerror", lambda error: said.append(str(error)))
        page.on("dialog", lambda dialog: (said.append(dialog.message), dialog.dismiss()))
        page.on("request", lambda asked: asked.url.startswith(("file:", "data:")) or said.append(asked.url))
        page.goto(path.as_uri())
        return page

    yield open_
    for context in contexts:
        context.close()
    assert not said
