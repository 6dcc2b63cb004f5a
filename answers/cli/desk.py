"""The commands that use the store: intake, draft, sort, show, edit, clear, export.

Not here: the store's tables (answers/store.py) or drafting (answers/answering.py).
"""

from __future__ import annotations

import getpass
import json
import os
import shlex
import subprocess
import sys
import tempfile
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Any, TypeVar

import typer

from answers import clearing
from answers.cli.one_shot import day, place_named
from answers.ledger import PARTS, Ledger, utc_now
from answers.store import Store
from kb.errors import StepError, TrugError

T = TypeVar("T")
URGENCIES = ("emergency", "this week", "this month", "any time")


def progress(items: Iterable[T], words: str) -> Iterator[T]:
    """`items`, with a bar on standard error when a person is watching."""
    if not sys.stderr.isatty():
        yield from items
        return
    from rich.console import Console
    from rich.progress import track

    yield from track(items, words, console=Console(stderr=True))


def intake(files: list[Path], path: Path) -> None:
    """Each letter is kept whole or not at all, so a run that was stopped goes on where it was."""
    from answers.letters.reader import read_letters
    from answers.letters.split import questions

    new = known = 0
    with Store(path) as store:
        for letter in progress(read_letters(files), "Letters"):
            if store.add(letter, questions(letter)):
                new += 1
            else:
                known += 1
        sorts = ", ".join(f"{n} {sort}" for sort, n in store.counts().items())
    typer.echo(f"{new} new letters, {known} already here. In the store: {sorts or 'nothing'}.")


def draft(path: Path, today: str, place: str) -> None:
    """Drafts are kept one by one; drafts that a person edited are left alone."""
    from answers.answering import load_engine
    from answers.drafting import draft_waiting

    engine = load_engine()
    at = place_named(place, engine.knowledge)
    with Store(path) as store:
        made = draft_waiting(store, engine, day(today), at, lambda waiting: progress(waiting, "Drafts"))
    typer.echo(f"{made} drafts made. Nothing is sent: read, edit and clear them.")


def sort(path: Path, as_json: bool) -> None:
    """One line a question: id, urgency, how sure, what about, who."""
    with Store(path) as store:
        rows = sorted(store.rows(), key=lambda r: URGENCIES.index(r["worked"]["urgency"]))
    for row in rows:
        worked = row["worked"]
        if as_json:
            typer.echo(json.dumps({"id": row["question_id"], "state": row["state"], **_brief(worked)}))
        else:
            about = _about(worked)
            sure = f"{worked['confidence']:.0%}" if worked["decided"] else "unsure"
            typer.echo(
                f"{worked['urgency']:10} {sure:>6}  {row['state']:8} {about:32.32} "
                f"{row['writer']['first_name'] or '-':12.12} {row['question_id']}"
            )


def _about(worked: dict[str, Any]) -> str:
    if worked["urgency"] == "emergency":
        return ", ".join(h["who"] for h in worked["hand_off"])
    if worked["language"]:
        return f"in {worked['language']}"
    return str(worked["problem"]["name"] if worked["problem"] else "not sure")


def _brief(worked: dict[str, Any]) -> dict[str, Any]:
    plant, problem = worked["plant"] or {}, worked["problem"] or {}
    return {
        "urgency": worked["urgency"],
        "kind": worked["kind"],
        "plant": plant.get("id"),
        "problem": problem.get("id"),
        "confidence": worked["confidence"],
        "decided": worked["decided"],
        "missing": worked["missing"],
    }


def show(question: str, path: Path, as_json: bool) -> None:
    """The question, what was read in it, and the texts as they stand now."""
    from answers.drafts.spoken import seconds

    with Store(path) as store:
        row = store.one(question)
    if as_json:
        typer.echo(json.dumps({k: v for k, v in row.items() if k != "private"}))
        return
    brief = _brief(row["worked"])
    typer.echo(
        f"{question}  ({row['state']}{', ' + row['cleared_by'] if row['cleared_by'] else ''})\n\n{row['text']}\n"
    )
    typer.echo("\n".join(f"  {key}: {value}" for key, value in brief.items()))
    for part in PARTS:
        airtime = f", {seconds(row[part]):.0f} seconds" if part == "cue_card" else ""
        typer.echo(f"\n=== {part.replace('_', ' ')}{airtime} ===\n{row[part]}")


def edit(question: str, part: str, by: str, path: Path, text: Path | None) -> None:
    """Nothing is changed when the editor fails, or leaves the text empty or as it was."""
    if part not in PARTS:
        raise TrugError(f"--part: {part!r} is not allowed; give one of {', '.join(PARTS)}")
    with Store(path) as store:
        row = store.one(question)
        if text:
            given = sys.stdin.read() if str(text) == "-" else text.read_text("utf-8")
            Ledger(store).edit(question, part, given, who(by), utc_now(), row["version"])
            typer.echo("Kept. It is not cleared until somebody clears it.")
            return
        before = row[part]
        handle, name = tempfile.mkstemp(suffix=".txt", prefix="trug-")
        try:
            with os.fdopen(handle, "w", encoding="utf-8") as file:
                file.write(before)
            editor = shlex.split(os.environ.get("VISUAL") or os.environ.get("EDITOR") or "vi")
            if subprocess.run([*editor, name], check=False).returncode:
                raise TrugError("the editor ended with an error; the draft is as it was")
            after = Path(name).read_text("utf-8")
        finally:
            os.unlink(name)
        if not after.strip():
            raise TrugError("the text came back empty; the draft is as it was")
        if after == before:
            typer.echo("Unchanged.")
            return
        Ledger(store).edit(question, part, after, who(by), utc_now(), row["version"])
    typer.echo("Kept. It is not cleared until somebody clears it.")


def clear(question: str, by: str, path: Path, today: str) -> None:
    """Clearing needs a name, and a proof with no open mark as of today."""
    from answers.answering import load_engine
    from answers.drafting import fresh

    if not by.strip():
        raise TrugError("--by: give the name of the person who has read it")
    with Store(path) as store:
        read = store.one(question)
        if fresh(store, load_engine(), [read], day(today))[0]["version"] != read["version"]:
            raise StepError(f"{question}: was worked out anew for today; read it once more, then clear it")
        clearing.clear(Ledger(store), question, by, utc_now())
    typer.echo(f"Cleared by {by.strip()}.")


def who(by: str) -> str:
    """The person a step is kept under: the one named, else the account the command runs under."""
    return by.strip() or getpass.getuser()


def export(path: Path, everything: bool) -> None:
    """One JSON object a line: id, state, who cleared it, the three texts, the sources."""
    with Store(path) as store:
        for row in store.rows():
            if everything or row["state"] == "cleared":
                kept = {k: row[k] for k in ("question_id", "state", "cleared_by", *PARTS)}
                typer.echo(json.dumps({**kept, "sources": row["worked"]["sources"]}, ensure_ascii=False))
