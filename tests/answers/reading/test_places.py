"""Places found in letters, and the station nearest to them.

Not here: the stations' climate numbers.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from answers.reading.places import miles_between, nearest
from kb.entries import Place


def _place(name: str, state: str, lat: float, lon: float) -> Place:
    return Place(name.lower(), name, state, lat, lon, "6a", 0, {}, {}, (50,) * 12, (40,) * 12, (3,) * 12)


PLACES = [_place("Lansing", "MI", 42.73, -84.55), _place("Minneapolis", "MN", 44.98, -93.27)]


@pytest.mark.parametrize(
    ("where", "name", "how"),
    [
        ({"town": "lansing"}, "Lansing", "named"),
        ({"zip_code": "48910"}, "Lansing", "48910"),
        ({"town": "Nosuchtown", "state": "MN"}, "Minneapolis", "middle of MN"),
    ],
)
def test_nearest(where: dict[str, str], name: str, how: str) -> None:
    """The nearest station is found by name, ZIP code or state, and says how."""
    found = nearest(PLACES, **where)
    assert found is not None
    assert found.place.name == name
    assert how in found.how


def test_abroad() -> None:
    """Outside the United States the station kept for the province or country is taken."""
    york = replace(_place("York", "England", 53.96, -1.08), country="GB")
    found = nearest([*PLACES, york], town="Whitby", state="England")
    assert found is not None
    assert (found.place.name, found.how) == ("York", "the station kept for England")


def test_nothing_known() -> None:
    """Without a place there is no match."""
    assert nearest(PLACES) is None


def test_a_quarter_of_the_globe() -> None:
    """From equator to pole is a quarter of a circle of mean radius 3958.8 miles."""
    assert miles_between(0, 0, 90, 0) == pytest.approx(6218.5, abs=1)


@pytest.mark.parametrize(
    ("where", "name"),
    [({"zip_code": "48910"}, "Lansing"), ({"state": "MI"}, "Lansing"), ({"town": "madeup"}, "Madeup")],
)
def test_an_invented_place_answers_only_to_its_name(where: dict[str, str], name: str) -> None:
    """A made-up place on the very spot of a ZIP code loses to a real one, unless the letter names it."""
    made_up = replace(_place("Madeup", "MI", 42.7, -84.56), invented=True)
    found = nearest([made_up, *PLACES], **where)
    assert found is not None
    assert found.place.name == name


def test_only_invented_places() -> None:
    """Where every place is made up, a ZIP code finds none."""
    assert nearest([replace(PLACES[0], invented=True)], zip_code="48910") is None
