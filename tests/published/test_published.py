"""Every calculator against published worked examples (worked_examples.yaml beside this file names each source)."""

from pathlib import Path

import pytest
import yaml

from answers.calculators.catalogue import catalogue, run
from answers.calculators.units import convert

ROWS = {
    row["id"]: row
    for row in yaml.safe_load(Path(__file__).with_name("worked_examples.yaml").read_text("utf-8"))["entries"]
}

# (row, printed quantity, calculator, its inputs, "value" or one of its further results, factor to the printed unit)
CHECKS = [
    ("ratebag-20pctn-12000sqft", "product_total", "nutrient_product", {"area_sqft": 12000, "rate_lb_per_1000sqft": 1, "n_percent": 20}, "value", 1),
    ("ratebag-20pctn-12000sqft", "product_per_1000", "nutrient_product", {"area_sqft": 12000, "rate_lb_per_1000sqft": 1, "n_percent": 20}, "lb_per_1000sqft", 1),
    ("nenursery-10-10-10-vs-5-10-10", "product_a", "nutrient_product", {"area_sqft": 1000, "rate_lb_per_1000sqft": 2.5, "n_percent": 10}, "value", 1),
    ("nenursery-10-10-10-vs-5-10-10", "product_b", "nutrient_product", {"area_sqft": 1000, "rate_lb_per_1000sqft": 2.5, "n_percent": 5, "p_percent": 10}, "value", 1),
    ("nenursery-10-10-10-vs-5-10-10", "p2o5_from_b", "nutrient_product", {"area_sqft": 1000, "rate_lb_per_1000sqft": 2.5, "n_percent": 5, "p_percent": 10}, "p2o5_lb", 1),
    ("illinois-six-lbn-three-sources", "urea", "tree_fertilizer", {"root_zone_sqft": 1000, "rate_lb_n_per_1000sqft": 6, "n_percent": 45}, "value", 1),
    ("illinois-six-lbn-three-sources", "ammonium_nitrate", "tree_fertilizer", {"root_zone_sqft": 1000, "rate_lb_n_per_1000sqft": 6, "n_percent": 33.5}, "value", 1),
    ("illinois-six-lbn-three-sources", "ammonium_sulfate", "tree_fertilizer", {"root_zone_sqft": 1000, "rate_lb_n_per_1000sqft": 6, "n_percent": 21}, "value", 1),
    ("uky-root-area-twice-canopy-radius", "root_area", "tree_root_zone", {"crown_spread_ft": 30, "radius_multiple": 2}, "value", 1),
    ("vancouver-rpz-one-foot-per-inch", "area", "tree_root_zone", {"trunk_diameter_in": 24}, "value", 1),
    ("vancouver-rpz-one-foot-per-inch", "radius", "tree_root_zone", {"trunk_diameter_in": 24}, "radius_ft", 1),
    *(
        (f"limestone-table-to-6p5-ph{ph}", texture.replace(" ", "_"), "lime_requirement", {"area_sqft": 100, "soil_ph": value, "texture": texture}, "value", 1)
        for ph, value in (("4p5", 4.5), ("5p5", 5.5))
        for texture in ("sandy loam", "loam", "clay loam")
    ),
    *(
        (f"osu-sikora-buffer-6p{b}", f"to_{str(t).replace('.', 'p')}", "lime_requirement", {"area_sqft": 43560, "soil_ph": 5.0, "buffer_ph": 6 + b / 10, "target_ph": t}, "value", 1 / 2000)
        for b in (0, 5)
        for t in (5.6, 6.0, 6.4, 6.8, 7.2)
    ),
    ("ext-blueberry-sulfur-per-ph-unit", "sandy", "sulfur_requirement", {"area_sqft": 100, "soil_ph": 6, "target_ph": 5, "texture": "sandy loam"}, "value", 1),
    ("ext-blueberry-sulfur-per-ph-unit", "silt_clay_or_om_over_2pct", "sulfur_requirement", {"area_sqft": 100, "soil_ph": 6, "target_ph": 5, "texture": "clay loam"}, "value", 1),
    ("handsprayer-1p5gal-1000-3pt-acre", "product_per_gallon", "tank_mix", {"label_rate": 3, "label_rate_unit": "pt/acre", "tank_gal": 1, "gal_per_1000sqft": 1.5}, "value", 16),
    ("handsprayer-1p5gal-1000-3pt-acre", "tablespoons_per_gallon", "tank_mix", {"label_rate": 3, "label_rate_unit": "pt/acre", "tank_gal": 1, "gal_per_1000sqft": 1.5}, "tbsp", 1),
    ("nevg-1gal-per-100-small-batch", "per_1_gal", "tank_mix", {"label_rate": 1, "label_rate_unit": "percent", "tank_gal": 1}, "tbsp", 1),
    ("nevg-1gal-per-100-small-batch", "per_25_gal", "tank_mix", {"label_rate": 1, "label_rate_unit": "percent", "tank_gal": 25}, "value", 1 / 32),
    ("cut-stem-50pct-vv-one-quart", "product", "tank_mix", {"label_rate": 50, "label_rate_unit": "percent", "tank_gal": 0.25}, "value", 1),
    ("msu-average-60-35-base50-zero", "gdd", "degree_days", {"tmax_f": 60, "tmin_f": 35}, "value", 1),
    ("msu-average-65-40-base50", "gdd", "degree_days", {"tmax_f": 65, "tmin_f": 40}, "value", 1),
    ("osu-86-50-87-63", "gdd", "degree_days", {"tmax_f": 87, "tmin_f": 63, "cap_f": 86, "method": "modified"}, "value", 1),
    ("mrcc-86-50-92-68", "gdd", "degree_days", {"tmax_f": 92, "tmin_f": 68, "cap_f": 86, "method": "modified"}, "value", 1),
    ("csu-winter-12in-trunk-120gal", "water", "tree_watering", {"trunk_diameter_in": 12}, "value", 1),
    ("tree-5in-trunk-50gal-25min", "water", "tree_watering", {"trunk_diameter_in": 5, "hose_gal_per_min": 2}, "value", 1),
    ("tree-5in-trunk-50gal-25min", "time", "tree_watering", {"trunk_diameter_in": 5, "hose_gal_per_min": 2}, "minutes", 1),
    ("mulch-500sqft-3in", "cubic_feet", "bulk_volume", {"area_sqft": 500, "depth_in": 3}, "cubic_feet", 1),
    ("mulch-500sqft-3in", "cubic_yards", "bulk_volume", {"area_sqft": 500, "depth_in": 3}, "value", 1),
    ("nybg-6x8-bed-begonia-9in", "plants", "plant_count", {"area_sqft": 48, "spacing_in": 9}, "exact", 1),
    ("spacing-multiplier-20in", "multiplier", "plant_count", {"area_sqft": 1000, "spacing_in": 20}, "exact", 1 / 1000),
    ("slope-50m-rise-200m-run", "surface_length", "plant_count", {"area_sqft": 200, "spacing_in": 12, "slope_percent": 25}, "surface_sqft", 1),
    ("eight-weeks-before-mid-may", "start_day_of_year", "frost_relative_date", {"frost_date": "2026-05-15", "days": -56}, "day_of_year", 1),
    ("tomato-6-to-8-weeks-may22", "earliest_day_of_year", "frost_relative_date", {"frost_date": "2026-05-22", "days": -56}, "day_of_year", 1),
    ("tomato-6-to-8-weeks-may22", "latest_day_of_year", "frost_relative_date", {"frost_date": "2026-05-22", "days": -42}, "day_of_year", 1),
]  # fmt: skip


