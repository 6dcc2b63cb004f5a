"""Several people at one desk: signing in, two at one letter, forged forms, and hostile letters."""

from datetime import UTC, datetime
from urllib.parse import quote

import pytest

from answers.desk.people import People
from answers.ledger import Ledger

NOW = datetime(2026, 5, 20, 14, 0, tzinfo=UTC)
PASSWORD = "nine green beans 9"
LETTER = "/letter/ann-1%231"


@pytest.fixture
def desk(lime_store, engine, served):
    """A desk that asks people to sign in: Kit keeps, Wanda writes, Chet checks."""
    people = People(lime_store)
    for name, role in (("Kit", "keeper"), ("Wanda", "writer"), ("Chet", "checker")):
        people.add(name, role, PASSWORD, NOW)
    with served(lime_store.path, engine, "") as address:
        yield address


def enter(browser, address, name, password=PASSWORD, then="/"):
    context = browser.new_context()
    page = context.new_page()
    page.goto(address + then)
    page.get_by_label("Name").fill(name)
    page.get_by_label("Password").fill(password)
    page.get_by_role("button", name="Sign in").click()
    return page


def test_signing_in_and_out(desk, browser):
    """Nothing is shown before; the page asked for comes after; signing out ends it."""
    page = enter(browser, desk, "Wanda", then=LETTER)
    assert page.get_by_role("heading", name="Ann").is_visible()
    assert page.get_by_text("Wanda, writer").is_visible()
    page.get_by_role("button", name="Sign out").click()
    page.goto(desk + LETTER)
    assert page.get_by_role("button", name="Sign in").is_visible()
    page.context.close()


def test_a_wrong_password_is_refused_and_too_many_are_held_off(desk, browser):
    """Five wrong ones, and even the right one must wait."""
    page = enter(browser, desk, "Wanda", "not her password")
    for _ in range(4):
        assert page.get_by_role("alert").filter(has_text="No such name with that password").is_visible()
        page.get_by_label("Password").fill("still not it at all")
        page.get_by_role("button", name="Sign in").click()
    page.get_by_label("Password").fill(PASSWORD)
    page.get_by_role("button", name="Sign in").click()
    assert page.get_by_role("alert").filter(has_text="try again in").is_visible()
    page.context.close()


def test_two_people_at_one_letter_never_overwrite_silently(desk, browser, lime_store):
    """The second sees the first's claim; who saves later is told, and keeps what was typed."""
    wanda, chet = enter(browser, desk, "Wanda", then=LETTER), enter(browser, desk, "Chet", then=LETTER)
    for page, words in ((wanda, "Wanda's words"), (chet, "Chet's words")):
        page.get_by_label("E-mail reply", exact=True).fill(words)
    wanda.get_by_role("button", name="Keep the e-mail reply").click()
    wanda.wait_for_load_state()
    chet.get_by_role("button", name="Keep the e-mail reply").click()
    assert chet.get_by_role("alert").filter(has_text="Wanda edited the e-mail reply since you opened it").is_visible()
    assert chet.get_by_label("What you had written").input_value() == "Chet's words"
    assert lime_store.one("ann-1#1")["email"] == "Wanda's words\n"
    wanda.get_by_role("button", name="Take it up").click()
    wanda.wait_for_load_state()
    chet.get_by_role("link", name="Back to where it stands now").click()
    assert chet.get_by_text("Wanda is at work on it").is_visible()
    chet.get_by_role("button", name="Take it over").click()
    chet.wait_for_load_state()
    assert Ledger(lime_store).claimed_by("ann-1#1", NOW) == "Chet"
    for page in (wanda, chet):
        page.context.close()


