"""`trug desk`: serve the desk as a local web page.

Not here: the page itself (answers/desk), the commands that do the same (desk.py, steps.py).
"""

from __future__ import annotations

import ipaddress
from datetime import date
from pathlib import Path

import typer

from answers.cli.desk import progress, who
from answers.cli.one_shot import day, place_named
from answers.ledger import utc_now
from answers.store import Store
from kb.errors import RangeError, StepError

PORTS = (1024, 65535)


def serve(path: Path, host: str, port: int, sign_in: bool, names: list[str], by: str, today: str, place: str) -> None:
    """Serve until it is stopped. Elsewhere than on the loopback address, or under a name, people must sign in."""
    import uvicorn

    from answers.answering import load_engine
    from answers.desk.app import make_app
    from answers.desk.desk import Desk
    from answers.desk.people import People
    from answers.desk.sign_in import loopback_hosts
    from answers.drafting import draft_waiting

    if not PORTS[0] <= port <= PORTS[1]:
        raise RangeError("--port", port, f"{PORTS[0]} to {PORTS[1]}")
    signs_in = sign_in or bool(names) or not _is_loopback(host)  # a name is for others: a proxy stands before it
    fixed = day(today) if today else None
    engine = load_engine()
    with Store(path) as store:
        if signs_in and not any(p.role == "keeper" for p in People(store).all()):
            raise StepError("nobody could sign in; first `trug people add NAME --role keeper`")
        if place:
            place_named(place, engine.knowledge)
            store.set("place", place)
        on = fixed or date.today()
        made = draft_waiting(store, engine, on, None, lambda waiting: progress(waiting, "Drafts"))
    desk = Desk(path, engine, utc_now, lambda: fixed or date.today())
    everywhere = host in ("0.0.0.0", "::")
    called = [f"[{host}]" if ":" in host else host] if not everywhere else []
    hosts = {
        *loopback_hosts(port),
        *names,
        *(f"{name}:{port}" for name in (*names, *called)),
    }  # a proxy leaves ports out
    app = make_app(desk, hosts, alone="" if signs_in else who(by))
    typer.echo(f"{made} questions drafted." if made else "Nothing new to draft.")
    typer.echo(f"The desk is at http://{called[0] if called else '127.0.0.1'}:{port}/ (Ctrl+C stops it).")
    uvicorn.run(app, host=host, port=port, log_level="warning", server_header=False)


def _is_loopback(host: str) -> bool:
    try:
        return ipaddress.ip_address(host).is_loopback
    except ValueError:
        return host == "localhost"
