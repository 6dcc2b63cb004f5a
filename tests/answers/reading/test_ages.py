"""Ages of plants as people tell them; those of people and houses, and how long a trouble lasts, are left alone."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from answers.reading.ages import age
from answers.reading.reading import Mention

_SENT = date(2026, 6, 1).year


def _years(text, *names):
    plants = [Mention("p", name, text.index(name), text.index(name) + len(name)) for name in names]
    found = age(text, plants, _SENT)
    return found and found.value


@pytest.mark.parametrize(
    ("text", "years"),
    [
        ("planted 3 years ago", 3),
        ("planted by the people before us so I suppose 20 years anyhow, has sent up stalks", 20),
        ("I planted it the year our daughter was born, she just turned 9.", 9),
        ("My father planted the orange tree the week I was born and I have just turned 46", 46),
        ("Scotch pines my father put in the year I was born, and I am sixty-one.", 61),
        ("put these in two springs ago", 2),
        ("It's on the south side of the house, three years old, about 4 ft high", 3),
        ("are yellow and not growing, they been in the ground 2 yrs and aint but knee high", 2),
        ("given to me for my birthday and it has come up 3 years", 3),
        ("My lilac, planted six years back, has never bloomed", 6),
        ("hydrangea I planted when we moved in, 8 years ago", 8),
        ("a 40-year-old oak", 40),
        ("It's a 14 yr old tree", 14),
        ("It's a 35 yr. old maple", 35),
        ("a year and a half old", 1.5),
        ("it is 8 or 9 years old", 8.5),
        ("tree is a couple years old", 2),
        ("Sixty-some years old", 60),
        ("nine years in the ground", 9),
        ("eight yrs in the same pot", 8),
        ("in the ground five years", 5),
        ("peonies have been there at least 40 years", 40),
        ("I've had the fern going on ten years and it just quit", 10),
        ("this maple has been in the front yard for 22 years", 22),
        ("Two winters it's come through fine", 2),
        ("Third summer for the pair of bushes", 3),
        ("Entering its third year", 3),
        ("in their fourth season", 4),
        ("five years planted, trunk maybe 4 inches", 5),
        ("Tree's 5 yrs. Two others in the row", 5),
        ("about two decades old", 20),
        ("quarter century old", 25),
        ("the sycamore is half a century if its a day", 50),
        ("The fern's been there since '09.", 17),
        ("Apple tree planted in 2019", 7),
        ("planted 2010, twenty-five feet", 16),
        ("in the spring of 2021 we put in a maple", 5),
        ("'91 is when dad planted that", 35),
        ("There since we bought in 1998 it has stood", 28),
        ("Planted last spring, I know", 1),
        ("Three I set out the year before last", 2),
        ("a kumquat, 18 months old, from a pip", 1.5),
        ("the asparagus is in year four and still thin", 4),
        ("it's the third spring since we put it in", 3),
        ("Eight years and not one plum. Why?", 8),
        ("never one flower in nine years", 9),
        ("It's been estimated at sixty years old", 60),
        ("They've been in since we bought the place eleven years ago", 11),
        ("It hasn't bloomed once and it's been seven years", 7),
        ("a second year bed of asparagus", 2),
        ("jasmine in ground 3 yrs", 3),
        ("Two pears, both ten years, one bears", 10),
        ("new lawn last yr, all fescue", 1),
    ],
)
def test_a_plants_age_is_read(text, years):
    """Years, decades and summers, counted or numbered; years of planting go by the letter's own year."""
    assert _years(text) == pytest.approx(years)


@pytest.mark.parametrize(
    ("text", "name", "years"),
    [
        ("The orchid's seven.", "orchid's", 7),
        ("Nine, the plum is, and knotty", "plum", 9),
        ("The fig is 30.", "fig", 30),
        ("My peace lily from Mom's funeral is two now.", "peace lily", 2),
    ],
)
def test_a_bare_number_said_of_a_plant_is_its_age(text, name, years):
    """No unit is needed when the number is said of a plant that is named, and nothing is counted."""
    assert _years(text, name) == years
    assert _years(text) is None


@pytest.mark.parametrize(
    "text",
    [
        "my 4 year old loves them",
        "my 2 yr old just chewed red berries",
        "We've a two year old and chickens",
        "I am 72 years old and can't climb",
        "at 81 years of age",
        "twins, 3 years old, ate berries",
        "our 9 year old dog ate some",
        "the roof is 20 years old",
        "a two year old bag of seed",
        "the house was built in 1950",
        "we bought the house in 2016",
        "has a 10 year warranty",
        "I've gardened for 40 years",
        "we have lived here 15 years",
        "it hasn't bloomed in three years",
        "every inch of it is weeds, has been for 2 years",
        "this has happened three years in a row",
        "never had bugs in nine years",
        "it rained for two years and not a drop since",
        "We took an elm out there 5 yrs ago",
        "we limed it two years ago",
        "takes 3 to 5 years to bloom",
        "Been fighting it 3 summers",
        "tent worms since 2022",
        "Three summers of drought",
        "the drought of 2012 killed it",
        "2010 sq ft planted",
        "planted in spring of 2031",
        "planted in 2026",
        "planted the oak the year our son was born, and it is 40 feet tall",
        "planted it the year our son was born and the soil test is 5.4",
        "put in the year our son was born; there are 12 of them",
        "last year we had beetles",
    ],
)
def test_other_years_are_left_alone(text):
    """People, pets, houses, warranties, how long a trouble lasts, and years of other events."""
    assert _years(text) is None


def test_a_year_of_planting_needs_the_letters_year():
    """Without the letter's date nobody knows how long ago 2019 is."""
    assert age("planted in 2019") is None


@pytest.mark.parametrize(
    ("text", "words", "about"),
    [
        ("about 7 years old", "7 years old", True),
        ("it is 7 years old", "7 years old", False),
        ("5 or 6 years old", "5 or 6 years old", True),
        ("planted 3 years ago", "3 years ago", False),
    ],
)
def test_the_letters_words_and_hedges_are_kept(text, words, about):
    """The words are those of the letter; a guess or a range is marked as such."""
    found = age(text)
    assert found is not None
    assert (found.words, found.about) == (words, about)


def test_the_plainest_telling_wins():
    """A bare "ten years" gives way to years in the ground told later."""
    assert _years("Ten years, I think. It is twelve years in the ground") == 12


_TOLD = (
    "plantedinsincelastspring2019'093twofiveyearsyr.oldago;.thirdsummeritstheahalfandoffordecadebeentheremysontoo "
    "r1e999999999999½,plumplum'sis"
)
_WORDS = st.sampled_from(_TOLD.split())


@given(
    st.one_of(st.text(max_size=200), st.lists(_WORDS, max_size=25).map(" ".join)), st.sampled_from((None, 1800, 2026))
)
def test_no_text_breaks_it(text, year):
    """Any text gives an age above 0 and at most 500 years, in the text's own words, or none."""
    at = text.find("plum")
    found = age(text, [Mention("p", "plum", at, at + 4)] if at >= 0 else (), year)
    assert found is None or (0 < found.value <= 500 and found.words and found.words in text)
