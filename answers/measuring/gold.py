"""Gold letters: text with the reading that a person gave it, from JSON Lines.

Not here: marking a program's reading against them (marks.py).
"""

from __future__ import annotations

import json
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path

from answers.letters.letter import Question
from kb.errors import LetterError


@dataclass(frozen=True)
class Gold:
    """One letter and its right reading. `also`, `also_plant` and `also_kind` are just as right as the first of each."""

    id: str
    text: str
    plant: str | None
    problem: str | None
    kind: str = ""
    sent: date | None = None
    emergency: bool = False
    language: str = "en"
    also: tuple[str | None, ...] = ()
    also_plant: tuple[str | None, ...] = ()
    also_kind: tuple[str, ...] = ()
    amounts: dict[str, float] = field(default_factory=dict)

    @property
    def asked(self) -> bool:
        """Whether a rule ought to be found: a question in English about one of our problems, and no emergency."""
        return self.problem is not None and not self.emergency and self.language == "en"

    def question(self) -> Question:
        """The letter as the reader takes it."""
        return Question(self.id, 1, self.text, self.sent)

    def right_problem(self, problem: str | None) -> bool:
        """Whether a problem is the right one, or as right."""
        return problem == self.problem or problem in self.also

    def right_plant(self, plant: str | None) -> bool:
        """Whether a plant is the right one, or as right."""
        return plant == self.plant or plant in self.also_plant

    def right_kind(self, kind: str) -> bool:
        """Whether a kind is the right one, or as right."""
        return kind == self.kind or kind in self.also_kind


def read_gold(path: Path) -> list[Gold]:
    """The letters in a JSON Lines file.

    Raises:
        LetterError: naming the line, for one that is not JSON or lacks `text`.
    """
    found = []
    for number, line in enumerate(path.read_text("utf-8").splitlines(), 1):
        if not line.strip():
            continue
        try:
            g = json.loads(line)
            found.append(
                Gold(
                    id=str(g.get("id", number)),
                    text=g["text"],
                    plant=g.get("plant"),
                    problem=g.get("problem"),
                    kind=g.get("kind", ""),
                    sent=date.fromisoformat(g["sent"]) if g.get("sent") else None,
                    emergency=bool(g.get("emergency")),
                    language=g.get("language", "en"),
                    also=tuple(g.get("also", ())),
                    also_plant=tuple(g.get("also_plant", ())),
                    also_kind=tuple(g.get("also_kind", ())),
                    amounts={k: float(v) for k, v in g.get("amounts", {}).items() if not isinstance(v, str)},
                )
            )
        except (ValueError, KeyError, TypeError, AttributeError) as fault:
            raise LetterError(f"{path.name}:{number}", f"not a gold letter: {fault}") from fault
    if not found:
        raise LetterError(path.name, "holds no letters; give JSON Lines with text, plant and problem")
    return found
