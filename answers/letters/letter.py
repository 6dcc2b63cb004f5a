"""What arrived, and what was asked: Letter and Question.

Not here: how either is read out of a file (mailbox.py, tables.py, notes.py) or cut apart (split.py).
"""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date


@dataclass(frozen=True)
class Attachment:
    """A file that came with a letter: `name` is made safe, `data` is cleaned (no camera position)."""

    name: str
    media_type: str
    data: bytes
    note: str = ""  # "left out: larger than 10 MB"


@dataclass(frozen=True)
class Writer:
    """Who wrote. Only `first_name` and `town` may ever reach a cue card."""

    full_name: str = ""
    first_name: str = ""
    town: str = ""
    state: str = ""
    zip_code: str = ""
    email: str = ""
    phone: str = ""
    street: str = ""


@dataclass(frozen=True)
class Letter:
    """One thing that arrived, as clean text.

    `sort` is one of: letter, auto-reply, bounce, newsletter, empty (nothing asked, e.g. a bare photo).
    `private` lists the exact strings (surname, street, phone, e-mail) that must not be spoken or published.
    """

    id: str
    sent: date | None
    subject: str
    body: str
    writer: Writer = Writer()
    source: str = ""  # file it came from, and where in it
    sort: str = "letter"
    follows: str = ""  # id of the letter this one follows up, or ""
    fingerprint: str = ""  # same for the same text sent again
    attachments: tuple[Attachment, ...] = ()
    private: tuple[str, ...] = ()
    notes: tuple[str, ...] = field(default=())  # what intake did: "quoted reply removed", "decoded as cp1252"


@dataclass(frozen=True)
class Question:
    """One thing asked in a letter. `part` counts from 1 within the letter."""

    letter_id: str
    part: int
    text: str
    sent: date | None
    writer: Writer = Writer()
    sort: str = "letter"
    has_photo: bool = False
    private: tuple[str, ...] = ()
