"""Form exports (CSV) and JSON Lines into letters; columns in any order, under any usual heading.

Not here: mail (mailbox.py) or call notes (notes.py).
"""

from __future__ import annotations

import csv
import hashlib
import io
import json
import re
from collections.abc import Iterator, Mapping
from datetime import date, datetime
from pathlib import Path
from typing import Any

from answers.letters.letter import Letter
from answers.letters.plain_text import clean, own_words
from answers.letters.privacy import private_strings, writer_of
from kb.errors import LetterError

HEADINGS: dict[str, tuple[str, ...]] = {
    "id": ("id", "letter id", "ref", "number", "entry"),
    "sent": ("sent", "date", "when", "timestamp", "received", "submitted", "date submitted", "day"),
    "name": ("name", "caller", "full name", "your name", "from", "writer", "viewer", "who"),
    "first": ("first name", "first", "given name"),
    "last": ("last name", "last", "surname"),
    "town": ("town", "city", "place", "location", "town or city", "where"),
    "state": ("state", "st", "province"),
    "zip": ("zip", "zip code", "zipcode", "postcode", "postal code"),
    "email": ("email", "e-mail", "email address", "your email"),
    "phone": ("phone", "telephone", "phone number", "tel", "callback"),
    "subject": ("subject", "topic", "about", "re"),
    "body": (
        *("body", "question", "message", "comments", "comment", "note", "notes", "your question", "text", "letter"),
        *("what they asked", "details", "asked"),
    ),
}
_DATES = ("%Y-%m-%d", "%m/%d/%Y", "%m/%d/%y", "%d %B %Y", "%B %d, %Y", "%d %b %Y", "%b %d, %Y", "%d.%m.%Y")


def read_csv(path: Path) -> Iterator[Letter]:
    """A row a letter. The heading row is matched to HEADINGS once; a column nobody knows is left alone.

    Raises:
        LetterError: when no column holds the question.
    """
    text = _text(path)
    sample = text[:8000]
    delimiter = max(",;\t|", key=lambda d: sample.split("\n", 1)[0].count(d))
    rows = csv.reader(io.StringIO(text, newline=""), delimiter=delimiter)
    try:
        heading = next(rows)
        columns = _columns(heading)
        if "body" not in columns:
            raise LetterError(path.name, f"no column holds the question; columns are {', '.join(heading)}")
        for number, row in enumerate(rows, start=1):
            if any(cell.strip() for cell in row):
                values = {field: row[at] for field, at in columns.items() if at < len(row)}
                yield letter_from_row(values, f"{path.stem}:{number}", f"{path.name}:{number + 1}")
    except csv.Error as fault:
        raise LetterError(path.name, f"row {rows.line_num}: {fault}") from fault


def read_jsonl(path: Path) -> Iterator[Letter]:
    """An object a line: {"id", "sent", "place", "subject", "body"}, all but body optional.

    Raises:
        LetterError: naming the line and field that is wrong.
    """
    for number, line in enumerate(_text(path).splitlines(), start=1):
        if not line.strip():
            continue
        where = f"{path.name}:{number}"
        try:
            values = json.loads(line)
        except (json.JSONDecodeError, RecursionError) as fault:
            raise LetterError(where, f"not JSON: {fault}") from fault
        if not isinstance(values, dict):
            raise LetterError(where, "expected an object")
        if not values.get("body") and not values.get("subject"):
            raise LetterError(where, "body: missing")
        fields = {"town": values.get("place"), **values}
        yield letter_from_row(fields, f"{path.stem}:{number}", where)


def letter_from_row(values: Mapping[str, Any], own_id: str, where: str) -> Letter:
    """A letter from named values; what is missing is left empty."""
    given = {key: clean(str(value)) for key, value in values.items() if value is not None}
    given.setdefault("name", f"{given.get('first', '')} {given.get('last', '')}".strip())
    row = hashlib.sha256(json.dumps(given, sort_keys=True).encode()).hexdigest()[:12]  # same on every run
    body, subject = own_words(given.get("body", "")), given.get("subject", "").replace("\n", " ")
    writer = writer_of(
        given.get("name", ""),
        given.get("email", ""),
        "\n".join((body, given.get("phone", ""))),
        given.get("town", ""),
        given.get("state", ""),
        given.get("zip", ""),
    )
    sort = "letter" if body or len(subject.split()) >= 3 else "empty"
    return Letter(
        id=given.get("id") or f"{own_id.rsplit(':', 1)[0]}:{row}",
        sent=read_date(given.get("sent", "")),
        subject=subject,
        body=body,
        writer=writer,
        source=where,
        sort=sort,
        private=private_strings(writer, f"{subject}\n{body}"),
    )


def read_date(text: str) -> date | None:
    """A date in any usual form, or None."""
    text = re.sub(r"[T ]\d{1,2}:\d{2}.*$", "", text.strip())
    for form in _DATES:
        try:
            return datetime.strptime(text, form).date()
        except ValueError:
            continue
    return None


def _columns(heading: list[str]) -> dict[str, int]:
    found: dict[str, int] = {}
    for at, cell in enumerate(heading):
        plain = re.sub(r"[^a-z -]", "", cell.lower().replace("_", " ")).strip()
        for field, names in HEADINGS.items():
            if plain in names:
                found.setdefault(field, at)
    return found


def _text(path: Path) -> str:
    data = path.read_bytes()
    try:
        return data.decode("utf-8-sig").replace("\0", "")
    except UnicodeDecodeError:
        from charset_normalizer import from_bytes

        best = from_bytes(data).best()
        return data.decode(best.encoding if best else "cp1252", "replace").replace("\0", "")
