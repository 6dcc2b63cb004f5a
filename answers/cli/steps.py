"""The commands that take a person's steps with letters and sheaves: what the desk's page does, without the page.

Not here: the steps themselves (answers/ledger.py, clearing.py, sheaf_answer.py), the page (answers/desk).
"""

from __future__ import annotations

import json
import sys
from collections.abc import Mapping
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
    from answers.drafting import At, station
    from answers.sheaf_answer import answer_sheaf, keep_text, lay, letters, rule_of, text_of
    from answers.sheaves import Sheaf

    if done not in ("", "keep", "give", "clear"):
        raise RangeError("--do", done, "keep, give or clear")
    engine, at = load_engine(), At(utc_now(), day(today))
    knowledge = engine.knowledge
    with Store(path) as store:
        ledger = Ledger(store)
        if Sheaf.named(key).sort != "rule" and not (text or done):
            for row in letters(ledger, engine, key, at):
                typer.echo(_line(row, " ".join(row["text"].split())[:80]))
            return
        rule = rule_of(key, knowledge)
        words, version, _ = text_of(store, rule, knowledge)
        if text:
            given = sys.stdin.read() if str(text) == "-" else text.read_text("utf-8")
            words = keep_text(ledger, rule, knowledge, given, who(by), at.now, version)
        usual = Calendar(knowledge, station(store, knowledge), at.today).usual_state(Sheaf.named(key))
        if done in ("give", "clear"):
            count, laid = answer_sheaf(ledger, engine, key, words, usual, who(by), at, clears=done == "clear")
            typer.echo(f"{count} letters {'cleared' if done == 'clear' else 'given the text'}.")
        else:
            laid = lay(letters(ledger, engine, key, at), words, usual, who(by))
            typer.echo(words if not text else "Kept.")
    for one in laid:
        typer.echo(_line(one.row, f"put aside: {one.aside}" if one.aside else "goes with it"))


def _line(row: Mapping[str, Any], words: str) -> str:
    return f"{row['question_id']}  {row['writer']['first_name'] or '-':12.12} {words}"


def proof(question: str, path: Path, today: str) -> None:
    """Every mark in the texts as they stand, as of today; exit code 1 when one is open."""
    from answers.answering import load_engine
    from answers.clearing import marks
    from answers.drafting import fresh

    with Store(path) as store:
        row = fresh(store, load_engine(), [store.one(question)], day(today))[0]
    found = marks(row)
    for part, mark, reason in found:
        stands = f" (stands: {reason})" if reason else ""
        typer.echo(f"{part}  {mark.sort}: {mark.message}{stands}\n    to let it stand: {part} {mark.key!r}")
    if any(not m.reason for m in found):
        raise typer.Exit(1)
    typer.echo("No open mark.")


def accept(question: str, part: str, mark: str, reason: str, by: str, path: Path) -> None:
    """The reason is kept with the letter."""
    from answers import clearing

    with Store(path) as store:
        clearing.accept(Ledger(store), question, part, mark, reason, who(by), utc_now())
    typer.echo("It may stand; the reason is kept.")


def claim(question: str, release: bool, take_over: bool, by: str, path: Path) -> None:
    """A claim holds half an hour."""
    with Store(path) as store:
        if "#" in question:  # else it is a sheaf, which may hold no letter just now
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


def again(question: str, by: str, path: Path) -> None:
    """What people wrote is laid aside; `trug undo` brings it back."""
    from answers.drafting import lay_again

    with Store(path) as store:
        lay_again(Ledger(store), question, who(by), utc_now())
    typer.echo("The program's own draft stands again.")


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
    from answers.drafting import At, keep_told

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
        if not told["values"]:
            typer.echo("Nothing changed: that is what it was worked from.")
            return
        answer = keep_told(Ledger(store), engine, question, told, who(by), At(utc_now(), day(today)))
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
        begins = f"{programme.clock(card.begins):>6}  {card.seconds:4} s" if card.fit else "not cleared any more"
        typer.echo(f"{begins}  {card.row['question_id']}  {card.row['worked']['topic']}")
    typer.echo(f"{programme.clock(sum(card.seconds for card in cards))} in all.")


def find(words: str, state: str, path: Path) -> None:
    """Letters that hold the words, whatever became of them, or those in one state."""
    with Store(path) as store:
        for row in store.find(words, state):
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
