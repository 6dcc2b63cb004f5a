"""The plain baseline reads what it was taught, and only as well."""

from dataclasses import replace

import pytest

from answers.letters.letter import Question
from answers.measuring.baseline import Baseline
from kb.load import load

TAUGHT = ("powdery-mildew", "moles-in-lawn", "mushrooms-in-lawn")


@pytest.fixture(scope="module")
def baseline():
    """Taught with the letters on three problems."""
    k = load()
    rules = {rule.id: rule for problem in TAUGHT for rule in k.rules_by_problem[problem]}
    problems = {problem: k.problems[problem] for problem in TAUGHT}
    return Baseline(replace(k, rules=rules, problems=problems, other_letters=("thank you",)))


@pytest.mark.parametrize(
    ("text", "problem", "plants"),
    [
        ("white powder like flour all over the leaves of my lilac", "powdery-mildew", {"lilac"}),
        ("moles tunnel and heave up ridges, how do I trap them", "moles-in-lawn", {"lawn", None}),
        ("toadstools and mushrooms popped up in the grass", "mushrooms-in-lawn", {"lawn", None}),
    ],
)
def test_it_reads_plain_letters(baseline, text, problem, plants):
    """Problem and plant, none of ours included; amounts and emergencies it does not read."""
    (read,) = baseline.read([Question("x", 1, text, None)])
    assert (read.problem, read.decided, read.emergency) == (problem, True, False)
    assert read.plant in plants
    assert read.measurements == {}


def test_a_thank_you_is_none_of_our_problems(baseline):
    """What it takes for none of them has no problem, and is not decided."""
    (read,) = baseline.read([Question("x", 1, "thank you", None)])
    assert (read.problem, read.decided) == (None, False)
