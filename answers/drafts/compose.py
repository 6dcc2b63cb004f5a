"""A reading, its rule, dates and figures into three texts: an e-mail reply, a cue card and a phone script.

Not here: advice (kb/rules), sentence frames (templates/) or choosing the rule (answering.py).
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from typing import Any

from answers.drafts.draft import Draft, Passage
from answers.drafts.inputs import Inputs, Worked
from answers.drafts.spoken import SHORTEST, count_words
from answers.letters.letter import Question
from answers.letters.privacy import public_text
from answers.reading.reading import Reading
from kb.entries import Ask, Rule, Say, Source
from kb.load import Knowledge
from kb.schedule import Dates

LONGEST = 300  # words in an e-mail before its sources
CALLED_BY_NAME = 0.7  # share of the belief from which a draft calls the plant by its name
WORTH_NAMING = 0.15  # probability from which an undecided draft names a candidate
PHOTO = "a sharp photo of the whole plant and one of the trouble close up, in daylight;"


@dataclass(frozen=True)
class Timing:
    """A window of the rule with its dates at the writer's place."""

    action: str
    dates: Dates
    too_late: str
    sources: tuple[str, ...]


def compose(
    question: Question,
    reading: Reading,
    rule: Rule | None,
    timings: Sequence[Timing],
    inputs: Inputs,
    knowledge: Knowledge,
    signature: str = "Your gardening desk",
) -> Draft:
    """The draft for one question. Without a rule, or undecided, it asks for what would decide and advises nothing.

    A letter that is surely not in English is set aside for somebody who reads its language.
    """
    decided = reading.decided and rule is not None and not reading.emergency
    if reading.language and not reading.emergency:
        aside = f"Set aside: this letter seems to be in {reading.language}. Nothing was drafted; it wants somebody who"
        passage = Passage("language", f"{aside} reads {reading.language}.", "reading")
        return Draft(email=f"[{passage.text}]\n", cue_card="", phone="", passages=(passage,))
    passages = _passages(question, reading, rule if decided else None, timings, inputs, knowledge)
    _trim(passages, LONGEST - 50)

    def said(part: str) -> list[str]:
        return [p.text for p in passages if p.part == part]

    frame: dict[str, Any] = {
        "greeting": question.writer.first_name or "friend",
        "topic": _topic(reading, rule if decided else None, knowledge),
        "emergency": reading.emergency,
        "decided": decided,
        "asked": reading.kind != "not-a-question" or decided,
        "what": " ".join(said("what")),
        "do": said("do"),
        "windows": said("window"),
        "figures": said("figure"),
        "assumed": list(dict.fromkeys(a for w in inputs.worked for a in w.assumed)),
        "avoid": said("avoid"),
        "cautions": said("caution"),
        "asks": said("ask"),
        "hand_off": said("hand-off"),
        "look_alikes": said("look-alike"),
        "signature": signature,
        "sources": [
            *(cite(knowledge.sources[s]) for s in _source_ids(passages)),
            *dict.fromkeys(f"Arithmetic: {w.figure.source}" for w in inputs.worked if decided),
        ],
    }
    return Draft(
        email=_render("email.txt.j2", frame),
        cue_card=_cue_card(question, frame, rule) if decided and rule else "",
        phone=_render("phone.txt.j2", frame),
        passages=tuple(passages),
        topic=frame["topic"],
    )


def shared_text(rule: Rule, knowledge: Knowledge, signature: str = "Your gardening desk") -> str:
    """The e-mail of a rule with places left open: [name], [topic], [dates], [figure ID], [assumed], [questions],
    [sources]. drafts/shared.py fills them from each letter.
    """
    cautions = sorted((knowledge.cautions[c] for c in rule.cautions), key=lambda c: c.order)
    frame: dict[str, Any] = {
        "greeting": "[name]",
        "topic": "[topic]",
        "emergency": False,
        "decided": True,
        "asked": True,
        "what": rule.what.say,
        "do": [s.say for s in rule.do],
        "windows": ["[dates]"] if rule.windows else [],
        "figures": [f"[figure {c.id}]" for c in rule.figures],
        "assumed": ["[assumed]"],
        "avoid": [s.say for s in rule.avoid],
        "cautions": [c.text for c in cautions],
        "asks": ["[questions]"] if rule.ask else [],
        "hand_off": [knowledge.hand_offs[rule.hand_off].text] if rule.hand_off else [],
        "look_alikes": [],
        "signature": signature,
        "sources": ["[sources]"],
    }
    return _render("email.txt.j2", frame)


def cite(source: Source) -> str:
    """A source as one line: publisher, title, number, year."""
    if source.seen != "read":
        return f"{source.title[:1].upper()}{source.title[1:]}"
    number = f", {source.number}" if source.number else ""
    year = f" ({source.year})" if source.year else ""
    return f"{source.publisher}: {source.title}{number}{year}"


