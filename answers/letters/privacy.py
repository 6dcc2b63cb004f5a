"""Who wrote, and which strings of a letter must never be spoken or published.

Not here: finding the place with climate numbers (reading/places.py).
"""

from __future__ import annotations

import re
from collections.abc import Iterable

from answers.letters.letter import Writer
from answers.letters.whereabouts import find_place, state_code

EMAIL = re.compile(r"[\w.+-]+@[\w-]+(?:\.[\w-]+)+")
PHONE = re.compile(r"(?<![\d-])(?:\+?1[ .-]?)?(?:\(\d{3}\) ?|\d{3}[ .-])?\d{3}[ .-]\d{4}(?![\d-])")
STREET = re.compile(
    r"\b\d{1,6} (?:[NSEW]\.? )?(?:[A-Z][\w']+ ){1,3}"
    r"(?:St|Street|Ave|Avenue|Rd|Road|Dr|Drive|Ln|Lane|Ct|Court|Blvd|Way|Pl|Place|Hwy|Trail|Circle|Cir)\b\.?"
)
_SIGNED = re.compile(  # a last line such as "Dan, Alderbrook", "- Joe in Cold Harbor Twp" or "Mrs. Ruth Haverkamp"
    r"\W*(?P<name>(?:[A-Z][\w.'-]+ ){0,2}[A-Z][\w'-]+)"
    r"(?:(?:, ?| (?:in|from|of) )(?P<town>[A-Z][\w'.]+(?: [A-Z][\w'.]+){0,2}))?\W*"
)
_FAREWELLS = {"thanks", "thank", "sincerely", "regards", "best", "cheers", "yours", "sent", "gratefully", "help"}
_TITLES = {"sister", "brother", "mr", "mrs", "ms", "miss", "dr", "rev", "prof", "the", "sir", "madam"}
_NOT_NAMES = {
    "no",
    "name",
    "none",
    "family",
    "garden",
    "gardener",
    "home",
    "info",
    "mail",
    "contact",
    "office",
    "unknown",
    "anonymous",
}


def writer_of(
    name: str, address: str = "", text: str = "", town: str = "", state: str = "", zip_code: str = ""
) -> Writer:
    """The writer from a display name or address, with town, state and ZIP from their own fields, else from the text."""
    name = " ".join(EMAIL.sub("", name).replace('"', "").split())
    said = find_place(town) if find_place(town)[1] else ("", "", "") if town else find_place(text)
    if said[0]:
        town = said[0].split(". ")[-1]
    signed_first, signed_town = signed(text)
    phone, street, mail = PHONE.search(text), STREET.search(text), EMAIL.search(address)
    return Writer(
        full_name=name,
        first_name=first_name(name) or signed_first,
        town=town.strip(" ,") or signed_town,
        state=state_code(state) or said[1],
        zip_code=zip_code or said[2] or find_place(text)[2],
        email=mail.group() if mail else "",
        phone=phone.group() if phone else "",
        street=street.group() if street else "",
    )


def signed(text: str) -> tuple[str, str]:
    """The (first name, town) of a letter's last line when it is a signature and nothing else; else empty."""
    lines = [line.strip() for line in text.strip().splitlines() if line.strip()]
    match = _SIGNED.fullmatch(lines[-1]) if len(lines) > 1 and len(lines[-1]) <= 45 else None
    if match is None or match["name"].split()[0].lower() in _FAREWELLS:
        return "", ""
    return first_name(match["name"]), match["town"] or ""


def first_name(name: str) -> str:
    """The name to greet by: "Jane" of "Doe, Jane", "Mrs. Jane Doe", "JANE DOE"; "" when there is none."""
    if "," in name:
        name = name.split(",", 1)[1]
    words = [w.strip(".()") for w in name.split()]
    words = [w for w in words if w and w.lower() not in _TITLES]
    if not words or not re.fullmatch(r"[^\W\d_]{2,}(?:[-'][^\W\d_]+)*", words[0]) or words[0].lower() in _NOT_NAMES:
        return ""
    if words[-1].lower() in _NOT_NAMES:
        return ""
    return words[0].capitalize() if words[0].isupper() or words[0].islower() else words[0]


def private_strings(writer: Writer, text: str) -> tuple[str, ...]:
    """Surname, street, phone numbers and e-mail addresses, as they stand in the letter."""
    found: list[str] = []
    for pattern in (EMAIL, PHONE, STREET):
        found += [m.group() for m in pattern.finditer(text)]
    found += [writer.email, writer.phone, writer.street]
    found += [
        w for w in re.findall(r"[^\W\d_]+", writer.full_name) if len(w) > 2 and w.lower() not in _TITLES | _NOT_NAMES
    ]
    return tuple(dict.fromkeys(s for s in found if s and s.lower() != writer.first_name.lower()))


def public_text(text: str, private: Iterable[str]) -> str:
    """`text` with every private string blotted out."""
    for string in sorted(private, key=len, reverse=True):
        text = re.sub(rf"(?<!\w){re.escape(string)}(?!\w)", "[private]", text, flags=re.I)
    return text
