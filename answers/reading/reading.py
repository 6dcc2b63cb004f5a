"""What was understood of a question: Reading, with the words that say so and how sure we are.

Not here: how any of it is found (names_in_text.py, amounts.py, model.py, read.py).
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any


@dataclass(frozen=True)
class Mention:
    """A name from the rule base found in the text. `exact` is false when a typo was forgiven."""

    id: str
    words: str
    start: int
    end: int
    exact: bool = True


@dataclass(frozen=True)
class Measurement:
    """A number the writer gave, in our unit for that measurement, with the words it came from."""

    name: str  # area_sqft, soil_ph, trunk_diameter_in ...
    value: float | str
    words: str
    about: bool = False  # hedged: "bout", "maybe"


@dataclass(frozen=True)
class Candidate:
    """One (plant, problem) pair and its probability; None where the question names none."""

    plant: str | None
    problem: str | None
    probability: float


@dataclass(frozen=True)
class Reading:
    """What we took a question to ask. `decided` is false when the probability is below the bar."""

    kind: str
    plant: str | None
    problem: str | None
    candidates: tuple[Candidate, ...]
    confidence: float
    decided: bool
    emergency: bool = False
    hand_offs: tuple[str, ...] = ()
    measurements: dict[str, Measurement] = field(default_factory=dict)
    evidence: tuple[str, ...] = ()  # the letter's own words that decided, in their order
    language: str = ""  # its name when the letter is surely not in English: "Spanish"

    @property
    def plant_share(self) -> float:
        """How much of the candidates' probability its plant has; 1 when there are none, or nothing was guessed."""
        if self.emergency and self.problem is None:
            return 1.0
        total = sum(c.probability for c in self.candidates)
        return sum(c.probability for c in self.candidates if c.plant == self.plant) / total if total else 1.0

    def amounts(self) -> dict[str, Any]:
        """Measurement name -> value."""
        return {name: m.value for name, m in self.measurements.items()}
