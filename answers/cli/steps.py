"""The commands that take a person's steps with letters and sheaves: what the desk's page does, without the page.

Not here: the steps themselves (answers/ledger.py, clearing.py, sheaf_answer.py), the page (answers/desk).
"""

from __future__ import annotations

import json
import sys
from datetime import date
from pathlib import Path
from typing import Any

import typer

from answers.cli.desk import who
from answers.cli.one_shot import day
from answers.ledger import Ledger, utc_now
from answers.store import Store
from kb.errors import RangeError, UnitError


def sheaves(path: Path, today: str, as_json: bool) -> None:
    """One line a sheaf, in the order they press."""
    from answers.desk.season import Calendar, season
    from answers.drafting import station
    from kb.load import load

    knowledge = load()
    with Store(path) as store:
        shown = season(store, Calendar(knowledge, station(store, knowledge), day(today)))
    rows = [*([shown.emergencies] if shown.emergencies else []), *shown.sheaves]
    rows += [row for others in shown.others.values() for row in others]
    for row in rows:
        if as_json:
            line = {"key": row.sheaf.key, "title": row.title, "waiting": row.waiting, "window": row.words}
            typer.echo(json.dumps(line, ensure_ascii=False))
        else:
            typer.echo(f"{row.waiting:5}  {row.sheaf.key:44.44} {row.words or row.title}")


def sheaf(key: str, path: Path, today: str, text: Path | None, done: str, by: str) -> None:
    """Show a sheaf's shared text and its letters; or keep a text, give it to the letters, or clear them with it."""
    from answers.answering import load_engine
    from answers.desk.season import Calendar
    from answers.drafting import fresh, station
    from answers.sheaf_answer import clear_sheaf, keep_text, lay, rule_of, text_of, waiting_in
    from answers.sheaves import Sheaf

    if done not in ("", "keep", "give", "clear"):
        raise RangeError("--do", done, "keep, give or clear")
    engine, now = load_engine(), utc_now()
    knowledge = engine.knowledge
    rule = rule_of(key, knowledge)
    with Store(path) as store:
        ledger = Ledger(store)
        words, version = text_of(store, rule, knowledge)
        if text:
            given = sys.stdin.read() if str(text) == "-" else text.read_text("utf-8")
            words = keep_text(store, rule, knowledge, given, who(by), now, version)
        usual = Calendar(knowledge, station(store, knowledge), day(today)).usual_state(Sheaf.named(key))
        rows = fresh(store, engine, waiting_in(ledger, key, now), day(today))
        laid = lay(rows, words, usual, who(by))
        if done in ("give", "clear"):
            aside = clear_sheaf(ledger, laid, who(by), now, edit_only=done == "give")
            typer.echo(f"{len(laid) - len(aside)} letters {'cleared' if done == 'clear' else 'given the text'}.")
            laid = aside
        elif not text:
            typer.echo(words)
    for one in laid:
        name = one.row["writer"]["first_name"] or "-"
        typer.echo(
            f"{one.row['question_id']}  {name:12.12} {'put aside: ' + one.aside if one.aside else 'goes with it'}"
        )


def proof(question: str, path: Path) -> None:
    """Every mark in the texts as they stand; exit code 1 when one is open."""
    from answers.clearing import marks

    with Store(path) as store:
        found = marks(store.one(question))
    for part, mark, reason in found:
        stands = f" (stands: {reason})" if reason else ""
        typer.echo(f"{part}  {mark.sort}: {mark.message}{stands}\n    to let it stand: {part} {mark.key!r}")
    if any(not m.reason for m in found):
        raise typer.Exit(1)
    typer.echo("No open mark.")


def accept(question: str, part: str, mark: str, reason: str, by: str, path: Path) -> None:
    """The reason is kept with the letter.

    Raises: RangeError for a mark that the proof does not make.
    """
    from answers.clearing import marks

    with Store(path) as store:
        ledger = Ledger(store)
        made = [m for m in marks(store.one(question)) if m.part == part]
        if mark not in [m.mark.key for m in made]:
            raise RangeError("mark", repr(mark), "a mark that `trug proof` shows in that text")
        ledger.accept(question, part, mark, reason, who(by), utc_now())
    typer.echo("It may stand; the reason is kept.")


