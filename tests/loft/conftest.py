"""The loft's checks share `inside` and `outside`, which lie beside them, and the stock of bad texts."""

import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parents[1] / "notation"))
sys.path.insert(0, str(Path(__file__).parent))

from inside import PLANTER, Inside


@pytest.fixture
def served(tmp_path: Path) -> Iterator[Inside]:
    """A loft on a folder with one rig, called from inside."""
    folder = tmp_path / "rigs"
    folder.mkdir()
    (folder / "planter.rig").write_text(PLANTER, encoding="utf-8")
    inside = Inside(folder, opened_on="planter.rig")
    yield inside
    inside.close()
