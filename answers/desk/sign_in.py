"""What stands before every page: allowed hosts, sessions, forms that nobody else can forge, and security headers.

Not here: passwords, roles and sessions themselves (people.py), the sign-in page and what it does (app.py).
"""

from __future__ import annotations

import hmac
import ipaddress
import re
from collections.abc import Callable, Collection
from datetime import datetime
from html import escape
from typing import TYPE_CHECKING
from urllib.parse import quote

from starlette.concurrency import run_in_threadpool
from starlette.datastructures import MutableHeaders
from starlette.exceptions import HTTPException
from starlette.formparsers import MultiPartException
from starlette.requests import ClientDisconnect, Request
from starlette.responses import HTMLResponse, Response

from answers.desk.people import AT_MOST, People, Session, tidy_name
from kb.errors import StoreError

if TYPE_CHECKING:
    from starlette.types import ASGIApp, Message, Receive, Scope, Send

SESSION_COOKIE = "trug_session"
SIGN_IN, STATIC = "/sign-in", "/static/"  # open to everybody; STATIC to be read only
SAFE = ("GET", "HEAD")
MOST_BYTES = 2_000_000  # of a form
HEADERS = {
    "Content-Security-Policy": (
        "default-src 'none'; style-src 'self'; script-src 'self'; img-src 'self' data:; connect-src 'self'; "
        "form-action 'self'; frame-ancestors 'none'; base-uri 'none'"
    ),
    "X-Content-Type-Options": "nosniff",
    # Other sites are told nothing. Under no-referrer browsers would send "Origin: null" with our own forms.
    "Referrer-Policy": "same-origin",
    "Cross-Origin-Opener-Policy": "same-origin",
}
_UNCHANGED = "Nothing was changed."
_LOCAL = re.compile(r"/(?!/)[!-\[\]-~]*")  # printable ASCII without spaces and backslashes


def loopback_hosts(port: int) -> frozenset[str]:
    """What a browser on this computer calls a desk at `port`, 1 to 65535."""
    names = ("localhost", "127.0.0.1", "[::1]")
    return frozenset(f"{name}:{port}" for name in names) | frozenset(names if port == 80 else ())


def local_path(given: str) -> str:
    """`given` if it is a page of this desk, else "/": never another site, nor the sign-in page again."""
    fits = _LOCAL.fullmatch(given) and len(given) <= 2000 and not given.startswith(SIGN_IN)
    return given if fits else "/"


def came_from(request: Request) -> str:
    """Where failed tries are counted against: "address:192.0.2.7"."""
    return f"address:{request.client.host if request.client else 'unknown'}"


def give_cookie(response: Response, request: Request, token: str) -> None:
    """Let the browser keep a session's token."""
    response.set_cookie(
        SESSION_COOKIE,
        token,
        max_age=int(AT_MOST.total_seconds()),
        path="/",
        secure=request.url.scheme == "https",
        httponly=True,
        samesite="strict",
    )


def take_cookie(response: Response, request: Request) -> None:
    """Let the browser forget it."""
    response.delete_cookie(
        SESSION_COOKIE, path="/", secure=request.url.scheme == "https", httponly=True, samesite="strict"
    )


