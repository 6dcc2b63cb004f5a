"""Clearing: a named person stands by the texts of a letter, and the proof of each has no open mark.

Not here: the proof itself (drafts/proof.py), keeping steps (ledger.py).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import datetime
from typing import Any, NamedTuple

from answers.drafts.proof import Mark, proof
from answers.ledger import PART_NAMES, PARTS, WAITING, Change, Ledger, accepted
from kb.errors import RangeError, StepError


class Proofed(NamedTuple):
    """One mark in one text of a letter; `reason` says why it may stand, "" while it is open."""

    part: str
    mark: Mark
    reason: str


def marks(row: Mapping[str, Any], parts: Sequence[str] = PARTS) -> list[Proofed]:
    """Every mark in the texts of a stored answer as they stand."""
    stands = accepted(row)
    return [
        Proofed(part, mark, stands.get((part, mark.key), ""))
        for part in parts
        for mark in proof(row[part] or "", row["worked"]["draft"][part], row["worked"], row["private"], row["writer"])
    ]


def clear(ledger: Ledger, question_id: str, by: str, now: datetime, version: int | None = None) -> None:
    """Clear the texts of one letter as they stand.

    Raises:
        StepError: when it does not wait to be cleared, has no text, or the proof has open marks (each is named).
        ConflictError: when it was changed since `version`, or somebody else has claimed it.
    """
    row = ledger.store.one(question_id)
    if row["state"] not in WAITING:
        raise StepError(f"{question_id}: is {row['state']} already, so it cannot be cleared")
    if not row["email"].strip():
        raise StepError(f"{question_id}: has no text yet; write one, or hand it on")
    open_marks = [m for m in marks(row) if not m.reason]
    if open_marks:
        said = "; ".join(f"{PART_NAMES[m.part]}: {m.mark.message}" for m in open_marks)
        raise StepError(f"{question_id}: the proof has {len(open_marks)} open marks: {said}")
    columns = {"state": "cleared", "cleared_by": by.strip()}
    ledger.step([Change(question_id, columns, row["version"] if version is None else version)], by, "cleared", now)


def accept(ledger: Ledger, question_id: str, part: str, mark: str, reason: str, by: str, now: datetime) -> None:
    """Let a mark that the proof makes stand, for a reason that is kept.

    Raises: RangeError for another mark, or without a reason; ConflictError when somebody else has claimed it.
    """
    if mark not in [m.mark.key for m in marks(ledger.store.one(question_id)) if m.part == part]:
        raise RangeError("mark", repr(mark), "a mark that the proof makes in that text")
    ledger.accept(question_id, part, mark, reason, by, now)
