"""A calculator's result: a value that can show its working, its source and its cautions.

Not here: any arithmetic of gardening; each subject has its own module beside this one.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any


@dataclass(frozen=True)
class Step:
    """One line of working a horticulturist can follow with a pencil."""

    words: str  # "root-zone area = 3.14 x 15 ft x 15 ft = 707 sq ft"


@dataclass(frozen=True)
class Figure:
    """One result: `value` in `unit`, further results in `also`, and how it was reached."""

    name: str  # calculator name
    label: str  # "10-10-10 to spread"
    value: float | str  # a number, or an ISO date
    unit: str
    inputs: dict[str, Any] = field(default_factory=dict)
    steps: tuple[Step, ...] = ()
    formula: str = ""
    source: str = ""
    also: dict[str, float | str] = field(default_factory=dict)  # further results, unit in the key: holes, area_sqft
    cautions: tuple[str, ...] = ()

    def as_json(self) -> dict[str, Any]:
        """The figure as plain JSON values (the one-shot interface's `figures` entry)."""
        return {
            "id": self.name,
            "label": self.label,
            "value": self.value,
            "unit": self.unit,
            "inputs": self.inputs,
            "steps": [s.words for s in self.steps],
            "formula": self.formula,
            "source": self.source,
            "also": self.also,
            "cautions": list(self.cautions),
        }


def pencil(value: float) -> str:
    """A number as a person would write it: three significant digits, no trailing zeros, thousands marked."""
    if value == 0:
        return "0"
    if abs(value) >= 100:
        return f"{round(value):,}"
    text = f"{value:.3g}"
    return f"{float(text):g}"
