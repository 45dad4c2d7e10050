"""`python -m instructor VERB`: the verbs are in instructor.verbs."""

import sys

from instructor.verbs import main

if __name__ == "__main__":
    sys.exit(main())
