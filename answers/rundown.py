"""The rundown: the ordered, timed cue cards of one day's segment.

Not here: writing cue cards (drafts/compose.py), how long one takes to say (drafts/spoken.py).
"""

from __future__ import annotations

from datetime import date
from typing import Any, NamedTuple

from answers.drafts.spoken import seconds
from answers.ledger import CLEARED
from answers.store import Store
from kb.errors import RangeError, StepError


class Card(NamedTuple):
    """One cue card of a rundown, and when in the segment it begins. `fit` is false once it is no longer cleared."""

    row: dict[str, Any]
    seconds: int
    begins: int  # seconds from the segment's start
    fit: bool


def rundown(store: Store, day: date) -> list[Card]:
    """The cue cards of a day in their order."""
    where = "join rundown r on r.question_id = a.question_id where r.day = ? order by r.position"
    cards, begins = [], 0
    for row in store.stored(where, [day.isoformat()]):
        fit = row["state"] in CLEARED
        length = round(seconds(row["cue_card"] or "")) if fit else 0
        cards.append(Card(row, length, begins, fit))
        begins += length
    return cards


def put_on(store: Store, day: date, question_id: str) -> None:
    """Put a cleared letter's cue card at the end of a day's rundown.

    Raises: StepError when it is not cleared, has no cue card, or is on it already.
    """
    row = store.one(question_id)
    if row["state"] not in CLEARED:
        raise StepError(f"{question_id}: is {row['state']}; only a cleared answer goes on the air")
    if not (row["cue_card"] or "").strip():
        raise StepError(f"{question_id}: has no cue card")
    held = {"day": day.isoformat(), "question_id": question_id}
    here = [day.isoformat(), question_id]

    def work() -> None:
        if store.ask("select 1 from rundown where day = ? and question_id = ?", here):
            raise StepError(f"{question_id}: is on that rundown already")
        last = store.ask("select max(position) n from rundown where day = ?", [day.isoformat()])[0]["n"]
        store.db.table("rundown").insert({**held, "position": 1 + (last or 0)}, pk=("day", "question_id"))

    store.write(work)


def rearrange(store: Store, day: date, question_id: str, how: str) -> None:
    """Move a card "up" or "down" by one, or take it "off".

    Raises: RangeError for another word; StepError when it is not on that rundown.
    """
    if how not in ("up", "down", "off"):
        raise RangeError("how", how, "up, down or off")

    def work() -> None:
        found = store.ask("select question_id from rundown where day = ? order by position", [day.isoformat()])
        order = [r["question_id"] for r in found]
        if question_id not in order:
            raise StepError(f"{question_id}: is not on the rundown of {day}")
        at = order.index(question_id)
        order.pop(at)
        if how != "off":
            order.insert(max(0, at - 1) if how == "up" else at + 1, question_id)
        table = store.db.table("rundown")
        table.delete_where("day = ?", [day.isoformat()])
        table.insert_all(
            {"day": day.isoformat(), "question_id": id_, "position": i} for i, id_ in enumerate(order, start=1)
        )

    store.write(work)


def clock(whole: int) -> str:
    """Seconds as minutes and seconds: 2:05."""
    return f"{whole // 60}:{whole % 60:02}"
