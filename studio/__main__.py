"""``python -m studio``: a verb runs headless, otherwise the window opens."""

import sys

from studio.headless.main import main

__all__ = ["main"]

if __name__ == "__main__":
    sys.exit(main())
