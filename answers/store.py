"""Letters, readings, drafts and cleared answers in one SQLite file, through sqlite-utils. Every write is atomic.

Not here: the tables (migrations.py) or anything that reads a letter's meaning.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import asdict
from datetime import UTC, date, datetime
from pathlib import Path
from types import TracebackType
from typing import Any, TypeVar

from answers.letters.letter import Letter, Question, Writer
from answers.migrations import migrations
from kb.errors import StoreError

T = TypeVar("T")


class Store:
    """A store file, made when it does not exist. Use as a context manager."""

    def __init__(self, path: Path) -> None:
        """Raises: StoreError when the file is not a store, locked, or its folder cannot be written."""
        import sqlite3

        import sqlite_utils

        self.path = path
        self._errors = sqlite3.Error
        with self._told():
            if path.exists() and path.stat().st_size and path.read_bytes()[:15] != b"SQLite format 3":
                raise StoreError(f"{path}: not a store of ours; it was left as it is")
            self.db = sqlite_utils.Database(sqlite3.connect(str(path), timeout=2))
            if "letters" not in self.db.table_names() and self.db.table_names():
                raise StoreError(f"{path}: a database of something else; it was left as it is")
            steps = migrations()
            if "_sqlite_migrations" in self.db.table_names():
                ours = {step.name for step in steps.pending(sqlite_utils.Database(memory=True))}
                newer = [step.name for step in steps.applied(self.db) if step.name not in ours]
                if newer:
                    raise StoreError(f"{path}: made by a newer Trug (step {newer[0]}); it was left as it is")
            steps.apply(self.db)

    def __enter__(self) -> Store:
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, at: TracebackType | None) -> None:
        self.db.close()

    @contextmanager
    def _told(self) -> Iterator[None]:
        try:
            yield
        except self._errors as fault:
            raise StoreError(f"{self.path}: {fault}; what it held is unharmed") from fault
        except OSError as fault:
            raise StoreError(f"{self.path}: {fault.strerror or fault}") from fault

    def _write(self, work: Callable[[], T]) -> T:
        with self._told(), self.db.atomic():
            return work()

    def add(self, letter: Letter, questions: list[Question]) -> bool:
        """Keep a letter with its questions, all or nothing. False when it is already here, by id or by its words."""
        with self._told():
            known = list(
                self.db.query(
                    "select 1 from letters where id = ? or (fingerprint = ? and sort = 'letter')",
                    [letter.id, letter.fingerprint],
                )
            )
        if known:
            return False

        def work() -> None:
            row = {
                **{
                    k: getattr(letter, k) for k in ("id", "subject", "body", "source", "sort", "follows", "fingerprint")
                },
                "sent": letter.sent.isoformat() if letter.sent else None,
                "writer": json.dumps(asdict(letter.writer)),
                "private": json.dumps(letter.private),
                "notes": json.dumps(letter.notes),
            }
            self.db.table("letters").insert(row)
            self.db.table("attachments").insert_all({"letter_id": letter.id, **asdict(a)} for a in letter.attachments)
            self.db.table("questions").insert_all(
                {
                    "id": f"{q.letter_id}#{q.part}",
                    "letter_id": q.letter_id,
                    "part": q.part,
                    "text": q.text,
                    "has_photo": int(q.has_photo),
                }
                for q in questions
            )

        self._write(work)
        return True

    def waiting(self) -> list[tuple[str, Question]]:
        """(id, question) of every question that has no draft yet."""
        return self._questions("where a.question_id is null")

    def _questions(self, where: str) -> list[tuple[str, Question]]:
        sql = (
            "select q.*, l.sent, l.writer, l.private from questions q join letters l on l.id = q.letter_id "
            f"left join answers a on a.question_id = q.id {where} order by l.rowid, q.part"
        )
        with self._told():
            rows = list(self.db.query(sql))
        return [
            (
                r["id"],
                Question(
                    r["letter_id"],
                    r["part"],
                    r["text"],
                    date.fromisoformat(r["sent"]) if r["sent"] else None,
                    Writer(**json.loads(r["writer"])),
                    has_photo=bool(r["has_photo"]),
                    private=tuple(json.loads(r["private"])),
                ),
            )
            for r in rows
        ]

    def save_draft(self, question_id: str, worked: dict[str, Any]) -> None:
        """Keep what was worked out. A draft a person has edited or cleared is never overwritten."""
        state = next((r["state"] for r in self.rows(question_id)), "drafted")
        if state != "drafted":
            return
        row = {"question_id": question_id, "worked": json.dumps(worked), "state": "drafted", **worked["draft"]}
        self._write(lambda: self.db.table("answers").insert(row, pk="question_id", replace=True))

    def rows(self, question_id: str = "") -> list[dict[str, Any]]:
        """Stored answers with their letters, all or of one question; `worked` as an object."""
        sql = (
            "select a.*, q.text, l.writer, l.sent, l.subject from answers a join questions q on q.id = a.question_id "
            "join letters l on l.id = q.letter_id where ? in ('', a.question_id) order by l.rowid, q.part"
        )
        with self._told():
            found = list(self.db.query(sql, [question_id]))
        return [{**r, "worked": json.loads(r["worked"]), "writer": json.loads(r["writer"])} for r in found]

    def one(self, question_id: str) -> dict[str, Any]:
        """The stored answer of one question.

        Raises: StoreError when there is none.
        """
        found = self.rows(question_id)
        if not found:
            raise StoreError(f"{question_id}: no draft of that id; `trug sort` lists them")
        return found[0]

    def question(self, question_id: str) -> Question:
        """One question as it was taken in.

        Raises: StoreError when there is none.
        """
        found = [q for id_, q in self._questions("where true") if id_ == question_id]
        if not found:
            raise StoreError(f"{question_id}: no question of that id; `trug sort` lists them")
        return found[0]

    def correct(self, question_id: str, plant: str | None, problem: str, by: str) -> None:
        """Remember what a person says a question is about; earlier corrections are kept too."""
        text = self.question(question_id).text
        at = datetime.now(UTC).isoformat(timespec="seconds")
        row = {"question_id": question_id, "text": text, "plant": plant, "problem": problem, "by": by, "at": at}
        self._write(lambda: self.db.table("corrections").insert(row))

    def corrections(self) -> list[tuple[str, str]]:
        """(text, problem) of the last correction of each question, oldest question first."""
        with self._told():
            rows = list(self.db.query("select question_id, text, problem from corrections order by id"))
        return list({r["question_id"]: (r["text"], r["problem"]) for r in rows}.values())

    def edit(self, question_id: str, part: str, text: str) -> None:
        """Replace one text of a draft (email, cue_card or phone); a cleared one goes back to edited."""
        self.one(question_id)
        self._write(
            lambda: self.db.table("answers").update(question_id, {part: text, "state": "edited", "cleared_by": None})
        )

    def clear(self, question_id: str, by: str) -> None:
        """Mark a draft as cleared by a named person."""
        self.one(question_id)
        self._write(lambda: self.db.table("answers").update(question_id, {"state": "cleared", "cleared_by": by}))

    def counts(self) -> dict[str, int]:
        """How many letters of each sort."""
        with self._told():
            return {r["sort"]: r["n"] for r in self.db.query("select sort, count(*) n from letters group by sort")}
