"""A real browser: Debian's Chromium driven by Playwright against the desk.

Where no Chromium is installed these tests are skipped with a word; .ci/run installs one and sets TRUG_BROWSER=required,
and then a missing browser is a failure.
"""

import os
import shutil

import pytest

CHROMIUM = next((p for name in ("chromium", "chromium-browser", "google-chrome") if (p := shutil.which(name))), None)
QUIET = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking"]
QUIET += ["--disable-component-update", "--disable-sync"]


@pytest.fixture(scope="module")  # its loop must not run on while other modules run theirs
def browser():
    """One Chromium for a module."""
    if CHROMIUM is None:
        if os.environ.get("TRUG_BROWSER") == "required":
            pytest.fail("no Chromium is installed, and TRUG_BROWSER=required asks for one")
        pytest.skip("no Chromium is installed: the desk's pages are not tested in a browser here")
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        running = playwright.chromium.launch(executable_path=CHROMIUM, args=QUIET)
        yield running
        running.close()


@pytest.fixture
def alone(lime_store, engine, served):
    """The desk of one person, Ida, with the five letters about lime."""
    with served(lime_store.path, engine, "Ida") as address:
        yield address


@pytest.fixture
def page(browser):
    """A page of its own; a script's error or a dialog fails the test."""
    context = browser.new_context(viewport={"width": 1280, "height": 900})
    opened = context.new_page()
    troubles = []
    opened.on("pageerror", lambda error: troubles.append(str(error)))
    opened.on("dialog", lambda dialog: (troubles.append(dialog.message), dialog.dismiss()))
    yield opened
    context.close()
    assert troubles == []


@pytest.fixture
def careful(browser):
    """A page, and the sorts of dialog it opened; whoever is asked whether to leave stays."""
    context = browser.new_context(viewport={"width": 1280, "height": 900})
    opened, asked = context.new_page(), []
    opened.on("dialog", lambda dialog: (asked.append(dialog.type), dialog.dismiss()))
    yield opened, asked
    context.close()
