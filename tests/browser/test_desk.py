"""The desk in a real browser: from the opening page to a cleared sheaf, by mouse, by keys, and without script."""

import re
from urllib.parse import quote

import pytest

SHEAF = "/sheaf/rule:lime-for-acid-soil"
POUNDS = re.compile(r"about ([\d,]+) pounds")


def letter_address(store, name):
    id_ = next(r["question_id"] for r in store.rows() if r["writer"]["first_name"] == name)
    return f"/letter/{quote(id_, safe='')}"


def row_of(store, name):
    return next(r for r in store.rows() if r["writer"]["first_name"] == name)


def test_from_the_opening_page_to_a_cleared_sheaf(alone, page, lime_store):
    """Five letters, one text, five different figures, all cleared in one step; and the step taken back."""
    page.goto(alone)
    assert page.get_by_text("5 questions wait").is_visible()
    page.get_by_role("link", name="Soil acidity and lime").click()
    assert page.locator("ol.letters > li").count() == 5
    text = page.get_by_label("The text. What stands in [brackets]")
    text.fill(text.input_value().replace("With good wishes", "With all good wishes"))
    page.get_by_role("button", name="Clear the letters with it").click()
    page.get_by_text("0 waiting").wait_for()
    rows = lime_store.rows()
    assert {r["state"] for r in rows} == {"cleared"}
    assert {r["cleared_by"] for r in rows} == {"Ida"}
    assert len({POUNDS.search(r["email"])[1] for r in rows}) == 5
    for row in rows:
        assert row["email"].startswith(f"Dear {row['writer']['first_name']},")
        assert "With all good wishes" in row["email"]
        assert "[" not in row["email"]
    page.get_by_role("button", name="Take it back").click()
    page.get_by_text("5 waiting").wait_for()
    assert {r["state"] for r in lime_store.rows()} == {"drafted"}


def test_an_altered_dose_is_caught_and_stands_only_for_a_reason(alone, page, lime_store):
    """The margin marks it as it is typed; it is not cleared until somebody says why it may stand."""
    page.goto(alone + letter_address(lime_store, "Ann"))
    text = page.get_by_label("E-mail reply", exact=True)
    dose = POUNDS.search(text.input_value())[1]
    text.fill(text.input_value().replace(f"about {dose} pounds", "about 999 pounds"))
    page.locator(".marks .open", has_text="999").first.wait_for()
    page.get_by_role("button", name="Keep the e-mail reply").click()
    page.get_by_role("button", name="Clear it").click()
    assert page.get_by_role("alert").filter(has_text="999").is_visible()
    assert row_of(lime_store, "Ann")["state"] == "edited"
    page.get_by_role("link", name="Back to where it stands now").click()
    while page.get_by_role("button", name="Let it stand").count():
        page.get_by_label("It may stand, because").first.fill("the laboratory's own figure")
        page.get_by_role("button", name="Let it stand").first.click()
    page.get_by_role("button", name="Clear it").click()
    page.get_by_text("cleared by Ida").wait_for()
    assert "999" in row_of(lime_store, "Ann")["email"]


def test_a_dropped_caution_is_caught(alone, page, lime_store):
    """A caution left out is named in the margin."""
    page.goto(alone + letter_address(lime_store, "Bert"))
    caution = next(p["text"] for p in row_of(lime_store, "Bert")["worked"]["passages"] if p["part"] == "caution")
    text = page.get_by_label("E-mail reply", exact=True)
    assert caution in text.input_value()
    text.fill(text.input_value().replace(caution, ""))
    page.locator(".marks .open", has_text="dropped caution").wait_for()


def test_figures_are_worked_again_as_a_number_is_typed(alone, page, lime_store):
    """Twice the lawn, twice the lime, before anything is kept; then it is kept and drafted."""
    page.goto(alone + letter_address(lime_store, "Ann"))
    figure = page.locator(".results .figure").first
    before = float(POUNDS.search(figure.inner_text())[1].replace(",", ""))
    page.get_by_label("area (sq ft)").fill("4800")
    page.locator(".results .figure", has_text="4,800 square feet").wait_for()
    after = float(POUNDS.search(page.locator(".results .figure").first.inner_text())[1].replace(",", ""))
    assert after == pytest.approx(2 * before, rel=0.01)
    assert "4,800" not in row_of(lime_store, "Ann")["email"]
    page.get_by_role("button", name="Keep these numbers").click()
    page.get_by_text("told by a person").wait_for()
    assert "4,800 square feet" in row_of(lime_store, "Ann")["email"]


def test_a_sheafs_letters_can_be_put_right_on_its_worksheet(alone, page, lime_store):
    """A number changed there works that letter's figure again, and the page comes back to the sheaf."""
    page.goto(alone + SHEAF)
    page.get_by_text("Reading and numbers").first.click()
    page.get_by_label("area (sq ft)").first.fill("4800")
    page.locator(".results .figure", has_text="4,800 square feet").wait_for()
    page.get_by_role("button", name="Keep these numbers").first.click()
    page.wait_for_load_state()
    assert "/sheaf/" in page.url
    assert "4,800 square feet" in row_of(lime_store, "Ann")["email"]


def test_the_proof_of_a_sheafs_text_is_made_as_it_is_typed(alone, page):
    """A number that no figure gives is marked before anything is kept, and the filled text follows."""
    page.goto(alone + SHEAF)
    text = page.get_by_label("The text. What stands in [brackets]")
    text.fill(text.input_value().replace("[figure lime]", "[figure lime] Never put down over 77 pounds at once."))
    page.locator(".marks .open", has_text="77").wait_for()
    assert "77 pounds at once" in page.locator("[data-filled]").inner_text()


