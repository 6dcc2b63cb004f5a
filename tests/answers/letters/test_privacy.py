"""Who wrote: first name and town from wherever the letter gives them, and nothing private beyond."""

import pytest

from answers.letters.privacy import first_name, private_strings, public_text, signed, writer_of


@pytest.mark.parametrize(
    ("name", "first"),
    [
        ("Marta Lindqvist", "Marta"),
        ("Lindqvist, Marta", "Marta"),
        ("Mrs. Ruth Haverkamp", "Ruth"),
        ("JANE DOE", "Jane"),
        ("joe", "Joe"),
        ("Sister Agnes", "Agnes"),
        ("The Doe Family", ""),
        ("no name", ""),
        ("j77@mail.example", ""),
        ("", ""),
    ],
)
def test_the_name_to_greet_by(name, first):
    """Titles and surnames fall away; a family or nobody has no first name."""
    assert first_name(name) == first


@pytest.mark.parametrize(
    ("text", "who"),
    [
        ("when does it go down??\n\nDan, Alderbrook", ("Dan", "Alderbrook")),
        ("do I drill holes?\nEd in Fernhollow", ("Ed", "Fernhollow")),
        ("What is it?\n\nYours,\nMrs. Ruth Haverkamp", ("Ruth", "")),
        ("What is it?\n- Wren", ("Wren", "")),
        ("What is it?\nThanks", ("", "")),
        ("Help my maple", ("", "")),
        ("It drops leaves.\nPlease tell me what to do about my Maple", ("", "")),
    ],
)
def test_a_signature_on_the_last_line_is_read(text, who):
    """Only a last line that is a name, with or without a town, counts."""
    assert signed(text) == who


def test_town_state_and_zip_come_from_the_letter():
    """For finding the climate; the street stays private."""
    writer = writer_of("Jo Bell", "jo@mail.example", "I live at 14 Mill Street, Pennet Falls, MI 48999.")
    assert (writer.town, writer.state, writer.zip_code) == ("Pennet Falls", "MI", "48999")
    assert writer.street == "14 Mill Street"


def test_private_details_are_blotted_out():
    """Surname, street, telephone and e-mail; the first name may stay."""
    text = "Jo Bell, 14 Mill Street, 517-555-0134, jo@mail.example asks about a maple."
    writer = writer_of("Jo Bell", "jo@mail.example", text)
    shown = public_text(text, private_strings(writer, text))
    for private in ("Bell", "Mill Street", "0134", "jo@mail"):
        assert private not in shown
    assert shown.startswith("Jo ")


def test_a_placeholder_is_nobodys_surname():
    """ "No name" on a call note makes no word private."""
    text = "no name wants to know the name of a tree"
    assert private_strings(writer_of("no name", "", text), text) == ()
