"""The commands that people work letters with: sheaves, proof, claims, steps, the rundown, the desk's page, people.

Not here: their work (steps.py, people.py, desk_page.py), letters into the store and out (letter_commands.py).
"""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from answers.cli.options import STORE, By, Id, Json, StoreOption, Today

app = typer.Typer(rich_markup_mode=None)
people_app = typer.Typer(help="Look after who may sign in to the desk.", no_args_is_help=True, rich_markup_mode=None)
app.add_typer(people_app, name="people")
Name = Annotated[str, typer.Argument(help="A person's name.")]
Role = Annotated[str, typer.Option(help="writer, checker, producer or keeper.")]
PasswordStdin = Annotated[bool, typer.Option("--password-stdin", help="Read the password from standard input.")]


@app.command()
def sheaves(store: StoreOption = STORE, today: Today = "", as_json: Json = False) -> None:
    """List the sheaves (letters that ask the same), what closes first on top."""
    from answers.cli import steps

    steps.sheaves(store, today, as_json)


@app.command()
def sheaf(
    key: Annotated[str, typer.Argument(help="A sheaf, as `trug sheaves` lists it: rule:lime-for-acid-soil.")],
    text: Annotated[Path | None, typer.Option(help="A file with the text to share (- for standard input).")] = None,
    do: Annotated[str, typer.Option("--do", help="give: lay the text on the letters; clear: clear them with it.")] = "",
    by: By = "",
    store: StoreOption = STORE,
    today: Today = "",
) -> None:
    """Answer a whole sheaf: show its text and letters, keep another text, give it to them, clear them."""
    from answers.cli import steps

    steps.sheaf(key, store, today, text, do, by)


@app.command()
def proof(question: Id, store: StoreOption = STORE, today: Today = "") -> None:
    """Check a draft's texts against its figures, rule, dates and cautions."""
    from answers.cli import steps

    steps.proof(question, store, today)


@app.command()
def again(question: Id, by: By = "", store: StoreOption = STORE) -> None:
    """Lay the program's own draft again over what was written."""
    from answers.cli import steps

    steps.again(question, by, store)


@app.command()
def accept(
    question: Id,
    part: Annotated[str, typer.Argument(help="email, cue_card or phone.")],
    mark: Annotated[str, typer.Argument(help="The mark, as `trug proof` gives it.")],
    reason: Annotated[str, typer.Option(help="Why it may stand.")],
    by: By = "",
    store: StoreOption = STORE,
) -> None:
    """Let a mark of the proof stand, for a reason that is kept."""
    from answers.cli import steps

    steps.accept(question, part, mark, reason, by, store)


@app.command()
def claim(
    question: Id,
    release: Annotated[bool, typer.Option("--release", help="Give it up.")] = False,
    take_over: Annotated[bool, typer.Option("--take-over", help="Though somebody else is at work on it.")] = False,
    by: By = "",
    store: StoreOption = STORE,
) -> None:
    """Say that you are at work on a letter."""
    from answers.cli import steps

    steps.claim(question, release, take_over, by, store)


@app.command()
def move(
    question: Id,
    state: Annotated[str, typer.Argument(help='"held over", "handed on", "not for us", sent, aired or edited.')],
    note: Annotated[str, typer.Option(help="For what, or to whom.")] = "",
    until: Annotated[str, typer.Option(help="Held over until this day, YYYY-MM-DD.")] = "",
    by: By = "",
    store: StoreOption = STORE,
) -> None:
    """Hold a letter over, hand it on, set it aside, say that it was sent or aired, or take it up again."""
    from answers.cli import steps

    steps.move(question, state, note, until, by, store)


@app.command()
def undo(by: By = "", store: StoreOption = STORE) -> None:
    """Take back your last step."""
    from answers.cli import steps

    steps.undo(by, store)


@app.command()
def history(question: Id, store: StoreOption = STORE, as_json: Json = False) -> None:
    """Who did what to a letter."""
    from answers.cli import steps

    steps.history(question, store, as_json)


