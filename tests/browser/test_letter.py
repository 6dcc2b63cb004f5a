"""The letter's worksheet while it is worked on: what is unkept, the live proof, what cannot be read, the keys."""

import re
from datetime import UTC, datetime

import pytest

from answers.ledger import Ledger

NOW = datetime(2026, 5, 20, 14, 0, tzinfo=UTC)
ANN = "/letter/ann-1%231"
SHEAF = "/sheaf/rule:lime-for-acid-soil"
LEAVING = ["beforeunload"]


@pytest.fixture
def wrong_dose(lime_store):
    """Ann's e-mail and cue card as somebody edited them, each with a dose that no figure gives; the e-mail's words."""
    ledger, row = Ledger(lime_store), lime_store.one("ann-1#1")
    email = re.sub(r"about [\d,]+ pounds", "about 999 pounds", row["email"], count=1)
    ledger.edit("ann-1#1", "email", email, "Joel", NOW)
    ledger.edit("ann-1#1", "cue_card", row["cue_card"] + "Never over 77 pounds at once.", "Joel", NOW)
    return email


def email_of(page):
    return page.get_by_label("E-mail reply", exact=True)


def test_a_number_that_is_not_kept_is_not_lost_by_clearing(alone, careful, lime_store):
    """Whoever typed it is asked first, and stays."""
    page, asked = careful
    page.goto(alone + ANN)
    page.get_by_label("area (sq ft)").fill("4800")
    page.get_by_role("button", name="Clear it").click()
    assert asked == LEAVING
    assert page.get_by_label("area (sq ft)").input_value() == "4800"
    assert lime_store.one("ann-1#1")["state"] == "drafted"


def test_keeping_one_text_does_not_lose_another(alone, careful, lime_store):
    """One is asked, and neither is kept; nor is the first one forgotten."""
    page, asked = careful
    before = lime_store.one("ann-1#1")
    page.goto(alone + ANN)
    page.locator("summary", has_text="Cue card,").click()
    page.get_by_label("Cue card", exact=True).fill("My cue.")
    email_of(page).fill("My words.")
    page.get_by_role("button", name="Keep the e-mail reply").click()
    assert asked == LEAVING
    page.get_by_role("button", name="Keep the cue card").click()
    assert asked == LEAVING * 2
    assert email_of(page).input_value() == "My words."
    assert lime_store.one("ann-1#1")["version"] == before["version"]


def test_one_text_alone_is_kept_without_a_question(alone, page, lime_store):
    """The page's own dialogs fail this test."""
    page.goto(alone + ANN)
    email_of(page).fill("My words.")
    page.get_by_role("button", name="Keep the e-mail reply").click()
    page.locator(".state", has_text="edited").wait_for()
    assert lime_store.one("ann-1#1")["email"] == "My words.\n"


def test_a_mark_can_be_let_stand_while_the_text_is_written(alone, page, wrong_dose):
    """Its line stays, with the reason begun and the focus in it; it goes with its words and comes back with them."""
    page.goto(alone + ANN)
    margin = page.locator("[data-margin=text-email]")
    reason = margin.get_by_label("It may stand, because").first
    email_of(page).press("Control+Home")
    email_of(page).press_sequentially("Greetings. Never over 88 pounds. ")
    reason.fill("the laboratory's own")
    margin.locator("li", has_text="88 pounds").wait_for()
    assert reason.input_value() == "the laboratory's own"
    assert reason.evaluate("(field) => field === document.activeElement")
    assert margin.locator("[data-count]").inner_text() == f"{margin.locator('li.open').count()} marks"
    email_of(page).fill(wrong_dose.replace("999 pounds", "some lime"))
    margin.locator("li", has_text="999").first.wait_for(state="detached")
    email_of(page).fill(wrong_dose)
    margin.locator("li", has_text="999").first.wait_for()
    assert reason.input_value() == "the laboratory's own"


def test_a_text_with_a_mark_lies_open_and_says_how_many(alone, page, wrong_dose):
    """The cue card's mark is seen without opening it; the phone script without one lies shut."""
    page.goto(alone + ANN)
    summary = page.locator("summary", has_text="Cue card,")
    assert summary.inner_text().endswith(", 1 mark")
    assert page.locator("[data-margin=text-cue_card] li.open").is_visible()
    assert not page.get_by_label("Phone script", exact=True).is_visible()
    cue = page.get_by_label("Cue card", exact=True)
    cue.fill(cue.input_value().replace("Never over 77 pounds at once.", ""))
    page.locator("[data-margin=text-cue_card] li.none").wait_for()
    assert summary.inner_text().endswith("seconds")


