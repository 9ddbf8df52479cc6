"""The tests of figures share `readback` and `rigs`, which lie beside them."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))
