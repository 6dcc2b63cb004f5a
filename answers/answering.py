"""The whole way, from a question to an answer with its draft, in one short function: `Engine.answer`.

Not here: any stage's own work; each has a folder. Pure: today and the place are arguments, nothing is stored or sent.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from typing import Any, NamedTuple

from answers.calculators import catalogue
from answers.drafts.compose import Timing, cite, compose, missing
from answers.drafts.draft import Draft
from answers.drafts.inputs import Inputs, work
from answers.letters.letter import Letter, Question
from answers.reading.lessons import Lesson, load_lessons
from answers.reading.places import nearest
from answers.reading.read import Reader
from answers.reading.reading import Candidate, Reading
from kb.entries import Place, Plant, Rule
from kb.load import Knowledge, load
from kb.match import matches
from kb.schedule import Dates, for_plant, in_zones, schedule


class Correction(NamedTuple):
    """What a person says that a question is about."""

    plant: str | None
    problem: str


@dataclass(frozen=True)
class Answer:
    """Everything worked out for one question; `as_json` is the one-shot interface."""

    question: Question
    reading: Reading
    rule: Rule | None
    timings: tuple[Timing, ...]
    inputs: Inputs
    draft: Draft
    urgency: str
    knowledge: Knowledge

    def as_json(self) -> dict[str, Any]:
        """The one-shot interface's object, its keys in the order scripts may rely on."""
        k, r = self.knowledge, self.reading
        plant = k.plants[r.plant] if r.plant else None
        problem = k.problems[r.problem] if r.problem else None
        used = dict.fromkeys(s for p in self.draft.passages for s in p.sources)
        return {
            "letter_id": self.question.letter_id,
            "part": self.question.part,
            "text": self.question.text,
            "kind": r.kind,
            "plant": plant and {"id": plant.id, "common": plant.common, "botanical": plant.botanical},
            "problem": problem and {"id": problem.id, "name": problem.name, "synonyms": list(problem.synonyms)},
            "candidates": [
                {"plant": c.plant, "problem": c.problem, "probability": c.probability} for c in r.candidates
            ],
            "confidence": r.confidence,
            "decided": r.decided,
            "urgency": self.urgency,
            "window": _window_json(self.timings[0].dates) if self.timings else None,
            "measurements": {
                m.name: {"value": m.value, "words": m.words, "about": m.about} for m in r.measurements.values()
            },
            "missing": [a.question for a in missing(self.rule.ask, self.question, r)] if self.rule else [],
            "hand_off": [{"id": o, "who": k.hand_offs[o].who, "text": k.hand_offs[o].text} for o in r.hand_offs],
            "rule": self.rule.id if self.rule else None,
            "figures": [{**w.figure.as_json(), "id": w.calculation.id} for w in self.inputs.worked],
            "cautions": [p.text for p in self.draft.passages if p.part == "caution"],
            "sources": [{"id": s, "text": cite(k.sources[s]), "seen": k.sources[s].seen} for s in used],
            "draft": {"email": self.draft.email, "cue_card": self.draft.cue_card, "phone": self.draft.phone},
            "evidence": list(r.evidence),
            "language": r.language,
        }


class Engine:
    """A rule base and a reader, ready for questions."""

    def __init__(self, knowledge: Knowledge, lessons: Sequence[Lesson] = ()) -> None:
        self.knowledge = knowledge
        self.reader = Reader(knowledge, lessons)

    def answer(
        self, question: Question, today: date, place: Place | None = None, told: Correction | None = None
    ) -> Answer:
        """Read, match, schedule, work and compose.

        `place` overrides the writer's own town or ZIP; `told` is what a person says the question is about.
        """
        k = self.knowledge
        reading = self.reader.read(question)
        if told is not None:
            reading = _corrected(reading, told)
        at = place or self._place_of(question)
        found = matches(reading.plant, reading.problem, k, at) if reading.problem and not reading.emergency else []
        rule = found[0].rule if found and reading.decided else None
        plant = k.plants[reading.plant] if reading.plant else None
        timings = _timings(rule, plant, at, today)
        inputs = work(rule, reading.amounts(), plant, at, catalogue.run) if rule else Inputs()
        draft = compose(question, reading, rule, timings, inputs, k)
        return Answer(question, reading, rule, timings, inputs, draft, _urgency(reading, timings), k)

    def nothing_asked(self, letter: Letter) -> Answer:
        """The answer to a letter that asks nothing: an auto-reply, newsletter, duplicate or bare photo."""
        question = Question(letter.id, 1, f"{letter.subject}\n{letter.body}".strip(), letter.sent, letter.writer)
        reading = Reading("not-a-question", None, None, (), 0.0, decided=False)
        return Answer(question, reading, None, (), Inputs(), Draft("", "", ""), "any time", self.knowledge)

    def _place_of(self, question: Question) -> Place | None:
        writer = question.writer
        found = nearest(
            tuple(self.knowledge.places.values()), town=writer.town, state=writer.state, zip_code=writer.zip_code
        )
        return found.place if found else None


def load_engine() -> Engine:
    """An engine on the rule base shipped with the program, and on what corrections have taught."""
    return Engine(load(), load_lessons())


def _corrected(reading: Reading, told: Correction) -> Reading:
    """The reading with a person's plant and problem, which are certain."""
    pair = Candidate(told.plant, told.problem, 1.0)
    return replace(
        reading, plant=told.plant, problem=told.problem, candidates=(pair,), confidence=1.0, decided=True, language=""
    )


def _timings(rule: Rule | None, plant: Plant | None, place: Place | None, today: date) -> tuple[Timing, ...]:
    if rule is None or place is None:
        return ()
    windows = (for_plant(w, plant) for w in rule.windows if in_zones(w.zones, place))
    return tuple(
        Timing(w.action, schedule(w, place, today), w.too_late, (w.source,) if isinstance(w.source, str) else w.source)
        for w in windows
        if w is not None
    )


def _urgency(reading: Reading, timings: tuple[Timing, ...]) -> str:
    """emergency, this week, this month or any time: from the days until a window closes or opens."""
    if reading.emergency:
        return "emergency"
    if reading.hand_offs:
        return "this week"
    days = [t.dates.days for t in timings if t.dates.state in ("open", "opens later")]
    soonest = min(days, default=999)
    return "this week" if soonest <= 7 else "this month" if soonest <= 31 else "any time"


def _window_json(dates: Dates) -> dict[str, Any]:
    return {
        "opens": dates.opens and dates.opens.isoformat(),
        "closes": dates.closes and dates.closes.isoformat(),
        "state": dates.state,
        "words": dates.words,
    }
