"""Nothing of the desk is reached, and nothing changed, but by the person at it."""

import asyncio
import tempfile
from contextlib import closing, contextmanager
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import NamedTuple
from urllib.parse import urljoin, urlsplit

import httpx
import pytest
from argon2 import PasswordHasher
from hypothesis import given
from hypothesis import strategies as st
from starlette.applications import Starlette
from starlette.responses import PlainTextResponse, RedirectResponse
from starlette.routing import Mount, Route

from answers.desk.people import People
from answers.desk.sign_in import (
    HEADERS,
    SESSION_COOKIE,
    Guard,
    came_from,
    give_cookie,
    local_path,
    loopback_hosts,
    take_cookie,
)
from answers.store import Store
from kb.errors import RangeError, StoreError

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
            people=lambda: Closing(Store(path).db, CHEAP),
            now=lambda: self.now,
            hosts=loopback_hosts(8100),
            alone=alone,
            **settings,
        )

    @contextmanager
    def people(self):
        with Store(self.path) as store:
            yield People(store.db, CHEAP)

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


def test_a_form_from_the_persons_own_page_is_taken(desk):
    """And the page can read it whole, though the guard has read it before."""
    token, csrf = desk.signed_in()
    assert desk.ask(
        "POST", "/change", token=token, data={"csrf": csrf, "text": "ünd"}, headers={"origin": DESK}
    ).is_success
    assert desk.ask("POST", "/change", token=token, data={"csrf": csrf, "text": "x" * 20_000}).is_success
    sent = desk.ask(
        "POST", "/change", token=token, data={"csrf": csrf, "text": "é"}, files={"file": b"a letter" * 9000}
    )
    assert sent.is_success
    assert desk.changed == [("Ana", "ünd"), ("Ana", "x" * 20_000), ("Ana", "é")]


def headers(**given):
    return {"headers": {name.replace("_", "-"): value for name, value in given.items()}}


# What is sent by whom, given the csrf of the person's own session: (status, request).
FORGED = {
    "no csrf": (403, lambda own, bo: {"data": {"text": "x"}}),
    "no form": (403, lambda own, bo: {}),
    "an empty csrf": (403, lambda own, bo: {"data": {"csrf": ""}}),
    "a wrong csrf": (403, lambda own, bo: {"data": {"csrf": own[:-1]}}),
    "letters that no csrf has": (403, lambda own, bo: {"data": {"csrf": "é" * 43}}),
    "csrf in the address": (403, lambda own, bo: {"params": {"csrf": own}}),
    "csrf in JSON": (403, lambda own, bo: {"json": {"csrf": own}}),
    "csrf as plain text": (403, lambda own, bo: {"content": f"csrf={own}", **headers(content_type="text/plain")}),
    "csrf as a file": (403, lambda own, bo: {"files": {"csrf": own.encode()}}),
    "another session's csrf": (403, lambda own, bo: {"data": {"csrf": bo.csrf}}),
    "another's session": (403, lambda own, bo: {"data": {"csrf": own}, "token": bo.token}),
    "no session": (403, lambda own, bo: {"data": {"csrf": own}, "token": ""}),
    "another site": (403, lambda own, bo: {"data": {"csrf": own}, **headers(origin="https://evil.example")}),
    "another port": (403, lambda own, bo: {"data": {"csrf": own}, **headers(origin="http://localhost:9999")}),
    "a name that begins alike": (
        403,
        lambda own, bo: {"data": {"csrf": own}, **headers(origin=f"{DESK}.evil.example")},
    ),
    "a hidden origin": (403, lambda own, bo: {"data": {"csrf": own}, **headers(origin="null")}),
    "an empty origin": (403, lambda own, bo: {"data": {"csrf": own}, **headers(origin="")}),
    "no boundary": (400, lambda own, bo: {"content": "x", **headers(content_type="multipart/form-data")}),
    "a form too big": (413, lambda own, bo: {"data": {"csrf": own, "text": "x" * 2_000_000}}),
}


@pytest.mark.parametrize("name", FORGED)
@pytest.mark.parametrize("method", ["POST", "PUT", "DELETE", "PATCH"])
def test_a_forged_form_changes_nothing(desk, name, method):
    """Whatever is missing or from elsewhere: the page says why, and that nothing was changed."""
    ana, bo = desk.signed_in("Ana"), desk.signed_in("Bo")
    status, forged = FORGED[name]
    answer = desk.ask(method, "/change", **{"token": ana.token, **forged(ana.csrf, bo)})
    assert (answer.status_code, desk.changed) == (status, [])
    assert "Nothing was changed." in answer.text
    assert ana.csrf not in answer.text


