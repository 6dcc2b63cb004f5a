"""The shipped rule base makes sense, and the check finds each sort of fault when it is planted."""

import dataclasses

import pytest

from answers.calculators.catalogue import catalogue
from kb.check import check
from kb.entries import AmountLetter, Input
from kb.load import load


@pytest.fixture(scope="module")
def knowledge():
    return load()


@pytest.fixture(scope="module")
def calculators():
    return {name: {i.name for i in entry.inputs} for name, entry in catalogue().items()}


def test_the_shipped_rule_base_has_no_faults(knowledge, calculators):
    """What ships passes its own check, calculator names and inputs included."""
    assert check(knowledge, calculators) == []


@pytest.mark.parametrize(
    ("change", "fault"),
    [
        ({"problem": "no-such-problem"}, "problem: 'no-such-problem' is not an entry"),
        ({"plants": ("no-such-plant",)}, "plants: 'no-such-plant' is not an entry"),
        ({"cautions": ("no-such-caution",)}, "cautions: 'no-such-caution' is not an entry"),
        ({"spoken": "Too short."}, "spoken: 2 words"),
        ({"examples": {"none": ("one",)}}, "examples: 1; expected at least"),
        ({"examples": {"no-such-plant": ("one",) * 8}}, "examples: 'no-such-plant' is not an entry"),
        (
            {"spoken": "Put down two pounds of it. " + "and then some more words " * 20},
            "is a quantity a calculator works out",
        ),
        ({"kinds": ("gossip",)}, "kinds: 'gossip' is not an entry"),
    ],
)
def test_a_planted_fault_in_a_rule_is_found(knowledge, change, fault):
    """Each check can fail: a fault put into a sound rule is reported."""
    rule = dataclasses.replace(next(iter(knowledge.rules.values())), **change)
    broken = dataclasses.replace(knowledge, rules={rule.id: rule})
    assert any(fault in line for line in check(broken))


@pytest.mark.parametrize(
    ("amounts", "fault"),
    [
        ({"girth_in": 40.0}, "amounts: 'girth_in' is not an entry"),
        ({"height_ft": 0.0}, "amounts.height_ft: 0; expected above 0"),
    ],
)
def test_a_planted_fault_in_an_amount_letter_is_found(knowledge, amounts, fault):
    """Only what the reading can give is taught, in amounts that can be."""
    broken = dataclasses.replace(knowledge, amount_letters={"a1": AmountLetter("a1", "x", amounts)})
    assert any(fault in line for line in check(broken))


@pytest.mark.parametrize(
    ("letters", "fault"),
    [
        ({"urgent": ("he ate it",)}, "not-urgent: no letters"),
        ({"urgent": ("he ate it",), "not-urgent": ("deer ate it",), "perhaps": ("x",)}, "'perhaps' is not an entry"),
    ],
)
def test_a_planted_fault_in_the_urgent_letters_is_found(knowledge, letters, fault):
    """Both lists are there, and no other."""
    assert any(fault in line for line in check(dataclasses.replace(knowledge, urgent_letters=letters)))


@pytest.mark.parametrize(
    ("letters", "fault"),
    [
        ({"oak": ("x",), "oke": ("y",)}, "plant_letters.yaml plant: 'oke' is not an entry"),
        ({"none": ("x",)}, "learns from letters on some plants, and on none"),
    ],
)
def test_a_planted_fault_in_the_plant_letters_is_found(knowledge, letters, fault):
    """Plants of ours, or none of them."""
    assert any(fault in line for line in check(dataclasses.replace(knowledge, plant_letters=letters)))


def test_a_cultivar_of_two_plants_is_found(knowledge):
    """It would be taken for either by chance."""
    plum = dataclasses.replace(knowledge.plants["plum"], cultivars=("Bing",))
    broken = dataclasses.replace(knowledge, plants={**knowledge.plants, "plum": plum})
    assert any("'bing' is also a name of" in line for line in check(broken))


def test_a_kind_of_nothing_is_found(knowledge):
    """The wider plant is one of ours."""
    plant = dataclasses.replace(next(iter(knowledge.plants.values())), kind_of="no-such-plant")
    broken = dataclasses.replace(knowledge, plants={**knowledge.plants, plant.id: plant})
    assert any("kind_of: 'no-such-plant' is not an entry" in line for line in check(broken))


def test_a_value_without_a_source_is_found(knowledge, calculators):
    """A dose that names no publication is a fault."""
    rule = next(r for r in knowledge.rules.values() if r.figures)
    figure = rule.figures[0]
    bare = dataclasses.replace(figure, inputs={**figure.inputs, "area_sqft": Input(value=1.0)})
    broken = dataclasses.replace(knowledge, rules={rule.id: dataclasses.replace(rule, figures=(bare,))})
    assert any("a value needs a source" in line for line in check(broken, calculators))


def test_an_input_from_nowhere_is_found(knowledge, calculators):
    """What a place does not have cannot be reckoned with."""
    rule = next(r for r in knowledge.rules.values() if r.figures)
    figure = rule.figures[0]
    odd = dataclasses.replace(figure, inputs={**figure.inputs, "area_sqft": Input(place="soil_colour")})
    broken = dataclasses.replace(knowledge, rules={rule.id: dataclasses.replace(rule, figures=(odd,))})
    assert any("'soil_colour' is nothing that a place has" in line for line in check(broken, calculators))


def test_every_source_says_how_it_was_seen(knowledge):
    """No publication is cited without saying whether it was read."""
    assert {s.seen for s in knowledge.sources.values()} <= {"read", "from memory", "common practice"}