def _passages(
    question: Question,
    reading: Reading,
    rule: Rule | None,
    timings: Sequence[Timing],
    inputs: Inputs,
    k: Knowledge,
) -> list[Passage]:
    made = [
        Passage("hand-off", k.hand_offs[o].text, o, (k.hand_offs[o].source,))
        for o in reading.hand_offs
        if not reading.emergency or k.hand_offs[o].urgent
    ]
    if reading.emergency:
        return made
    if rule is None:
        return made + _undecided(question, reading, k)

    def add(part: str, say: Say) -> None:
        made.append(Passage(part, say.say, rule.id, _ids(say.source)))

    add("what", rule.what)
    made += [Passage("window", _when(t), rule.id, t.sources) for t in timings]
    for step in rule.do:
        add("do", step)
    made += [Passage("figure", w.sentence, f"{rule.id}/{w.calculation.id}", _figure_sources(w)) for w in inputs.worked]
    made += [
        Passage("figure", f"I could not work the amount from these numbers ({reason}).", rule.id)
        for reason in inputs.refused
    ]
    for warning in rule.avoid:
        add("avoid", warning)
    if rule.hand_off and rule.hand_off not in reading.hand_offs:
        made.append(Passage("hand-off", k.hand_offs[rule.hand_off].text, rule.hand_off))
    cautions = sorted((k.cautions[c] for c in rule.cautions), key=lambda c: c.order)
    made += [Passage("caution", c.text, c.id, (c.source,)) for c in cautions]
    made += [Passage("ask", a.question, rule.id) for a in missing(rule.ask, question, reading)]
    return made


def _undecided(question: Question, reading: Reading, k: Knowledge) -> list[Passage]:
    made, seen = [], set()
    for candidate in reading.candidates[:3]:
        problem = k.problems[candidate.problem or ""]
        if problem.id in seen or candidate.probability < WORTH_NAMING:
            continue
        seen.add(problem.id)
        look = problem.look_alikes[0] if problem.look_alikes else None
        apart = f"; {look.name} is told from it by this: {look.sign}" if look else ""
        made.append(Passage("look-alike", f"{problem.name}{apart}", problem.id))
    if not _plant_to_name(reading):
        made.append(Passage("ask", "the name of the plant, or what it looks like;", "reading"))
    if not question.has_photo:
        made.append(Passage("ask", PHOTO, "reading"))
    made.append(Passage("ask", "when it began, and what was done to the plant or near it this year.", "reading"))
    return made


def missing(asks: Sequence[Ask], question: Question, reading: Reading) -> list[Ask]:
    """The rule's questions that the letter leaves open."""
    known = set(reading.measurements) | ({"plant"} if _plant_to_name(reading) else set())
    known |= ({"photo"} if question.has_photo else set()) | ({"place"} if question.writer.town else set())
    return [a for a in asks if not a.unless or a.unless not in known]


def _when(timing: Timing) -> str:
    words = f"The time to {timing.action}: {timing.dates.words.rstrip('.')}."
    return f"{words} {timing.too_late}".strip() if timing.dates.state == "closed" else words


def _topic(reading: Reading, rule: Rule | None, k: Knowledge) -> str:
    plant = k.plants[named].common if (named := _plant_to_name(reading)) else ""
    if rule is not None:
        name = k.problems[rule.problem].name
        return name if not plant or plant.lower() in name.lower() else f"{name} ({plant})"
    return f"your {plant}" if plant else "your garden"


def _plant_to_name(reading: Reading) -> str | None:
    """The plant, when it is sure enough to tell the writer so: "your maple" to one who named none is a guess."""
    return reading.plant if reading.plant_share >= CALLED_BY_NAME else None


def _figure_sources(worked: Worked) -> tuple[str, ...]:
    return tuple(dict.fromkeys(worked.sources))


def _ids(source: str | tuple[str, ...]) -> tuple[str, ...]:
    return (source,) if isinstance(source, str) else source


def _source_ids(passages: Sequence[Passage]) -> list[str]:
    """Source ids in order of first use; common practice and memory last."""
    ids = list(dict.fromkeys(s for p in passages for s in p.sources))
    return sorted(ids, key=lambda s: s in ("common-practice", "from-memory"))


def _trim(passages: list[Passage], budget: int) -> None:
    """Drop asks, then the last warnings and steps, until the words fit; never a caution, figure or date."""
    for part, fewest in (("ask", 1), ("avoid", 1), ("do", 3)):
        while sum(count_words(p.text) for p in passages) > budget:
            of_part = [i for i, p in enumerate(passages) if p.part == part]
            if len(of_part) <= fewest:
                break
            del passages[of_part[-1]]


def _cue_card(question: Question, frame: dict[str, Any], rule: Rule) -> str:
    who = question.writer.first_name or "A listener"
    if question.writer.town:
        who += f" in {question.writer.town}"
    card = {"who": who, "topic": frame["topic"], "spoken": rule.spoken, "windows": frame["windows"][:1], "more": []}
    for line in (*frame["avoid"], *frame["cautions"]):
        if count_words(_render("cue_card.txt.j2", card)) >= SHORTEST:
            break
        card["more"].append(line)
    return public_text(_render("cue_card.txt.j2", card), question.private)


@cache
def _environment() -> Any:
    from importlib.resources import files

    from jinja2 import Environment, FunctionLoader, StrictUndefined

    folder = files("answers.drafts") / "templates"
    return Environment(
        loader=FunctionLoader(lambda name: (folder / name).read_text("utf-8")),
        trim_blocks=True,
        lstrip_blocks=True,
        undefined=StrictUndefined,
        autoescape=False,  # plain text, never HTML
    )


def _render(name: str, values: dict[str, Any]) -> str:
    text = str(_environment().get_template(name).render(values))
    return re.sub(r"\n{3,}", "\n\n", text).strip() + "\n" if text.strip() else ""
