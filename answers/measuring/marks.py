"""Marks for readings of gold letters: right, in the first three, decided, calibrated, covered, amounts, emergencies.

Not here: making the readings (answers/reading, baseline.py), showing the marks (page.py).
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

from answers.measuring.gold import Gold
from answers.reading.reading import Candidate, Reading
from answers.reading.weights import IN_THE_SET

_BINS = 10
_NEAR = 0.02  # an amount within two parts in a hundred is right


@dataclass(frozen=True)
class Bin:
    """Readings of like confidence: how many, how sure on average, how many of them right."""

    count: int
    confidence: float
    right: float


@dataclass(frozen=True)
class Marks:
    """Shares from 0 to 1 of the letters asked about one of our problems, unless a comment says otherwise."""

    letters: int
    plant: float
    plant_in_three: float
    problem: float
    problem_in_three: float
    both: float
    both_in_three: float
    kind: float | None  # of all letters whose kind is told; None when none is
    decided: float
    wrong_of_decided: float  # of all that were decided, letters no rule answers among them
    calibration_error: float  # expected calibration error over ten bins of confidence
    covered: float  # the candidate set holds the problem
    set_size: float  # problems in a set, on average
    amounts_found: float  # of the amounts in gold
    amounts_right: float  # of the amounts in gold
    emergencies: int
    emergencies_missed: int
    false_alarms: int
    bins: tuple[Bin, ...]
    wrong: tuple[tuple[Gold, Reading], ...]  # decided and wrong


def mark(pairs: Sequence[tuple[Gold, Reading]]) -> Marks:
    """The marks of readings against gold."""
    asked = [(g, r) for g, r in pairs if g.asked]
    decided = [(g, r) for g, r in pairs if r.decided]
    wrong = tuple((g, r) for g, r in decided if not g.right_problem(r.problem))
    bins = reliability([(r.confidence, g.right_problem(r.problem)) for g, r in pairs if r.problem])
    kinds = [g.right_kind(r.kind) for g, r in pairs if g.kind]
    given = [(g, r, name, value) for g, r in pairs if g.language == "en" for name, value in g.amounts.items()]
    return Marks(
        letters=len(pairs),
        plant=_share(g.right_plant(r.plant) for g, r in asked),
        plant_in_three=_share(any(map(g.right_plant, _first(r, lambda c: c.plant))) for g, r in asked),
        problem=_share(g.right_problem(r.problem) for g, r in asked),
        problem_in_three=_share(any(map(g.right_problem, _first(r, lambda c: c.problem))) for g, r in asked),
        both=_share(g.right_problem(r.problem) and g.right_plant(r.plant) for g, r in asked),
        both_in_three=_share(
            any(g.right_problem(c.problem) and g.right_plant(c.plant) for c in r.candidates[:3]) for g, r in asked
        ),
        kind=_share(kinds) if kinds else None,
        decided=_share(r.decided for _, r in asked),
        wrong_of_decided=len(wrong) / len(decided) if decided else 0.0,
        calibration_error=sum(b.count * abs(b.confidence - b.right) for b in bins) / max(1, sum(b.count for b in bins)),
        covered=_share(any(map(g.right_problem, _set(r))) for g, r in asked),
        set_size=sum(len(_set(r)) for _, r in asked) / max(1, len(asked)),
        amounts_found=_share(name in r.measurements for _, r, name, _ in given),
        amounts_right=_share(_near(r, name, value) for _, r, name, value in given),
        emergencies=sum(g.emergency for g, _ in pairs),
        emergencies_missed=sum(g.emergency and not r.emergency for g, r in pairs),
        false_alarms=sum(r.emergency and not g.emergency for g, r in pairs),
        bins=bins,
        wrong=wrong,
    )


def reliability(pairs: Sequence[tuple[float, bool]]) -> tuple[Bin, ...]:
    """(confidence, right) pairs in ten bins of equal width; empty bins are left out."""
    held: dict[int, list[tuple[float, bool]]] = {}
    for confidence, right in pairs:
        held.setdefault(min(_BINS - 1, int(confidence * _BINS)), []).append((confidence, right))
    return tuple(
        Bin(len(b), sum(c for c, _ in b) / len(b), sum(ok for _, ok in b) / len(b)) for _, b in sorted(held.items())
    )


def _first(reading: Reading, part: Callable[[Candidate], str | None]) -> list[str | None]:
    """The first three different plants (or problems) among the candidates."""
    return list(dict.fromkeys(part(c) for c in reading.candidates))[:3]


def _set(reading: Reading) -> set[str]:
    """The problems in the candidate set: the first, and those as probable as the set's bar."""
    chances: dict[str, float] = {}
    for candidate in reading.candidates:
        if candidate.problem:
            chances[candidate.problem] = chances.get(candidate.problem, 0.0) + candidate.probability
    return {p for i, (p, chance) in enumerate(chances.items()) if i == 0 or chance >= IN_THE_SET}


def _near(reading: Reading, name: str, value: float) -> bool:
    got = reading.measurements.get(name)
    if got is None or isinstance(got.value, str):
        return False
    sides = [reading.measurements[n].value for n in ("length_ft", "width_ft") if n in reading.measurements]
    tried = sides if name in ("length_ft", "width_ft") and len(sides) == 2 else [got.value]  # "8 by 12" has no order
    return any(not isinstance(v, str) and abs(v - value) <= _NEAR * abs(value) + 1e-9 for v in tried)


def _share(flags: Iterable[bool]) -> float:
    values = list(flags)
    return sum(values) / len(values) if values else 0.0
