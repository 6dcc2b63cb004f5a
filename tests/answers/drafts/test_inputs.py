"""Rules' calculations run on readings, and every number they assume is said aloud."""

from dataclasses import replace

import pytest

from answers.calculators.catalogue import run
from answers.calculators.figure import Figure
from answers.drafts.inputs import in_metric, work
from kb.entries import Input
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


@pytest.mark.parametrize(
    "rule", [r for r in WITH_FIGURES if any("texture" in f.inputs for f in r.figures)], ids=lambda r: r.id
)
@pytest.mark.parametrize("soil_ph", [5.0, 7.2])
def test_the_writers_own_soil_is_reckoned_with(rule, soil_ph):
    """Lime and sulfur for sand are a fraction of those for clay: a soil told in the letter is never taken as loam."""
    inputs = work(rule, {**AMOUNTS, "soil_ph": soil_ph, "texture": "sandy loam"}, None, PLACE, run)
    told = [w for w in inputs.worked if "texture" in w.calculation.inputs]
    assert all(w.figure.inputs["texture"] == "sandy loam" and "a loam" not in w.sentence for w in told)
    assert told or all("soil_ph" in line for line in inputs.refused)  # too sour for sulfur, too sweet for lime


def test_a_number_of_the_place():
    """A calculation may take a number of the writer's place; without a place the stated default is taken."""
    rule = KNOWLEDGE.rules["lime-for-acid-soil"]
    area = Input(place="elevation_ft", default=100, default_words="each 100 square feet")
    figure = replace(rule.figures[0], inputs={**rule.figures[0].inputs, "area_sqft": area})
    rule = replace(rule, figures=(figure,))
    (here,), (nowhere,) = (work(rule, {"soil_ph": 5.5}, None, p, run).worked for p in (PLACE, None))
    assert here.figure.inputs["area_sqft"] == PLACE.elevation_ft
    assert "each 100 square feet" in nowhere.assumed


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
