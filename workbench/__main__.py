"""`python -m workbench` opens the course; see workbench.launch."""

import sys

from workbench.launch import main

if __name__ == "__main__":
    sys.exit(main())
