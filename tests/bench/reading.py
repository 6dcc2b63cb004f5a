"""How well questions are read: four-fold cross-validation on the rules' own example letters.

`python tests/bench/reading.py` prints shares; nothing here passes or fails. Each fold's examples are kept from the text
model. Not here: the demonstration letters (tests/answers/test_demo_letters.py).
"""

from __future__ import annotations

import dataclasses
import os
import tempfile
from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise

from answers.letters.letter import Question
from answers.reading.read import Reader
from kb.load import Knowledge, load

FOLDS = 4


@dataclass(frozen=True)
class Outcome:
    """One letter read: its rule's problem (None for letters no rule answers), and what came of it."""

    text: str
    truth: str | None
    found: str | None
    confidence: float
    decided: bool

    @property
    def right(self) -> bool:
        """The problem found is the rule's."""
        return self.truth is not None and self.found == self.truth


def fold(knowledge: Knowledge, number: int) -> list[Outcome]:
    """Read every FOLDS-th example with a model that never saw it."""
    rules = {
        r.id: dataclasses.replace(r, examples=tuple(e for i, e in enumerate(r.examples) if i % FOLDS != number))
        for r in knowledge.rules.values()
    }
    others = tuple(o for i, o in enumerate(knowledge.other_letters) if i % FOLDS != number)
    reader = Reader(
        dataclasses.replace(
            knowledge, rules=rules, other_letters=others, fingerprint=f"{knowledge.fingerprint}-{number}"
        )
    )
    held = [(e, r.problem) for r in knowledge.rules.values() for i, e in enumerate(r.examples) if i % FOLDS == number]
    held += [(o, None) for i, o in enumerate(knowledge.other_letters) if i % FOLDS == number]
    outcomes = []
    for text, truth in held:
        reading = reader.read(Question("x", 1, text, None))
        outcomes.append(Outcome(text, truth, reading.problem, reading.confidence, reading.decided))
    return outcomes


def main() -> None:
    """Print the shares, the reliability by confidence, and the confident mistakes."""
    knowledge = load()
    with tempfile.TemporaryDirectory() as cache:
        os.environ["TRUG_CACHE"] = cache
        outcomes = [o for number in range(FOLDS) for o in fold(knowledge, number)]
    covered = [o for o in outcomes if o.truth]
    decided = [o for o in outcomes if o.decided]
    print(f"{len(covered)} letters with a rule: problem right {share(o.right for o in covered):.1%}")
    wrong = share(not o.right for o in decided)
    print(f"decided {share(o.decided for o in covered):.1%}; of all decided, wrong {wrong:.1%}")
    edges = (0.0, 0.5, 0.6, 0.7, 0.8, 0.9, 1.01)
    for low, high in pairwise(edges):
        bucket = [o for o in covered if low <= o.confidence < high]
        if bucket:
            right = share(o.right for o in bucket)
            print(f"  confidence {low:.1f} to {min(high, 1):.1f}: {len(bucket):4} letters, right {right:.1%}")
    for o in sorted((o for o in decided if not o.right), key=lambda o: -o.confidence):
        print(f"  {o.confidence:.2f} {o.truth} read as {o.found}: {o.text[:70]}")


def share(flags: Iterable[bool]) -> float:
    """The share of true flags."""
    values = list(flags)
    return sum(values) / len(values) if values else 0.0


if __name__ == "__main__":
    main()