@pytest.mark.parametrize("method", ["OPTIONS", "TRACE", "PROPFIND"])
def test_a_method_that_nobody_thought_of_needs_a_form_too(desk, method):
    """Only GET and HEAD are let through without."""
    token, _ = desk.signed_in()
    assert desk.ask(method, "/", token=token).status_code == 403


@given(st.binary(max_size=200), st.sampled_from(["utf-8", "utf-7", "undefined", "hex", "latin-1"]))
def test_no_form_however_broken_gets_past_or_breaks_the_guard(body, charset):
    """Refused as unreadable or as forged, never a fault of ours."""
    with tempfile.TemporaryDirectory() as folder:
        desk = Desk(Path(folder) / "trug.db")
        token, _ = desk.signed_in()
        start = b'--b\r\ncontent-disposition: form-data; name="csrf"\r\n\r\n'
        for kind in ("application/x-www-form-urlencoded", f"multipart/form-data; boundary=b; charset={charset}"):
            for content in (body, start + body, start + body + b"\r\n--b--\r\n"):
                answer = desk.ask("POST", "/change", token=token, content=content, headers={"content-type": kind})
                assert answer.status_code in (400, 403)
        assert desk.changed == []


@pytest.mark.parametrize(
    ("host", "status"),
    [
        ("localhost:8100", 200),
        ("127.0.0.1:8100", 200),
        ("LOCALHOST:8100", 200),
        ("[::1]:8100", 200),
        ("localhost", 421),
        ("localhost:8101", 421),
        ("evil.example:8100", 421),
        ("localhost:8100.evil.example", 421),
        ("", 421),
    ],
)
def test_the_desk_answers_to_its_own_addresses_only(desk, alone, host, status):
    """A site whose name was pointed at this computer learns nothing, not even from static files."""
    token, csrf = desk.signed_in()
    for path in ("/", "/static/desk.css", "/sign-in"):
        assert desk.ask("GET", path, token=token, headers={"host": host}).status_code == status
    assert alone.ask("GET", "/", headers={"host": host}).status_code == status
    sent = desk.ask("POST", "/change", token=token, data={"csrf": csrf}, headers={"host": host})
    assert (sent.status_code, len(desk.changed)) == ((200, 1) if status == 200 else (421, 0))


def test_port_80_is_left_out_as_browsers_do():
    """At the usual port the address has none."""
    assert "localhost" in loopback_hosts(80)
    assert "localhost" not in loopback_hosts(8100)


def test_two_hosts_in_one_request_are_refused(desk):
    """A proxy and the desk could each believe another one."""

    async def asked():
        scope = {"type": "http", "method": "GET", "path": "/sign-in", "query_string": b"", "scheme": "http"}
        scope["headers"] = [(b"host", b"localhost:8100"), (b"host", b"evil.example")]
        sent = []

        async def send(message):
            sent.append(message)

        await desk.app(scope, None, send)
        return sent[0]["status"]

    assert asyncio.run(asked()) == 421


def test_without_a_session_every_page_leads_to_signing_in(desk):
    """And back to the page that was wanted; the sign-in page and static files are open."""
    for path in ("/", "/no-such-page", "/static", "/sign-in/", "/sign-out"):
        answer = desk.ask("GET", path)
        assert (answer.status_code, urlsplit(answer.headers["location"]).path) == (303, "/sign-in")
    wanted = desk.ask("GET", "/change?a=1&b=%2Fx")
    assert wanted.headers["location"] == "/sign-in?next=%2Fchange%3Fa%3D1%26b%3D%252Fx"
    assert desk.ask("GET", "//evil.example").headers["location"] == "/sign-in?next=%2F"
    assert desk.ask("GET", "/sign-in").text == "sign in"
    assert desk.ask("GET", "/static/desk.css").text == "nobody"
    assert desk.ask("POST", "/static/desk.css").status_code == 403


