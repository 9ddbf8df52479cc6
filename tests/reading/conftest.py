"""The corpus of bad texts lies beside the tests of the notation."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1] / "notation"))
