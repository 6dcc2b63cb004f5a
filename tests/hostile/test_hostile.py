"""Letters meant to break intake: every one still gives a letter, with its question and nothing hidden.

Not here: ordinary letters (tests/answers/letters).
"""

from __future__ import annotations

import unicodedata
from pathlib import Path

import pytest

from answers.letters.mailbox import read_eml
from answers.letters.plain_text import LONGEST
from answers.letters.split import questions

FILES = sorted((Path(__file__).parent / "letters").glob("*.eml"))


def test_there_are_enough() -> None:
    """At least twenty-five hostile letters are kept, so that the table below cannot be empty."""
    assert len(FILES) >= 25


@pytest.mark.parametrize("path", FILES, ids=lambda p: p.stem)
def test_hostile_letter_is_read(path: Path) -> None:
    """A hostile letter keeps its words, shows nothing hidden and names no path."""
    letter = read_eml(path)
    assert letter.id
    text = letter.subject + letter.body
    assert "SECRET" not in text
    assert not [c for c in text if c != "\n" and unicodedata.category(c) in ("Cc", "Cf", "Cs")]
    assert not [a.name for a in letter.attachments if "/" in a.name or "\\" in a.name or a.name.startswith(".")]
    if path.stem == "nested_fifty":
        assert any("deep" in note for note in letter.notes)
    elif path.stem != "bad_base64":
        assert letter.sort == "letter"
        assert "oak" in letter.body
        assert questions(letter)


def test_template_stays_inert() -> None:
    """Template marks in a letter are words and nothing else."""
    path = next(p for p in FILES if p.stem == "template")
    assert "{{ 7*7 }}" in read_eml(path).body


def test_two_megabyte_body(tmp_path: Path) -> None:
    """A two-megabyte body is cut to the cap."""
    path = tmp_path / "big.eml"
    path.write_bytes(b"From: jane@example.org\nSubject: Oak\n\n" + b"why is my oak brown? " * 100_000)
    assert 0 < len(read_eml(path).body) <= LONGEST
