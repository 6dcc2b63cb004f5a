"""The rundown holds cleared cue cards in order, each with when it begins."""

from datetime import UTC, date, datetime
from itertools import pairwise

import pytest

from answers.ledger import Change, Ledger
from answers.rundown import clock, put_on, rearrange, rundown
from kb.errors import RangeError, StepError

NOW = datetime(2026, 5, 20, 14, 0, tzinfo=UTC)

DAY = date(2026, 5, 23)
IDS = ("ann-1#1", "bert-2#1", "cleo-3#1")


@pytest.fixture
def store(lime_store):
    Ledger(lime_store).step([Change(id_, {"state": "cleared"}) for id_ in IDS], "Ida", "cleared", NOW)
    for id_ in IDS:
        put_on(lime_store, DAY, id_)
    return lime_store


def order(store):
    return [card.row["question_id"] for card in rundown(store, DAY)]


def test_each_card_begins_where_the_last_one_ends(store):
    """Seconds add up."""
    cards = rundown(store, DAY)
    assert order(store) == list(IDS)
    assert cards[0].begins == 0
    assert [b.begins - a.begins for a, b in pairwise(cards)] == [c.seconds for c in cards[:-1]]
    assert all(card.seconds > 10 for card in cards)


@pytest.mark.parametrize(
    ("id_", "how", "after"),
    [
        (IDS[2], "up", [IDS[0], IDS[2], IDS[1]]),
        (IDS[0], "down", [IDS[1], IDS[0], IDS[2]]),
        (IDS[0], "up", list(IDS)),
        (IDS[2], "down", list(IDS)),
        (IDS[1], "off", [IDS[0], IDS[2]]),
    ],
)
def test_cards_are_moved_by_one_or_taken_off(store, id_, how, after):
    """At either end a card stays where it is."""
    rearrange(store, DAY, id_, how)
    assert order(store) == after


def test_only_a_cleared_answer_goes_on_and_only_once(store):
    """What nobody has cleared is never put on the air."""
    with pytest.raises(StepError, match="only a cleared answer"):
        put_on(store, DAY, "dov-4#1")
    with pytest.raises(StepError, match="already"):
        put_on(store, DAY, IDS[0])
    with pytest.raises(StepError, match="not on the rundown"):
        rearrange(store, DAY, "dov-4#1", "up")
    with pytest.raises(RangeError, match="how"):
        rearrange(store, DAY, IDS[0], "sideways")


@pytest.mark.parametrize(("whole", "words"), [(0, "0:00"), (65, "1:05"), (600, "10:00")])
def test_a_clock(whole, words):
    """Minutes and two digits of seconds."""
    assert clock(whole) == words


def test_a_card_that_is_not_cleared_any_more_is_not_aired(store):
    """It stands on the rundown without its words' time, and says so."""
    Ledger(store).edit(IDS[0], "cue_card", "Spread 9,000 pounds.", "Ida", NOW)
    first, second = rundown(store, DAY)[:2]
    assert (first.fit, first.seconds, second.fit, second.begins) == (False, 0, True, 0)