def test_signing_in_and_out(desk):
    """From the door to the page that was wanted, a change there, and out again."""
    given = {"name": "ana", "password": PASSWORD, "next": "/change?a=1"}
    entered = desk.ask("POST", "/sign-in", data=given, headers={"origin": DESK})
    assert (entered.status_code, entered.headers["location"]) == (303, "/change?a=1")
    cookie = entered.headers["set-cookie"]
    token = entered.cookies[SESSION_COOKIE]
    assert {part.strip().lower() for part in cookie.split(";")[1:]} == {
        "httponly",
        "max-age=604800",
        "path=/",
        "samesite=strict",
    }
    name, csrf = desk.ask("GET", "/", token=token).text.split()
    assert name == "Ana"
    out = desk.ask("POST", "/sign-out", token=token, data={"csrf": csrf})
    assert 'trug_session=""' in out.headers["set-cookie"]
    assert desk.ask("GET", "/", token=token).status_code == 303
    assert desk.ask("POST", "/change", token=token, data={"csrf": csrf}).status_code == 403
    assert desk.changed == []


def test_over_https_the_cookie_is_never_sent_without(desk):
    """Secure is set when the request is https, and could not be kept when it is not."""
    secure = "https://localhost:8100"
    given = {"name": "Ana", "password": PASSWORD}
    answer = desk.ask("POST", "/sign-in", desk=secure, data=given, headers={"origin": secure})
    assert "secure" in answer.headers["set-cookie"].lower()


@pytest.mark.parametrize("headers", [{}, {"origin": "https://evil.example"}, {"origin": "null"}])
def test_another_site_cannot_sign_a_person_in(desk, headers):
    """Not even with a right password, as somebody else whose work it would then be."""
    answer = desk.ask("POST", "/sign-in", data={"name": "Bo", "password": PASSWORD}, headers=headers)
    assert answer.status_code == 403
    assert "set-cookie" not in answer.headers


def test_a_session_that_was_not_used_for_twelve_hours_leads_to_signing_in(desk):
    """A form is refused then, in words that help to keep what was written."""
    token, csrf = desk.signed_in()
    desk.now = NOW + timedelta(hours=12)
    assert desk.ask("GET", "/", token=token).status_code == 303
    answer = desk.ask("POST", "/change", token=token, data={"csrf": csrf, "text": "long"})
    assert answer.status_code == 403
    assert "go back, copy it, and sign in" in answer.text
    assert desk.changed == []


def test_a_desk_without_sign_in_still_takes_no_forged_form(alone):
    """Its one session has a csrf that other sites cannot read; the person is who the command said."""
    name, csrf = alone.ask("GET", "/").text.split()
    assert name == "Cy"
    assert alone.ask("POST", "/change", data={"text": "x"}).status_code == 403
    evil = {"origin": "https://evil.example"}
    assert alone.ask("POST", "/change", data={"csrf": csrf}, headers=evil).status_code == 403
    assert alone.changed == []
    alone.now = NOW + timedelta(days=3)
    assert alone.ask("POST", "/change", data={"csrf": csrf, "text": "x"}).is_success
    assert alone.changed == [("Cy", "x")]


@pytest.mark.parametrize(("client", "status"), [("127.0.0.1", 200), ("::1", 200), ("192.0.2.7", 403), ("desk", 403)])
def test_a_desk_without_sign_in_answers_its_own_computer_only(alone, client, status):
    """Whatever address it was told to listen at, and whatever Host another computer claims."""
    for path in ("/", "/static/desk.css"):
        assert alone.ask("GET", path, client=client).status_code == status


def test_a_desk_without_sign_in_needs_a_name_that_can_be_kept(tmp_path):
    """What is done there is signed with it."""
    with pytest.raises(RangeError, match="name"):
        Guard(Starlette(), lambda: None, lambda: NOW, (), alone="  ")


def test_every_answer_carries_the_security_headers(desk):
    """Pages, refusals, faults and static files; only static files may be kept by the browser."""
    token, _ = desk.signed_in()
    for method, path in [("GET", "/"), ("GET", "/nowhere"), ("POST", "/"), ("GET", "/sign-in"), ("GET", "/fall")]:
        answer = desk.ask(method, path, token=token)
        assert {name: answer.headers.get(name) for name in HEADERS} == HEADERS
        assert answer.headers["cache-control"] == "no-store"
    assert desk.ask("GET", "/fall", token=token).status_code == 500
    kept = desk.ask("GET", "/static/desk.css")
    assert "cache-control" not in kept.headers
    assert kept.headers["content-security-policy"].startswith("default-src 'none'; ")
    assert desk.ask("GET", "/static/none.css").headers["cache-control"] == "no-store"


