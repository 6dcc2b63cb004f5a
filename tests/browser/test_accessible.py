"""Every page of the desk holds to WCAG 2.2 AA as far as an engine can tell, in light and dark, wide and narrow.

Outside check: axe-core, the accessibility engine, as packaged in axe-playwright-python.
"""

from datetime import UTC, date, datetime

import pytest

from answers.desk.people import People
from answers.ledger import Change, Ledger
from answers.rundown import put_on

NOW = datetime(2026, 5, 20, 14, 0, tzinfo=UTC)
LETTER = "/letter/ann-1%231"
PAGES = (
    "/",
    "/sheaf/rule:lime-for-acid-soil",
    LETTER,
    f"{LETTER}/card",
    f"{LETTER}/reply",
    "/letter/bert-2%231",
    "/letter/dov-4%231",
    "/letter/pia-1%231",
    "/sheaf/emergency:",
    "/find?state=drafted",
    "/programme",
    "/people",
    "/find?words=lime",
    "/letter/nobody%231",
)
RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]


@pytest.fixture
def desk(lime_store, engine, take_in, served):
    """A desk with something on every page: marks, a history, a claim, an emergency, a rundown, a person."""

    extra = [
        ("Pia", "My toddler ate berries off the yew by the door, what do I do??"),
        ("Quin", "thank you for the show"),
    ]
    take_in(lime_store, engine, extra)
    ledger = Ledger(lime_store)
    email = lime_store.one("ann-1#1")["email"]
    ledger.edit("ann-1#1", "email", email.replace("pounds", "ounces") + "\nCall 555-010-9999.", "Joel", NOW)
    ledger.claim("ann-1#1", "Joel", NOW)
    cue = lime_store.one("dov-4#1")["cue_card"]
    ledger.edit("dov-4#1", "cue_card", cue + "Never over 77 pounds at once.", "Ida", NOW)
    ledger.step([Change("bert-2#1", {"state": "cleared", "cleared_by": "Joel"})], "Joel", "cleared", NOW)
    put_on(lime_store, date(2026, 5, 20), "bert-2#1")
    People(lime_store).add("Kit", "keeper", "nine green beans 9", NOW)
    ledger.move("cleo-3#1", "held over", "Ida", NOW, "rain", date(2026, 5, 19))
    with served(lime_store.path, engine, "Ida") as address:
        yield address


def violations(page):
    from axe_playwright_python.sync_playwright import Axe

    found = Axe().run(page, options={"runOnly": {"type": "tag", "values": RULES}})
    return [f"{v['id']}: {v['help']} {[n['target'] for n in v['nodes']][:3]}" for v in found.response["violations"]]


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [1280, 320])
def test_no_page_has_a_violation(desk, browser, scheme, width):
    """And no page scrolls sideways at 320 pixels (WCAG 1.4.10)."""
    context = browser.new_context(viewport={"width": width, "height": 900}, color_scheme=scheme, bypass_csp=True)
    page = context.new_page()
    for path in PAGES:
        page.goto(desk + path)
        page.evaluate("document.querySelectorAll('details').forEach((d) => { d.open = true; })")
        assert violations(page) == [], path
        assert page.evaluate("document.documentElement.scrollWidth") <= width, path
    context.close()


def test_the_sign_in_page_has_no_violation(lime_store, engine, served, browser):
    """Before anybody is signed in, and after a wrong password."""
    People(lime_store).add("Kit", "keeper", "nine green beans 9", NOW)
    with served(lime_store.path, engine, "") as address:
        context = browser.new_context(bypass_csp=True)
        page = context.new_page()
        page.goto(address)
        assert violations(page) == []
        page.get_by_label("Name").fill("Kit")
        page.get_by_label("Password").fill("wrong password here")
        page.get_by_role("button", name="Sign in").click()
        assert violations(page) == []
        context.close()


def test_the_engine_finds_what_is_wrong(browser):
    """The check can fail: a field without a label is found."""
    context = browser.new_context()
    page = context.new_page()
    page.set_content("<html lang=en><title>x</title><main><h1>x</h1><input></main>")
    assert any(found.startswith("label") for found in violations(page))
    context.close()


def test_the_pages_are_laid_out_for_a_projector(desk, browser):
    """The cue card's words are large: at least 28 pixels."""
    page = browser.new_context().new_page()
    page.goto(desk + f"{LETTER}/card")
    size = page.evaluate("getComputedStyle(document.querySelector('.spoken p')).fontSize")
    assert float(size.removesuffix("px")) >= 28
    page.context.close()
