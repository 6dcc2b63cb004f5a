"""Drafting what the store holds: each question with what people told of it, at the writer's place or the desk's own.

Not here: answering one question (answering.py), keeping it (store.py).
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from datetime import date, datetime
from typing import Any, NamedTuple

from answers.answering import Answer, Engine, Told
from answers.ledger import WAITING, Change, Ledger
from answers.letters.letter import Question
from answers.store import Store
from kb.entries import Place
from kb.errors import PlaceError, RangeError, StepError
from kb.load import Knowledge


class At(NamedTuple):
    """The moment of a step, and the day that dates are seen from."""

    now: datetime
    today: date


Watch = Callable[[Iterable[tuple[str, Question]]], Iterable[tuple[str, Question]]]


def station(store: Store, knowledge: Knowledge) -> Place | None:
    """The desk's own place, when one was set.

    Raises: PlaceError when the place that was set is no longer in the place data.
    """
    id_ = store.setting("place")
    if id_ and id_ not in knowledge.places:
        raise PlaceError(f"the desk's place {id_!r} is not a place any more; set another")
    return knowledge.places.get(id_)


def draft_waiting(store: Store, engine: Engine, today: date, place: Place | None, watch: Watch) -> int:
    """Draft every question that waits for it, one by one; `place` goes before the writer's own."""
    waiting = store.waiting(today)
    for id_, _ in watch(waiting):
        store.save_draft(id_, work_out(store, engine, id_, today, place=place).kept())
    return len(waiting)


def work_out(
    store: Store,
    engine: Engine,
    question_id: str,
    today: date,
    told: Mapping[str, Any] | None = None,
    place: Place | None = None,
) -> Answer:
    """The answer to one stored question as of `today`, with what people told of it.

    `told` is tried over that and not kept: `problem` and `plant`, or `values` by name (None leaves one out).
    """
    question, more = store.question(question_id), told or {}
    problem, plant, values = store.told(question_id)
    values = {n: v for n, v in {**values, **more.get("values", {})}.items() if v is not None}
    said = Told(more.get("problem", problem), more.get("plant", plant), values)
    at = place or engine.place_of(question) or station(store, engine.knowledge)
    return engine.answer(question, today, at, said)


def keep_told(
    ledger: Ledger,
    engine: Engine,
    question_id: str,
    told: Mapping[str, Any],
    by: str,
    at: At,
    place: Place | None = None,
) -> Answer:
    """Keep what a person says of a question and work it out anew, in one step that can be taken back.

    Raises: RangeError, and nothing is kept, when a calculator refuses a number.
    """
    row = ledger.store.one(question_id)
    answer = work_out(ledger.store, engine, question_id, at.today, told, place)
    if told.get("values") and answer.inputs.refused:
        raise RangeError("number", ", ".join(map(str, told["values"].values())), answer.inputs.refused[0])
    ledger.tell(row, told, answer.kept(), by, at.now)
    return answer


def fresh(store: Store, engine: Engine, rows: Sequence[dict[str, Any]], today: date) -> list[dict[str, Any]]:
    """Stored answers that wait, worked out as of today; words that a person changed stay, for the proof to judge."""
    made = []
    for row in rows:
        if row["state"] in WAITING and row["drafted_on"] != today.isoformat():
            store.save_draft(row["question_id"], work_out(store, engine, row["question_id"], today).kept())
            row = {**row, **store.one(row["question_id"])}
        made.append(row)
    return made


def lay_again(ledger: Ledger, question_id: str, by: str, now: datetime) -> None:
    """Put the program's own texts back over what people wrote, as a step with its way back.

    Raises: StepError unless it was edited.
    """
    row = ledger.store.one(question_id)
    if row["state"] != "edited":
        raise StepError(f"{question_id}: is {row['state']}; only an edited text can be laid aside for the draft")
    columns = {**row["worked"]["draft"], "state": "drafted"}
    ledger.step([Change(question_id, columns, row["version"])], by, "laid the draft again", now)
