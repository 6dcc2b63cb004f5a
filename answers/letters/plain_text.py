"""Clean text from what people send: HTML, quoted replies, signatures and hidden characters come off.

Not here: names and addresses (privacy.py) or reading mail files (mailbox.py).
"""

from __future__ import annotations

import re
import unicodedata
import warnings

LONGEST = 100_000  # characters kept of one letter
_ESCAPES = re.compile(r"\x1b(?:\[[0-?]*[ -/]*[@-~]|\][^\x07\x1b]*(?:\x07|\x1b\\)?|[@-Z\\-_])")
_HIDDEN = re.compile(
    r"display\s*:\s*none|visibility\s*:\s*hidden|font-size\s*:\s*0(?![.\d]*[1-9])|opacity\s*:\s*0(?![.\d]*[1-9])", re.I
)
_WHITE = re.compile(r"(?<![-\w])color\s*:\s*(?:white|#fff(?:fff)?|rgb\(255, ?255, ?255\))\s*(?:;|$|!)", re.I)
_DISCLAIMER = re.compile(
    r"\n\s*(?:(?:confidentiality|disclaimer|legal) (?:notice|statement)|this (?:e-?mail|message|communication)[^.\n]{0,60}"
    r"(?:confidential|intended (?:only|solely)|privileged)|sent from my |get outlook for |virus-free\.).*",
    re.I | re.S,
)
_SIGNATURE = re.compile(r"\n-- ?\n.*", re.S)
LANGUAGES = ["en", "de", "fr", "es", "it", "nl", "pl", "sv"]


def html_to_text(html: str) -> str:
    """What a reader would see of `html`: no scripts, styles, hidden elements or remote pictures."""
    from bs4 import BeautifulSoup, MarkupResemblesLocatorWarning
    from inscriptis import get_text

    with warnings.catch_warnings():
        warnings.simplefilter("ignore", MarkupResemblesLocatorWarning)
        soup = BeautifulSoup(html[: 10 * LONGEST], "lxml")
    for tag in soup(["script", "style", "head", "title", "noscript", "template", "iframe", "object", "img", "svg"]):
        tag.decompose()
    coloured = soup.find(style=re.compile("background", re.I)) or soup.find(bgcolor=True)
    hidden = [t for t in soup.find_all(True) if t.has_attr("hidden") or _HIDDEN.search(str(t.get("style") or ""))]
    if not coloured:  # white words on white paper
        hidden += list(soup.find_all(style=_WHITE))
    for tag in hidden:
        tag.decompose()
    try:
        return str(get_text(str(soup)))
    except (RecursionError, ValueError, AssertionError):  # layout of absurd nesting: the bare words will do
        return soup.get_text("\n")


def clean(text: str) -> str:
    """`text` without control and direction characters or terminal escapes, line ends and width forms made plain."""
    text = unicodedata.normalize("NFC", _ESCAPES.sub("", text[: 2 * LONGEST]))
    text = text.replace("\r\n", "\n").replace("\r", "\n").replace("\xa0", " ").replace("\t", " ")
    text = "".join(c for c in text if c == "\n" or unicodedata.category(c) not in ("Cc", "Cf", "Cs", "Co", "Cn"))
    text = re.sub(r"[ ]+\n", "\n", text)
    return re.sub(r"\n{3,}", "\n\n", text).strip()[:LONGEST]


def own_words(text: str) -> str:
    """The writer's own words: quoted replies, signatures and disclaimers taken off, unless nothing would be left."""
    from mailparser_reply import EmailReplyParser

    forwarded = re.split(r"\n?-{2,} ?forwarded message ?-{2,}[^\n]*\n", text, maxsplit=1, flags=re.I)
    if len(forwarded) == 2 and len(forwarded[0].split()) < 25:  # the question is in what was forwarded
        return (forwarded[0].strip() + "\n" + re.sub(r"^(?:\w+: [^\n]*\n)+", "", forwarded[1])).strip()
    kept = text
    if re.search(r"^\s*>|^.{0,120}:\s*$|^(?:From|Von|De|Da|Van|Od|Från)\s*:", text, re.M):
        try:
            kept = EmailReplyParser(languages=LANGUAGES).parse_reply(text=text) or text
        except (RecursionError, ValueError, IndexError):
            kept = text
        kept = "\n".join(line for line in kept.splitlines() if not line.lstrip().startswith(">"))
    for pattern in (_SIGNATURE, _DISCLAIMER):
        shorter = pattern.sub("", "\n" + kept).strip()
        kept = shorter or kept
    return kept.strip() or "\n".join(line.lstrip("> ") for line in text.splitlines()).strip()
