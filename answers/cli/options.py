"""Options and arguments that several commands share.

Not here: the commands (__init__.py, desk_commands.py).
"""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

StoreOption = Annotated[Path, typer.Option("--store", envvar="TRUG_STORE", help="The store file.")]
Files = Annotated[list[Path], typer.Argument(help="mbox, .eml, CSV, JSON Lines or call notes.")]
Today = Annotated[str, typer.Option(help="The day to answer for, as YYYY-MM-DD (default: today).")]
PlaceOption = Annotated[str, typer.Option("--place", help="Answer for this place id, whatever the letter says.")]
Json = Annotated[bool, typer.Option("--json", help="Print JSON.")]
Id = Annotated[str, typer.Argument(help="A question's id, as `trug sort` lists it.")]
By = Annotated[str, typer.Option("--by", envvar="TRUG_BY", help="Who does it (default: your account's name).")]
STORE = Path("trug.db")
