"""The proof of a person's edit: what it marks, and what it leaves alone."""

from datetime import date
from pathlib import Path

import pytest

from answers.drafts.proof import CAUTION, DATE, DOSE, PRIVATE, SORTS, TRADE_NAME, UNSOURCED, Mark, proof
from kb import wording

DEMO = Path(__file__).parents[3] / "demo_questions"
TODAY = date(2026, 4, 20)
PARTS = ("email", "cue_card", "phone")
WRITER = {"first_name": "Marta", "town": "Pennet Falls", "zip_code": "49999"}
PRIVATE_STRINGS = ["Haverkamp", "14 Mill Street"]
LETTER = "We put 7 pounds on in June last year. The lawn is 40 x 60, loam. How much lime, and can it go down on July 4?"
SAID = "From a pH of 5.4, 2,400 square feet of loam want about 205 pounds of ground limestone."
PROTECT = "Wear gloves, goggles and a dust mask when you spread lime or sulfur, and work on a still day."
BEES = "Do not spray plants in flower, or flowering weeds beneath them, while bees are flying."
AVOID = "Do not lime blueberries, azaleas or potatoes."
POISON = "Call the poison centre now (1-800-222-1222). Keep the label at hand."
DRAFTED = f"""Dear Marta,

Thank you for writing about lime. Once opened, a bag keeps for three years.

When: The time to spread lime: open now, until about 30 April.

What to do:
1. In bare garden soil work it into the top six inches.
2. Give it in portions, with the rest six months later.
3. The 10-10-10 waits two to three weeks.

For your place: {SAID}

What not to do: {AVOID}

Take care: {PROTECT} {BEES}

Where this comes from:
- State University: Bulletin 12, Lime for lawns (2018)
"""


def worked(**changes):
    """What the store keeps of one answer, as `Answer.kept()` gives it."""
    passages = [("figure", SAID), ("do", "In bare garden soil work it into the top six inches."), ("avoid", AVOID)]
    passages += [("caution", PROTECT), ("caution", BEES)]
    figure = {
        "id": "lime",
        "label": "ground limestone",
        "value": 205.2,
        "unit": "lb",
        "source": "",
        "cautions": [],
        "inputs": {"area_sqft": 2400.0, "soil_ph": 5.4, "target_ph": 6.5, "texture": "loam"},
        "steps": ["85.5 lb per 1,000 sq ft", "in all = 85.5 lb x 2,400 sq ft / 1,000 = 205 lb"],
        "also": {"lb_per_1000sqft": 85.5, "applications": 2},
    }
    window = {"action": "spread lime", "opens": "2026-03-15", "closes": "2026-04-30", "state": "open"}
    return {
        "text": LETTER,
        "figures": [figure],
        "measurements": {"length_ft": {"value": 60.0}, "width_ft": {"value": 40.0}},
        "passages": [{"part": p, "text": t, "basis": "lime", "sources": []} for p, t in passages],
        "windows": [{**window, "words": "open now, until about 30 April"}],
        "sources": [{"id": "x", "text": "State University: Bulletin 12, Lime for lawns (2018)", "seen": "read"}],
        "draft": {"email": DRAFTED, "cue_card": "", "phone": ""},
        "urgency": "this month",
        **changes,
    }


def marks(text, drafted=DRAFTED, **changes):
    """The marks of an edit of the draft above."""
    return proof(text, drafted, worked(**changes), PRIVATE_STRINGS, WRITER)


def with_sentence(sentence):
    """The draft with one more sentence in it."""
    return DRAFTED.replace("Thank you for writing about lime.", f"Thank you for writing about lime. {sentence}")


CHANGED = [
    ("205 pounds", "210.5 pounds", "210.5 pounds"),
    ("205 pounds", "205 oz", "205 oz"),  # a unit swapped
    ("205 pounds", "205 bags", "205 bags"),
    ("205 pounds", "two hundred and fifty pounds", "two hundred and fifty pounds"),
    ("205 pounds", "7 pounds", "7 pounds"),  # the letter's own number, in the place of the figure's
    ("205 pounds", "2,400 pounds", "2,400 pounds"),
    ("205 pounds", "a pound", "a pound"),
    ("pH of 5.4", "pH of 6.4", "6.4"),
    ("six inches", "ten inches", "ten inches"),
    ("six months", "six weeks", "six weeks"),
    ("two to three weeks", "two to four weeks", "four weeks"),
    ("10-10-10", "46-0-0", "46-0-0"),
    ("want about 205 pounds", "do not want about 205 pounds", None),
]


@pytest.mark.parametrize(("was", "now", "words"), CHANGED)
def test_a_number_or_unit_changed_in_a_drafted_sentence_is_a_changed_dose(was, now, words):
    """Whatever else vouches for the new number, the message says what the draft or the figure said."""
    text = DRAFTED.replace(was, now)
    found = [m for m in marks(text) if m.sort == DOSE]
    assert found
    assert all(text[m.start : m.end] == m.words for m in found)
    assert "says" in found[0].message
    assert words is None or words in [m.words for m in found]


