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

    @steps()
    def m003_sheaves(db: Any) -> None:
        answers = db["answers"]
        for column in ("sheaf", "urgency", "note", "until", "drafted_on", "given"):
            answers.add_column(column, str, not_null_default="")
        for column in ("told", "accepted"):  # what people say of a question; marks of its proof that may stand
            answers.add_column(column, str, not_null_default="{}")
        answers.add_column("version", int, not_null_default=0)
        db.execute(
            """update answers set urgency = coalesce(json_extract(worked, '$.urgency'), ''), sheaf = case
            when json_extract(worked, '$.urgency') = 'emergency' then 'emergency'
            when coalesce(json_extract(worked, '$.language'), '') <> ''
                then 'language:' || json_extract(worked, '$.language')
            when json_extract(worked, '$.rule') is not null then 'rule:' || json_extract(worked, '$.rule')
            when json_extract(worked, '$.hand_off[0].id') is not null
                then 'hand-off:' || json_extract(worked, '$.hand_off[0].id')
            when json_extract(worked, '$.kind') = 'not-a-question' then 'nothing asked'
            else trim('unsure:' || coalesce(json_extract(worked, '$.problem.id'), ''), ':') end"""
        )
        # What a proof needs; drafts that nobody has touched are soon made again, since they bear no day.
        empty = "json_set(worked, '$.passages', json('[]'), '$.windows', json('[]'), '$.assumed', json('[]'), "
        db.execute(f"update answers set worked = {empty} '$.refused', json('[]'), '$.topic', 'your garden')")
        db.execute(
            """update answers set told = (select json_object('problem', c.problem, 'plant', c.plant) from corrections c
            where c.question_id = answers.question_id order by c.id desc limit 1)
            where question_id in (select question_id from corrections)"""
        )
        db["corrections"].drop()
        answers.create_index(["state", "sheaf", "urgency"])
        answers.create_index(["sheaf", "state"])
        db["questions"].create_index(["letter_id"])

    @steps()
    def m004_who_did_what(db: Any) -> None:
        db["history"].create(
            {
                "id": int,
                "step": int,
                "question_id": str,
                "at": str,
                "by": str,
                "did": str,
                "before": str,
                "version": int,
                "undone": int,
            },
            pk="id",
            defaults={"undone": 0},
        )
        db["history"].create_index(["question_id"])
        db["history"].create_index(["by", "step"])
        db["claims"].create({"what": str, "by": str, "at": str}, pk="what")
        db["shared_texts"].create(
            {"sheaf": str, "version": int, "text": str, "by": str, "at": str}, pk=("sheaf", "version")
        )
        db["rundown"].create({"day": str, "question_id": str, "position": int}, pk=("day", "question_id"))
        db["settings"].create({"name": str, "value": str}, pk="name")

    @steps()
    def m005_people(db: Any) -> None:
        db["people"].create({"name": str, "role": str, "password": str, "since": str}, pk="name")
        db["sessions"].create({"digest": str, "name": str, "csrf": str, "at": str}, pk="digest")
        db["attempts"].create({"who": str, "at": str})
        db["attempts"].create_index(["who"])

    return steps
