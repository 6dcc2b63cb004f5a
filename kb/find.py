"""Full-text search of the rule base, with SQLite's FTS5 in memory.

Not here: reading a letter (answers/reading); this finds words that a colleague types.
"""

from __future__ import annotations

from dataclasses import dataclass

from kb.entries import Plant, Problem, Rule, Source
from kb.load import Knowledge


@dataclass(frozen=True)
class Found:
    """An entry that holds the words; `snippet` shows the best place, the words between brackets."""

    table: str
    id: str
    title: str
    snippet: str


def find(words: str, k: Knowledge, limit: int = 20) -> list[Found]:
    """Entries that hold all the words (or their stems), best first; with none, those that hold any."""
    import sqlite_utils

    database = sqlite_utils.Database(memory=True)
    table = database["entries"]
    table.insert_all(_rows(k))  # type: ignore[union-attr]
    table.enable_fts(["title", "body"], tokenize="porter unicode61")  # type: ignore[union-attr]
    terms = ['"' + word.replace('"', '""') + '"' for word in words.split()]
    for query in (" ".join(terms), " OR ".join(terms)) if terms else ():
        rows = database.query(
            "select e.kind, e.id, e.title, snippet(entries_fts, -1, '[', ']', ' ... ', 12) as snippet "
            "from entries_fts join entries e on e.rowid = entries_fts.rowid "
            "where entries_fts match ? order by bm25(entries_fts, 8.0, 1.0) limit ?",
            [query, limit],
        )
        found = [Found(r["kind"], r["id"], r["title"], r["snippet"]) for r in rows]
        if found:
            return found
    return []


def _rows(k: Knowledge) -> list[dict[str, str]]:
    entries: tuple[Rule | Problem | Plant | Source, ...] = (
        *k.rules.values(),
        *k.problems.values(),
        *k.plants.values(),
        *k.sources.values(),
    )
    return [_row(entry) for entry in entries]


def _row(entry: Rule | Problem | Plant | Source) -> dict[str, str]:
    match entry:
        case Rule():
            parts = [entry.what.say, *(s.say for s in (*entry.do, *entry.avoid)), entry.spoken, *entry.plants]
            return {"kind": "rule", "id": entry.id, "title": entry.title, "body": "\n".join(parts)}
        case Problem():
            signs = [f"{look.name}: {look.sign}" for look in entry.look_alikes]
            body = "\n".join([*entry.synonyms, *entry.phrases, *signs, *entry.plants])
            return {"kind": "problem", "id": entry.id, "title": entry.name, "body": body}
        case Plant():
            body = "\n".join([entry.botanical, entry.group, *entry.aliases])
            return {"kind": "plant", "id": entry.id, "title": entry.common, "body": body}
        case Source():
            body = f"{entry.publisher} {entry.number} {entry.year or ''}"
            return {"kind": "source", "id": entry.id, "title": entry.title, "body": body}
