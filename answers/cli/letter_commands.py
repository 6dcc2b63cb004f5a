"""The commands on the store's letters: take in, draft, list, show, edit, clear, export, correct, learn.

Not here: their work (desk.py, learning.py), steps with sheaves and people (sheaf_commands.py).
"""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from answers.cli.options import STORE, By, Files, Id, Json, PlaceOption, StoreOption, Today

app = typer.Typer(rich_markup_mode=None)


@app.command()
def intake(files: Files, store: StoreOption = STORE) -> None:
    """Take letters into the store. Running it twice adds nothing twice."""
    from answers.cli import desk

    desk.intake(files, store)


@app.command()
def draft(store: StoreOption = STORE, today: Today = "", place: PlaceOption = "") -> None:
    """Draft an answer to every question that has none yet."""
    from answers.cli import desk

    desk.draft(store, today, place)


@app.command()
def sort(store: StoreOption = STORE, as_json: Json = False) -> None:
    """List the drafted questions, the most urgent first."""
    from answers.cli import desk

    desk.sort(store, as_json)


@app.command()
def show(question: Id, store: StoreOption = STORE, as_json: Json = False) -> None:
    """Show one question with its reading and drafts."""
    from answers.cli import desk

    desk.show(question, store, as_json)


@app.command()
def edit(
    question: Id,
    part: Annotated[str, typer.Option(help="email, cue_card or phone.")] = "email",
    by: By = "",
    text: Annotated[Path | None, typer.Option(help="Take it from a file (- for standard input) instead.")] = None,
    store: StoreOption = STORE,
) -> None:
    """Edit one text of a draft in $EDITOR."""
    from answers.cli import desk

    desk.edit(question, part, by, store, text)


@app.command()
def clear(
    question: Id,
    by: Annotated[str, typer.Option(help="Who has read it and clears it.")],
    store: StoreOption = STORE,
    today: Today = "",
) -> None:
    """Clear a draft: a named person has read it and stands by it."""
    from answers.cli import desk

    desk.clear(question, by, store, today)


@app.command()
def export(store: StoreOption = STORE, everything: Annotated[bool, typer.Option("--all")] = False) -> None:
    """Print the cleared answers as JSON Lines (with --all, every draft with its state)."""
    from answers.cli import desk

    desk.export(store, everything)


@app.command()
def correct(
    question: Id,
    problem: Annotated[str, typer.Option(help="The problem it is about, by id.")],
    by: Annotated[str, typer.Option(help="Who says so.")],
    plant: Annotated[str, typer.Option(help="The plant, by id.")] = "",
    store: StoreOption = STORE,
    today: Today = "",
    place: PlaceOption = "",
) -> None:
    """Say what a question is about: it is drafted anew, and the correction is kept for learning."""
    from answers.cli import learning

    learning.correct(question, problem, plant, by, store, today, place)


@app.command()
def learn(
    store: StoreOption = STORE,
    kept: Annotated[Path | None, typer.Option(help="Gold letters that the reading must not get worse on.")] = None,
) -> None:
    """Learn from corrections, if the reading is no worse for it."""
    from answers.cli import learning

    learning.learn(store, kept)
