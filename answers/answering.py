"""The whole way, from a question to an answer with its draft, in one short function: `Engine.answer`.

Not here: any stage's own work; each has a folder. Pure: today and the place are arguments, nothing is stored or sent.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass, field, replace
from datetime import date
from typing import Any

from answers.calculators import catalogue
from answers.drafts.compose import Timing, cite, compose, missing
from answers.drafts.draft import Draft
from answers.drafts.inputs import Inputs, work
from answers.letters.letter import Letter, Question
from answers.reading.lessons import Lesson, load_lessons
from answers.reading.places import nearest
from answers.reading.read import Reader
from answers.reading.reading import Candidate, Measurement, Reading
from kb.entries import Place, Plant, Rule
from kb.load import Knowledge, load
from kb.match import matches
from kb.schedule import Dates, for_plant, in_zones, schedule


@dataclass(frozen=True)
class Told:
    """What people say of a question, over what was read in it.

    `values` holds measurements by name ("area_sqft") and single inputs of a figure ("lime.target_ph").
    """

    problem: str = ""  # certain when given, and `plant` with it
    plant: str | None = None
    values: Mapping[str, Any] = field(default_factory=dict)


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
    today: date

    def kept(self) -> dict[str, Any]:
        """What the store keeps: the one-shot object, and what a person's edit is checked against."""
        return {
            **self.as_json(),
            "passages": [asdict(p) for p in self.draft.passages],
            "windows": [{"action": t.action, **_window_json(t.dates)} for t in self.timings],
            "assumed": list(dict.fromkeys(a for w in self.inputs.worked for a in w.assumed)),
            "refused": list(self.inputs.refused),
            "topic": self.draft.topic,
            "drafted_on": self.today.isoformat(),
        }

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

    def answer(self, question: Question, today: date, place: Place | None = None, told: Told | None = None) -> Answer:
        """Read, match, schedule, work and compose.

        `place` overrides the writer's own town or ZIP; `told` is what a person says of the question.
        """
        k, told = self.knowledge, told or Told()
        reading = _corrected(self.reader.read(question), told)
        at = place or self.place_of(question)
        found = matches(reading.plant, reading.problem, k, at) if reading.problem and not reading.emergency else []
        rule = found[0].rule if found and reading.decided else None
        plant = k.plants[reading.plant] if reading.plant else None
        dated = timings(rule, plant, at, today)
        amounts = {**reading.amounts(), **told.values}
        inputs = work(rule, amounts, plant, at, catalogue.run) if rule else Inputs()
        draft = compose(question, reading, rule, dated, inputs, k)
        return Answer(question, reading, rule, dated, inputs, draft, _urgency(reading, dated), k, today)

    def nothing_asked(self, letter: Letter, today: date) -> Answer:
        """The answer to a letter that asks nothing: an auto-reply, newsletter, duplicate or bare photo."""
        question = Question(letter.id, 1, f"{letter.subject}\n{letter.body}".strip(), letter.sent, letter.writer)
        reading = Reading("not-a-question", None, None, (), 0.0, decided=False)
        return Answer(question, reading, None, (), Inputs(), Draft("", "", ""), "any time", self.knowledge, today)

    def place_of(self, question: Question) -> Place | None:
        """The place of ours nearest the writer's own town or ZIP; None when neither is told or known."""
        writer = question.writer
        found = nearest(
            tuple(self.knowledge.places.values()), town=writer.town, state=writer.state, zip_code=writer.zip_code
        )
        return found.place if found else None


def load_engine() -> Engine:
    """An engine on the rule base shipped with the program, and on what corrections have taught."""
    return Engine(load(), load_lessons())


def _corrected(reading: Reading, told: Told) -> Reading:
    """The reading with what a person tells, which is certain."""
    if told.values:
        said = {n: Measurement(n, v, "told") for n, v in told.values.items() if "." not in n}
        reading = replace(reading, measurements={**reading.measurements, **said})
    if not told.problem:
        return reading
    pair = Candidate(told.plant, told.problem, 1.0)
    return replace(
        reading, plant=told.plant, problem=told.problem, candidates=(pair,), confidence=1.0, decided=True, language=""
    )


def timings(rule: Rule | None, plant: Plant | None, place: Place | None, today: date) -> tuple[Timing, ...]:
    """The windows of a rule that hold at a place, as dates seen from `today`; none without a place."""
    if rule is None or place is None:
        return ()
    windows = (for_plant(w, plant) for w in rule.windows if in_zones(w.zones, place))
    return tuple(
        Timing(w.action, schedule(w, place, today), w.too_late, (w.source,) if isinstance(w.source, str) else w.source)
        for w in windows
        if w is not None
    )


def _urgency(reading: Reading, dated: tuple[Timing, ...]) -> str:
    """emergency, this week, this month or any time: from the days until a window closes or opens."""
    if reading.emergency:
        return "emergency"
    if reading.hand_offs:
        return "this week"
    days = [t.dates.days for t in dated if t.dates.state in ("open", "opens later")]
    soonest = min(days, default=999)
    return "this week" if soonest <= 7 else "this month" if soonest <= 31 else "any time"


def _window_json(dates: Dates) -> dict[str, Any]:
    return {
        "opens": dates.opens and dates.opens.isoformat(),
        "closes": dates.closes and dates.closes.isoformat(),
        "state": dates.state,
        "words": dates.words,
    }
