"""Nothing of the desk is reached, and nothing changed, but by the person at it."""

import asyncio
from datetime import UTC, datetime, timedelta
from urllib.parse import urljoin, urlsplit

import pytest
from hypothesis import given
from hypothesis import strategies as st
from starlette.applications import Starlette

from answers.desk.sign_in import (
    HEADERS,
    SESSION_COOKIE,
    Guard,
    local_path,
)
from kb.errors import RangeError, StoreError

DESK = "http://localhost:8100"
NOW = datetime(2026, 5, 5, 9, 0, tzinfo=UTC)
PASSWORD = "a barrow of leaf mould"


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


def test_a_smaller_limit_can_be_set(tmp_path, guarded):
    """In bytes; one more is refused."""
    desk = guarded(tmp_path / "trug.db", most_bytes=100)
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
