"""Texture class against a second program over the whole triangle, and the water a soil holds."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from answers.calculators.catalogue import run
from answers.calculators.soil_tables import soil_table
from kb.errors import RangeError

CENTERS = [
    ("sand", 92, 3),
    ("loamy sand", 82, 6),
    ("sandy loam", 65, 10),
    ("loam", 40, 18),
    ("silt loam", 20, 15),
    ("silt", 7, 5),
    ("sandy clay loam", 60, 27),
    ("clay loam", 33, 34),
    ("silty clay loam", 10, 34),
    ("sandy clay", 52, 42),
    ("silty clay", 7, 46),
    ("clay", 20, 60),
]


@pytest.mark.parametrize(("name", "sand", "clay"), CENTERS)
def test_the_middle_of_each_class_is_that_class(name, sand, clay):
    """All twelve classes are reached."""
    assert run("texture_class", {"sand_percent": sand, "clay_percent": clay}).value == name


def test_a_second_program_agrees_inside_the_whole_triangle():
    """The soiltexture package, at 4,900 points a little off the edges (it and USDA share edges out differently)."""
    import soiltexture

    wrong = []
    for sand in range(100):
        for clay in range(99 - sand):
            s, c = sand + 0.3, clay + 0.4
            ours = run("texture_class", {"sand_percent": s, "clay_percent": c}).value
            theirs = soiltexture.getTexture(s, c)
            if ours != theirs:
                wrong.append((s, c, ours, theirs))
    assert wrong == []


@given(sand=st.floats(0, 100), share=st.floats(0, 1))
def test_every_soil_has_a_class_with_a_water_range(sand, share):
    """No point of the triangle falls through."""
    figure = run("texture_class", {"sand_percent": sand, "clay_percent": (100 - sand) * share})
    assert figure.value in soil_table("available_water")
    assert figure.also["available_in_per_ft_low"] < figure.also["available_in_per_ft_high"]


@pytest.mark.parametrize("parts", [(50, 30, 30), (50, 60, None), (20, 20, 20)])
def test_parts_that_do_not_add_up_are_refused(parts):
    """Sand, clay and silt make 100 percent."""
    asked = dict(zip(("sand_percent", "clay_percent", "silt_percent"), parts, strict=True))
    with pytest.raises(RangeError, match="100 %"):
        run("texture_class", {k: v for k, v in asked.items() if v is not None})


@given(thick=st.floats(1, 60), rate=st.floats(0.1, 4), share=st.floats(10, 90))
def test_two_halves_of_a_layer_hold_what_the_layer_does(thick, rate, share):
    """Thickness adds up, and the water to give back is the share used."""
    half = f"{max(1, thick / 2):.4f} in at {rate:.4f}"
    once = run("available_water", {"layers": half, "depletion_percent": share})
    twice = run("available_water", {"layers": f"{half}, {half}", "depletion_percent": share})
    assert twice.value == pytest.approx(2 * once.value)
    assert once.also["irrigate_in"] == pytest.approx(once.value * share / 100)


@pytest.mark.parametrize("layers", ["", "8 in of cheese", "loam", "8 in at 9", "500 in loam", "8 source", "nan at 1"])
def test_a_layer_nobody_can_read_is_refused(layers):
    """The error names the field."""
    with pytest.raises(RangeError) as error:
        run("available_water", {"layers": layers})
    assert error.value.field == "layers"


@pytest.mark.parametrize("layers", ["8 in loam", "8 loam", "8 of loam", "8 inches loam", "8 in of loam"])
def test_a_layer_may_be_written_several_ways(layers):
    """All mean eight inches of loam, 8 / 12 x 1.9."""
    assert run("available_water", {"layers": layers}).value == pytest.approx(8 / 12 * 1.9)