def test_a_writer_does_not_clear_and_a_checker_clears_what_she_gave(desk, browser, lime_store):
    """The writer gives the sheaf its text; the checker clears all five."""
    sheaf = "/sheaf/rule:lime-for-acid-soil"
    wanda = enter(browser, desk, "Wanda", then=sheaf)
    assert wanda.get_by_role("button", name="Clear the letters with it").count() == 0
    wanda.get_by_role("button", name="Give it to the letters").click()
    wanda.wait_for_load_state()
    assert {r["state"] for r in lime_store.rows()} == {"edited"}
    chet = enter(browser, desk, "Chet", then=sheaf)
    chet.get_by_role("button", name="Clear the letters with it").click()
    chet.get_by_text("0 waiting").wait_for()
    assert {r["cleared_by"] for r in lime_store.rows()} == {"Chet"}
    for page in (wanda, chet):
        page.context.close()


def test_a_forged_form_changes_nothing(desk, browser, lime_store):
    """Another site's page cannot act for who is signed in: neither with a guessed token nor without one."""
    page = enter(browser, desk, "Chet")
    for form in ({}, {"csrf": "guessed"}):
        answer = page.request.post(f"{desk}{LETTER}/clear", form=form)
        assert answer.status == 403
    page.set_content(f'<form method=post action="{desk}{LETTER}/clear"><button>Win</button></form>')
    page.get_by_role("button", name="Win").click()
    page.wait_for_load_state()
    assert lime_store.one("ann-1#1")["state"] == "drafted"
    page.context.close()


def test_a_keeper_looks_after_people_and_place(desk, browser, lime_store):
    """A new person can sign in; the place is set; a writer sees no such page."""
    kit = enter(browser, desk, "Kit", then="/people")
    kit.get_by_label("Name", exact=True).fill("Nell")
    kit.get_by_label("Role", exact=True).select_option("producer")
    kit.get_by_label("Password (at least 12 characters)").fill("plums in a tin pail")
    kit.get_by_role("button", name="Add").click()
    kit.get_by_label("Minutes of the segment").fill("26")
    kit.get_by_role("button", name="Keep", exact=True).click()
    kit.wait_for_load_state()
    assert lime_store.setting("minutes") == "26"
    nell = enter(browser, desk, "Nell", "plums in a tin pail")
    assert nell.get_by_text("Nell, producer").is_visible()
    nell.goto(f"{desk}/people")
    assert nell.get_by_role("alert").filter(has_text="A producer may not do this").is_visible()
    for page in (kit, nell):
        page.context.close()


HOSTILE = (
    "<script>document.title='owned'</script> my lawn is yellow",
    '"><img src=x onerror="document.title=\'owned\'"> moss in the lawn',
    "</textarea><svg onload=\"document.title='owned'\"> how much lime, pH 5.4, 40 x 60 lawn",
    "{{ 7 * 7 }} {% raw %} ${7*7} javascript:alert(1) aphids on roses",
    "‮gnirb‬ \u0000 \U0001f33b " + "a" * 3000 + " tomato leaves curl",
)


def test_hostile_letters_are_shown_harmlessly(lime_store, engine, take_in, served, browser):
    """Script, markup and template signs in a letter or its writer's name are words on the page, nothing else."""
    ids = take_in(lime_store, engine, [(f"<b onmouseover=x>Mallory{i}</b>", text) for i, text in enumerate(HOSTILE)])
    with served(lime_store.path, engine, "Ida") as address:
        page = browser.new_context().new_page()
        asked = []
        page.on("request", lambda request: asked.append(request.url))
        for path in ("/", "/find?words=%3Cscript%3E", *(f"/letter/{quote(id_, safe='')}" for id_ in ids)):
            page.goto(address + path)
            assert "owned" not in page.title()
            assert page.locator("main script, main img, main b").count() == 0
            assert page.locator("main svg:not(.strip)").count() == 0
        assert all(url.startswith((address, "data:")) for url in asked)
        page.goto(f"{address}/letter/{quote(ids[0], safe='')}")
        assert page.get_by_text("<script>document.title='owned'</script>").first.is_visible()
        page.context.close()
