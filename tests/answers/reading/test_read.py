"""Which plant a question is about, when several are named."""

import pytest

from answers.letters.letter import Question
from answers.reading.read import Reader
from kb.load import load


@pytest.fixture(scope="module")
def reader():
    return Reader(load())


@pytest.mark.parametrize(
    ("text", "plant", "problem"),
    [
        ("Squash bugs are all over my pumpkin, flat and gray", "pumpkin", "squash-bug"),
        ("How do I overseed my lawn? It is thin bluegrass.", "bluegrass", "overseeding"),
        ("crabgrass along the drive, forsythia is not out yet, when does preventer go down?", "lawn", "crabgrass"),
        ("My peace lily droops and the soil is soggy", "peace-lily", "overwatering"),
        ("orange jelly on the junipers next to our crabapple", "juniper", "cedar-apple-rust"),
        ("what is eating holes in my hosta, slime trails", "hosta", "slugs"),
    ],
)
def test_the_plant_asked_about_wins(reader, text, plant, problem):
    """A name inside a problem's name, a wider word, or a plant beside the point does not take its place."""
    reading = reader.read(Question("x", 1, text, None))
    assert (reading.plant, reading.problem) == (plant, problem)


def test_an_emergency_guesses_nothing_about_the_garden(reader):
    """Who to call comes first."""
    reading = reader.read(Question("x", 1, "my son ate tomato leaves with hornworms on them", None))
    assert reading.emergency
    assert (reading.problem, reading.decided) == (None, False)


@pytest.mark.parametrize(
    "text", ["Mis tomates tienen manchas en las hojas, que puedo hacer?", "asdf qwer zxcv uiop", ""]
)
def test_other_languages_and_noise_are_not_decided(reader, text):
    """A plant's name alone decides nothing."""
    assert reader.read(Question("x", 1, text, None)).decided is False
