"""Letters, readings, drafts and cleared answers in one SQLite file, through sqlite-utils. Every write is atomic.

Not here: the tables (migrations.py) or anything that reads a letter's meaning.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import asdict
from datetime import date
from pathlib import Path
from types import TracebackType
from typing import Any, TypeVar

from answers.letters.letter import Letter, Question, Writer
from answers.migrations import migrations
from answers.reading.lessons import Lesson
from answers.sheaves import sheaf_of
from kb.errors import NoSuchError, StoreError

T = TypeVar("T")
MOST_FOUND = 50  # letters that a search shows
PATIENCE = 10.0  # seconds to wait for another's write
_STORED = (
    "select a.*, q.text, l.writer, l.sent, l.subject, l.private, q.letter_id, "
    "(select count(*) from questions o where o.letter_id = q.letter_id) asked "
    "from answers a join questions q on q.id = a.question_id join letters l on l.id = q.letter_id "
)


class Store:
    """A store file, made when it does not exist. Use as a context manager."""

    def __init__(self, path: Path) -> None:
        """Raises: StoreError when the file is not a store, locked, or its folder cannot be written."""
        import sqlite3

        import sqlite_utils

        self.path = path
        self._errors = sqlite3.Error
        with self._told():
            if path.exists() and path.stat().st_size and _head(path) != b"SQLite format 3":
                raise StoreError(f"{path}: not a store of ours; it was left as it is")
            self.db = sqlite_utils.Database(sqlite3.connect(str(path), timeout=PATIENCE))
            if "letters" not in self.db.table_names() and self.db.table_names():
                raise StoreError(f"{path}: a database of something else; it was left as it is")
            self.db.execute("pragma journal_mode = wal")  # readers do not wait for a writer, nor a writer for them
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

    def write(self, work: Callable[[], T]) -> T:
        """Do `work` in one transaction: all of it or nothing.

        Raises: StoreError as any use of the store.
        """
        with self.whole():
            return work()

    @contextmanager
    def whole(self) -> Iterator[None]:
        """One transaction: all of it or nothing. The lock is had before anything is read that a write rests on.

        Raises: StoreError as any use of the store.
        """
        with self._told():
            connection = self.db.conn
            if connection.in_transaction:
                with self.db.atomic():
                    yield
                return
            connection.execute("begin immediate")
            try:
                yield
            except BaseException:
                connection.rollback()
                raise
            connection.commit()

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

        self.write(work)
        return True

    def waiting(self, today: date) -> list[tuple[str, Question]]:
        """(id, question) of every question without a draft, or with one of an earlier day that nobody has touched."""
        stale = "where a.question_id is null or (a.state = 'drafted' and a.drafted_on <> ?)"
        return self._questions(stale, [today.isoformat()])

    def _questions(self, where: str, given: Sequence[Any] = ()) -> list[tuple[str, Question]]:
        sql = (
            "select q.*, l.sent, l.writer, l.private from questions q join letters l on l.id = q.letter_id "
            f"left join answers a on a.question_id = q.id {where} order by l.rowid, q.part"
        )
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
            for r in self.ask(sql, given)
        ]

    def save_draft(self, question_id: str, worked: dict[str, Any]) -> None:
        """Keep what was worked out (`Answer.kept`). A text that a person has changed is left alone.

        The version rises when a text becomes another one, so that nobody clears what they have not seen.
        """

        def work() -> None:
            found, answers = self.rows(question_id), self.db.table("answers")
            if not found:
                answers.insert({"question_id": question_id, **draft_columns(worked)})
                return
            columns = draft_columns(worked, found[0])
            if any(columns.get(part, found[0][part]) != found[0][part] for part in worked["draft"]):
                columns["version"] = found[0]["version"] + 1
            answers.update(question_id, columns)

        self.write(work)

    def rows(self, question_id: str = "") -> list[dict[str, Any]]:
        """Stored answers with their letters, all or of one question; `worked` as an object."""
        where, given = ("where a.question_id = ?", [question_id]) if question_id else ("", [])
        return self.stored(f"{where} order by l.rowid, q.part", given)

    def stored(self, where: str, given: Sequence[Any]) -> list[dict[str, Any]]:
        """Stored answers with their letters, by the end of an SQL sentence; a = answers, q = questions, l = letters."""
        return [
            {**r, **{k: json.loads(r[k]) for k in ("worked", "writer", "private")}}
            for r in self.ask(_STORED + where, given)
        ]

    def find(self, words: str, state: str = "") -> list[dict[str, Any]]:
        """The newest MOST_FOUND stored answers whose letter, writer, subject or reply holds the words; of one state."""
        like = "%" + words.replace("\\", "\\\\").replace("%", "\\%").replace("_", "\\_") + "%"
        writer = [f"json_extract(l.writer, '$.{name}')" for name in ("first_name", "full_name", "town", "email")]
        fields = ("q.text", "l.subject", "a.question_id", "a.email", *writer)
        where = " or ".join(f"{field} like ? escape '\\'" for field in fields)
        sql = f"where ({where}) and ? in ('', a.state) order by l.sent desc limit {MOST_FOUND}"
        return self.stored(sql, [*[like] * len(fields), state])

    def ask(self, sql: str, given: Sequence[Any] = ()) -> list[dict[str, Any]]:
        """The rows of a query.

        Raises: StoreError as any use of the store.
        """
        with self._told():
            return list(self.db.query(sql, given))

    def one(self, question_id: str) -> dict[str, Any]:
        """The stored answer of one question.

        Raises: NoSuchError when there is none.
        """
        found = self.rows(question_id)
        if not found:
            raise NoSuchError(f"{question_id}: no draft of that id; `trug sort` lists them")
        return found[0]

    def question(self, question_id: str) -> Question:
        """One question as it was taken in.

        Raises: NoSuchError when there is none.
        """
        found = self._questions("where q.id = ?", [question_id])
        if not found:
            raise NoSuchError(f"{question_id}: no question of that id; `trug sort` lists them")
        return found[0][1]

    def told(self, question_id: str) -> tuple[str, str | None, dict[str, Any]]:
        """What people said of a question: (problem, plant, values); "", None and nothing when they did not."""
        found = self.ask("select told from answers where question_id = ?", [question_id])
        told = json.loads(found[0]["told"]) if found else {}
        return told.get("problem", ""), told.get("plant"), told.get("values", {})

    def corrections(self) -> list[Lesson]:
        """Each question whose problem people have put right, oldest letter first."""
        about, plant = "json_extract(a.told, '$.problem')", "json_extract(a.told, '$.plant')"
        rows = self.ask(
            f"select q.text, {about} problem, {plant} plant from answers a join questions q on q.id = a.question_id "
            f"join letters l on l.id = q.letter_id where coalesce({about}, '') <> '' order by l.rowid, q.part"
        )
        return [Lesson(r["text"], r["problem"], r["plant"] or "") for r in rows]

    def setting(self, name: str) -> str:
        """A setting of the desk ("place", "programme", "minutes"); "" when it was never made."""
        return next((str(r["value"]) for r in self.ask("select value from settings where name = ?", [name])), "")

    def set(self, name: str, value: str) -> None:
        """Make a setting."""
        self.write(lambda: self.db.table("settings").upsert({"name": name, "value": value}, pk="name"))

    def counts(self) -> dict[str, int]:
        """How many letters of each sort."""
        with self._told():
            return {r["sort"]: r["n"] for r in self.db.query("select sort, count(*) n from letters group by sort")}


def draft_columns(worked: Mapping[str, Any], row: Mapping[str, Any] | None = None) -> dict[str, Any]:
    """The columns that a draft fills in, over a stored answer: each text too that is still the program's own.

    What was cleared is so no longer; what was sent or aired keeps its words.
    """
    columns = {
        "worked": json.dumps(worked),
        "sheaf": sheaf_of(worked).key,
        "urgency": worked["urgency"],
        "drafted_on": worked.get("drafted_on", ""),
    }
    if row is None:
        return {**columns, "state": "drafted", **worked["draft"]}
    if row["state"] in ("sent", "aired"):
        return columns
    before = row["worked"]["draft"]
    untouched = row["state"] == "drafted"
    texts = {part: text for part, text in worked["draft"].items() if untouched or row[part] == before[part]}
    if row["state"] in ("drafted", "edited", "cleared"):
        own = len(texts) == len(worked["draft"])
        columns |= {"state": "drafted" if own else "edited", "cleared_by": None}
    return {**columns, **texts}


def _head(path: Path) -> bytes:
    with path.open("rb") as file:
        return file.read(15)
