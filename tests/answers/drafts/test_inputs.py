"""Rules' calculations run on readings, and every number they assume is said aloud."""

import pytest

from answers.calculators.catalogue import run
from answers.calculators.figure import Figure
from answers.drafts.inputs import in_metric, work
from kb.load import load

KNOWLEDGE = load()
WITH_FIGURES = [rule for rule in KNOWLEDGE.rules.values() if rule.figures]
AMOUNTS = {
    "area_sqft": 2400.0,
    "length_ft": 60.0,
    "crown_spread_ft": 40.0,
    "trunk_diameter_in": 12.0,
    "soil_ph": 5.6,
    "n_percent": 10.0,
    "spacing_in": 12.0,
    "slope_percent": 30.0,
    "depth_in": 3.0,
    "label_rate": 2.0,
    "label_rate_unit": "tbsp/gal",
    "tank_gal": 2.0,
}
PLACE = KNOWLEDGE.places["larkspur-county"]


@pytest.mark.parametrize("rule", WITH_FIGURES, ids=lambda r: r.id)
def test_every_figure_of_a_rule_works_and_can_be_said(rule):
    """With all measurements given, each calculation runs, and its sentence is filled without a gap."""
    amounts = {**AMOUNTS, "soil_ph": 7.2} if "sulfur" in {f.id for f in rule.figures} else AMOUNTS
    inputs = work(rule, amounts, None, PLACE, run)
    assert inputs.refused == ()
    assert [w.calculation.id for w in inputs.worked] == [f.id for f in rule.figures]
    assert all("{" not in w.sentence for w in inputs.worked)


@pytest.mark.parametrize("rule", WITH_FIGURES, ids=lambda r: r.id)
def test_without_measurements_every_assumption_is_said(rule):
    """What the letter leaves out is either a stated default or the figure is not run at all."""
    inputs = work(rule, {}, None, PLACE, run)
    assert inputs.refused == ()
    for worked in inputs.worked:
        defaults = [i for i in worked.calculation.inputs.values() if i.default is not None and i.reading]
        assert len(worked.assumed) >= min(1, len(defaults))


def test_a_refused_number_is_said_and_not_clamped():
    """A pH no formula is good for gives a reason instead of a figure."""
    rule = KNOWLEDGE.rules["lime-for-acid-soil"]
    inputs = work(rule, {"soil_ph": 9.9, "area_sqft": 100.0}, None, PLACE, run)
    assert inputs.worked == ()
    assert "soil_ph" in inputs.refused[0]


@pytest.mark.parametrize(
    ("unit", "value", "words"),
    [
        ("lb", 10.0, " That is about 4.54 kilograms."),
        ("gal", 100.0, " That is about 379 liters."),
        ("cu yd", 2.0, " That is about 1.53 cubic meters."),
        ("sq ft", 1000.0, " That is about 92.9 square meters."),
        ("plants", 12.0, ""),
        ("lb per 1,000 sq ft", 1.0, ""),
        ("date", "2026-05-01", ""),
    ],
)
def test_figures_in_metric_units(unit, value, words):
    """Abroad an amount is said once more in metric units (NIST SP 811 factors); counts and dates are not."""
    figure = Figure("x", "x", value, unit)
    assert in_metric(figure) == words
