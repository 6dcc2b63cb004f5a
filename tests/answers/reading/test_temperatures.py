"""Temperatures as people tell them, and numbers near weather words that are none."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from answers.reading.quantities import number_starts
from answers.reading.temperatures import temperature


def _read(text):
    return temperature(text, number_starts(text))


@pytest.mark.parametrize(
    ("text", "degrees"),
    [
        ("got down to 27 degrees", 27),
        ("it got down to 27 Wednesday", 27),
        ("40° nights", 40),
        ("28F Saturday", 28),
        ("38 C yesterday", 100.4),
        ("-10 C overnight", 14),
        ("Night was only 2 degrees celsius", 35.6),
        ("it was 18 below in January", -18),
        ("went to 6 below zero", -6),
        ("ten below freezing", 22),
        ("minus 15 in January", -15),
        ("below zero, -8 F", -8),
        ("Dropped to 19 Tuesday night.", 19),
        ("Hit 104 here Sunday", 104),
        ("January hit nine degrees", 9),
        ("Low of five, wind besides", 5),
        ("Zero last night, straight up zero", 0),
        ("28 this morning and the peach was wide open", 28),
        ("98 in the shade all week", 98),
        ("Cloudy nothing, hot as blazes, 101 on Tuesday.", 101),
        ("33 and clear tomorrow per the radio", 33),
        ("Seven in bloom, and 24 by the barn at sunup", 24),
        ("Forecast has us at twenty-five by Thursday", 25),
        ("Got nipped, 31, Saturday before dawn", 31),
        ("thermometer on the fence read 101, flowers fell off", 101),
        ("it was forty-one last night, no wait, forty-three", 43),
        ("it got down to 28. No, 12 plants died", 28),
        ("It's 44 and dropping. Go or no go?", 44),
        ("Daytime's around 93 and I see no bugs", 93),
        ("Nights have been stuck at 54.", 54),
        ("never colder than 42 in there", 42),
        ("It's about 70 down there", 70),
        ("a spare bedroom that is 55.", 55),
        ("It's been 85 a whole week in May", 85),
        ("Soil is at 50 on the meat thermometer", 50),
        ("I keep the house at seventy and they are leggy", 70),
        ("My basement hovers around 55, will they keep", 55),
        ("Nights are falling to forty already", 40),
        ("its been 24 two nights", 24),
        ("Lows were in the low twenties", 22),
        ("It's been mid 90s for eleven days", 95),
        ("Greenhouse only held upper 30s", 38),
        ("in the low to mid 20s", 23.5),
        ("nights in the 40s", 45),
        ("dropped down in the teens", 15),
        ("Between 100 and 110 all last week", 105),
        ("temps between 40 and 45", 42.5),
        ("nights 40 to 50.", 45),
        ("single digits for a week", 5),
        ("They say 30 tonight", 30),
        ("Compost thermometer reads 158 in the middle", 158),
        ("temps ran 92 to 96", 94),
        ("caller hears 31 for Sat nite", 31),
        ("tall fescue, brown patches, 85 at night", 85),
        ("temps 96 daytime for a week", 96),
        ("soil temp this a.m. 64", 64),
        ("I stuck the meat thermometer in this morning and got 58", 58),
        ("too hot? We're sitting at 92.", 92),
        ("heat turned to 50 while we were gone", 50),
        ("a damp cellar, it's damp and 45", 45),
        ("no rain for six weeks and over a hundred", 100),
        ("Single digits last night, 8 on the porch", 8),
    ],
)
def test_a_temperature_is_read(text, degrees):
    """In Fahrenheit, below zero as negative, a range as its middle; single digits only when no number is told."""
    found = _read(text)
    assert found is not None
    assert found.value == pytest.approx(degrees)


@pytest.mark.parametrize(
    "text",
    [
        "after two weeks is only 10 centimeter tall",
        "I planted 30 on Saturday",
        "hot peppers, 100 on Saturday",
        "I planted out, 100 sun coleus and some dry shade things",
        "In July we picked tomatoes, 100 on Sunday",
        "counted 14 this morning",
        "lost 5 last night",
        "We have 40 to 50 Christmas trees",
        "45 degree angle",
        "two degrees warmer",
        "It is seventy-odd feet",
        'rabbits barked it up to 10" off the ground',
        "it grew to 6 feet",
        "pH dropped to 5",
        "the soil test is 6",
        "reads 6.5",
        "zone 6",
        "frost date is May 15",
        "at 7 this morning",
        "mornings at 8",
        "10 days of heat",
        "water 20 minutes",
        "built in the 1970s",
        "a house from the mid 80s",
        "she's in her mid 60s",
        "two below the graft are dead",
        "3 inches below the soil",
        "room is 12 by 14",
        "cold frame is 3 by 6",
        "after the freeze 6 came back",
        "cut it down to 6",
        "we counted over a hundred",
        "I lost over a hundred in the dry spell last night",
        "the thermometer was a gift and got 5 stars",
        "call 555-0142 tonight",
        "the house at 40 Elm",
        "$45 a tree last night",
    ],
)
def test_other_numbers_are_left_alone(text):
    """Counts, sizes, hours, dates, decades, angles and readings of other things, near weather words or not."""
    assert _read(text) is None


@pytest.mark.parametrize(
    ("text", "words", "about"),
    [
        ("got down to 27 degrees", "27 degrees", False),
        ("about 35 degrees", "35 degrees", True),
        ("nights 40 to 50", "40 to 50", True),
        ("low 20s", "low 20s", True),
    ],
)
def test_the_letters_words_and_hedges_are_kept(text, words, about):
    """The words are those of the letter; a guess, a range or a round number is marked as such."""
    found = _read(text)
    assert found is not None
    assert (found.words, found.about) == (words, about)


def test_the_first_told_wins():
    """A letter that tells several is taken at its first."""
    found = _read("Lows of 28 on Monday, then 31 degrees")
    assert found is not None
    assert found.value == 28


_TOLD = (
    "gotdownto27- "
    "5low20smid'teensteensthirtiesdegreesC°Fbelowzerominuslastnightthesoilisatbetweenand99999999999,.½twenty- "
    "twosingledigitshitinfrom70to28+foraweek"
)
_WORDS = st.sampled_from(_TOLD.split())


@given(st.one_of(st.text(max_size=200), st.lists(_WORDS, max_size=25).map(" ".join)))
def test_no_text_breaks_it(text):
    """Any text gives a temperature from -60 to 150 F, in the text's own words, or none."""
    found = _read(text)
    assert found is None or (-60 <= found.value <= 150 and found.words and found.words in text)
