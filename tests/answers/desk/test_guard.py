"""Nothing of the desk is reached, and nothing changed, by forged forms or under other names."""

import asyncio
import tempfile
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from answers.desk.sign_in import (
    loopback_hosts,
)

DESK = "http://localhost:8100"


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
def test_no_form_however_broken_gets_past_or_breaks_the_guard(guarded, body, charset):
    """Refused as unreadable or as forged, never a fault of ours."""
    with tempfile.TemporaryDirectory() as folder:
        desk = guarded(Path(folder) / "trug.db")
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
