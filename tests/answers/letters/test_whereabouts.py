"""Town, state and ZIP code in a letter's own words."""

import pytest

from answers.letters.whereabouts import find_place, state_code


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("I live in Elmford, WI and", ("Elmford", "WI", "")),
        ("Lansing MI 48910", ("Lansing", "MI", "48910")),
        ("We garden in Michigan.", ("", "MI", "")),
        ("Is it ok to prune in May or June? Tell me, hi!", ("", "", "")),
        ("Please tell Joan OK, and Tell ME soon", ("", "", "")),
        ("From Portland, OR with love", ("Portland", "OR", "")),
        ("my zip is 49855", ("", "", "49855")),
        ("Virginia creeper is all over the Kentucky bluegrass", ("", "", "")),
        ("a California poppy and crabgrass in Kentucky bluegrass", ("", "", "")),
        ("We are in northern Wisconsin, on sand", ("", "WI", "")),
        ("14 Mill Street, Pennet Falls, MI 48999.", ("Pennet Falls", "MI", "48999")),
    ],
)
def test_where_a_writer_says_they_are(text: str, expected: tuple[str, str, str]) -> None:
    """A place is read where one is given; small words and plants with a state in their name are not places."""
    assert find_place(text) == expected


@pytest.mark.parametrize(
    ("text", "code"),
    [("Michigan", "MI"), ("mi", "MI"), (" new york ", "NY"), ("Ontario", "ON"), ("Atlantis", ""), ("", "")],
)
def test_a_state_is_known_by_name_or_abbreviation(text, code):
    """Anything else is no state."""
    assert state_code(text) == code
