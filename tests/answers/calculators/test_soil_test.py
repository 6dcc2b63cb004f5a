"""Several products for one recommendation, portions under a limit, and liquids by density."""

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from answers.calculators.catalogue import run
from kb.errors import RangeError

RATE = st.floats(0, 10).map(lambda x: round(x, 2))
GRADE = st.tuples(st.integers(0, 40), st.integers(0, 40), st.integers(0, 35)).filter(any)


def asked(products, want, area=1000):
    names = ("n_lb_per_1000sqft", "p2o5_lb_per_1000sqft", "k2o_lb_per_1000sqft")
    return {"area_sqft": area, "products": products, **dict(zip(names, want, strict=True))}


@given(n=RATE, p=RATE, k=RATE)
def test_three_straight_products_meet_it_exactly(n, p, k):
    """Urea, a phosphate and a potash leave nothing to spare."""
    assume(n + p + k > 0)
    figure = run("products_for_soil_test", asked("46-0-0 0-46-0 0-0-60", (n, p, k)))
    assert figure.value == pytest.approx(n / 0.46 + p / 0.46 + k / 0.6)
    assert figure.also["n_spare_lb"] + figure.also["p2o5_spare_lb"] + figure.also["k2o_spare_lb"] < 1e-6


@settings(deadline=None)  # the first call loads the solver
@given(grades=st.lists(GRADE, min_size=1, max_size=4, unique=True), want=st.tuples(RATE, RATE, RATE))
def test_no_nutrient_is_ever_short_and_none_is_wasted_that_need_not_be(grades, want):
    """Every need is met, and no blend of the same products found by linear programming has less to spare."""
    assume(sum(want) > 0.1)
    assume(all(w == 0 or any(g[i] for g in grades) for i, w in enumerate(want)))
    figure = run("products_for_soil_test", asked(" ".join("-".join(map(str, g)) for g in grades), want))
    amounts = [figure.also[f"lb_of_{'-'.join(map(str, g))}"] for g in grades]
    got = [sum(a * g[i] / 100 for a, g in zip(amounts, grades, strict=True)) for i in range(3)]
    assert min(amounts) >= 0
    assert all(g >= w - 1e-4 for g, w in zip(got, want, strict=True))
    from scipy import optimize

    matrix = [[-g[i] / 100 for g in grades] for i in range(3)]
    best = optimize.linprog([sum(g) / 100 for g in grades], A_ub=matrix, b_ub=[-w for w in want])
    assert sum(got) == pytest.approx(best.fun, abs=1e-3)


@pytest.mark.parametrize(
    ("products", "want", "field"),
    [
        ("46-0-0", (1, 1, 0), "products"),
        ("urea", (1, 0, 0), "products"),
        ("0-0-0", (1, 0, 0), "products"),
        ("1-0-0 2-0-0 3-0-0 4-0-0 5-0-0", (1, 0, 0), "products"),
        ("46-0-0", (0, 0, 0), "n_lb_per_1000sqft"),
    ],
)
def test_what_the_products_cannot_do_is_refused(products, want, field):
    """The error names the field at fault."""
    with pytest.raises(RangeError) as error:
        run("products_for_soil_test", asked(products, want))
    assert error.value.field == field


def test_phosphate_to_spare_is_warned_of():
    """A complete fertilizer for nitrogen alone carries phosphate nobody asked for."""
    assert any("phosphate" in c for c in run("products_for_soil_test", asked("10-10-10", (1, 0, 0))).cautions)


@given(season=st.floats(0.05, 10), limit=st.floats(0.1, 3), n=st.floats(1, 100))
def test_portions_keep_the_limit_and_make_the_season(season, limit, n):
    """No portion is over the limit and one portion fewer would be."""
    figure = run(
        "split_applications",
        {"area_sqft": 1000, "season_lb_n_per_1000sqft": season, "n_percent": n, "limit_lb_n_per_1000sqft": limit},
    )
    assert season / figure.value <= limit * (1 + 1e-6)
    assert figure.value == 1 or season / (figure.value - 1) > limit * (1 - 1e-6)
    assert figure.also["lb_product"] * n / 100 == pytest.approx(season)


@given(ounces=st.floats(0.1, 400), density=st.floats(7, 16), n=st.floats(0.1, 60))
def test_a_liquid_measured_back_is_the_amount_poured(ounces, density, n):
    """Nitrogen times fluid ounces a pound of nitrogen gives the fluid ounces again."""
    figure = run(
        "liquid_fertilizer",
        {"area_sqft": 1000, "floz_per_1000sqft": ounces, "density_lb_per_gal": density, "n_percent": n},
    )
    assert figure.value * figure.also["floz_per_lb_n"] == pytest.approx(ounces)
