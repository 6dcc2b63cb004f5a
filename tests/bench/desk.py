"""How fast the desk answers with 50,000 letters in the store: `python tests/bench/desk.py [letters]`.

Server time of the opening page and of worksheets, set beside an empty page of the same framework behind the same guard
in the same run. Nothing here passes or fails; it prints what it saw. Not here: tests.
"""

from __future__ import annotations

import asyncio
import json
import statistics
import sys
import tempfile
import time
from collections.abc import Callable
from datetime import UTC, date, datetime, timedelta
from itertools import count
from pathlib import Path
from urllib.parse import quote

import httpx
from starlette.applications import Starlette
from starlette.responses import HTMLResponse
from starlette.routing import Route

from answers.answering import Engine, load_engine
from answers.desk.app import make_app
from answers.desk.desk import Desk
from answers.desk.people import People
from answers.desk.sign_in import Guard
from answers.letters.letter import Question, Writer
from answers.sheaves import sheaf_of
from answers.store import Store

TODAY, NOW = date(2026, 5, 20), datetime(2026, 5, 20, 14, tzinfo=UTC)
TIMES = 60
ASKS = 6  # how often a sheaf's page asks what day it is, at most


def fill(path: Path, engine: Engine, letters: int) -> None:
    """A store of that many letters: the rules' own examples, drafted once each and kept under many ids."""
    texts = [text for rule in engine.knowledge.rules.values() for text in rule.letters]
    place = engine.knowledge.places["larkspur-county"]
    drafted = []
    for text in texts:
        worked = engine.answer(Question("x", 1, text, TODAY, Writer(first_name="Ann")), TODAY, place).kept()
        drafted.append((text, json.dumps(worked), sheaf_of(worked).key, worked["urgency"], worked["draft"]))
    writer = json.dumps(Writer(first_name="Ann", town="Elmford").__dict__)
    with Store(path) as store:
        store.set("place", place.id)
        chosen = [(i, *drafted[i % len(drafted)]) for i in range(letters)]
        plain = {
            "subject": "",
            "body": "",
            "source": "",
            "sort": "letter",
            "follows": "",
            "private": "[]",
            "notes": "[]",
        }

        def work() -> None:
            store.db.table("letters").insert_all(
                {"id": f"l{i}", "sent": f"2026-0{1 + i % 5}-1{i % 9}", "writer": writer, "fingerprint": str(i), **plain}
                for i, *_ in chosen
            )
            store.db.table("questions").insert_all(
                {"id": f"l{i}#1", "letter_id": f"l{i}", "part": 1, "text": text, "has_photo": 0}
                for i, text, *_ in chosen
            )
            store.db.table("answers").insert_all(
                {
                    "question_id": f"l{i}#1",
                    "worked": worked,
                    "sheaf": sheaf,
                    "urgency": urgency,
                    **draft,
                    "state": "cleared" if i % 10 == 9 else "drafted",
                    "drafted_on": TODAY.isoformat(),
                }
                for i, _, worked, sheaf, urgency, draft in chosen
            )

        store.write(work)


async def measured(client: httpx.AsyncClient, paths: list[str]) -> tuple[float, float]:
    """Median and 95th percentile of the milliseconds that the server takes, over TIMES requests."""
    taken = []
    for i in range(TIMES + 3):
        start = time.perf_counter()
        answer = await client.get(paths[i % len(paths)])
        if i >= 3:
            taken.append(1000 * (time.perf_counter() - start))
        assert answer.status_code == 200, answer.text[:300]
    return statistics.median(taken), statistics.quantiles(taken, n=20)[18]


def _another_day() -> Callable[[], date]:
    """A clock by which each page is asked for on a day of its own, so that every draft on it is an old one."""
    days = count()
    return lambda: TODAY + timedelta(days=1 + next(days) // ASKS)


async def run(path: Path, engine: Engine, letters: int) -> None:
    """Print a line for each sort of page."""

    async def empty(request: object) -> HTMLResponse:
        return HTMLResponse("<!doctype html><title>x</title>")

    desk = Desk(path, engine, lambda: NOW, lambda: TODAY)
    bare = Guard(Starlette(routes=[Route("/", empty)]), lambda: People(desk.store), desk.now, {"desk"}, "Ida")
    busiest = desk.store.ask(
        "select sheaf, count(*) n from answers where sheaf like 'rule:%' group by 1 order by 2 desc limit 5"
    )
    pages = {
        "an empty page": (bare, ["/"]),
        "the opening page": (make_app(desk, {"desk"}, "Ida"), ["/"]),
        "a sheaf's worksheet": (make_app(desk, {"desk"}, "Ida"), [f"/sheaf/{quote(r['sheaf'])}" for r in busiest]),
        "a sheaf, drafts of yesterday": (
            make_app(Desk(path, engine, lambda: NOW, _another_day()), {"desk"}, "Ida"),
            [f"/sheaf/{quote(r['sheaf'])}" for r in busiest],
        ),
        "a letter's worksheet": (
            make_app(desk, {"desk"}, "Ida"),
            [f"/letter/{quote(f'l{i}#1', safe='')}" for i in range(0, letters, max(1, letters // 50))],
        ),
        "finding a letter": (make_app(desk, {"desk"}, "Ida"), ["/find?words=quarter+acre"]),
    }
    base = 0.0
    for name, (app, paths) in pages.items():
        transport = httpx.ASGITransport(app=app, client=("127.0.0.1", 5000))
        async with httpx.AsyncClient(transport=transport, base_url="http://desk") as client:
            median, high = await measured(client, paths)
        base = base or high
        print(
            f"{name:22} median {median:6.1f} ms, 95th percentile {high:6.1f} ms, {high / base:5.1f} of the empty page's"
        )


def main() -> None:
    """Fill a store and measure."""
    letters = int(sys.argv[1]) if len(sys.argv) > 1 else 50_000
    engine = load_engine()
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "trug.db"
        start = time.perf_counter()
        fill(path, engine, letters)
        size = path.stat().st_size / 1e6
        print(f"{letters:,} letters, {size:,.0f} MB, filled in {time.perf_counter() - start:.0f} s")
        asyncio.run(run(path, engine, letters))


if __name__ == "__main__":
    main()
