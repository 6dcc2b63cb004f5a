"""The programme's rundown, the people and the place, finding a letter, and taking back one's last step.

Not here: the rundown itself (answers/rundown.py), passwords (people.py).
"""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

from answers.desk.desk import Asked
from answers.desk.people import ROLES
from answers.desk.sign_in import local_path
from answers.ledger import CLEARED, MOVES
from answers.rundown import clock, put_on, rearrange, rundown
from answers.settings import SETTINGS, check_setting
from answers.store import MOST_FOUND
from kb.errors import RangeError, UnitError

if TYPE_CHECKING:
    from starlette.responses import Response


def programme(asked: Asked) -> Response:
    """The rundown of a day, timed, and the cleared answers that could go on it."""
    day, store = _day(asked, asked.request.query_params.get("day", "")), asked.desk.store
    cards = rundown(store, day)
    on_it = {card.row["question_id"] for card in cards}
    in_states = ", ".join("?" * len(CLEARED))
    newest = f"where a.state in ({in_states}) and a.cue_card <> '' order by a.rowid desc limit 100"
    cleared = store.stored(newest, CLEARED)
    length = 60 * int(store.setting("minutes") or 0)
    return asked.page(
        "programme.html",
        day=day,
        cards=cards,
        total=sum(card.seconds for card in cards),
        length=length,
        clock=clock,
        could=[row for row in cleared if row["question_id"] not in on_it],
        programme=store.setting("programme"),
    )


def plan(asked: Asked) -> Response:
    """Put a card on the rundown, move it, or take it off."""
    day, id_, how = _day(asked, asked.form.get("day", "")), asked.form.get("id", ""), asked.form.get("do", "")
    if how == "put on":
        put_on(asked.desk.store, day, id_)
    else:
        rearrange(asked.desk.store, day, id_, how)
    return asked.back(f"/programme?day={day}")


def people(asked: Asked) -> Response:
    """Who works here, and the desk's place and programme."""
    store = asked.desk.store
    return asked.page(
        "people.html",
        people=asked.desk.people.all(),
        roles=ROLES,
        choices=asked.desk.choices,
        place=store.setting("place"),
        programme=store.setting("programme"),
        minutes=store.setting("minutes"),
    )


def keep_people(asked: Asked) -> Response:
    """Add a person, give one another role or password, or let one go."""
    form, known, name = asked.form, asked.desk.people, asked.form.get("name", "").strip()
    done = form.get("do", "")
    if done == "add":
        known.add(name, form.get("role", ""), form.get("password", ""), asked.desk.now())
    elif done == "role":
        known.set_role(name, form.get("role", ""))
    elif done == "password":
        known.set_password(name, form.get("password", ""))
    elif done == "remove":
        known.remove(name)
    else:
        raise RangeError("do", done, "add, role, password or remove")
    return asked.back("/people")


def keep_place(asked: Asked) -> Response:
    """Set the desk's place, the programme's name and its minutes."""
    given = {name: asked.form.get(name, "").strip() for name in SETTINGS}
    for name, value in given.items():
        check_setting(name, value, asked.desk.engine.knowledge)
    for name, value in given.items():
        asked.desk.store.set(name, value)
    return asked.back("/people")


def find(asked: Asked) -> Response:
    """Letters that hold some words, or are in one state."""
    words = asked.request.query_params.get("words", "").strip()[:100]
    state = asked.request.query_params.get("state", "")
    found = asked.desk.store.find(words, state) if words or state in MOVES else []
    return asked.page("find.html", words=words, state=state, found=found, most=MOST_FOUND)


def undo(asked: Asked) -> Response:
    """Take back the last step of the person who asks."""
    asked.desk.ledger.undo(asked.by, asked.desk.now())
    return asked.back(local_path(asked.form.get("back", "/")))


def _day(asked: Asked, text: str) -> date:
    try:
        return date.fromisoformat(text) if text else asked.desk.today()
    except ValueError:
        raise UnitError("day", text, "a date as YYYY-MM-DD") from None