def test_our_own_forms_name_their_origin():
    """Under no-referrer a browser sends `Origin: null` with them, and every form would be refused."""
    assert HEADERS["Referrer-Policy"] == "same-origin"


def test_a_store_that_cannot_be_read_lets_nobody_in(desk, monkeypatch):
    """The page says so; it is not taken for a person without a session, nor for one with."""

    def locked():
        raise StoreError("trug.db: database is locked")

    token, _ = desk.signed_in()
    monkeypatch.setattr(desk.app, "people", locked)
    answer = desk.ask("GET", "/", token=token)
    assert answer.status_code == 503
    assert "database is locked" in answer.text


def test_a_smaller_limit_can_be_set(tmp_path):
    """In bytes; one more is refused."""
    desk = Desk(tmp_path / "trug.db", most_bytes=100)
    token, csrf = desk.signed_in()
    body = f"csrf={csrf}&text=".ljust(100, "x")
    for more, status in ((0, 200), (1, 413)):
        kind = {"content-type": "application/x-www-form-urlencoded"}
        assert desk.ask("POST", "/change", token=token, content=body + "x" * more, headers=kind).status_code == status


def test_a_web_socket_is_closed_and_a_start_let_through(desk):
    """What the guard does not know is refused."""
    sent = []

    async def send(message):
        sent.append(message)

    async def receive():
        return {"type": "lifespan.startup" if not sent else "lifespan.shutdown"}

    asyncio.run(desk.app({"type": "websocket", "path": "/"}, None, send))
    assert sent == [{"type": "websocket.close", "code": 1008}]
    sent.clear()
    asyncio.run(desk.app({"type": "lifespan", "app": None, "state": {}}, receive, send))
    assert sent[0]["type"] == "lifespan.startup.complete"


def test_a_browser_that_goes_away_changes_nothing(desk):
    """A form that was not sent to its end is not answered and not believed."""
    token, _ = desk.signed_in()
    sent = []

    async def receive():
        return {"type": "http.disconnect"}

    async def send(message):
        sent.append(message)

    scope = {"type": "http", "method": "POST", "path": "/change", "query_string": b"", "scheme": "http"}
    scope["headers"] = [(b"host", b"localhost:8100"), (b"cookie", f"{SESSION_COOKIE}={token}".encode())]
    asyncio.run(desk.app(scope, receive, send))
    assert (sent, desk.changed) == ([], [])


@pytest.mark.parametrize(
    ("given_path", "path"),
    [
        ("/", "/"),
        ("/letter/a%40b%231?part=email", "/letter/a%40b%231?part=email"),
        ("", "/"),
        ("//evil.example", "/"),
        ("///evil.example", "/"),
        ("/\\evil.example", "/"),
        ("\\\\evil.example", "/"),
        ("/a\\..\\b", "/"),
        ("https://evil.example", "/"),
        ("https:evil.example", "/"),
        ("javascript:alert(1)", "/"),
        ("/\t/evil.example", "/"),
        ("/\n/evil.example", "/"),
        (" //evil.example", "/"),
        ("/a\r\nSet-Cookie: x", "/"),
        ("/\n", "/"),
        ("season", "/"),
        ("/sign-in?next=/", "/"),
        ("/" + "x" * 2000, "/"),
    ],
)
def test_next_is_a_page_of_this_desk(given_path, path):
    """Anything that a browser could take for another site leads to the first page."""
    assert local_path(given_path) == path


PIECES = st.lists(st.sampled_from(["/", "\\", "\t", "\n", "\r", " ", "evil.example", "https:", "@", "%2F", ".", "#"]))


@given(st.one_of(st.text(), PIECES.map("".join), st.text().map("/{}".format)))
def test_next_never_leads_elsewhere(wanted):
    """As a browser reads it: without tabs and line ends, with backslashes taken for slashes."""
    path = local_path(wanted)
    read = path.strip().translate({9: None, 10: None, 13: None, 92: "/"})
    assert urljoin(f"{DESK}/sign-in", read).startswith(f"{DESK}/")
    assert urlsplit(read)[:2] == ("", "")
    assert path in (wanted, "/")
