"""Fertigation: ppm and ounces are one another's inverse, and the injector multiplies by its ratio."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from answers.calculators.fertigation import (
    fertilizer_for_ppm,
    injector_check,
    injector_concentrate,
    ppm_delivered,
)
from kb.errors import RangeError

PPM, SHARE = st.floats(5, 400), st.floats(5, 60)


@given(ppm=PPM, share=SHARE, water=st.floats(1, 1000))
def test_ounces_and_ppm_are_a_round_trip(ppm, share, water):
    """Dissolving what the figure says gives the strength asked for."""
    ounces = fertilizer_for_ppm(ppm=ppm, analysis_percent=share, water_gal=water).value
    assert ppm_delivered(fertilizer_oz=ounces, analysis_percent=share, water_gal=water).value == pytest.approx(ppm)


@given(share=SHARE, liters=st.floats(10, 1000))
def test_ppm_is_milligrams_a_liter(share, liters):
    """In metric: grams x 1000 x share / liters, derived by hand."""
    figure = fertilizer_for_ppm(ppm=100, analysis_percent=share, water_gal=liters / 3.785411784)
    assert figure.also["grams"] == pytest.approx(100 * liters / 1000 / (share / 100))


@given(ppm=st.floats(5, 200), share=st.floats(15, 60), ratio=st.floats(10, 150), gal=st.floats(0.2, 50))
def test_the_concentrate_holds_what_the_water_delivered_needs(ppm, share, ratio, gal):
    """The stock tank holds the fertilizer for all the water it is drawn into."""
    stock = injector_concentrate(ppm=ppm, analysis_percent=share, injector_ratio=ratio, concentrate_gal=gal)
    assert stock.value == pytest.approx(
        fertilizer_for_ppm(ppm=ppm, analysis_percent=share, water_gal=gal * ratio).value
    )


def test_a_concentrate_that_cannot_dissolve_is_refused():
    """1,000 ppm through 1:1000 from a 5 percent fertilizer would take 167 lb in a gallon."""
    with pytest.raises(RangeError, match="dissolve"):
        injector_concentrate(ppm=1000, analysis_percent=5, injector_ratio=1000)


@given(used=st.floats(1, 100), ratio=st.floats(10, 500))
def test_an_injector_check_finds_its_ratio(used, ratio):
    """What came out over what was drawn, whatever the sizes."""
    found = injector_check(concentrate_used_floz=used, delivered_gal=max(0.1, used * ratio / 128))
    assert found.value == pytest.approx(max(0.1, used * ratio / 128) * 128 / used)
    assert found.also["percent"] * found.value == pytest.approx(100)