@app.command()
def tell(
    question: Id,
    values: Annotated[list[str], typer.Argument(help="name=value, such as area_sqft=2400; name= forgets it.")],
    by: By = "",
    store: StoreOption = STORE,
    today: Today = "",
) -> None:
    """Give a number that a letter's figures are worked from."""
    from answers.cli import steps

    steps.tell(question, values, by, store, today)


@app.command()
def rundown(
    on: Annotated[str, typer.Argument(metavar="DAY", help="The day, as YYYY-MM-DD.")],
    put_on: Annotated[str, typer.Option(metavar="ID", help="Put a cleared answer's cue card at its end.")] = "",
    up: Annotated[str, typer.Option(metavar="ID", help="Earlier by one.")] = "",
    down: Annotated[str, typer.Option(metavar="ID", help="Later by one.")] = "",
    off: Annotated[str, typer.Option(metavar="ID", help="Take it off.")] = "",
    store: StoreOption = STORE,
) -> None:
    """Plan the cue cards of a day's programme, timed."""
    from answers.cli import steps

    steps.rundown(on, put_on, up, down, off, store)


@app.command()
def find(
    words: Annotated[str, typer.Argument(help="Words to look for; without them, all of one state.")] = "",
    state: Annotated[str, typer.Option(help="drafted, edited, cleared, sent, aired, held over, handed on ...")] = "",
    store: StoreOption = STORE,
) -> None:
    """Find letters by words in them, in their replies, by their writer, or by what became of them."""
    from answers.cli import steps

    steps.find(words, state, store)


@app.command("set")
def settings(
    pairs: Annotated[list[str] | None, typer.Argument(help="place=ID, programme=NAME, minutes=NUMBER.")] = None,
    store: StoreOption = STORE,
) -> None:
    """Show or make the desk's settings."""
    from answers.cli import steps

    steps.settings(pairs or [], store)


@app.command()
def desk(
    store: StoreOption = STORE,
    host: Annotated[str, typer.Option(help="The address to listen on; elsewhere than here, people sign in.")] = (
        "127.0.0.1"
    ),
    port: Annotated[int, typer.Option(help="1024 to 65535.")] = 8017,
    sign_in: Annotated[bool, typer.Option("--sign-in", help="Ask people to sign in on this computer too.")] = False,
    name: Annotated[list[str] | None, typer.Option(help="A name by which browsers call this computer.")] = None,
    by: By = "",
    today: Today = "",
    place: Annotated[str, typer.Option(help="Set the desk's own place, by id.")] = "",
) -> None:
    """Serve the desk, a page to read, decide, edit and clear on, at this computer."""
    from answers.cli import desk_page

    desk_page.serve(store, host, port, sign_in, name or [], by, today, place)


@people_app.command("add")
def people_add(name: Name, role: Role, password_stdin: PasswordStdin = False, store: StoreOption = STORE) -> None:
    """Let somebody sign in to the desk."""
    from answers.cli import people

    people.add(name, role, password_stdin, store)


@people_app.command("list")
def people_list(store: StoreOption = STORE, as_json: Json = False) -> None:
    """List who may sign in."""
    from answers.cli import people

    people.show(store, as_json)


@people_app.command("role")
def people_role(name: Name, role: Role, store: StoreOption = STORE) -> None:
    """Give somebody another role."""
    from answers.cli import people

    people.role(name, role, store)


@people_app.command("roles")
def people_roles() -> None:
    """List the roles and what each may do."""
    from answers.cli import people

    people.roles()


@people_app.command("password")
def people_password(name: Name, password_stdin: PasswordStdin = False, store: StoreOption = STORE) -> None:
    """Give somebody another password."""
    from answers.cli import people

    people.password(name, password_stdin, store)


@people_app.command("remove")
def people_remove(name: Name, store: StoreOption = STORE) -> None:
    """Let somebody sign in no longer."""
    from answers.cli import people

    people.remove(name, store)
