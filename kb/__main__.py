"""`python -m kb`: check the rule base without the rest of the program (`trug kb check` also checks calculators).

Not here: the checks themselves (check.py).
"""

import sys

from kb.check import check
from kb.errors import EntryError
from kb.load import load


def main() -> int:
    """Print every fault; 0 when there is none."""
    try:
        knowledge = load()
        faults = check(knowledge)
    except EntryError as error:
        faults = error.problems
    print("\n".join(faults) if faults else f"{len(knowledge.rules)} rules, no faults")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
