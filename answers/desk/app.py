"""The desk's addresses, and the door: every page's path with the right that it asks for.

Not here: what a page does (*_routes.py), what stands before every page (sign_in.py).
"""

from __future__ import annotations

from collections.abc import Collection
from importlib.resources import files
from typing import TYPE_CHECKING

from starlette.applications import Starlette
from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import HTMLResponse, RedirectResponse, Response
from starlette.routing import Mount, Route
from starlette.staticfiles import StaticFiles

from answers.desk import letter_routes, programme_routes, sheaf_routes
from answers.desk.desk import Desk, Work, endpoint
from answers.desk.sign_in import SESSION_COOKIE, Guard, came_from, give_cookie, local_path, take_cookie
from kb.errors import TrugError

if TYPE_CHECKING:
    from starlette.types import ASGIApp

GET, POST = "GET", "POST"
ADDRESSES: tuple[tuple[str, str, str, Work], ...] = (  # method, path, right, what is done
    (GET, "/", "read", sheaf_routes.opening),
    (POST, "/sheaf/{key:path}/write", "draft", sheaf_routes.write),
    (POST, "/sheaf/{key:path}/margin", "read", sheaf_routes.margin),
    (POST, "/sheaf/{key:path}/claim", "draft", sheaf_routes.claim),
    (GET, "/sheaf/{key:path}", "read", sheaf_routes.sheaf),
    (POST, "/letter/{id:path}/edit", "draft", letter_routes.edit),
    (POST, "/letter/{id:path}/clear", "clear", letter_routes.clear),
    (POST, "/letter/{id:path}/move", "draft", letter_routes.move),
    (POST, "/letter/{id:path}/accept", "clear", letter_routes.accept),
    (POST, "/letter/{id:path}/claim", "draft", letter_routes.claim),
    (POST, "/letter/{id:path}/correct", "draft", letter_routes.correct),
    (POST, "/letter/{id:path}/again", "draft", letter_routes.again),
    (POST, "/letter/{id:path}/tell", "draft", letter_routes.tell),
    (POST, "/letter/{id:path}/figures", "read", letter_routes.figures),
    (POST, "/letter/{id:path}/margin", "read", letter_routes.margin),
    (GET, "/letter/{id:path}/card", "read", letter_routes.card),
    (GET, "/letter/{id:path}/reply", "read", letter_routes.reply),
    (GET, "/letter/{id:path}", "read", letter_routes.letter),
    (GET, "/programme", "read", programme_routes.programme),
    (POST, "/programme", "plan", programme_routes.plan),
    (GET, "/people", "keep", programme_routes.people),
    (POST, "/people/place", "keep", programme_routes.keep_place),
    (POST, "/people", "keep", programme_routes.keep_people),
    (GET, "/find", "read", programme_routes.find),
    (POST, "/undo", "draft", programme_routes.undo),
)


def make_app(desk: Desk, hosts: Collection[str], alone: str = "") -> ASGIApp:
    """The desk as an ASGI application.

    Args:
        desk: its store, engine and clock.
        hosts: the names and ports by which browsers may call it.
        alone: who works at it without sign-in, on this computer only; "" asks everybody to sign in.
    """
    door = _Door(desk)
    routes = [
        Route("/sign-in", door.show, methods=[GET]),
        Route("/sign-in", door.enter, methods=[POST]),
        Route("/sign-out", door.leave, methods=[POST]),
        Mount("/static", StaticFiles(directory=str(files("answers.desk") / "static"))),
        *(Route(path, endpoint(desk, right, work), methods=[method]) for method, path, right, work in ADDRESSES),
    ]
    return Guard(Starlette(routes=routes), lambda: desk.people, desk.now, hosts, alone)


class _Door:
    """Signing in and out."""

    def __init__(self, desk: Desk) -> None:
        self.desk = desk

    async def show(self, request: Request) -> Response:
        """The form; who is signed in already goes on."""
        wanted = local_path(request.query_params.get("next", "/"))
        return RedirectResponse(wanted, 303) if request.state.session else self._form(wanted)

    async def enter(self, request: Request) -> Response:
        """A session for whoever gives a name and the password that goes with it."""
        form = {name: value for name, value in (await request.form()).items() if isinstance(value, str)}
        name, wanted = form.get("name", ""), local_path(form.get("next", "/"))
        try:
            token = await run_in_threadpool(self._token, name, form.get("password", ""), came_from(request))
        except TrugError as fault:
            return self._form(wanted, name, str(fault), 429)
        if not token:
            return self._form(wanted, name, "No such name with that password.", 401)
        response = RedirectResponse(wanted, 303)
        give_cookie(response, request, token)
        return response

    async def leave(self, request: Request) -> Response:
        """No session any more."""
        await run_in_threadpool(lambda: self.desk.people.end(request.cookies.get(SESSION_COOKIE, "")))
        response = RedirectResponse("/sign-in", 303)
        take_cookie(response, request)
        return response

    def _token(self, name: str, password: str, where: str) -> str:
        person = self.desk.people.check(name, password, where, self.desk.now())
        return self.desk.people.start(person.name, self.desk.now())[0] if person else ""

    def _form(self, wanted: str, name: str = "", fault: str = "", status: int = 200) -> Response:
        page = self.desk.templates.get_template("sign_in.html")
        return HTMLResponse(page.render(next=wanted, name=name, fault=fault), status)
