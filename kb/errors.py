"""Every error Trug raises on purpose, each carrying its facts and saying them in one line.

Not here: how an error is shown (answers/cli turns them into one line and an exit code).

    TrugError
    ├── EntryError       a knowledge file is wrong: file, line, field
    ├── RangeError       a number outside the range a formula is good for
    ├── UnitError        a unit nobody knows, or one of the wrong sort
    ├── LetterError      a file of letters that cannot be read
    ├── PlaceError       a town, ZIP or place that cannot be found
    ├── StoreError       the store is locked, full, or not one of ours
    │   └── NoSuchError      it holds no letter of that id
    ├── StepError        a step that cannot be taken as things stand: not cleared yet, proof not clean
    └── ConflictError    somebody else changed or claimed it meanwhile
"""

from __future__ import annotations


class TrugError(Exception):
    """Base of all our errors; `str()` gives the sentence a person reads."""


class EntryError(TrugError, ValueError):
    """A fault in a knowledge file. `problems` holds every `file:line field: message` found in one run."""

    def __init__(self, problems: list[str]) -> None:
        self.problems = problems
        super().__init__("\n".join(problems))


class RangeError(TrugError, ValueError):
    """A value outside its allowed range."""

    def __init__(self, field: str, value: object, allowed: str) -> None:
        self.field, self.value, self.allowed = field, value, allowed
        super().__init__(f"{field}: {value} is not allowed; give {allowed}")


class UnitError(TrugError, ValueError):
    """An unknown unit, or a unit of another quantity than the one asked for."""

    def __init__(self, field: str, text: str, expected: str) -> None:
        self.field, self.text, self.expected = field, text, expected
        super().__init__(f"{field}: cannot read {text!r}; give {expected}")


class LetterError(TrugError, ValueError):
    """A letters file that cannot be read."""

    def __init__(self, source: str, message: str) -> None:
        self.source, self.message = source, message
        super().__init__(f"{source}: {message}")


class PlaceError(TrugError, LookupError):
    """A place that is not in the place data."""


class StoreError(TrugError, RuntimeError):
    """The store cannot be read or written; what it held is unharmed."""


class NoSuchError(StoreError):
    """The store holds no letter of the id asked for."""


class StepError(TrugError, ValueError):
    """A step that cannot be taken with a letter as it stands."""


class ConflictError(TrugError, RuntimeError):
    """Somebody else has changed or claimed the letter since it was opened; theirs is kept."""
