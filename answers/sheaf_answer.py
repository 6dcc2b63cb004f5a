"""One answer for a sheaf: its text is written once, laid on each letter, and cleared with those it fits.

Not here: filling a text from a letter (drafts/shared.py), clearing one letter (clearing.py).
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from datetime import datetime
from typing import Any, NamedTuple

from answers.answering import Engine
from answers.clearing import marks
from answers.drafting import At, fresh
from answers.drafts.compose import shared_text
from answers.drafts.shared import fill, places_left_open
from answers.ledger import WAITING, Change, Ledger, fit_text
from answers.sheaves import Sheaf, put_aside
from answers.store import Store
from kb.entries import Rule
from kb.errors import ConflictError, StepError
from kb.load import Knowledge

AT_ONCE = 200  # letters dealt with in one step


class Laid(NamedTuple):
    """What a shared text comes to for one letter; `aside` says why it does not go with the others."""

    row: Mapping[str, Any]
    text: str
    aside: str


def lay(rows: Sequence[Mapping[str, Any]], text: str, usual: str, by: str, proofed: bool = True) -> list[Laid]:
    """A shared text laid on each letter of a sheaf: its own name, place, dates and figures, or why it is put aside.

    Args:
        rows: stored answers of one sheaf, as `letters` gives them.
        text: the shared text, with its places left open.
        usual: the window's state at the desk's own place.
        by: whose step it is.
        proofed: whether a letter is put aside too when the proof marks its text.
    """
    laid = []
    for row in rows:
        filled = fill(text, row["worked"], row["writer"]["first_name"])
        own_words = row["state"] == "edited" and row["email"].strip() not in (filled.text.strip(), row["given"].strip())
        why = "somebody has edited its text already" if own_words else put_aside(row, usual, by)
        why = why or "; ".join(filled.lacking)
        if proofed and not why:
            found = marks({**row, "email": filled.text})
            why = "; ".join(m.mark.message for m in found if not m.reason)
        laid.append(Laid(row, filled.text, why))
    return laid


def answer_sheaf(
    ledger: Ledger, engine: Engine, key: str, text: str, usual: str, by: str, at: At, clears: bool = True
) -> tuple[int, list[Laid]]:
    """Give each letter of a sheaf its text and clear it, AT_ONCE at most in one step that can be taken back.

    With `clears` false the text is given, and the clearing left to a checker.

    Returns: how many letters it was, and those put aside on the way.

    Raises:
        StepError: when no letter can take the text, or the text itself names a writer's private details.
        ConflictError: when somebody else has claimed the sheaf, or changed a letter meanwhile; then none is changed.
    """
    ledger.respect(key, by, at.now)
    changes: list[Change] = []
    aside: list[Laid] = []
    done = {"state": "cleared", "cleared_by": by.strip()} if clears else {"state": "edited"}
    start = 0
    while len(changes) < AT_ONCE and (rows := letters(ledger, engine, key, at, start=start)):
        if told := private_words(text, rows, rule_of(key, engine.knowledge), engine.knowledge):
            raise StepError(f"the shared text names what belongs to one writer alone: {', '.join(told)}")
        for one in lay(rows, text, usual, by):
            columns = {"email": one.text, "given": one.text, **done}
            if one.aside:
                aside.append(one)
            elif len(changes) < AT_ONCE:
                changes.append(Change(one.row["question_id"], columns, one.row["version"]))
        start += AT_ONCE
    if not changes:
        why = "; ".join(dict.fromkeys(one.aside for one in aside)) or "it holds no letter that waits"
        raise StepError(f"no letter of this sheaf can take this text: {why}")
    ledger.step(changes, by, "cleared with its sheaf" if clears else "wrote one answer for a sheaf", at.now)
    return len(changes), aside


def private_words(text: str, rows: Iterable[Mapping[str, Any]], rule: Rule, knowledge: Knowledge) -> list[str]:
    """Private details of any of the letters (surnames, streets, telephones) that stand in a shared text."""
    own = shared_text(rule, knowledge).lower()
    writers = ("zip_code", "email", "phone", "street")
    secret = {s for row in rows for s in (*row["private"], *(row["writer"].get(w, "") for w in writers)) if len(s) > 2}
    here = text.lower()
    return sorted(
        s
        for s in secret
        if s.lower() in here and s.lower() not in own and re.search(rf"(?<!\w){re.escape(s)}(?!\w)", text, re.I)
    )


def letters(
    ledger: Ledger, engine: Engine, key: str, at: At, limit: int = AT_ONCE, start: int = 0
) -> list[dict[str, Any]]:
    """The letters of a sheaf that wait, oldest first, worked out as of today, each with who has claimed it.

    One that belongs to another sheaf by now is left out.
    """
    waits = f"a.sheaf = ? and a.state in ({', '.join('?' * len(WAITING))})"
    joined = "answers a join questions q on q.id = a.question_id join letters l on l.id = q.letter_id"
    in_order = "order by l.sent, l.rowid, q.part limit ? offset ?"
    sql = f"select a.question_id from {joined} where {waits} {in_order}"
    ids = [r["question_id"] for r in ledger.store.ask(sql, [key, *WAITING, limit, start])]
    rows = ledger.store.stored(f"where a.question_id in ({', '.join('?' * len(ids))})", ids)
    rows.sort(key=lambda row: ids.index(row["question_id"]))
    today = fresh(ledger.store, engine, rows, at.today)
    return [{**row, "claimed": ledger.claimed_by(row["question_id"], at.now)} for row in today if row["sheaf"] == key]


def rule_of(key: str, knowledge: Knowledge) -> Rule:
    """The rule that all letters of a sheaf share.

    Raises: StepError for a sheaf that has none.
    """
    sheaf = Sheaf.named(key)
    rule = knowledge.rules.get(sheaf.about) if sheaf.sort == "rule" else None
    if rule is None:
        raise StepError("the letters of this sheaf have no rule in common; answer each by itself")
    return rule


def text_of(store: Store, rule: Rule, knowledge: Knowledge) -> tuple[str, int, str]:
    """A sheaf's shared text as somebody left it, else the rule's own; its version, and who wrote it ("" for nobody)."""
    sql = "select text, version, by from shared_texts where sheaf = ? order by version desc limit 1"
    kept = store.ask(sql, [f"rule:{rule.id}"])
    return (kept[0]["text"], kept[0]["version"], kept[0]["by"]) if kept else (shared_text(rule, knowledge), 0, "")


def text_before(store: Store, rule: Rule, knowledge: Knowledge) -> str:
    """The shared text before the last change; the rule's own when there was none."""
    sql = "select text from shared_texts where sheaf = ? order by version desc limit 2"
    kept = store.ask(sql, [f"rule:{rule.id}"])
    return str(kept[1]["text"]) if len(kept) > 1 else shared_text(rule, knowledge)


def keep_text(ledger: Ledger, rule: Rule, knowledge: Knowledge, text: str, by: str, now: datetime, seen: int) -> str:
    """Keep a sheaf's text, as written over version `seen`; earlier ones are kept too. Returns it as kept.

    Raises:
        RangeError: for a text that is empty or too long, or a place left open that nothing fills.
        ConflictError: when somebody has changed it since, or is at work on the sheaf.
    """
    text, key, store = fit_text(text), f"rule:{rule.id}", ledger.store
    places_left_open(text)

    def work() -> None:
        held, version, last = text_of(store, rule, knowledge)
        if version != seen:
            raise ConflictError(
                f"{last or 'somebody'} has changed this sheaf's text since you opened it; theirs stands"
            )
        ledger.respect(key, by, now)
        if text != held:
            row = {
                "sheaf": key,
                "version": version + 1,
                "text": text,
                "by": by,
                "at": now.isoformat(timespec="seconds"),
            }
            store.db.table("shared_texts").insert(row)

    store.write(work)
    return text
