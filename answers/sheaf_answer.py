"""One answer for a sheaf: its text is written once, laid on each letter, and cleared with those it fits.

Not here: filling a text from a letter (drafts/shared.py), clearing one letter (clearing.py).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import datetime
from typing import Any, NamedTuple

from answers.clearing import marks
from answers.drafts.compose import shared_text
from answers.drafts.shared import fill, places_left_open
from answers.ledger import WAITING, Change, Ledger
from answers.sheaves import Sheaf, put_aside
from answers.store import Store
from kb.entries import Rule
from kb.errors import ConflictError, RangeError, StepError
from kb.load import Knowledge

AT_ONCE = 200  # letters dealt with in one step
LONGEST = 20_000  # characters of a shared text


class Laid(NamedTuple):
    """What a shared text comes to for one letter; `aside` says why it does not go with the others."""

    row: Mapping[str, Any]
    text: str
    aside: str


def lay(rows: Sequence[Mapping[str, Any]], text: str, usual: str, by: str) -> list[Laid]:
    """A shared text laid on each letter of a sheaf: its own name, place, dates and figures, or why it is put aside.

    Args:
        rows: stored answers of one sheaf, as `waiting_in` gives them.
        text: the shared text, with its places left open.
        usual: the window's state at the desk's own place.
        by: whose step it is.
    """
    laid = []
    for row in rows:
        filled = fill(text, row["worked"], row["writer"]["first_name"])
        own_words = row["state"] == "edited" and row["email"].strip() != filled.text.strip()
        why = "somebody has edited its text already" if own_words else put_aside(row, usual, by)
        laid.append(Laid(row, filled.text, why or "; ".join(filled.lacking)))
    return laid


def clear_sheaf(ledger: Ledger, laid: Sequence[Laid], by: str, now: datetime, edit_only: bool = False) -> list[Laid]:
    """Give each letter its text and clear it, in one step; with `edit_only`, leave the clearing to a checker.

    Returns: the letters put aside, those among them whose text the proof marks.

    Raises: StepError when no letter is left; ConflictError when one was changed meanwhile, and then none is.
    """
    changes, aside = [], []
    for one in laid[:AT_ONCE]:
        row = {**one.row, "email": one.text}
        found = [] if one.aside else marks(row)
        said = "; ".join(m.mark.message for m in found if not m.reason)
        if one.aside or said:
            aside.append(one._replace(aside=one.aside or said))
            continue
        done = {"state": "edited"} if edit_only else {"state": "cleared", "cleared_by": by.strip()}
        changes.append(Change(one.row["question_id"], {"email": one.text, **done}, one.row["version"]))
    if not changes:
        why = "; ".join(dict.fromkeys(one.aside for one in aside)) or "it holds no letter that waits"
        raise StepError(f"no letter of this sheaf can take this text: {why}")
    ledger.step(changes, by, "wrote one answer for a sheaf" if edit_only else "cleared with its sheaf", now)
    return aside


def waiting_in(ledger: Ledger, sheaf: str, now: datetime, limit: int = AT_ONCE, start: int = 0) -> list[dict[str, Any]]:
    """The letters of a sheaf that wait, oldest first, each with who has claimed it."""
    waits = f"a.sheaf = ? and a.state in ({', '.join('?' * len(WAITING))})"
    joined = "answers a join questions q on q.id = a.question_id join letters l on l.id = q.letter_id"
    in_order = "order by l.sent, l.rowid, q.part limit ? offset ?"
    sql = f"select a.question_id from {joined} where {waits} {in_order}"
    ids = [r["question_id"] for r in ledger.store.ask(sql, [sheaf, *WAITING, limit, start])]
    rows = ledger.store.stored(f"where a.question_id in ({', '.join('?' * len(ids))})", ids)
    rows.sort(key=lambda row: ids.index(row["question_id"]))
    return [{**row, "claimed": ledger.claimed_by(row["question_id"], now)} for row in rows]


def rule_of(key: str, knowledge: Knowledge) -> Rule:
    """The rule that all letters of a sheaf share.

    Raises: StepError for a sheaf that has none.
    """
    sheaf = Sheaf.named(key)
    rule = knowledge.rules.get(sheaf.about) if sheaf.sort == "rule" else None
    if rule is None:
        raise StepError("the letters of this sheaf have no rule in common; answer each by itself")
    return rule


def text_of(store: Store, rule: Rule, knowledge: Knowledge) -> tuple[str, int]:
    """A sheaf's shared text as somebody left it, else the rule's own; and its version."""
    kept = store.ask("select text, version from shared_texts where sheaf = ?", [f"rule:{rule.id}"])
    return (kept[0]["text"], kept[0]["version"]) if kept else (shared_text(rule, knowledge), 0)


def keep_text(store: Store, rule: Rule, knowledge: Knowledge, text: str, by: str, now: datetime, seen: int) -> str:
    """Keep a sheaf's text, as written over version `seen`. Returns it as kept.

    Raises:
        RangeError: for a text that is empty or too long, or a place left open that nothing fills.
        ConflictError: when somebody has changed it since.
    """
    text, key = text.replace("\r\n", "\n").strip() + "\n", f"rule:{rule.id}"
    if not text.strip() or len(text) > LONGEST:
        raise RangeError("text", f"{len(text.strip())} characters", f"1 to {LONGEST:,} characters")
    places_left_open(text)

    def work() -> None:
        held, version = text_of(store, rule, knowledge)
        if version != seen:
            last = store.ask("select by from shared_texts where sheaf = ?", [key])
            who = last[0]["by"] if last else "somebody"
            raise ConflictError(f"{who} has changed this sheaf's text since you opened it; theirs stands")
        if text != held:
            at = now.isoformat(timespec="seconds")
            row = {"sheaf": key, "text": text, "by": by, "at": at, "version": version + 1}
            store.db.table("shared_texts").upsert(row, pk="sheaf")

    store.write(work)
    return text
