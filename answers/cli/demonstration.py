"""`trug demo`: the demonstration letters sorted and drafted, and a page about them that a person enjoys reading.

Not here: how anything is read or drafted (answers/answering.py).
"""

from __future__ import annotations

import textwrap
from importlib.resources import files
from pathlib import Path
from typing import Any

import typer

from answers.answering import Answer, load_engine
from answers.cli.one_shot import day, place_named
from answers.letters.reader import read_letters
from answers.letters.split import questions
from kb.errors import LetterError

DAY = "2026-05-05"
PLACE = "larkspur-county"
MOST_LINES = 8
DRAFTS = 3  # shown in full: one that cannot wait, one with figures, one that asks back


def demo(today: str) -> None:
    """Read, sort and draft; then the summary and three drafts in full."""
    on = day(today or DAY)
    engine = load_engine()
    place = place_named(PLACE, engine.knowledge)
    letters = list(read_letters(_letters()))
    answers = [engine.answer(q, on, place) for letter in letters for q in questions(letter)]
    nothing = [x for x in letters if x.sort != "letter"]
    typer.echo(f"{len(letters)} letters, {len(answers)} questions, read as on {on:%A} {on.day} {on:%B %Y}.\n")
    urgent = [a for a in answers if a.urgency == "emergency"]
    others = [a for a in answers if a.reading.hand_offs and a.urgency != "emergency"]
    ready = [a for a in answers if a.rule and not a.reading.hand_offs]
    soon = sorted((a for a in ready if a.urgency == "this week"), key=_days)
    complete = [a for a in ready if not a.as_json()["missing"] and a not in soon]
    lacking = [a for a in ready if a.as_json()["missing"] and a not in soon]
    silent = [a for a in answers if not a.rule and a.reading.kind == "not-a-question"]
    unsure = [a for a in answers if not a.rule and not a.reading.hand_offs and a not in silent]
    _list("Call now: emergencies", urgent, lambda a: _first(a.reading.hand_offs, a))
    _list("This week: a window opens or closes", soon, lambda a: a.timings[0].dates.words if a.timings else "")
    _list("For somebody else", others, lambda a: _first(a.reading.hand_offs, a))
    _list("Ready to read and clear", complete, _about)
    _list("Answered for a typical case; the writer owes a fact", lacking, _about)
    _list("Not sure: a question goes back", unsure, lambda a: " / ".join(_names(a)) or "nothing that fits")
    _list("Nothing asked; a thank-you goes back", silent, lambda a: _short(a.question.text, 60))
    typer.echo(f"Not for us: {len(nothing)} ({', '.join(sorted({x.sort for x in nothing})) or 'none'})\n")
    worked = [a for a in ready if a.inputs.worked and a not in soon[:1]]
    samples = [*soon[:1], *worked, *ready][: DRAFTS - len(unsure[:1])] + unsure[:1]
    for number, sample in enumerate(samples, start=1):
        typer.echo(f"{'-' * 78}\nDraft {number} of {len(samples)}\n\nASKED  {_short(sample.question.text, 300)}\n")
        typer.echo(_wrapped(sample.draft.email))


def _letters() -> list[Path]:
    """The demonstration files: inside the installed package, else beside it in a checkout."""
    for folder in (
        Path(str(files("answers"))) / "demo_questions",
        Path(str(files("answers"))).parent / "demo_questions",
    ):
        if folder.is_dir():
            return [*sorted(folder.glob("*.mbox")), *sorted(folder.glob("eml/*.eml")), *sorted(folder.glob("*.csv"))]
    raise LetterError("demo_questions", "the demonstration letters are not installed")


def _list(title: str, answers: list[Answer], say: Any) -> None:
    typer.echo(f"{title}: {len(answers)}")
    for answer in answers[:MOST_LINES]:
        writer = answer.question.writer
        who = ", ".join(w for w in (writer.first_name or "(no name)", writer.town) if w)
        typer.echo(textwrap.shorten(f"  {who}: {_topic(answer)}{say(answer)}", 78, placeholder=" ..."))
    if len(answers) > MOST_LINES:
        typer.echo(f"  and {len(answers) - MOST_LINES} more")
    typer.echo("")


def _topic(answer: Answer) -> str:
    return (
        f"{answer.knowledge.problems[answer.reading.problem].name}; " if answer.rule and answer.reading.problem else ""
    )


def _about(answer: Answer) -> str:
    return answer.inputs.worked[0].sentence if answer.inputs.worked else _short(answer.question.text, 60)


def _names(answer: Answer) -> list[str]:
    problems = answer.knowledge.problems
    return list(dict.fromkeys(problems[c.problem].name for c in answer.reading.candidates if c.problem))[:3]


def _first(ids: tuple[str, ...], answer: Answer) -> str:
    return f"{answer.knowledge.hand_offs[ids[0]].who}: {_short(answer.question.text, 60)}"


def _days(answer: Answer) -> int:
    return min((t.dates.days for t in answer.timings), default=999)


def _short(text: str, width: int) -> str:
    return textwrap.shorten(" ".join(text.split()), width, placeholder=" ...")


def _wrapped(text: str) -> str:
    return "\n".join(textwrap.fill(line, 78) if line else "" for line in text.splitlines())
