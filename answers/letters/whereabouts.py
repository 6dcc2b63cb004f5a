"""Where a writer says they are: town, state (or province or country) and ZIP code in a letter's own words.

Not here: the place with climate numbers nearest to it (reading/places.py). A state's name alone counts only after "in"
or "from" and before a stop, since many plants carry one.
"""

from __future__ import annotations

import re

_STATES = {
    "Alabama": "AL",
    "Alaska": "AK",
    "Arizona": "AZ",
    "Arkansas": "AR",
    "California": "CA",
    "Colorado": "CO",
    "Connecticut": "CT",
    "Delaware": "DE",
    "Florida": "FL",
    "Georgia": "GA",
    "Hawaii": "HI",
    "Idaho": "ID",
    "Illinois": "IL",
    "Indiana": "IN",
    "Iowa": "IA",
    "Kansas": "KS",
    "Kentucky": "KY",
    "Louisiana": "LA",
    "Maine": "ME",
    "Maryland": "MD",
    "Massachusetts": "MA",
    "Michigan": "MI",
    "Minnesota": "MN",
    "Mississippi": "MS",
    "Missouri": "MO",
    "Montana": "MT",
    "Nebraska": "NE",
    "Nevada": "NV",
    "New Hampshire": "NH",
    "New Jersey": "NJ",
    "New Mexico": "NM",
    "New York": "NY",
    "North Carolina": "NC",
    "North Dakota": "ND",
    "Ohio": "OH",
    "Oklahoma": "OK",
    "Oregon": "OR",
    "Pennsylvania": "PA",
    "Rhode Island": "RI",
    "South Carolina": "SC",
    "South Dakota": "SD",
    "Tennessee": "TN",
    "Texas": "TX",
    "Utah": "UT",
    "Vermont": "VT",
    "Virginia": "VA",
    "Washington": "WA",
    "West Virginia": "WV",
    "Wisconsin": "WI",
    "Wyoming": "WY",
    "District of Columbia": "DC",
    "Ontario": "ON",
    "British Columbia": "BC",
    "Alberta": "AB",
    "Manitoba": "MB",
    "Quebec": "QC",
    "Nova Scotia": "NS",
    "England": "England",
    "Scotland": "Scotland",
    "Ireland": "Ireland",
    "Germany": "Germany",
    "Netherlands": "Netherlands",
}
_NAMES = "|".join(sorted(_STATES, key=len, reverse=True))
_CODES = "|".join(_STATES.values())
_NOT_TOWN = r"(?!(?:From|In|Near|At|Here|Dear|Hi|Hello)\b)"
_TOWN = _NOT_TOWN + r"(?P<town>[A-Z][a-z.'-]+(?:[ ][A-Z][a-z.'-]+){0,2})"
_ZIP = r"(?:,?[ ]+(?P<zip>[0-9]{5})(?:-[0-9]{4})?)?\b"
_AFTER = r"(?:,[ ]+|[ ]+(?!(?:IN|OR|ME|HI|OK|OH|ON)\b(?![ ]+[0-9]{5})))"  # codes that are words need a comma or ZIP
_PART = r"(?:(?i:north|south|east|west|central|upstate|rural)\w* )?"
_FORMS = (
    re.compile(rf"\b{_TOWN}{_AFTER}(?P<state>{_CODES})\b{_ZIP}"),
    re.compile(rf"\b{_TOWN},[ ]+(?P<state>{_NAMES})\b{_ZIP}"),
    re.compile(rf"\b(?P<state>{_CODES})[ ]+(?P<zip>[0-9]{{5}})\b"),
    re.compile(rf"\b(?i:in|from) {_PART}(?P<state>{_NAMES})(?=[ ]*(?:[.,;:!?)\n]|$))"),
)


def find_place(text: str) -> tuple[str, str, str]:
    """The (town, state abbreviation, ZIP code) a letter gives, each empty when not given.

    An abbreviation counts only in capitals after a capitalised town or before a ZIP code, so "in" and "or" do not.
    """
    for form in _FORMS:
        if found := form.search(text):
            parts = found.groupdict()
            return parts.get("town") or "", _STATES.get(parts["state"], parts["state"]), parts.get("zip") or ""
    zip_only = re.search(r"\b(?i:zip(?: code)?)(?: is|:)? ?([0-9]{5})\b", text)
    return "", "", zip_only.group(1) if zip_only else ""


def state_code(text: str) -> str:
    """The postal abbreviation of a state as written ("Michigan", "mi"), or ""."""
    plain = text.strip()
    return _STATES.get(plain.title(), plain.upper() if plain.upper() in _STATES.values() else "")