@pytest.mark.parametrize(
    ("name", "given", "place"),
    [("E-mail reply", " ", "[data-margin=text-email] .marks"), ("area (sq ft)", "9" * 70, ".results")],
)
def test_what_cannot_be_read_is_said_where_the_result_would_stand(alone, page, name, given, place):
    """The old result does not stay beside it."""
    page.goto(alone + ANN)
    page.get_by_label(name, exact=True).fill(given)
    page.locator(place, has_text="Cannot be read").wait_for()
    assert page.locator(place).locator("> *").count() == 1


@pytest.mark.parametrize(("typed", "said"), [("1,500", "1,500 square feet"), ("1,5", "cannot read '1,5'")])
def test_a_comma_parts_thousands_and_nothing_else(alone, page, typed, said):
    """1,5 is never read as 15."""
    page.goto(alone + ANN)
    page.get_by_label("area (sq ft)").fill(typed)
    page.locator(".results", has_text=said).wait_for()


@pytest.mark.parametrize(
    ("key", "words"),
    [("o", "Until"), ("g", "To"), ("i", "What it is about"), ("2", "Cue card"), ("3", "Phone script")],
)
def test_a_key_opens_what_lies_shut(alone, page, key, words):
    """And its heading has the focus, so that the next Tab is inside."""
    page.goto(alone + ANN)
    page.keyboard.press(key)
    assert page.get_by_label(words, exact=True).is_visible()
    assert page.evaluate("document.activeElement.tagName") == "SUMMARY"


def test_the_first_number_is_reached_by_its_key_though_it_lies_shut(alone, page):
    """On a sheaf the numbers of a letter are folded away."""
    page.goto(alone + SHEAF)
    page.keyboard.press("n")
    assert page.locator(".figures input:focus").is_visible()


def test_clearing_takes_two_keys(alone, page, lime_store):
    """The first goes to the button, Enter presses it; then what was done is said."""
    page.goto(alone + ANN)
    page.keyboard.press("c")
    assert page.evaluate("document.activeElement.textContent") == "Clear it"
    assert lime_store.one("ann-1#1")["state"] == "drafted"
    page.keyboard.press("Enter")
    page.get_by_role("status").filter(has_text="Your last step: cleared").wait_for()
    page.keyboard.press("x")
    page.wait_for_url(re.compile(r"/letter/(?!ann-1)"))


def test_a_fault_has_the_focus(alone, page):
    """A step that was not done is not passed over."""
    page.goto(alone + ANN)
    page.get_by_label("soil pH").fill("17")
    page.get_by_role("button", name="Keep these numbers").click()
    page.locator("#fault:focus").wait_for()


def test_the_draft_is_laid_again_over_what_was_written(alone, page, lime_store, wrong_dose):
    """Only where somebody wrote; the history says what was done, in the desk's words."""
    page.goto(alone + ANN)
    assert page.locator(".history").get_by_text("edited the e-mail").is_visible()
    page.get_by_role("button", name="Lay the draft again").click()
    page.locator(".state", has_text="drafted").wait_for()
    assert "999" not in lime_store.one("ann-1#1")["email"]
    assert page.get_by_role("button", name="Lay the draft again").count() == 0


def test_an_emergency_says_whom_to_call_and_what_to_say(lime_store, engine, take_in, served, page):
    """The writer first, with the telephone or that there is none; then whom the writer must call."""
    take_in(lime_store, engine, [("Pia", "My toddler ate berries off the yew by the door, what do I do??")])
    with served(lime_store.path, engine, "Ida") as address:
        page.goto(f"{address}/letter/pia-1%231")
        said = page.locator(".alarm").inner_text()
    assert "The writer's telephone: no telephone given" in said
    assert engine.knowledge.hand_offs["poison-centre"].text in said
    assert said.index("Call the writer, Pia") < said.index("Whom the writer must call: the poison centre")


def test_a_cue_card_that_is_not_cleared_says_so(alone, page):
    """It may be on a screen in the studio."""
    page.goto(f"{alone}{ANN}/card")
    assert page.get_by_text("Not cleared: not to be aired.").is_visible()