def claim(question: str, release: bool, take_over: bool, by: str, path: Path) -> None:
    """A claim holds half an hour."""
    with Store(path) as store:
        store.one(question)
        if release:
            Ledger(store).release(question, who(by))
        else:
            Ledger(store).claim(question, who(by), utc_now(), take_over)
    typer.echo("Given up." if release else f"{who(by)} is at work on it.")


def move(question: str, state: str, note: str, until: str, by: str, path: Path) -> None:
    """Nothing is sent: these say what a person did or will do."""
    try:
        until_day = date.fromisoformat(until) if until else None
    except ValueError:
        raise UnitError("--until", until, "a date as YYYY-MM-DD") from None
    with Store(path) as store:
        Ledger(store).move(question, state, who(by), utc_now(), note, until_day)
    typer.echo(f"{question} is {state}.")


def undo(by: str, path: Path) -> None:
    """One's own last step, when nobody has built on it."""
    with Store(path) as store:
        typer.echo(f"Taken back: {Ledger(store).undo(who(by), utc_now())}.")


def history(question: str, path: Path, as_json: bool) -> None:
    """The last step first."""
    with Store(path) as store:
        store.one(question)
        rows = Ledger(store).history(question)
    for row in rows:
        if as_json:
            typer.echo(json.dumps({k: row[k] for k in ("at", "by", "did", "undone")}))
        else:
            typer.echo(f"{row['at']}  {row['by']} {row['did']}{' (taken back)' if row['undone'] else ''}")


def tell(question: str, values: list[str], by: str, path: Path, today: str) -> None:
    """`area_sqft=2400`; with nothing after the sign it is forgotten. The draft is worked out anew."""
    from answers.answering import load_engine
    from answers.desk.letter_page import fields, values_told
    from answers.drafting import keep_told

    pairs = dict(text.partition("=")[::2] for text in values)
    engine = load_engine()
    with Store(path) as store:
        worked = store.one(question)["worked"]
        k = engine.knowledge
        known = fields(k.rules.get(worked["rule"] or ""), worked, store.told(question)[2], k)
        for name in pairs:
            if name not in [f.name for f in known if not f.fixed]:
                allowed = ", ".join(f.name for f in known if not f.fixed) or "nothing: its rule works no figure"
                raise RangeError("number", name, allowed)
        told = {"values": values_told(pairs, known)}
        answer = keep_told(Ledger(store), engine, question, told, who(by), utc_now(), day(today))
    typer.echo("\n".join(w.sentence for w in answer.inputs.worked) or "No figure can be worked from it yet.")


def rundown(on: str, put_on: str, up: str, down: str, off: str, path: Path) -> None:
    """Change the rundown of a day, then show it."""
    from answers import rundown as programme

    at = day(on)
    with Store(path) as store:
        if put_on:
            programme.put_on(store, at, put_on)
        for question, how in ((up, "up"), (down, "down"), (off, "off")):
            if question:
                programme.rearrange(store, at, question, how)
        cards = programme.rundown(store, at)
    for card in cards:
        begins = programme.clock(card.begins)
        typer.echo(f"{begins:>6}  {card.seconds:4} s  {card.row['question_id']}  {card.row['worked']['topic']}")
    typer.echo(f"{programme.clock(sum(card.seconds for card in cards))} in all.")


def find(words: str, path: Path) -> None:
    """Letters that hold the words, whatever became of them."""
    with Store(path) as store:
        for row in store.find(words):
            typer.echo(f"{row['question_id']}  {row['state']:10} {' '.join(row['text'].split()):.60}")


def settings(pairs: list[str], path: Path) -> None:
    """Show the desk's settings, or make some: place, programme, minutes."""
    from answers.settings import SETTINGS, check_setting
    from kb.load import load

    made: dict[str, Any] = dict(text.partition("=")[::2] for text in pairs)
    with Store(path) as store:
        for name, value in made.items():
            check_setting(name, value, load())
            store.set(name, value)
        for name in SETTINGS:
            typer.echo(f"{name}: {store.setting(name) or '-'}")
