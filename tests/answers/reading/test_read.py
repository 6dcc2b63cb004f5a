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


def test_an_emergency_has_no_problem_of_the_garden(reader):
    """Who to call comes first."""
    reading = reader.read(Question("x", 1, "my son ate tomato leaves with hornworms on them", None))
    assert reading.emergency
    assert (reading.problem, reading.decided) == (None, False)
    assert (reading.plant, reading.plant_share) == ("tomato", 1.0)
    assert "tomato" in {c.plant for c in reading.candidates}  # what it may be about is listed, if it is a false alarm


@pytest.mark.parametrize(
    "text", ["Mis tomates tienen manchas en las hojas, que puedo hacer?", "asdf qwer zxcv uiop", ""]
)
def test_other_languages_and_noise_are_not_decided(reader, text):
    """A plant's name alone decides nothing."""
    assert reader.read(Question("x", 1, text, None)).decided is False


@pytest.mark.parametrize(
    ("text", "month", "against"),
    [
        ("soil test says pH 7.4, what to do for my lawn", 5, "soil-acidity"),
        ("it was 95 degrees all week and leaves curl", 7, "frost-damage"),
        ("my crabgrass", 1, "hornworm"),
    ],
)
def test_amounts_and_seasons_count_against(reader, text, month, against):
    """Lime is not for a soil of 7.4, frost not for 95 degrees, a hornworm not for January."""
    from datetime import date

    given = reader.evidence_of(Question("x", 1, text, date(2026, month, 10)))
    at = reader.labels.index(against)
    assert given["amount against it"][at] + given["out of season"][at] == 1.0


def test_the_words_that_decided_are_the_letters_own(reader):
    """Evidence is shown in the writer's words, in their order."""
    text = "Round black spots with yellow around them on my rose leaves, what is it?"
    words = reader.read(Question("x", 1, text, None)).evidence
    assert words
    places = [text.lower().index(word) for word in words]
    assert places == sorted(places)


def test_a_plant_in_passing_is_not_asked_about(reader):
    """The neighbour's plant and the one that is well give way."""
    text = "My neighbor's maple is fine but our ash is dying from the top, with D shaped holes in the bark."
    assert reader.read(Question("x", 1, text, None)).plant == "ash"


def test_a_language_is_named(reader):
    """A letter in Spanish is set aside with its language."""
    reading = reader.read(Question("x", 1, "Mis tomates tienen manchas negras por abajo, ¿qué puedo hacer?", None))
    assert (reading.language, reading.decided) == ("Spanish", False)
