"""mbox and .eml files into letters. A broken message never stops the rest: it becomes a letter with a note.

Not here: cleaning text (plain_text.py), who wrote (privacy.py), photos (attachments.py).
"""

from __future__ import annotations

import hashlib
import mailbox
import re
from collections.abc import Iterator
from datetime import date
from email import message_from_bytes, policy
from email.errors import HeaderParseError
from email.header import decode_header, make_header
from email.message import Message
from email.utils import parseaddr, parsedate_to_datetime
from pathlib import Path

from answers.letters.attachments import keep
from answers.letters.letter import Letter
from answers.letters.plain_text import LONGEST, clean, html_to_text, own_words
from answers.letters.privacy import private_strings, writer_of

DEEPEST = 30  # nested parts that are still looked into
MOST_PARTS = 200
_AUTO_SUBJECT = re.compile(
    r"^(?:auto(?:matic)?[ -]?(?:reply|response)|out of (?:the )?office"
    r"|abwesenheit|réponse automatique|respuesta automática)",
    re.I,
)


def read_mbox(path: Path) -> Iterator[Letter]:
    """Every message of an mbox file, in order, one in memory at a time."""
    box = mailbox.mbox(str(path), factory=None, create=False)
    try:
        for number, key in enumerate(box.iterkeys(), start=1):
            yield letter_from(box.get_bytes(key), f"{path.name}:{number}")
    finally:
        box.close()


def read_eml(path: Path) -> Letter:
    """The one message of an .eml file."""
    return letter_from(path.read_bytes(), path.name)


def letter_from(raw: bytes, source: str) -> Letter:
    """A letter from the bytes of a message, whatever state they are in."""
    try:
        return _letter(message_from_bytes(raw, policy=policy.compat32), raw, source)
    except Exception as fault:  # hostile mail breaks parsers in ways no list foresees; the letter is kept for a person
        text = clean(raw[:20000].decode("utf-8", "replace"))
        note = f"broken message, shown as it came ({type(fault).__name__})"
        return Letter(_own_id(raw), None, "", text, source=source, sort="letter" if text else "empty", notes=(note,))


def _letter(message: Message, raw: bytes, source: str) -> Letter:
    notes: list[str] = []
    plain, html, files = _parts(message, notes)
    whole = clean("\n\n".join(plain)) or clean("\n\n".join(html_to_text(h) for h in html))
    if len(whole) >= LONGEST:
        notes.append(f"cut after {LONGEST:,} characters")
    body = own_words(whole)
    if body != whole:
        notes.append("quoted reply, signature or notice removed")
    subject = clean(_header(message, "Subject")).replace("\n", " ")
    name, address = parseaddr(_header(message, "From"))
    writer = writer_of(clean(name), address, whole)
    follows = ([*(_header(message, "In-Reply-To") or _header(message, "References")).split()] or [""])[-1].strip("<>")
    attachments = keep(files)
    return Letter(
        id=clean(str(message.get("Message-ID") or "")).strip("<> \n") or _own_id(raw),
        sent=_sent(message),
        subject=subject,
        body=body,
        writer=writer,
        source=source,
        sort=_sort(message, subject, body, address),
        follows=clean(follows),
        attachments=attachments,
        private=private_strings(writer, f"{subject}\n{whole}"),
        notes=tuple(notes + [f"{a.name}: {a.note}" for a in attachments if a.note]),
    )


def _parts(message: Message, notes: list[str]) -> tuple[list[str], list[str], list[tuple[str, str, bytes]]]:
    """(plain texts, HTML texts, files), walked without recursion and only so deep."""
    plain: list[str] = []
    html: list[str] = []
    files: list[tuple[str, str, bytes]] = []
    todo, seen = [(message, 0)], 0
    while todo:
        part, depth = todo.pop(0)
        seen += 1
        if depth > DEEPEST or seen > MOST_PARTS:
            notes.append("parts nested too deep were left out")
            break
        payload = part.get_payload()
        if isinstance(payload, list):
            todo = [(p, depth + 1) for p in payload if isinstance(p, Message)] + todo
            continue
        data = part.get_payload(decode=True)
        data = data if isinstance(data, bytes) else str(payload or "").encode("utf-8", "replace")
        kind, name = part.get_content_type(), part.get_filename()
        if kind.startswith("multipart/"):  # parts promised, none marked off: the words are still there
            kind = "text/plain"
        if kind in ("text/plain", "text/html") and not name:
            (html if kind == "text/html" else plain).append(_decode(data, part.get_content_charset(), notes))
        elif data:
            files.append((clean(str(name or "file")), kind, data))
    return plain, html, files


def _decode(data: bytes, charset: str | None, notes: list[str]) -> str:
    """Text from bytes by the charset they claim, else by the best guess."""
    try:
        return data.decode(charset or "utf-8")
    except (LookupError, ValueError):  # unknown, wrong or unspeakable charset
        from charset_normalizer import from_bytes

        best = from_bytes(data[:200_000]).best()
        encoding = best.encoding if best else "cp1252"
        notes.append(f"decoded as {encoding}")
        return data.decode(encoding, "replace")


def _header(message: Message, name: str) -> str:
    value = message.get(name)
    if value is None:
        return ""
    try:
        return str(make_header(decode_header(str(value))))
    except (LookupError, ValueError, HeaderParseError):
        return str(value)


def _sent(message: Message) -> date | None:
    try:
        return parsedate_to_datetime(str(message.get("Date"))).date()
    except (TypeError, ValueError, IndexError, OverflowError):
        return None


def _sort(message: Message, subject: str, body: str, address: str) -> str:
    """letter, auto-reply, bounce, newsletter or empty."""
    if message.get_content_type() == "multipart/report" or re.match(r"(mailer-daemon|postmaster)@", address, re.I):
        return "bounce"
    auto = str(message.get("Auto-Submitted") or "no").lower()
    if auto not in ("no", "") or message.get("X-Autoreply") or _AUTO_SUBJECT.match(subject):
        return "auto-reply"
    if message.get("List-Unsubscribe") or message.get("List-Id") or str(message.get("Precedence")).lower() == "bulk":
        return "newsletter"
    return "letter" if body.strip() or len(subject.split()) >= 3 else "empty"


def _own_id(raw: bytes) -> str:
    return "no-id-" + hashlib.sha256(raw).hexdigest()[:16]
