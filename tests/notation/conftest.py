"""The corpus of bad texts lies beside these tests; those of reading use it too."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))
