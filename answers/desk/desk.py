"""The desk at work: its store, engine and calendar, and how a page is made and a fault is said.

Not here: the pages' addresses (app.py), what each page holds (season.py, letter_page.py, *_routes.py).
"""

from __future__ import annotations

import logging
import threading
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from datetime import date, datetime
from functools import cached_property
from importlib.resources import files
from pathlib import Path
from typing import TYPE_CHECKING, Any
from urllib.parse import quote

from answers.answering import Engine
from answers.desk.people import People, Session, may
from answers.desk.season import Calendar
from answers.drafting import At, fresh, station
from answers.ledger import CLEARED, Ledger
from answers.store import Store
from kb.errors import ConflictError, NoSuchError, StepError, TrugError

if TYPE_CHECKING:
    from starlette.requests import Request
    from starlette.responses import Response

Form = Mapping[str, str]
Work = Callable[["Asked"], "Response"]


@dataclass
class Desk:
    """One desk: a store file, an engine, and the clock it goes by."""

    path: Path
    engine: Engine
    now: Callable[[], datetime]
    today: Callable[[], date]
    _own: threading.local = field(default_factory=threading.local)
    _calendar: Calendar | None = None

    @property
    def store(self) -> Store:
        """This thread's own opening of the store."""
        if not hasattr(self._own, "store"):
            self._own.store = Store(self.path)
        return self._own.store  # type: ignore[no-any-return]

    @property
    def ledger(self) -> Ledger:
        """The steps of people on this thread's store."""
        return Ledger(self.store)

    @property
    def people(self) -> People:
        """The people of this thread's store."""
        return People(self.store)

    def calendar(self) -> Calendar:
        """The windows at the desk's place as of today, worked out once a day."""
        place, today = station(self.store, self.engine.knowledge), self.today()
        known = self._calendar
        if known is None or (known.place, known.today) != (place, today):
            known = self._calendar = Calendar(self.engine.knowledge, place, today)
        return known

    def fresh(self, row: dict[str, Any]) -> dict[str, Any]:
        """A stored answer with its draft of today."""
        return fresh(self.store, self.engine, [row], self.today())[0]

    def at(self) -> At:
        """This moment, and today."""
        return At(self.now(), self.today())

    @cached_property
    def templates(self) -> Any:
        """The pages' templates; everything put into one is escaped."""
        from jinja2 import Environment, FunctionLoader, StrictUndefined

        folder = files("answers.desk") / "templates"
        made = Environment(
            loader=FunctionLoader(lambda name: (folder / name).read_text("utf-8")),
            autoescape=True,
            trim_blocks=True,
            lstrip_blocks=True,
            undefined=StrictUndefined,
        )
        made.filters["day"] = day_words
        return made

    @cached_property
    def choices(self) -> dict[str, list[tuple[str, str]]]:
        """(id, name) of every problem that a rule answers, and of every plant, for a person to choose from."""
        k = self.engine.knowledge
        return {
            "problems": sorted(((p, k.problems[p].name) for p in k.rules_by_problem), key=lambda x: x[1].lower()),
            "plants": sorted(((p.id, p.common) for p in k.plants.values()), key=lambda x: x[1].lower()),
            "hand_offs": sorted((h.id, h.who) for h in k.hand_offs.values()),
            "places": [(p.id, f"{p.name}, {p.state}") for p in k.places.values()],
        }


@dataclass(frozen=True)
class Asked:
    """One request to the desk, by a person who may make it."""

    desk: Desk
    request: Request
    session: Session
    form: Form

    @property
    def by(self) -> str:
        """Who asks."""
        return self.session.name

    @property
    def here(self) -> str:
        """The address of the page asked for; for a form, of the page that it stands on."""
        path = str(self.request.scope["path"])
        if self.request.method == "POST" and path.count("/") > 1:
            path = path.rsplit("/", 1)[0]
        return "/" if path == "/undo" else quote(path, safe="/:")

    @property
    def version(self) -> int | None:
        """The version that the form was made from; None when it names none."""
        text = self.form.get("version", "")
        return int(text) if text.isdecimal() and len(text) < 10 else None

    def may(self, act: str) -> bool:
        """Whether this person may do it."""
        return may(self.session.role, act)

    def page(self, name: str, status: int = 200, **matter: Any) -> Response:
        """A page from a template."""
        from starlette.responses import HTMLResponse

        last = self.desk.store.ask(
            "select did, count(*) n from history where by = ? and undone = 0 group by step order by step desc limit 1",
            [self.by],
        )
        frame = {
            "session": self.session,
            "may": self.may,
            "today": self.desk.today(),
            "last_step": last[0] if last else None,
            "here": self.here,
            "cleared_states": CLEARED,
        }
        return HTMLResponse(self.desk.templates.get_template(name).render({**frame, **matter}), status)

    def back(self, path: str) -> Response:
        """See another page next."""
        from starlette.responses import RedirectResponse

        return RedirectResponse(path, 303)


def endpoint(desk: Desk, act: str, work: Work) -> Callable[[Request], Any]:
    """An address's way to `work`, for people who may do `act`; every fault becomes a page that loses nothing typed."""

    async def answer(request: Request) -> Response:
        from starlette.concurrency import run_in_threadpool

        given = await request.form() if request.method == "POST" else {}
        form = {name: value for name, value in given.items() if isinstance(value, str)}
        return await run_in_threadpool(_done, Asked(desk, request, request.state.session, form), act, work)

    return answer


def _done(asked: Asked, act: str, work: Work) -> Response:
    if not asked.may(act):
        role = asked.session.role
        return asked.page("fault.html", 403, fault=f"A {role} may not do this.", kept={})
    try:
        return work(asked)
    except ConflictError as fault:
        return asked.page("fault.html", 409, fault=str(fault), kept=_typed(asked.form))
    except StepError as fault:
        return asked.page("fault.html", 422, fault=str(fault), kept=_typed(asked.form))
    except NoSuchError as fault:
        return asked.page("fault.html", 404, fault=str(fault), kept=_typed(asked.form))
    except TrugError as fault:
        return asked.page("fault.html", 400, fault=str(fault), kept=_typed(asked.form))
    except Exception:
        logging.getLogger(__name__).exception("%s %s", asked.request.method, asked.request.scope["path"])
        words = "Something is wrong with the desk itself; what it keeps is unharmed. Its log says more."
        return asked.page("fault.html", 500, fault=words, kept=_typed(asked.form))


def _typed(form: Form) -> dict[str, str]:
    """What a person typed, to be shown again when it could not be kept."""
    return {name: text for name, text in form.items() if name in ("text", "reason", "note") and text.strip()}


def day_words(day: date | str | None) -> str:
    """A date as a person writes it: 3 April 2026; "" for none."""
    if not day:
        return ""
    at = date.fromisoformat(day[:10]) if isinstance(day, str) else day
    return f"{at.day} {at:%B %Y}"