def test_the_message_names_what_the_figure_says():
    """A person in the margin reads the new amount and the old one."""
    (mark,) = marks(DRAFTED.replace("205 pounds", "300 pounds"))
    assert (mark.sort, mark.words, mark.message) == (DOSE, "300 pounds", "300 pounds: the figure says 205 pounds")


UNVOUCHED = [
    ("Spread 4 pounds of it now.", DOSE, "4 pounds"),
    ("Four pounds would do.", DOSE, "Four pounds"),
    ("I would give it 3.5 kg.", DOSE, "3.5 kg"),
    ("Aim at a pH of 7.2 instead.", DOSE, "7.2"),
    ("Simply double the rate.", DOSE, "double the rate"),
    ("Half the amount is plenty.", DOSE, "Half the amount"),
    ("It drops by 15 percent.", UNSOURCED, "15 percent"),
    ("I have grown it for 20 years.", UNSOURCED, "20 years"),
    ("Spread 205 gallons of it.", DOSE, "205 gallons"),  # the figure's number, another unit
    ("We have 17 of them here.", UNSOURCED, "17"),
    ("Order two dozen for the row.", UNSOURCED, "two dozen"),
    ("Keep it at 50 °F.", UNSOURCED, "50 °F"),
]


@pytest.mark.parametrize(("sentence", "sort", "words"), UNVOUCHED)
def test_a_number_that_nothing_vouches_for_is_marked(sentence, sort, words):
    """With a unit that a dose has, a changed dose; else an unsourced number."""
    found = marks(with_sentence(sentence))
    assert [(m.sort, m.words) for m in found] == [(sort, words)]


VOUCHED = [
    "That is about 205 lb in all.",
    "That is 93.1 kg in all.",  # converted
    "That is 3,283 ounces, if you like.",
    "Say two hundred and five pounds.",
    "Give 85.5 lb to each 1,000 sq ft.",
    "Your lawn of 40 by 60 feet is 2,400 square feet.",
    "You put on 7 lb last year.",  # the letter's own
    "Bulletin 12 of 2018 says more.",
    "It takes 26 weeks.",  # six months
    "Two of you asked, and one of these letters was a joy.",
    "I will write a line in a week, or an inch more.",
    "Spread it in 2 portions.",
    "Two things:\n1. First, thank you.\n2. Then, good luck.",
    "Once a bag of ours was half gone; a hundred thanks for that.",
    "Come by at 10:30, or look at https://example.org/page/77.",
]


@pytest.mark.parametrize("sentence", VOUCHED)
def test_a_number_with_a_source_or_without_an_amount_is_left_alone(sentence):
    """Figures, working, sources, the letter, other units, list numbers and harmless words."""
    assert marks(with_sentence(sentence)) == []


OUTSIDE = ["by July 4", "on 4 July", "until Jul. 4th", "by 7/4/2026", "in mid-May", "in early June", "in late June"]
OUTSIDE += ["the first week of May", "in July", "until the end of October", "before May 3", "by the 4th of July"]


@pytest.mark.parametrize("when", OUTSIDE)
def test_a_date_outside_every_window_is_marked(when):
    """Even one that the letter asks about; the message gives the window's words."""
    (mark,) = marks(with_sentence(f"Spread it {when}."))
    assert mark.sort == DATE
    assert mark.words in when
    assert "spread lime: open now, until about 30 April" in mark.message


INSIDE = ["by April 3", "on 3 April", "until Apr. 3rd", "by 4/3/2026", "in mid-April", "in late March", "in April"]
INSIDE += ["if you may", "and march on", "as you may in any year", "until 30 April", "in 2019"]


@pytest.mark.parametrize("when", INSIDE)
def test_a_date_within_a_window_and_a_verb_are_left_alone(when):
    """ "May" and "march" are months only with a capital letter and where a date may stand."""
    assert marks(with_sentence(f"Spread it {when}.")) == []


@pytest.mark.parametrize(("when", "sorts"), [("on May 3", [UNSOURCED]), ("in May", []), ("on July 4", [])])
def test_without_windows_a_new_date_is_an_unsourced_number(when, sorts):
    """A month alone is left, and so is a date from the letter."""
    assert [m.sort for m in marks(with_sentence(f"Spread it {when}."), windows=[])] == sorts


def test_a_window_may_run_over_the_new_year():
    """November to February: January is within, July is not."""
    windows = [{"action": "prune", "opens": "2026-11-10", "closes": "2027-02-20", "state": "", "words": "in winter"}]
    assert marks(with_sentence("Prune on January 5."), windows=windows) == []
    assert [m.words for m in marks(with_sentence("Prune on July 5."), windows=windows)] == ["July 5"]


REWORDED = [
    (PROTECT, PROTECT.upper()),
    (PROTECT, PROTECT.replace(", ", "\n")),
    (PROTECT, "Please wear gloves, goggles and a dust mask when spreading lime or sulfur; do work on a still day!"),
    (PROTECT, "On a still day, when you work and spread lime or sulfur, wear gloves, goggles and a good dust mask."),
    (BEES, "Never spray plants in flower, or the flowering weeds beneath them, while bees are flying about."),
    (BEES, BEES.replace("Do not", "Please don't")),
    (AVOID, ""),  # a warning without a danger may go
]