def test_a_number_no_calculator_takes_is_refused_and_nothing_changes(alone, page, lime_store):
    """The range is said."""
    page.goto(alone + letter_address(lime_store, "Ann"))
    page.get_by_label("soil pH").fill("17")
    page.get_by_role("button", name="Keep these numbers").click()
    assert page.get_by_role("alert").filter(has_text="17").is_visible()
    assert row_of(lime_store, "Ann")["worked"]["measurements"]["soil_ph"]["value"] == 5.4


def test_a_reading_is_corrected_in_one_step_and_remembered(alone, page, lime_store):
    """One press on a rival, and the letter is drafted anew; `trug learn` will hear of it."""
    page.goto(alone + letter_address(lime_store, "Dov"))
    rival = page.locator(".rivals li").first
    rival.get_by_role("button").click()
    page.get_by_text("a person says so").wait_for()
    assert len(lime_store.corrections()) == 1
    assert row_of(lime_store, "Dov")["worked"]["problem"]["id"] == lime_store.corrections()[0][1]


def test_a_letter_is_held_over_and_comes_back_in_its_season(alone, page, lime_store):
    """Until a day that has come, it stands on the opening page again."""
    page.goto(alone + letter_address(lime_store, "Cleo"))
    page.locator("summary", has_text="Hold it over").click()
    page.get_by_label("Until").fill("2026-05-20")
    page.get_by_label("For what").fill("the soil to dry")
    page.get_by_role("button", name="Hold over").click()
    page.get_by_text("held over until 20 May 2026: the soil to dry").wait_for()
    page.goto(alone)
    assert page.get_by_role("link", name="Cleo").is_visible()


def test_without_script_everything_can_be_done(alone, browser, lime_store):
    """Plain forms carry a letter from its figures to cleared, and a sheaf too."""
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(alone + letter_address(lime_store, "Ann"))
    page.get_by_label("area (sq ft)").fill("1200")
    page.get_by_role("button", name="Keep these numbers").click()
    assert page.locator(".results .figure", has_text="1,200 square feet").is_visible()
    text = page.get_by_label("E-mail reply", exact=True)
    text.fill(text.input_value().replace("Dear Ann,", "Dear Ann, good day,"))
    page.get_by_role("button", name="Keep the e-mail reply").click()
    page.get_by_role("button", name="Clear it").click()
    assert row_of(lime_store, "Ann")["state"] == "cleared"
    page.goto(alone + SHEAF)
    page.get_by_role("button", name="Clear the letters with it").click()
    assert {r["state"] for r in lime_store.rows()} == {"cleared"}
    page.get_by_role("button", name="Take it back").click()
    assert sorted(r["state"] for r in lime_store.rows()) == ["cleared", *["drafted"] * 4]
    context.close()


def test_by_keys_alone(alone, page, lime_store):
    """Season, first sheaf, its text, clear; then back: no mouse."""
    page.goto(alone)
    page.keyboard.press("j")
    assert page.evaluate("document.activeElement.textContent") == "Soil acidity and lime"
    page.keyboard.press("Enter")
    page.wait_for_url("**/sheaf/**")
    page.keyboard.press("w")
    assert page.evaluate("document.activeElement.id") == "text"
    page.keyboard.press("Control+End")
    page.keyboard.type("PS come and see us.")
    page.keyboard.press("Control+Enter")
    page.wait_for_load_state()
    assert "PS come and see us." in page.get_by_label("The text. What stands in [brackets]").input_value()
    page.keyboard.press("c")
    assert page.evaluate("document.activeElement.textContent") == "Clear the letters with it"
    assert {r["state"] for r in lime_store.rows()} == {"drafted"}
    page.keyboard.press("Enter")
    page.get_by_text("0 waiting").wait_for()
    assert {r["state"] for r in lime_store.rows()} == {"cleared"}
    page.keyboard.press("u")
    page.get_by_text("5 waiting").wait_for()
    page.keyboard.press("s")
    page.wait_for_url(re.compile(r":\d+/$"))


def test_keys_can_be_turned_off(alone, page):
    """WCAG 2.1.4: a single letter does nothing once the box is cleared."""
    page.goto(alone)
    page.keyboard.press("?")
    page.get_by_label("Single keys work on this machine").uncheck()
    page.evaluate("document.activeElement.blur()")
    page.keyboard.press("p")
    page.reload()
    page.keyboard.press("p")
    assert page.url.rstrip("/") == alone


def test_everything_that_takes_focus_shows_it(alone, page, lime_store):
    """Tabbing through the letter's page, each stop has an outline."""
    page.goto(alone + letter_address(lime_store, "Ann"))
    for _ in range(25):
        page.keyboard.press("Tab")
        outline = page.evaluate("getComputedStyle(document.activeElement).outlineStyle")
        assert outline != "none", page.evaluate("document.activeElement.outerHTML")


def test_the_programme_is_planned_and_timed(alone, page, lime_store):
    """A cleared letter goes on the rundown, moves, and its cue card prints by itself."""
    page.goto(alone + SHEAF)
    page.get_by_role("button", name="Clear the letters with it").click()
    page.get_by_text("0 waiting").wait_for()
    page.goto(alone + "/programme?day=2026-05-23")
    page.get_by_role("button", name="Put on").first.click()
    page.get_by_role("button", name="Put on").first.click()
    begins = page.locator("ol.cards .hint").all_inner_texts()
    assert begins[0].startswith("Begins at 0:00")
    assert not begins[1].startswith("Begins at 0:00")
    page.get_by_role("button", name="Earlier").click()
    page.get_by_role("button", name="Take off").first.click()
    assert page.locator("ol.cards > li h2").count() == 1
    page.emulate_media(media="print")
    assert not page.locator("nav").first.is_visible()
    assert not page.get_by_role("button", name="Take off").is_visible()
    assert page.locator(".spoken").first.is_visible()
