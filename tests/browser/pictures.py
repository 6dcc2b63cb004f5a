"""The README's pictures of the desk: `python tests/browser/pictures.py` makes them anew in .pictures/.

Needs Chromium. Not here: tests.
"""

from __future__ import annotations

import shutil
import subprocess
import sys
import tempfile
import time
import urllib.error
import urllib.request
from pathlib import Path

from playwright.sync_api import Page, sync_playwright

ROOT = Path(__file__).parents[2]
FOLDER = ROOT / ".pictures"
TRUG = [sys.executable, "-c", "from answers.cli import main; main()"]
PORT = 8099
DESK = f"http://127.0.0.1:{PORT}"
DAY = "2026-05-05"


def main() -> None:
    """Take the demonstration letters in, serve the desk, and take each picture."""
    FOLDER.mkdir(exist_ok=True)
    demo = ROOT / "demo_questions"
    letters = [*demo.glob("*.mbox"), *sorted(demo.glob("eml/*.eml")), *demo.glob("*.csv")]
    with tempfile.TemporaryDirectory() as folder:
        store = ["--store", str(Path(folder) / "trug.db")]
        subprocess.run([*TRUG, "intake", *map(str, letters), *store], check=True)
        subprocess.run([*TRUG, "set", "place=larkspur-county", "minutes=26", *store], check=True)
        serve = [*TRUG, "desk", "--port", str(PORT), "--today", DAY, "--by", "Ida", *store]
        with subprocess.Popen(serve) as desk:
            try:
                _wait()
                with sync_playwright() as playwright:
                    chromium = shutil.which("chromium") or shutil.which("google-chrome")
                    browser = playwright.chromium.launch(executable_path=chromium, args=["--no-sandbox"])
                    size = {"width": 1200, "height": 760}
                    _pictures(browser.new_page(viewport=size), browser.new_page(viewport=size, color_scheme="dark"))
                    browser.close()
            finally:
                desk.terminate()


def _pictures(page: Page, dark: Page) -> None:
    page.goto(DESK)
    page.screenshot(path=FOLDER / "season.png")
    page.goto(f"{DESK}/sheaf/rule:lime-for-acid-soil")
    page.screenshot(path=FOLDER / "sheaf.png")
    address = page.locator("ol.letters a").first.get_attribute("href")
    dark.goto(f"{DESK}{address}")
    text = dark.get_by_label("E-mail reply", exact=True)
    text.fill(text.input_value().replace("about 205 pounds", "about 305 pounds"))
    dark.locator(".marks .open").first.wait_for()
    dark.screenshot(path=FOLDER / "letter.png", full_page=True)


def _wait() -> None:
    for _ in range(200):
        try:
            urllib.request.urlopen(DESK, timeout=1).close()
            return
        except (urllib.error.URLError, OSError):
            time.sleep(0.1)
    raise SystemExit("the desk did not start")


if __name__ == "__main__":
    main()
