"""The `trug` command: the one place where an error becomes a line and an exit code.

Exit codes: 0 done; 1 a fault in the rule base or nothing found; 2 bad input; 3 the store cannot be used.
Not here: the work of each command (one module each); each imports what it needs when it runs.
"""

from __future__ import annotations

import os
import sys
from pathlib import Path
from typing import Annotated

import typer

from answers.cli import letter_commands, sheaf_commands
from answers.cli.options import Files, Json, PlaceOption, Today

app = typer.Typer(
    name="trug",
    help="Read the public's gardening letters and draft sourced, measured answers for a person to edit and clear.",
    no_args_is_help=True,
    add_completion=False,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
)
kb_app = typer.Typer(help="Look after the rule base.", no_args_is_help=True, rich_markup_mode=None)
app.add_typer(letter_commands.app)
app.add_typer(sheaf_commands.app)
app.add_typer(kb_app, name="kb")


def main() -> None:
    """Run the command; every error of ours is one line on standard error."""
    from kb.errors import StoreError, TrugError

    try:
        app()
    except StoreError as error:
        _fail(str(error), 3)
    except TrugError as error:
        _fail(str(error), 2)
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        sys.exit(0)
    except OSError as error:
        _fail(f"{error.filename or 'file'}: {error.strerror or error}", 2)


def _fail(message: str, code: int) -> None:
    print(f"trug: {message}", file=sys.stderr)
    sys.exit(code)


@app.command()
def answer(
    files: Files,
    format: Annotated[str, typer.Option(help="jsonl: one object a line for each question.")] = "jsonl",
    today: Today = "",
    place: PlaceOption = "",
) -> None:
    """Answer every question in FILES at once, without a store."""
    from answers.cli import one_shot

    one_shot.answer(files, format, today, place)


@app.command()
def calc(
    name: Annotated[str, typer.Argument(help="A calculator; without one they are listed.")] = "",
    inputs: Annotated[
        list[str] | None, typer.Argument(help="key=value, with the units you like: area_sqft=1/2acre.")
    ] = None,
    steps: Annotated[bool, typer.Option("--steps", help="Show the working.")] = False,
    as_json: Json = False,
) -> None:
    """Run a calculator, explain one, or list them."""
    from answers.cli import figures

    figures.calc(name, inputs or [], steps, as_json)


@app.command()
def station(
    file: Annotated[Path, typer.Argument(help="A station's daily record, GHCN-Daily CSV.")],
    total: Annotated[float, typer.Option(help="A degree-day total: when is it reached?")] = 0.0,
    base: Annotated[float, typer.Option(help="Base temperature of the degree days, F.")] = 50.0,
    start: Annotated[str, typer.Option("--from", help="Where the sum begins, MM-DD.")] = "01-01",
    latitude: Annotated[float | None, typer.Option(help="Degrees north; gives the winter's chill.")] = None,
    today: Today = "",
    as_json: Json = False,
) -> None:
    """Freeze dates, zone, degree days and chill from a station's own daily record."""
    from answers.cli import weather_record

    weather_record.station(file, total, base, start, latitude, today, as_json)


@app.command()
def measure(
    file: Annotated[Path, typer.Argument(help="Gold letters as JSON Lines: text, plant, problem, kind, amounts ...")],
    page: Annotated[Path | None, typer.Option(help="Write a page with pictures.")] = None,
    baseline: Annotated[bool, typer.Option(help="Measure TF-IDF with logistic regression beside it.")] = True,
) -> None:
    """Measure how well letters are read, against readings given by people."""
    from answers.cli import measuring

    measuring.measure(file, page, baseline)


@kb_app.command("check")
def kb_check() -> None:
    """Check the rule base; every fault as file:line field: message."""
    from answers.cli import knowledge

    knowledge.check()


@kb_app.command("coverage")
def kb_coverage(
    picture: Annotated[Path | None, typer.Option(help="Draw plants, problems and months as an SVG file.")] = None,
) -> None:
    """Count plants, problems and months that the rules answer, and name the gaps."""
    from answers.cli import knowledge

    knowledge.coverage(picture)


@kb_app.command("show")
def kb_show(
    entry_id: Annotated[str, typer.Argument(metavar="ID", help="A rule, problem, plant, place or source.")],
) -> None:
    """Print one entry to read, with its sources."""
    from answers.cli import knowledge

    knowledge.show(entry_id)


@kb_app.command("find")
def kb_find(words: Annotated[list[str], typer.Argument(help="Words to look for.")]) -> None:
    """Search the text of rules, problems, plants and sources."""
    from answers.cli import knowledge

    knowledge.find(words)


@kb_app.command("new")
def kb_new(
    sort: Annotated[str, typer.Argument(help="rule, plant or problem.")],
    entry_id: Annotated[str, typer.Argument(metavar="ID", help="Its id, such as white-grubs.")],
    family: Annotated[str, typer.Option(help="The file to add it to, such as trees for trees.yaml.")],
    folder: Annotated[Path | None, typer.Option(help="The kb folder, when it is not the program's own.")] = None,
) -> None:
    """Start a new entry with every field named, for a person to fill in."""
    from answers.cli import knowledge

    knowledge.new(sort, entry_id, family, folder)


@app.command()
def demo(today: Today = "") -> None:
    """Sort and draft the demonstration letters, and show what a week looks like."""
    from answers.cli import demonstration

    demonstration.demo(today)