@pytest.mark.parametrize(("was", "now"), REWORDED)
def test_a_caution_lightly_reworded_still_stands(was, now):
    """Every word that says anything and every negation is there."""
    assert marks(DRAFTED.replace(was, now)) == []


LOST = [
    (PROTECT, ""),
    (PROTECT, "Be careful."),
    (PROTECT, PROTECT.replace("goggles ", "")),
    (PROTECT, f"You need not {PROTECT[0].lower()}{PROTECT[1:]}"),
    (BEES, BEES.replace("Do not", "Do")),
    (BEES, BEES.replace("Do not spray", "Spray")),
    (BEES, BEES.replace(", while bees are flying", "")),
    (AVOID, AVOID.replace("Do not lime", "Do lime")),
]


@pytest.mark.parametrize(("was", "now"), LOST)
def test_a_caution_dropped_or_turned_round_is_marked(was, now):
    """The mark carries the caution's words, and a place in the text unless it is gone."""
    (mark,) = marks(DRAFTED.replace(was, now))
    assert (mark.sort, mark.words) == (CAUTION, was)
    assert (mark.start == -1) == (now in ("", "Be careful."))


def test_each_sentence_of_a_caution_must_stand():
    """And a caution that the draft of this part never had is not asked for."""
    passages = [{"part": "caution", "text": "Cover your skin. Never burn it.", "basis": "x", "sources": []}]
    drafted = "It is poison ivy. Cover your skin. Never burn it."
    found = proof("It is poison ivy. Cover your skin.", drafted, worked(passages=passages), (), WRITER)
    assert [(m.sort, m.words) for m in found] == [(CAUTION, "Never burn it.")]
    assert proof("It is ivy.", "It is poison ivy.", worked(passages=passages), (), WRITER) == []


def test_a_text_that_a_person_emptied_has_no_mark():
    """A cue card that will not be spoken drops no caution."""
    assert marks(" \n") == []


@pytest.mark.parametrize(("urgency", "lost"), [("emergency", [CAUTION]), ("this week", [])])
def test_in_an_emergency_the_hand_off_must_stand(urgency, lost):
    """Who to call now is a caution then, its number included."""
    passages = [{"part": "hand-off", "text": POISON, "basis": "poison", "sources": []}]
    text = "Dear Marta,\n\nCall the poison centre now. Keep the label at hand."
    found = proof(text, f"Dear Marta,\n\n{POISON}", worked(passages=passages, urgency=urgency), (), WRITER)
    assert [m.sort for m in found] == lost


PRIVATE_CASES = [
    ("Dear Mrs. Haverkamp, hello.", "Haverkamp"),
    ("The haverkamp lawn is fine.", "haverkamp"),
    ("I will come to 14 Mill Street.", "14 Mill Street"),
    ("I will come to 220 Orchard Lane then.", "220 Orchard Lane"),
    ("Write to marta@mail.example about it.", "marta@mail.example"),
    ("Call me at (555) 010-4477 then.", "(555) 010-4477"),
    ("You live in 49999, I see.", "49999"),
]


@pytest.mark.parametrize(("sentence", "words"), PRIVATE_CASES)
def test_private_details_are_marked_once(sentence, words):
    """Surname, street, address, telephone and ZIP code; their digits are no unsourced numbers besides."""
    assert [(m.sort, m.words) for m in marks(with_sentence(sentence))] == [(PRIVATE, words)]


def test_first_name_town_and_a_number_from_a_passage_may_stand():
    """The poison centre's number is the program's own, however it is written."""
    passages = [{"part": "hand-off", "text": POISON, "basis": "poison", "sources": []}]
    sentence = "Marta in Pennet Falls may call (800) 222-1222 at any hour."
    assert marks(with_sentence(sentence), passages=passages) == []


def test_a_trade_name_is_marked(monkeypatch):
    """By its digest, or by a trade mark's sign."""
    monkeypatch.setattr(wording, "_brand_digests", lambda: {wording.brand_digest("Zzyx")})
    assert [(m.sort, m.words) for m in marks(with_sentence("Use Zzyx on it."))] == [(TRADE_NAME, "Zzyx")]
    assert [(m.sort, m.words) for m in marks(with_sentence("Use Blossomax™ on it."))] == [(TRADE_NAME, "Blossomax™")]
    assert marks(with_sentence("Use a soap on it.")) == []


def test_a_key_outlives_other_edits():
    """An acceptance is kept under the key: the same words elsewhere have it, other words do not."""
    text = with_sentence("Spread 4 pounds of it now.")
    (first,), (moved,) = marks(text), marks(text.replace("Dear Marta", "My dear Marta"))
    (other,) = marks(text.replace("4 pounds", "5 pounds"))
    assert first.start != moved.start
    assert first.key == moved.key != other.key
    assert Mark(DOSE, "4\npounds", 0, 1, first.message).key == first.key
    assert Mark(DOSE, "4 pounds", 0, 1, "4 pounds: the figure says 7 pounds").key != first.key
    assert first.sort in SORTS
