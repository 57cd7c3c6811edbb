"""``python -m tutor`` is the same command as ``evenline``."""

import sys

from tutor.cli import main

sys.exit(main())
