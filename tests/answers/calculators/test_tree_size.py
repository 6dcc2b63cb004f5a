"""Tree feeding: the three methods share one amount, the points share it out, and limits hold."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from answers.calculators.catalogue import run
from kb.errors import RangeError

ZONE = {"root_zone_sqft": 707, "rate_lb_n_per_1000sqft": 2, "n_percent": 20}


@pytest.mark.parametrize("method", ["surface", "drill-hole", "injection"])
def test_every_method_gives_the_same_product(method):
    """How it goes in does not change how much goes in."""
    assert run("tree_fertilizer", ZONE | {"method": method}).value == pytest.approx(7.07)


@given(zone=st.floats(1, 100_000), spacing=st.floats(1, 4), flow=st.floats(0.2, 10), mix=st.floats(1, 100))
def test_holes_and_points_share_out_the_whole(zone, spacing, flow, mix):
    """Holes times the amount in each is the product; points times gallons is the mix; time times flow too."""
    given_ = ZONE | {"root_zone_sqft": zone, "hole_spacing_ft": spacing}
    drill = run("tree_fertilizer", given_ | {"method": "drill-hole"})
    assert drill.also["holes"] * drill.also["oz_per_hole"] / 16 == pytest.approx(drill.value)
    inject = run(
        "tree_fertilizer", given_ | {"method": "injection", "flow_gal_per_min": flow, "mix_lb_per_100gal": mix}
    )
    assert inject.also["points"] * inject.also["gal_per_point"] * mix / 100 == pytest.approx(inject.value)
    assert inject.also["seconds_per_point"] * flow / 60 == pytest.approx(inject.also["gal_per_point"])


@pytest.mark.parametrize(
    ("method", "word", "there"),
    [("surface", "buried", False), ("drill-hole", "buried", True), ("injection", "pressure", True)],
)
def test_the_cautions_fit_the_method(method, word, there):
    """Only what goes into the ground needs the lines marked, and only injection is under pressure."""
    figure = run("tree_fertilizer", ZONE | {"method": method})
    assert any(word in caution for caution in figure.cautions) is there
    assert ("pressure_psi" in figure.also) is (method == "injection")


def test_a_heavy_rate_is_warned_of():
    """The historic six pounds is above present advice."""
    assert any("present advice" in c for c in run("tree_fertilizer", ZONE | {"rate_lb_n_per_1000sqft": 6}).cautions)
    assert not any("present advice" in c for c in run("tree_fertilizer", ZONE).cautions)


@given(now=st.floats(0, 20), earlier=st.floats(0, 60))
def test_the_limits_are_never_passed(now, earlier):
    """What is left never lifts the year or the period over its limit, and is never negative."""
    figure = run(
        "tree_nitrogen_left",
        {
            "root_zone_sqft": 500,
            "given_this_year_lb_n_per_1000sqft": now,
            "given_earlier_lb_n_per_1000sqft": earlier,
        },
    )
    assert figure.value >= 0
    assert figure.value == 0 or (now + figure.value <= 4 + 1e-9 and now + earlier + figure.value <= 6 + 1e-9)
    assert figure.also["n_lb"] == pytest.approx(figure.value / 2)


@pytest.mark.parametrize(
    ("asked", "field"),
    [
        ({"method": "by moonlight"}, "method"),
        ({"hole_spacing_ft": 9}, "hole_spacing_ft"),
        ({"mix_lb_per_100gal": 0}, "mix_lb_per_100gal"),
        ({"rate_lb_n_per_1000sqft": 7}, "rate_lb_n_per_1000sqft"),
    ],
)
def test_what_the_trade_does_not_do_is_refused(asked, field):
    """The error names the field, even one the method does not use."""
    with pytest.raises(RangeError) as error:
        run("tree_fertilizer", ZONE | asked)
    assert error.value.field == field
