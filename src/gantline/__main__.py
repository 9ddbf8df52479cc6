"""`python -m gantline` is `gantline`."""

import sys

from gantline.cli import main

sys.exit(main())
