"""`trug correct` and `trug learn`: a person's correction of a reading, and what is learnt from them.

Not here: the text model (answers/reading/train.py), the store (answers/store.py).
"""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import typer

from answers.cli.one_shot import day, place_named
from answers.ledger import Ledger, utc_now
from answers.letters.letter import Question
from answers.measuring.gold import read_gold
from answers.reading.lessons import Lesson, keep_lessons, load_lessons
from answers.reading.read import Reader
from answers.store import Store
from kb.errors import RangeError, TrugError
from kb.load import Knowledge, load

_KEPT_OUT = 4  # every fourth correction is kept out of the lessons, to judge them by


def correct(question: str, problem: str, plant: str, by: str, path: Path, today: str, place: str) -> None:
    """Remember the correction and draft the question anew, unless somebody has edited its draft."""
    from answers.answering import load_engine
    from answers.drafting import At, keep_told

    engine = load_engine()
    k = engine.knowledge
    if problem not in k.rules_by_problem:
        raise RangeError("problem", problem, "a problem that a rule answers; `trug kb find` looks for one")
    if plant and plant not in k.plants:
        raise RangeError("plant", plant, "a plant of the rule base; `trug kb find` looks for one")
    if not by.strip():
        raise TrugError("--by: give the name of the person who corrects it")
    at = place_named(place, k)
    with Store(path) as store:
        told = {"problem": problem, "plant": plant or None}
        keep_told(Ledger(store), engine, question, told, by, At(utc_now(), day(today)), at)
    typer.echo(f"{question} is about {k.problems[problem].name}. `trug learn` learns from it.")


def learn(path: Path, kept: Path | None) -> None:
    """Take the store's corrections as lessons, if the reading is then no worse on those kept out (and on `kept`)."""
    with Store(path) as store:
        corrections = store.corrections()
    if not corrections:
        typer.echo("Nothing to learn: no reading has been corrected.")
        return
    held = corrections[_KEPT_OUT - 1 :: _KEPT_OUT]
    new = [c for c in corrections if c not in held]
    if kept:
        held += [Lesson(g.text, g.problem, g.plant or "") for g in read_gold(kept) if g.asked and g.problem]
    k, before = load(), load_lessons()
    after = tuple(dict.fromkeys((*before, *new)))
    was, now = _right(k, before, held), _right(k, after, held)
    typer.echo(f"{len(new)} corrections learnt from; of {len(held)} kept out, {was} were read right, now {now}.")
    if now < was:
        typer.echo("That is worse, so nothing was changed.")
        raise typer.Exit(1)
    typer.echo(f"Kept in {keep_lessons(after)}")


def _right(k: Knowledge, lessons: Sequence[Lesson], held: Sequence[Lesson]) -> int:
    """How many are read with the right problem, and with the right plant where that was told."""
    reader = Reader(k, lessons)
    read = [reader.read(Question("kept", 1, lesson.text, None)) for lesson in held]
    return sum(
        r.problem == lesson.problem and (not lesson.plant or r.plant == lesson.plant)
        for r, lesson in zip(read, held, strict=True)
    )
