"""Call notes and typed-in postcards: a few "Caller: ..." lines, then what was asked, records parted by a rule.

Not here: the same from a spreadsheet (tables.py).
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

from answers.letters.letter import Letter
from answers.letters.tables import HEADINGS, letter_from_row

_RULE = re.compile(r"^\s*(?:[-=*_]\s*){3,}$|\n\s*\n(?=(?:caller|name):)", re.M | re.I)
_FIELD = re.compile(r"^([A-Za-z][A-Za-z -]{0,20}):\s*(.*)$")


def read_notes(path: Path) -> Iterator[Letter]:
    """A record a letter: fields first ("Caller:", "Town:", "Date:"), the rest is what was said."""
    text = path.read_bytes().decode("utf-8-sig", "replace").replace("\r\n", "\n")
    records = [r.strip() for r in _RULE.split(text) if r.strip()]
    for number, record in enumerate(records, start=1):
        values: dict[str, str] = {}
        lines = record.splitlines()
        while lines and (field := _known(lines[0])):
            values[field[0]] = field[1]
            lines.pop(0)
        values["body"] = "\n".join([values.get("body", ""), *lines]).strip()
        yield letter_from_row(values, f"{path.stem}:{number}", f"{path.name}: record {number}")


def _known(line: str) -> tuple[str, str] | None:
    match = _FIELD.match(line.strip())
    if not match:
        return None
    plain = match[1].lower().strip()
    return next(((field, match[2]) for field, names in HEADINGS.items() if plain in names), None)
