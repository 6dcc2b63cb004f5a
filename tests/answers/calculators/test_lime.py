"""Lime and sulfur: the tables at every printed row, the corrections, the splits and the refusals."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from answers.calculators.catalogue import run
from answers.calculators.soil_tables import soil_table
from kb.errors import RangeError

SIKORA = soil_table("lime_buffer")
ACRE = {"area_sqft": 43560, "soil_ph": 4.6}
METHODS = [
    {"buffer_method": "sikora", "buffer_ph": 5.7, "target_ph": 6.4},
    {"buffer_method": "smp", "buffer_ph": 6.4, "target_ph": 6.4},
    {"buffer_method": "mehlich", "buffer_ph": 6.0, "target_ph": 6.4},
    {"buffer_method": "adams-evans", "buffer_ph": 7.6, "target_ph": 6.4},
    {"acidity_meq": 9, "target_ph": 6.4},
    {"target_ph": 6.4},
]
LOWER = {"sikora": 5.2, "smp": 6.1, "mehlich": 5.5, "adams-evans": 7.3}


@pytest.mark.parametrize("row", range(len(SIKORA["buffer_ph"])))
@pytest.mark.parametrize("column", range(len(SIKORA["target_ph"])))
def test_each_cell_of_the_printed_table_comes_back(row, column):
    """At a printed buffer and target pH there is nothing to interpolate."""
    given_ph = {"buffer_ph": SIKORA["buffer_ph"][row], "target_ph": SIKORA["target_ph"][column]}
    assert run("lime_requirement", ACRE | given_ph).value == pytest.approx(2000 * SIKORA["tons"][row][column])


@pytest.mark.parametrize("table", ["lime_buffer", "lime_acidity"])
def test_a_copied_table_runs_one_way(table):
    """More acidity or a higher target never needs less lime: a slip in copying the table would show here."""
    rows = soil_table(table)["tons" if table == "lime_buffer" else "lb"]
    ordered = rows[::-1] if table == "lime_buffer" else rows
    assert all(x <= y for row in rows for x, y in pairwise(row))
    assert all(x <= y for low, high in pairwise(ordered) for x, y in zip(low, high, strict=True))
    assert len(rows) == len(soil_table(table)["buffer_ph" if table == "lime_buffer" else "acidity"])


@pytest.mark.parametrize("method", METHODS)
def test_a_higher_target_needs_more_and_the_working_shows_it(method):
    """Every method rises with the target, and its steps end in the total."""
    low, high = run("lime_requirement", ACRE | method | {"target_ph": 6.0}), run("lime_requirement", ACRE | method)
    assert 0 < low.value < high.value
    assert any(f"{round(high.value):,} lb" in step.words for step in high.steps)


@pytest.mark.parametrize("method", METHODS[:4])
def test_a_lower_buffer_ph_needs_more(method):
    """A lower buffer pH is more acidity, by every test."""
    lower = method | {"buffer_ph": LOWER[method["buffer_method"]]}
    assert run("lime_requirement", ACRE | lower).value > run("lime_requirement", ACRE | method).value


@pytest.mark.parametrize("method", METHODS)
@given(cce=st.floats(40, 180), share=st.floats(0.2, 2))
def test_quality_and_depth_scale_the_amount(method, cce, share):
    """Half the neutralizing value needs twice the lime; twice the depth needs twice the lime."""
    plain = run("lime_requirement", ACRE | method)
    weak = run("lime_requirement", ACRE | method | {"cce_percent": cce})
    assert weak.value * cce / 100 == pytest.approx(plain.value)
    depth = min(12.0, max(1.0, plain.inputs["depth_in"] * share))
    deep = run("lime_requirement", ACRE | method | {"depth_in": depth})
    assert deep.value == pytest.approx(plain.value * depth / plain.inputs["depth_in"])


@given(sizes=st.lists(st.floats(20, 100), min_size=3, max_size=3))
def test_coarser_lime_never_does_more(sizes):
    """The effective value lies between 40 percent of what passes 20 mesh and all of it."""
    p20, p60, p100 = sorted(sizes, reverse=True)
    asked = ACRE | {"pass_20_percent": p20, "pass_60_percent": p60, "pass_100_percent": p100}
    assert 0.4 * p20 - 1e-9 <= run("lime_requirement", asked).also["effective_percent"] <= p20 + 1e-9


@given(area=st.floats(100, 100_000), ph=st.floats(4.5, 6.4), most=st.floats(10, 100))
def test_turf_is_never_given_more_than_it_bears(area, ph, most):
    """Each portion keeps the limit, the portions make up the whole, and one fewer would break it."""
    asked = {"area_sqft": area, "soil_ph": ph, "established_turf": "yes", "most_lb_per_1000sqft": most}
    figure = run("lime_requirement", asked)
    count, rate = figure.also["applications"], figure.also["lb_per_1000sqft"]
    assert rate / count <= most * (1 + 1e-6)
    assert count == 1 or rate / (count - 1) > most * (1 - 1e-6)
    assert figure.also["lb_per_application"] * count == pytest.approx(figure.value)


@pytest.mark.parametrize(
    ("asked", "field"),
    [
        ({"soil_ph": 6.5}, "soil_ph"),
        ({"soil_ph": 5.5, "buffer_ph": 7.2}, "buffer_ph"),
        ({"soil_ph": 5.5, "buffer_ph": 6.2, "buffer_method": "adams-evans"}, "buffer_ph"),
        ({"soil_ph": 5.5, "buffer_ph": 6.2, "buffer_method": "litmus"}, "buffer_method"),
        ({"soil_ph": 5.5, "pass_20_percent": 60, "pass_60_percent": 70}, "pass_60_percent"),
        ({"soil_ph": 5.5, "pass_60_percent": 60, "pass_100_percent": 70}, "pass_100_percent"),
        ({"soil_ph": 5.5, "target_ph": 7.0}, "target_ph"),
        ({"soil_ph": 5.5, "depth_in": 0.2}, "depth_in"),
        ({"soil_ph": 5.5, "acidity_meq": 40}, "acidity_meq"),
    ],
)
def test_what_no_method_is_good_for_is_refused(asked, field):
    """The error names the field at fault."""
    with pytest.raises(RangeError) as error:
        run("lime_requirement", {"area_sqft": 1000, **asked})
    assert error.value.field == field


@given(drop=st.floats(0.1, 2.5), depth=st.floats(1, 12))
def test_sulfur_is_linear_in_drop_and_depth(drop, depth):
    """Two pounds a unit on loam at six inches, and in proportion."""
    asked = {"area_sqft": 100, "soil_ph": 7.0, "target_ph": 7.0 - drop, "depth_in": depth}
    assert run("sulfur_requirement", asked).value == pytest.approx(2 * drop * depth / 6)


def test_a_sulfate_nobody_listed_is_refused():
    """Magnesium sulfate does not lower pH, and there is no factor for it."""
    with pytest.raises(RangeError, match="material"):
        run("sulfate_for_sulfur", {"sulfur_lb": 1, "material": "magnesium sulfate"})
