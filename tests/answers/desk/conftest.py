"""A small desk behind the guard, for asking it anything: two pages that remember what was changed at them."""

import asyncio
from contextlib import closing, contextmanager
from datetime import UTC, datetime
from typing import NamedTuple

import httpx
import pytest
from argon2 import PasswordHasher
from starlette.applications import Starlette
from starlette.responses import PlainTextResponse, RedirectResponse
from starlette.routing import Mount, Route

from answers.desk.people import People
from answers.desk.sign_in import (
    SESSION_COOKIE,
    Guard,
    came_from,
    give_cookie,
    local_path,
    loopback_hosts,
    take_cookie,
)
from answers.store import Store

DESK = "http://localhost:8100"
NOW = datetime(2026, 5, 5, 9, 0, tzinfo=UTC)
CHEAP = PasswordHasher(time_cost=1, memory_cost=8, parallelism=1)
PASSWORD = "a barrow of leaf mould"


class SignedIn(NamedTuple):
    token: str
    csrf: str


class Closing(People):
    """People whose store is closed after one question, which the guard asks in a thread of its own."""

    def alone(self, name, now):
        with closing(self.db):
            return super().alone(name, now)

    def person_of(self, token, now):
        with closing(self.db):
            return super().person_of(token, now)


class Desk:
    """A desk of two pages that remembers what was changed at it."""

    def __init__(self, path, alone="", **settings):
        self.path, self.changed, self.now = path, [], NOW
        with self.people() as people:
            people.add("Ana", "keeper", PASSWORD, NOW)
            people.add("Bo", "writer", PASSWORD, NOW)
        pages = [
            Route("/", self.page, methods=["GET"]),
            Route("/change", self.change, methods=["GET", "POST", "PUT", "DELETE", "PATCH"]),
            Route("/fall", self.fall, methods=["GET"]),
            Route("/sign-in", self.sign_in, methods=["GET", "POST"]),
            Route("/sign-out", self.sign_out, methods=["POST"]),
            Mount("/static", Starlette(routes=[Route("/desk.css", self.page, methods=["GET", "POST"])])),
        ]
        self.app = Guard(
            Starlette(routes=pages),
            people=lambda: Closing(Store(path), CHEAP),
            now=lambda: self.now,
            hosts=loopback_hosts(8100),
            alone=alone,
            **settings,
        )

    @contextmanager
    def people(self):
        with Store(self.path) as store:
            yield People(store, CHEAP)

    def signed_in(self, name="Ana"):
        with self.people() as people:
            return SignedIn(*people.start(name, self.now))

    async def page(self, request):
        session = getattr(request.state, "session", None)
        return PlainTextResponse(f"{session.name} {session.csrf}" if session else "nobody")

    async def change(self, request):
        form = await request.form()
        self.changed.append((request.state.session.name, form.get("text")))
        await form.close()
        return PlainTextResponse("changed")

    async def fall(self, request):
        raise RuntimeError("a fault in a page")

    async def sign_in(self, request):
        if request.method == "GET":
            return PlainTextResponse("sign in")
        async with request.form() as form:
            with self.people() as people:
                person = people.check(form["name"], form["password"], came_from(request), self.now)
                if not person:
                    return PlainTextResponse("wrong", 403)
                token, _ = people.start(person.name, self.now)
            answer = RedirectResponse(local_path(form.get("next", "/")), 303)
        give_cookie(answer, request, token)
        return answer

    async def sign_out(self, request):
        with self.people() as people:
            people.end(request.cookies[SESSION_COOKIE])
        answer = RedirectResponse("/sign-in", 303)
        take_cookie(answer, request)
        return answer

    def ask(self, method, path, token="", desk=DESK, client="127.0.0.1", **request):
        headers = {"cookie": f"{SESSION_COOKIE}={token}"} if token else {}
        headers |= request.pop("headers", {})

        async def asked():
            transport = httpx.ASGITransport(self.app, raise_app_exceptions=False, client=(client, 50000))
            async with httpx.AsyncClient(transport=transport, base_url=desk) as browser:
                return await browser.request(method, path, headers=headers, **request)

        return asyncio.run(asked())


@pytest.fixture
def desk(tmp_path):
    return Desk(tmp_path / "trug.db")


@pytest.fixture
def alone(tmp_path):
    return Desk(tmp_path / "alone.db", alone="Cy")


@pytest.fixture(scope="session")
def guarded():
    """`guarded(path, alone="", **settings)` is such a desk."""
    return Desk
