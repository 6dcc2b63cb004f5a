"""Hardiness zones: the whole ladder of half zones, and the mean of a list of winters."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from answers.calculators.catalogue import run
from kb.errors import RangeError

LADDER = [f"{n}{half}" for n in range(1, 14) for half in "ab"]


@pytest.mark.parametrize(("step", "zone"), list(enumerate(LADDER)))
@pytest.mark.parametrize("above", [0.0, 2.5, 4.98])
def test_every_half_zone_is_five_degrees(step, zone, above):
    """From 1a at -60 F to 13b below 70 F, the lower edge in the zone and the upper in the next."""
    figure = run("hardiness_zone", {"mean_minimum_f": -60 + 5 * step + above})
    assert figure.value == zone
    assert figure.also["low_f"] == -60 + 5 * step


@given(low=st.floats(-60, 69.9), more=st.floats(0, 20))
def test_a_milder_winter_is_never_a_lower_zone(low, more):
    """The ladder only climbs."""
    colder, milder = (run("hardiness_zone", {"mean_minimum_f": min(69.9, t)}).value for t in (low, low + more))
    assert LADDER.index(colder) <= LADDER.index(milder)


@given(minima=st.lists(st.integers(-55, 60), min_size=3, max_size=40))
def test_winters_give_the_zone_of_their_mean(minima):
    """The same as the other calculator on the mean, with a caution under thirty winters."""
    figure = run("hardiness_from_winters", {"minima": " ".join(map(str, minima))})
    mean = sum(minima) / len(minima)
    assert figure.value == run("hardiness_zone", {"mean_minimum_f": mean}).value
    assert (len(figure.cautions) == 2) == (len(minima) < 30)


@pytest.mark.parametrize("minima", ["", "-10 -5", "-10 cold -5", "-90 -90 -90", "-10 inf 3"])
def test_a_bad_list_of_winters_is_refused(minima):
    """Too few, unreadable, or colder than any zone."""
    with pytest.raises(RangeError, match="minima"):
        run("hardiness_from_winters", {"minima": minima})
