"""`trug answer`: files in, one JSON object a question out; no store.

Not here: how a question is answered (answers/answering.py).
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from datetime import date
from pathlib import Path
from typing import Any

import typer

from answers.answering import load_engine
from answers.letters.reader import read_letters
from answers.letters.split import questions
from kb.entries import Place
from kb.errors import PlaceError, UnitError
from kb.load import Knowledge


def answer(files: list[Path], format: str, today: str, place: str) -> None:
    """Print the one-shot objects as they are made. A letter that asks nothing gives one line saying so."""
    if format != "jsonl":
        raise UnitError("--format", format, "jsonl")
    for made in answered(files, day(today), place):
        typer.echo(json.dumps(made, ensure_ascii=False))


def answered(files: list[Path], today: date, place: str) -> Iterator[dict[str, Any]]:
    """The one-shot object of every question in `files`."""
    engine = load_engine()
    at = place_named(place, engine.knowledge)
    for letter in read_letters(files):
        asked = questions(letter)
        for question in asked:
            yield engine.answer(question, today, at).as_json()
        if not asked:
            yield engine.nothing_asked(letter, today).as_json()


def day(text: str) -> date:
    """The date in `text`, or today's.

    Raises: UnitError when it is not a date.
    """
    try:
        return date.fromisoformat(text) if text else date.today()
    except ValueError:
        raise UnitError("--today", text, "a date as YYYY-MM-DD") from None


def place_named(id_: str, knowledge: Knowledge) -> Place | None:
    """The place of that id, None for "".

    Raises: PlaceError when there is no such place.
    """
    if id_ and id_ not in knowledge.places:
        raise PlaceError(f"--place: {id_!r} is not a place; known: {', '.join(knowledge.places)}")
    return knowledge.places.get(id_)
