"""The tests of the command line share `running`, which lies beside them."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))
