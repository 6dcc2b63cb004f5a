"""The store's tables, one numbered step at a time; append only.

Not here: reading and writing them (store.py).
"""

from __future__ import annotations

from typing import Any


def migrations() -> Any:
    """The steps as a sqlite-utils Migrations set; each runs in a transaction of its own."""
    from sqlite_utils.migrations import Migrations

    steps = Migrations("trug")

    @steps()
    def m001_first_tables(db: Any) -> None:
        db["letters"].create(
            {
                "id": str,
                "sent": str,
                "subject": str,
                "body": str,
                "writer": str,
                "source": str,
                "sort": str,
                "follows": str,
                "fingerprint": str,
                "private": str,
                "notes": str,
            },
            pk="id",
        )
        db["letters"].create_index(["fingerprint"])
        db["attachments"].create(
            {"letter_id": str, "name": str, "media_type": str, "data": bytes, "note": str}, pk=("letter_id", "name")
        )
        db["questions"].create({"id": str, "letter_id": str, "part": int, "text": str, "has_photo": int}, pk="id")
        db["answers"].create(
            {
                "question_id": str,
                "worked": str,
                "email": str,
                "cue_card": str,
                "phone": str,
                "state": str,
                "cleared_by": str,
            },
            pk="question_id",
        )

    @steps()
    def m002_corrections(db: Any) -> None:
        db["corrections"].create(
            {"id": int, "question_id": str, "text": str, "plant": str, "problem": str, "by": str, "at": str}, pk="id"
        )

    return steps
