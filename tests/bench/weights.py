"""Fit the weights of a reading's evidence on the development letters of tests/gold, and print them.

`python tests/bench/weights.py` prints what to round into answers/reading/weights.py, for problems and for plants, the
cross-validated result, the bar that conformal prediction gives for candidate sets, and the result without each kind of
evidence (ablation). Not here: the test half, which plays no part (tests/gold/README.md).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np
from scipy.optimize import minimize

from answers.measuring.gold import Gold, read_gold
from answers.reading import train, weights
from answers.reading.conformal import threshold
from answers.reading.read import Reader
from kb.load import load

GOLD = Path(__file__).parents[1] / "gold"
FILES = ("dev.jsonl", "plants.jsonl", "mixed.jsonl", "varied.jsonl", "post.jsonl", "bag.jsonl")
PULL = 3e-2  # how strongly the weights are held to their present values; 1e-3 fits noise (cross-validated)
FOLDS = 5


@dataclass(frozen=True)
class Choice:
    """One letter: the evidence (choices x kinds), which choices are right, and whether one of ours is."""

    given: Any
    right: Any
    asked: bool = True


def main() -> None:
    """Fit, print, ablate; problems first, then plants."""
    reader = Reader(load())
    gold = [g for file in FILES for g in read_gold(GOLD / file) if g.language == "en" and not g.emergency]
    problems = [problem_choice(reader, g) for g in gold if g.kind != "not-a-question"]
    report("problem", problems, weights.EVIDENCE, PULL)
    p = cross_validated(problems, np.array(list(weights.EVIDENCE.values())), PULL)
    right = np.array([choice.right.argmax() for choice in problems])
    print(
        f"candidate sets hold the truth in 95 of 100 letters at IN_THE_SET = {threshold(np.array(p), right, 0.95):.4f}"
    )
    plants = [choice for g in gold if g.asked and (choice := plant_choice(reader, g)).right.any()]
    report("plant", plants, weights.PLANT, PULL)


def problem_choice(reader: Reader, gold: Gold) -> Choice:
    """Every label is a choice."""
    given = reader.evidence_of(gold.question())
    right = [gold.right_problem(None if label == train.OTHER else label) for label in reader.labels]
    return Choice(np.stack([given[kind] for kind in weights.EVIDENCE], axis=1), np.array(right), gold.asked)


def plant_choice(reader: Reader, gold: Gold) -> Choice:
    """Every plant that the right problem may be on is a choice, and none."""
    given = reader.plant_evidence_of(gold.question(), str(gold.problem))
    rows = [[float(kinds.get(kind, 0.0)) for kind in weights.PLANT] for kinds in given.values()]
    return Choice(np.array(rows), np.array([gold.right_plant(plant) for plant in given]))


def fit(choices: Sequence[Choice], start: Any, pull: float) -> Any:
    """Conditional logistic regression, held to `start` by a ridge of strength `pull`."""

    def loss(w: Any) -> tuple[float, Any]:
        value, slope = 0.0, np.zeros(len(w))
        for choice in choices:
            p = chances(choice, w)
            share = p[choice.right].sum() + 1e-12
            value -= np.log(share)
            slope += (p - np.where(choice.right, p / share, 0.0)) @ choice.given
        return value / len(choices) + pull * ((w - start) ** 2).sum(), slope / len(choices) + 2 * pull * (w - start)

    return minimize(loss, start, jac=True, method="L-BFGS-B").x


def chances(choice: Choice, w: Any) -> Any:
    """The probability of each choice."""
    score = choice.given @ w
    power = np.exp(score - score.max())
    return power / power.sum()


def cross_validated(choices: Sequence[Choice], start: Any, pull: float) -> list[Any]:
    """Each letter's probabilities by weights fitted without it."""
    fold = np.random.default_rng(0).permutation(len(choices)) % FOLDS
    fitted = [fit([c for c, k in zip(choices, fold, strict=True) if k != each], start, pull) for each in range(FOLDS)]
    return [chances(choice, fitted[k]) for choice, k in zip(choices, fold, strict=True)]


def report(what: str, choices: Sequence[Choice], now: Mapping[str, float], pull: float) -> None:
    """As they stand, fitted, and without each kind of evidence in turn."""
    start = np.array(list(now.values()))
    say(f"{what}: as they stand", choices, [chances(choice, start) for choice in choices])
    say("fitted (cross-validated)", choices, cross_validated(choices, start, pull))
    for kind, value in zip(now, fit(choices, start, pull), strict=True):
        print(f"    {kind!r}: {value:.2f},")
    for i, kind in enumerate(now):
        without = [Choice(np.delete(c.given, i, axis=1), c.right, c.asked) for c in choices]
        say(f"without {kind}", without, cross_validated(without, np.delete(start, i), pull))


def say(name: str, choices: Sequence[Choice], found: Sequence[Any]) -> None:
    """One line: share right, in the first three, and wrong among those decided at each bar."""
    first = np.array([c.right[p.argmax()] for c, p in zip(choices, found, strict=True)])
    three = np.array([c.right[np.argsort(-p)[:3]].any() for c, p in zip(choices, found, strict=True)])
    asked, top = np.array([c.asked for c in choices]), np.array([p.max() for p in found])
    bars = []
    for bar in (0.5, 0.7, 0.8, 0.9):
        decided = top > bar
        wrong = (decided & ~first).sum() / max(1, decided.sum())
        bars.append(f"{bar}: {decided[asked].mean():.0%} wrong {wrong:.1%}")
    print(f"{name:36} right {first[asked].mean():.1%}, in three {three[asked].mean():.1%} | " + " | ".join(bars))


if __name__ == "__main__":
    main()
