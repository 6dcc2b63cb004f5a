"""What a desk is set to: its place, and the programme it answers for.

Not here: keeping it (store.py).
"""

from __future__ import annotations

from kb.errors import RangeError
from kb.load import Knowledge

SETTINGS = ("place", "programme", "minutes")
_MINUTES = (1, 240)
_LONGEST_NAME = 100


def check_setting(name: str, value: str, knowledge: Knowledge) -> None:
    """Whether a setting may be made; an empty value unmakes it.

    Raises: RangeError naming the setting, the value and what is allowed.
    """
    if name not in SETTINGS:
        raise RangeError("setting", name, f"one of {', '.join(SETTINGS)}")
    if name == "place" and value and value not in knowledge.places:
        raise RangeError("place", value, f"one of {', '.join(knowledge.places)}")
    if (
        name == "minutes"
        and value
        and not (value.isdecimal() and len(value) < 4 and _MINUTES[0] <= int(value) <= _MINUTES[1])
    ):
        raise RangeError("minutes", value, f"{_MINUTES[0]} to {_MINUTES[1]}")
    if name == "programme" and len(value) > _LONGEST_NAME:
        raise RangeError("programme", f"{len(value)} characters", f"at most {_LONGEST_NAME}")
