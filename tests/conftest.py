"""What many tests of the desk begin with: one engine, and a store with five letters that ask the same thing."""

import socket
import threading
import time
from contextlib import closing, contextmanager
from datetime import UTC, date, datetime

import pytest
from hypothesis import settings

from answers.answering import load_engine
from answers.drafting import draft_waiting
from answers.letters.letter import Letter, Writer
from answers.letters.split import questions
from answers.store import Store

settings.register_profile("trug", deadline=None)  # a first import may take its time; speed is tests/bench's matter
settings.load_profile("trug")
TODAY = date(2026, 5, 20)
NOW = datetime(2026, 5, 20, 14, 0, tzinfo=UTC)
PLACE = "larkspur-county"
LIME = (
    ("Ann", "My soil test says pH 5.4 and the lawn is 40 x 60 feet, loam. How much lime do I need?"),
    ("Bert", "how much lime for a lawn of 5000 sq ft, soil test came back ph 5.6"),
    ("Cleo", "Soil test 5.2, lawn about a quarter acre, clay soil. How many pounds of lime?"),
    ("Dov", "How much lime should I spread? My lawn is 30 by 50 and the test said pH 5.8."),
    ("Edda", "Lawn pH is 5.5 according to the county lab. 8,000 square feet. how much lime and when"),
)


@pytest.fixture(scope="session")
def engine():
    """One engine for all; it is never changed."""
    return load_engine()


def _take_in(store, engine, letters):
    """Letters of (first name, text) into a store, drafted; the ids of their first questions."""
    ids = []
    for number, (name, text) in enumerate(letters, start=1):
        writer = Writer(first_name=name, full_name=f"{name} Quillfeather", email=f"{name.lower()}@example.org")
        id_, print_ = f"{name.lower()}-{number}", f"{name}{number}"
        letter = Letter(id_, TODAY, "", text, writer, fingerprint=print_, private=("Quillfeather",))
        assert store.add(letter, questions(letter))
        ids.append(f"{id_}#1")
    draft_waiting(store, engine, TODAY, None, lambda waiting: waiting)
    return ids


@pytest.fixture(scope="session")
def take_in():
    """`take_in(store, engine, [(first name, text)])` puts letters into a store and drafts them."""
    return _take_in


@pytest.fixture(scope="session")
def lime():
    """The (first name, text) of five letters that ask the same thing with different numbers."""
    return LIME


@pytest.fixture
def lime_store(tmp_path, engine):
    """A store at the demonstration's county with the five letters about lime."""
    with Store(tmp_path / "desk.db") as store:
        store.set("place", PLACE)
        _take_in(store, engine, LIME)
        yield store


@contextmanager
def _served(path, engine, alone):
    """The desk on a free port; its address."""
    import uvicorn

    from answers.desk.app import make_app
    from answers.desk.desk import Desk
    from answers.desk.sign_in import loopback_hosts

    with closing(socket.socket()) as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    desk = Desk(path, engine, lambda: NOW, lambda: TODAY)
    app = make_app(desk, loopback_hosts(port), alone)
    server = uvicorn.Server(uvicorn.Config(app, host="127.0.0.1", port=port, log_level="warning"))
    thread = threading.Thread(target=server.run, daemon=True)
    thread.start()
    until = time.monotonic() + 20
    while not server.started and time.monotonic() < until:
        time.sleep(0.02)
    assert server.started, "the desk did not start"
    yield f"http://127.0.0.1:{port}"
    server.should_exit = True
    thread.join(10)


@pytest.fixture(scope="session")
def served():
    """`with served(path, engine, alone) as address` serves a store; `alone` "" asks people to sign in."""
    return _served
