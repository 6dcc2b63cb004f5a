"""`trug people ...`: who may sign in to the desk, and as what.

Not here: what a role may do or which passwords are allowed (answers/desk/people.py, answers/desk/passwords.py).
"""

from __future__ import annotations

import json
import sys
from datetime import UTC, datetime
from pathlib import Path

import typer

from answers.desk.people import RIGHTS, People
from answers.store import Store


def add(name: str, role: str, password_stdin: bool, path: Path) -> None:
    """The password is asked for twice, or is the first line of standard input."""
    password = _password(name, password_stdin)
    with Store(path) as store:
        people = People(store)
        people.add(name, role, password, datetime.now(UTC))
        keepers = [p.name for p in people.all() if p.role == "keeper"]
    typer.echo(f"{name} is here as {role}." + ("" if keepers else " Nobody is keeper yet: add one."))


def role(name: str, role: str, path: Path) -> None:
    """It counts at once, in open sessions too."""
    with Store(path) as store:
        People(store).set_role(name, role)
    typer.echo(f"{name} is {role} now.")


def roles() -> None:
    """One line a role: what it may do."""
    for name, acts in RIGHTS.items():
        typer.echo(f"{name:10} {', '.join(acts)}")


def show(path: Path, as_json: bool) -> None:
    """One line a person: role, since when, name."""
    with Store(path) as store:
        people = People(store).all()
    for p in people:
        row = {"name": p.name, "role": p.role, "since": p.since.isoformat()}
        typer.echo(json.dumps(row, ensure_ascii=False) if as_json else f"{p.role:10} {p.since:%Y-%m-%d}  {p.name}")


def remove(name: str, path: Path) -> None:
    """Their sessions end; what they did stays in the history."""
    with Store(path) as store:
        People(store).remove(name)
    typer.echo(f"{name} can sign in no longer.")


def password(name: str, password_stdin: bool, path: Path) -> None:
    """Their sessions end, and a person kept out by failed tries can sign in again."""
    with Store(path) as store:
        People(store).set_password(name, _password(name, password_stdin))
    typer.echo(f"{name} has a new password, and is signed out everywhere.")


def _password(name: str, from_input: bool) -> str:
    if from_input:
        return sys.stdin.readline().rstrip("\r\n")
    return str(typer.prompt(f"Password for {name}", hide_input=True, confirmation_prompt=True))