class Guard:
    """ASGI application around the desk's, outermost, so that nothing is reached or answered without it.

    A page finds its `Session` in `request.state.session`; only the sign-in page may find None there. Every method but
    GET and HEAD is refused unless its form brings the session's `csrf`. At the sign-in page, where no session is yet,
    the browser must name the desk itself as the origin instead.
    """

    def __init__(
        self,
        app: ASGIApp,
        people: Callable[[], People],
        now: Callable[[], datetime],
        hosts: Collection[str],
        alone: str = "",
        most_bytes: int = MOST_BYTES,
    ) -> None:
        """`people` is called in the thread that uses it. `hosts` are names with their ports, as browsers send them.

        `alone` names who works at a desk without sign-in, which answers this computer only.

        Raises: RangeError for a name that is not allowed.
        """
        self.app, self.people, self.now, self.most_bytes = app, people, now, most_bytes
        self.alone = alone and tidy_name(alone)
        self.hosts = frozenset(host.lower() for host in hosts)

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] == "lifespan":
            await self.app(scope, receive, send)
        elif scope["type"] == "http":
            outward = _with_headers(scope["path"], send)
            try:
                admitted = await self._admit(Request(scope, receive))
            except ClientDisconnect:
                return
            except HTTPException as refused:
                await _page(refused)(scope, receive, outward)
            else:
                await self.app(scope, admitted, outward)
        else:
            await send({"type": "websocket.close", "code": 1008})

    async def _admit(self, request: Request) -> Receive:
        """Where to read an admitted request's body. Raises: HTTPException saying why it is refused."""
        path, host = request.scope["path"], ",".join(request.headers.getlist("host")).lower()
        if host not in self.hosts:
            raise HTTPException(421, "This is not the desk's address. Open it at the address it printed at its start.")
        if self.alone and not _on_this_computer(request):
            raise HTTPException(403, "This desk answers its own computer only. Others can use it with sign-in.")
        if request.method in SAFE and path.startswith(STATIC):
            return request.receive
        try:
            session = await run_in_threadpool(self._session, request.cookies.get(SESSION_COOKIE, ""))
        except StoreError as fault:
            raise HTTPException(503, f"The store cannot be used just now ({fault}). {_UNCHANGED}") from fault
        request.state.session = session
        if request.method not in SAFE:
            return await self._admit_form(request, session, host)
        if not session and path != SIGN_IN:
            raise HTTPException(303, headers={"Location": _sign_in_first(request)})
        return request.receive

    def _session(self, token: str) -> Session | None:
        if self.alone:
            return self.people().alone(self.alone, self.now())
        return self.people().person_of(token, self.now()) if token else None

    async def _admit_form(self, request: Request, session: Session | None, host: str) -> Receive:
        origins, at_the_door = request.headers.getlist("origin"), request.scope["path"] == SIGN_IN
        if any(origin.partition("://")[2].lower() != host for origin in origins) or (at_the_door and not origins):
            raise HTTPException(403, f"This form came from another site. {_UNCHANGED}")
        if not session and not at_the_door:
            words = "To keep what you wrote, go back, copy it, and sign in."
            raise HTTPException(403, f"You are not signed in any more. {_UNCHANGED} {words}")
        body = bytearray()
        async for chunk in request.stream():
            body += chunk
            if len(body) > self.most_bytes:
                raise HTTPException(413, f"This form is too big: at most {self.most_bytes:,} bytes. {_UNCHANGED}")
        if session and not at_the_door and not await self._is_from(session, request, bytes(body)):
            words = "Go back, copy what you wrote, and load the page again."
            raise HTTPException(403, f"This form is not from your present session. {_UNCHANGED} {words}")
        return _read_again(bytes(body), request.receive)

    async def _is_from(self, session: Session, request: Request, body: bytes) -> bool:
        copy = Request(request.scope, _read_again(body, request.receive))
        try:
            async with copy.form(max_part_size=self.most_bytes) as form:
                csrf = form.get("csrf")
            return isinstance(csrf, str) and hmac.compare_digest(csrf.encode(), session.csrf.encode())
        except (MultiPartException, HTTPException, ValueError):
            raise HTTPException(400, f"This form cannot be read. {_UNCHANGED}") from None


def _read_again(body: bytes, receive: Receive) -> Receive:
    """A receive that gives the whole body, then whatever comes."""
    given = False

    async def again() -> Message:
        nonlocal given
        if given:
            return await receive()
        given = True
        return {"type": "http.request", "body": body, "more_body": False}

    return again


def _with_headers(path: str, send: Send) -> Send:
    """A send that puts the security headers on; only static files may be kept by the browser."""

    async def outward(message: Message) -> None:
        if message["type"] == "http.response.start":
            message.setdefault("headers", [])
            headers = MutableHeaders(scope=message)
            headers.update(HEADERS)
            if not path.startswith(STATIC) or message["status"] not in (200, 206, 304):
                headers["Cache-Control"] = "no-store"
        await send(message)

    return outward


def _on_this_computer(request: Request) -> bool:
    try:
        return request.client is not None and ipaddress.ip_address(request.client.host).is_loopback
    except ValueError:
        return False


def _sign_in_first(request: Request) -> str:
    path, query = quote(request.scope["path"]), request.scope["query_string"].decode("latin-1")
    wanted = local_path(f"{path}?{query}" if query else path)
    return f"{SIGN_IN}?next={quote(wanted, safe='')}"


def _page(refused: HTTPException) -> Response:
    page = (
        '<!doctype html><html lang="en"><head><meta charset="utf-8"><title>Refused · Trug</title></head><body><main>'
        f'<h1>Refused</h1><p role="alert">{escape(refused.detail)}</p><p><a href="/">To the desk</a></p></main></body>'
    )
    return HTMLResponse(page, refused.status_code, refused.headers)