def close(row: str, quantity: str, got: float) -> None:
    expected = ROWS[row]["expected"][quantity]
    tolerance = expected.get("tolerance_abs", 0) or abs(expected["value"]) * expected.get("tolerance_rel", 1e-9) + 1e-9
    assert got == pytest.approx(expected["value"], abs=tolerance), ROWS[row]["source"]


@pytest.mark.parametrize(("row", "quantity", "name", "inputs", "part", "factor"), CHECKS)
def test_a_published_example_comes_out(row, quantity, name, inputs, part, factor):
    """The figure equals the printed one within the rounding of its source."""
    figure = run(name, inputs)
    close(row, quantity, (figure.value if part == "value" else figure.also[part]) * factor)


def test_lime_is_corrected_for_neutralizing_value():
    """Penn State: 5 lb at full value is 7.14 lb of a 70 % product."""
    full = run("lime_requirement", {"area_sqft": 100, "soil_ph": 5.5}).value
    weak = run("lime_requirement", {"area_sqft": 100, "soil_ph": 5.5, "cce_percent": 70}).value
    close("psu-cce70-5lb-per-100", "product", 5 * weak / full)


@pytest.mark.parametrize("depth", [1, 2, 3, 4, 5])
def test_a_cubic_yard_covers_what_is_printed(depth):
    """The volume for the printed area and depth is one cubic yard."""
    printed = ROWS["coverage-one-cubic-yard"]["expected"][f"at_{depth}in"]["value"]
    assert run("bulk_volume", {"area_sqft": printed, "depth_in": depth}).value == pytest.approx(1, abs=0.001)


@pytest.mark.parametrize("spacing", [4, 12, 18, 24])
def test_a_flat_of_48_covers_what_is_printed(spacing):
    """48 plants on triangles fill the printed area, within the source's rounding."""
    expected = ROWS["flat-of-48-triangular-area"]["expected"][f"at_{spacing}in"]
    inputs = {"area_sqft": 100, "spacing_in": spacing, "pattern": "triangular"}
    per_plant = 100 / run("plant_count", inputs).also["exact"]
    assert 48 * per_plant == pytest.approx(expected["value"], abs=expected["tolerance_abs"])


def test_unit_factors_are_the_published_ones():
    """NIST SP 811 and the University of Florida's acre."""
    for name, unit, to in (("pound", "lb", "kg"), ("us_gallon", "gal", "L"), ("foot", "ft", "m"), ("inch", "in", "cm")):
        close("nist-exact-factors", name, round(convert(1, unit, to), 6))
    close("uf-acre-hectare-area", "acres", convert(1, "ha", "acre"))
    close("uf-acre-hectare-area", "acre_ft2", convert(1, "acre", "sqft"))


def test_every_calculator_is_checked():
    """A calculator without a published example, here or in the other files of rows, fails here."""
    covered = {name for _, _, name, _, _, _ in CHECKS} | {"lawn_watering"}
    for path in Path(__file__).parent.glob("*.yaml"):
        if path.name != "worked_examples.yaml":
            covered |= {row["calculator"] for row in yaml.safe_load(path.read_text("utf-8"))}
    assert set(catalogue()) == covered


def test_lawn_water_matches_the_ordinance_factor():
    """City of Colton: ETo x 0.62 x 0.7 x area; its 0.62 is 0.6233 rounded."""
    row = ROWS["mwelo-mawa-fresno-50000"]["inputs"]
    gallons = run("lawn_watering", {"area_sqft": row["landscape_area"]["value"], "inches": 1}).value
    year = gallons * row["eto"]["value"] * row["et_adjustment"]["value"]
    assert year == pytest.approx(ROWS["mwelo-mawa-fresno-50000"]["expected"]["allowance"]["value"], rel=0.006)
