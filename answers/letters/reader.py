"""Any file of letters, by its ending and first bytes; the same letter sent again is marked.

Not here: each format (mailbox.py, tables.py, notes.py).
"""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterable, Iterator
from dataclasses import replace
from pathlib import Path

from answers.letters.letter import Letter
from answers.letters.mailbox import read_eml, read_mbox
from answers.letters.notes import read_notes
from answers.letters.tables import read_csv, read_jsonl
from kb.errors import LetterError

ENDINGS = (".mbox", ".eml", ".csv", ".tsv", ".jsonl", ".ndjson", ".txt", ".md")


def read_letters(paths: Iterable[Path]) -> Iterator[Letter]:
    """Every letter in `paths`, in order. One that came before (same id, or same words from the same writer) has
    sort "duplicate".

    Raises:
        LetterError: for a file that is missing, empty or of no known kind.
    """
    ids: set[str] = set()
    prints: dict[str, str] = {}
    for path in paths:
        for letter in _letters(Path(path)):
            mark = fingerprint(letter)
            letter = replace(letter, fingerprint=mark)
            if letter.id in ids:
                letter = replace(letter, sort="duplicate", notes=(*letter.notes, "same id as an earlier letter"))
            elif letter.sort == "letter" and mark in prints:
                letter = replace(letter, sort="duplicate", notes=(*letter.notes, f"same words as {prints[mark]}"))
            ids.add(letter.id)
            prints.setdefault(mark, letter.id)
            yield letter


def fingerprint(letter: Letter) -> str:
    """The same for the same words from the same writer, however they were wrapped."""
    words = re.sub(
        r"\W+", " ", f"{letter.writer.email or letter.writer.full_name} {letter.subject} {letter.body}".lower()
    ).strip()
    return hashlib.sha256(words.encode("utf-8", "replace")).hexdigest()[:24]


def _begins_mbox(path: Path) -> bool:
    with path.open("rb") as file:
        return file.read(5) == b"From "


def _letters(path: Path) -> Iterator[Letter]:
    if path.is_dir():
        raise LetterError(str(path), "is a folder; give the files in it")
    if not path.is_file():
        raise LetterError(str(path), "no such file")
    if path.stat().st_size == 0:
        raise LetterError(str(path), "the file is empty")
    ending = path.suffix.lower()
    if ending == ".mbox" or (ending not in ENDINGS and _begins_mbox(path)):
        return read_mbox(path)
    if ending == ".eml":
        return iter((read_eml(path),))
    if ending in (".csv", ".tsv"):
        return read_csv(path)
    if ending in (".jsonl", ".ndjson"):
        return read_jsonl(path)
    if ending in (".txt", ".md"):
        return read_notes(path)
    raise LetterError(str(path), f"unknown kind of file; known endings: {', '.join(ENDINGS)}")
