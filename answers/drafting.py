"""Drafting what the store holds: each question with what people told of it, at the writer's place or the desk's own.

Not here: answering one question (answering.py), keeping it (store.py).
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from datetime import date

from answers.answering import Answer, Engine, Told
from answers.letters.letter import Question
from answers.store import Store
from kb.entries import Place
from kb.errors import PlaceError
from kb.load import Knowledge

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
    """Draft every question that has no draft yet, one by one; `place` goes before the writer's own."""
    home, waiting = station(store, engine.knowledge), store.waiting()
    for id_, question in watch(waiting):
        at = place or engine.place_of(question) or home
        store.save_draft(id_, engine.answer(question, today, at).kept())
    return len(waiting)


def work_out(
    store: Store, engine: Engine, question_id: str, today: date, extra: dict[str, object] | None = None
) -> Answer:
    """The answer to one stored question as of `today`, with what people told of it.

    `extra` values are tried with it and not kept; None leaves one out.
    """
    question = store.question(question_id)
    problem, plant, values = store.told(question_id)
    told = Told(problem, plant, {n: v for n, v in {**values, **(extra or {})}.items() if v is not None})
    return engine.answer(question, today, engine.place_of(question) or station(store, engine.knowledge), told)


def redraft(store: Store, engine: Engine, question_id: str, today: date) -> Answer:
    """Work one question out anew and keep it; a text that a person has changed is left alone."""
    answer = work_out(store, engine, question_id, today)
    store.save_draft(question_id, answer.kept())
    return answer
