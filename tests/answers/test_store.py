"""The store keeps each letter whole or not at all, and never harms what it holds."""

import json
import sqlite3
from datetime import UTC, date, datetime

import pytest

from answers.ledger import Change, Ledger
from answers.letters.letter import Letter, Question, Writer
from answers.store import Store
from kb.errors import StoreError

TODAY = date(2026, 5, 20)
NOW = datetime(2026, 5, 20, 14, 0, tzinfo=UTC)

WORKED = {
    "draft": {"email": "Dear Ann,", "cue_card": "Ann asks", "phone": "ASK"},
    "urgency": "any time",
    "language": "",
    "rule": None,
    "hand_off": [],
    "kind": "how-to",
    "problem": None,
}


def letter(number, **changes):
    given = {"sent": None, "subject": "s", "body": f"body {number}", "writer": Writer(first_name="Ann")}
    return Letter(**{"id": f"l{number}", "fingerprint": f"f{number}", **given, **changes})


def asked(number):
    return [Question(f"l{number}", 1, f"body {number}", None)]


@pytest.fixture
def store(tmp_path):
    with Store(tmp_path / "trug.db") as opened:
        yield opened


def test_a_letter_is_added_once_by_id_and_by_words(store):
    """The same id, or the same words under another id, adds nothing."""
    assert store.add(letter(1), asked(1))
    assert not store.add(letter(1), asked(1))
    assert not store.add(letter(2, fingerprint="f1"), asked(2))
    assert store.counts() == {"letter": 1}


def test_a_letter_that_fails_half_way_leaves_nothing(store):
    """Its row is undone when its questions cannot be written: a killed run loses and doubles nothing."""
    broken = [Question("l1", 1, "x", None), Question("l1", 1, "the same id again", None)]
    with pytest.raises(StoreError):
        store.add(letter(1), broken)
    assert store.counts() == {}
    assert store.add(letter(1), asked(1))


def test_an_edited_draft_is_not_overwritten(store):
    """Drafting again leaves a person's words alone, and keeps the reading fresh."""
    store.add(letter(1), asked(1))
    store.save_draft("l1#1", WORKED)
    Ledger(store).edit("l1#1", "email", "Dear Ann, by hand", "Bea", NOW)
    store.save_draft("l1#1", {**WORKED, "urgency": "this week"})
    assert store.one("l1#1")["email"] == "Dear Ann, by hand\n"
    assert store.one("l1#1")["urgency"] == "this week"


def test_editing_a_cleared_draft_takes_the_clearance_back(store):
    """Nobody stands by words that were changed after they were read."""
    store.add(letter(1), asked(1))
    store.save_draft("l1#1", WORKED)
    ledger = Ledger(store)
    ledger.step([Change("l1#1", {"state": "cleared", "cleared_by": "Bea"})], "Bea", "cleared", NOW)
    ledger.edit("l1#1", "email", "changed", "Cy", NOW)
    assert (store.one("l1#1")["state"], store.one("l1#1")["cleared_by"]) == ("edited", None)


def test_a_store_of_the_first_version_finds_its_sheaves(tmp_path):
    """Drafts are laid where they belong and corrections are kept; untouched drafts wait to be made anew."""
    import sqlite_utils

    from answers.migrations import migrations

    path = tmp_path / "old.db"
    db = sqlite_utils.Database(path)
    migrations().apply(db, stop_before="m003_sheaves")
    for number, worked in enumerate(({"rule": "r"}, {"language": "Dutch"}, {"urgency": "emergency"}, {})):
        db["letters"].insert({"id": f"l{number}", "writer": "{}", "private": "[]"})
        db["questions"].insert(
            {"id": f"l{number}#1", "letter_id": f"l{number}", "part": 1, "text": "x", "has_photo": 0}
        )
        db["answers"].insert({"question_id": f"l{number}#1", "worked": json.dumps(worked), "state": "edited"})
    db["letters"].insert({"id": "l9", "writer": "{}", "private": "[]"})
    db["questions"].insert({"id": "l9#1", "letter_id": "l9", "part": 1, "text": "x", "has_photo": 0})
    db["answers"].insert({"question_id": "l9#1", "worked": "{}", "state": "drafted"})
    for problem in ("rust", "scab"):
        row = {
            "question_id": "l9#1",
            "text": "x",
            "plant": "apple",
            "problem": problem,
            "by": "Bea",
            "at": "2026-01-01",
        }
        db["corrections"].insert(row)
    db.close()
    with Store(path) as store:
        assert [r["sheaf"] for r in store.rows()] == ["rule:r", "language:Dutch", "emergency", "unsure", "unsure"]
        assert {r["version"] for r in store.rows()} == {0}
        assert all(r["worked"]["passages"] == [] for r in store.rows())
        assert [id_ for id_, _ in store.waiting(TODAY)] == ["l9#1"]
        assert store.told("l9#1") == ("scab", "apple", {})


def test_waiting_questions_are_those_without_a_draft(store):
    """Drafting goes on where it stopped."""
    for number in (1, 2):
        store.add(letter(number), asked(number))
    store.save_draft("l1#1", {**WORKED, "drafted_on": TODAY.isoformat()})
    assert [id_ for id_, _ in store.waiting(TODAY)] == ["l2#1"]


def test_a_full_disk_is_reported_and_harms_nothing(store):
    """When SQLite cannot grow the file, the letter is refused whole and the rest stays."""
    store.add(letter(1), asked(1))
    pages = store.db.execute("pragma page_count").fetchone()[0]
    store.db.execute(f"pragma max_page_count = {pages}")
    with pytest.raises(StoreError, match="full"):
        store.add(letter(2, body="x" * 500_000), asked(2))
    assert store.counts() == {"letter": 1}


def test_a_database_of_something_else_is_left_alone(tmp_path):
    """Its tables are not touched."""
    path = tmp_path / "other.db"
    with sqlite3.connect(path) as other:
        other.execute("create table recipes (name text)")
    other.close()
    with pytest.raises(StoreError, match="something else"):
        Store(path)
    check = sqlite3.connect(path)
    assert check.execute("select name from sqlite_master").fetchall() == [("recipes",)]
    check.close()


def test_a_folder_that_is_not_there_is_one_clear_error(tmp_path):
    """The path is named."""
    with pytest.raises(StoreError, match="none"):
        Store(tmp_path / "none" / "trug.db")


def test_a_store_of_a_newer_trug_is_left_alone(tmp_path):
    """An older program does not write into tables it does not know."""
    path = tmp_path / "trug.db"
    with Store(path) as opened:
        opened.db.table("_sqlite_migrations").insert({"migration_set": "trug", "name": "m999_later", "applied_at": "x"})
    with pytest.raises(StoreError, match="newer Trug"):
        Store(path)
