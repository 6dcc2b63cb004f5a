"""Fit the weights of a reading's evidence on the development half of the gold letters, and print them.

`python tests/bench/weights.py` prints what to round into answers/reading/weights.py, the cross-validated result, the
bar that conformal prediction gives for candidate sets, and the result without each kind of evidence (ablation).
Not here: the test half, which plays no part (tests/gold/README.md).
"""

from __future__ import annotations

import json
from datetime import date
from pathlib import Path
from typing import Any

import numpy as np
from scipy.optimize import minimize

from answers.letters.letter import Question
from answers.reading import train, weights
from answers.reading.conformal import threshold
from answers.reading.read import Reader
from kb.load import load

GOLD = Path(__file__).parents[1] / "gold" / "dev.jsonl"
PULL = 3e-3  # how strongly the weights are held to their present values
FOLDS = 5


def table(reader: Reader) -> tuple[Any, Any, list[set[int]]]:
    """Evidence (letters x labels x kinds), the true label of each letter, and all labels that count as right."""
    rows, truth, right = [], [], []
    place = {label: i for i, label in enumerate(reader.labels)}
    for line in GOLD.read_text("utf-8").splitlines():
        g = json.loads(line)
        if g["emergency"] or g["language"] != "en" or g["kind"] == "not-a-question":
            continue
        sent = date.fromisoformat(g["sent"]) if g["sent"] else None
        given = reader.evidence_of(Question(g["id"], 1, g["text"], sent))
        rows.append(np.stack([given[kind] for kind in weights.EVIDENCE], axis=1))
        truth.append(place[g["problem"] or train.OTHER])
        right.append({place[p] for p in g.get("also", []) if p in place} | {truth[-1]})
    return np.array(rows), np.array(truth), right


def fit(x: Any, y: Any, start: Any) -> Any:
    """Conditional logistic regression, held to `start` by a ridge of strength PULL."""

    def loss(w: Any) -> tuple[float, Any]:
        p = chances(x, w)
        n = np.arange(len(y))
        value = -np.log(p[n, y] + 1e-12).mean() + PULL * ((w - start) ** 2).sum()
        return value, -(x[n, y] - np.einsum("nc,ncf->nf", p, x)).mean(axis=0) + 2 * PULL * (w - start)

    return minimize(loss, start, jac=True, method="L-BFGS-B").x


def chances(x: Any, w: Any) -> Any:
    """Probabilities of every label for every letter."""
    score = x @ w
    power = np.exp(score - score.max(axis=1, keepdims=True))
    return power / power.sum(axis=1, keepdims=True)


def cross_validated(x: Any, y: Any, start: Any) -> Any:
    """Each letter's probabilities by weights fitted without it."""
    fold = np.random.default_rng(0).permutation(len(y)) % FOLDS
    p = np.zeros(x.shape[:2])
    for k in range(FOLDS):
        p[fold == k] = chances(x[fold == k], fit(x[fold != k], y[fold != k], start))
    return p


def say(name: str, p: Any, y: Any, right: list[set[int]], other: int) -> None:
    """One line: share right, in the first three, and wrong among those decided at each bar."""
    order = np.argsort(-p, axis=1)
    asked = y != other
    first = np.array([order[i, 0] in right[i] for i in range(len(y))])
    three = np.array([bool(right[i] & set(order[i, :3])) for i in range(len(y))])
    bars = []
    for bar in (0.5, 0.6, 0.7, 0.8, 0.9):
        decided = (p.max(axis=1) > bar) & (order[:, 0] != other)
        wrong = (decided & ~first).sum() / max(1, decided.sum())
        bars.append(f"{bar}: {decided[asked].mean():.0%} wrong {wrong:.1%}")
    print(f"{name:24} right {first[asked].mean():.1%}, in three {three[asked].mean():.1%} | " + " | ".join(bars))


def main() -> None:
    """Fit, print, ablate."""
    reader = Reader(load())
    x, y, right = table(reader)
    other = reader.labels.index(train.OTHER)
    start = np.array(list(weights.EVIDENCE.values()))
    say("as they stand", chances(x, start), y, right, other)
    p = cross_validated(x, y, start)
    say("fitted (cross-validated)", p, y, right, other)
    for kind, value in zip(weights.EVIDENCE, fit(x, y, start), strict=True):
        print(f"    {kind!r}: {value:.2f}")
    print(f"candidate sets hold the truth in 95 of 100 letters at IN_THE_SET = {threshold(p, y, 0.95):.4f}")
    for i, kind in enumerate(weights.EVIDENCE):
        without = x.copy()
        without[:, :, i] = 0
        say(f"without {kind}", cross_validated(without, y, start), y, right, other)


if __name__ == "__main__":
    main()
