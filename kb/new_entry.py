"""The start of a new rule, plant or problem, written at the end of a family's file for a person to fill in.

Not here: saying what is still missing (`trug kb check` does).
"""

from __future__ import annotations

import re
from datetime import date
from pathlib import Path

from kb.entries import KINDS, PROBLEM_SORTS, STEP_ORDER
from kb.errors import EntryError, RangeError
from kb.load import Knowledge
from kb.whole import written_whole

SORTS = {"rule": "rules", "plant": "plants", "problem": "problems"}

_PLANT = """
- id: {id}
  common: {words}
  group:             # an id of groups.yaml
  botanical:
  aliases: []        # plurals, regional names, misspellings that people really write
  traits: {{}}         # zones: [4, 8], soil_ph: [6.0, 7.0], blooms_on: old wood, toxic_to: [dogs] ...
  traits_from: {{}}    # the source of each trait, as zones: some-source
"""
_PROBLEM = """
- id: {id}
  name: {words}
  sort:              # {sorts}
  synonyms: []       # eight or more names that people use
  phrases: []        # eight or more things that people write who do not know its name
  look_alikes:
    - {{name: "", sign: "", source: from-memory}}   # what else it could be, and the sign that decides
  groups: []         # and/or plants: []
"""
_RULE = """
- id: {id}
  title: {words}
  problem:           # an id of problems/
  kinds: []          # {kinds}
  groups: []         # and/or plants: []; zones: [3, 7] when it holds for those only
  what: {{say: "", source: from-memory}}
  do:                # in this order: {steps}
    - {{step: first, say: "", source: from-memory}}
  avoid:
    - {{say: "", source: from-memory}}
  windows: []        # {{action: "sow peas", frost: {{of: last, from_days: -28, to_days: 0}}, source: ...}}
  ask:
    - {{question: "", unless: photo}}
  cautions: []
  spoken: >-
    has
  examples: {{}}       # plant asked about, or none: [letters]; eight or more in different voices
  reviewed: {today}
"""


def start(sort: str, entry_id: str, family: str, folder: Path, k: Knowledge, today: date) -> Path:
    """Add the skeleton of an entry to `folder`/<sort>s/<family>.yaml and return that file.

    Raises:
        RangeError: for an id or family that is not lower-case words joined by hyphens.
        EntryError: when the id is already used.
    """
    for field, value in (("id", entry_id), ("family", family)):
        if not re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", value):
            raise RangeError(field, value, "lower-case words joined by hyphens, such as white-grubs")
    table = SORTS[sort]
    if entry_id in getattr(k, table):
        raise EntryError([f"{getattr(k, table)[entry_id].where} id: {entry_id!r} is already used"])
    template = {"rule": _RULE, "plant": _PLANT, "problem": _PROBLEM}[sort]
    text = template.format(
        id=entry_id,
        words=entry_id.replace("-", " "),
        sorts=" | ".join(PROBLEM_SORTS),
        kinds=" | ".join(KINDS),
        steps=", ".join(STEP_ORDER),
        today=today.isoformat(),
    )
    path = folder / table / f"{family}.yaml"
    before = path.read_text("utf-8") if path.exists() else ""
    with written_whole(path) as file:
        file.write((before.rstrip("\n") + ("\n" if before.strip() else "") + text.lstrip("\n")).encode())
    return path
