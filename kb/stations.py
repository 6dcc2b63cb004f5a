"""A weather station's daily record from a CSV file, with its missing, flagged and impossible days counted.

Not here: what a record says of frost, heat, chill or zone (station_years.py); the places' own tables (kb/places).
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import date, timedelta
from pathlib import Path

from kb.errors import EntryError

UNITS = ("tenths_c", "f", "c")
_RAIN = {"prcp_in": "f", "prcp_mm": "c"}
_COLDEST_F, _HOTTEST_F = -80.0, 140.0  # outside any record in the United States; such a value is a fault


@dataclass(frozen=True)
class Day:
    """One day: highest and lowest temperature in F, rain in inches; None where missing."""

    tmax_f: float | None
    tmin_f: float | None
    rain_in: float | None = None

    @property
    def both(self) -> tuple[float, float] | None:
        """(tmax, tmin) when neither is missing."""
        return None if self.tmax_f is None or self.tmin_f is None else (self.tmax_f, self.tmin_f)


@dataclass(frozen=True)
class Gaps:
    """What is not in a record: days without a reading, those thrown out, and the longest run without a minimum."""

    days: int
    tmax_missing: int
    tmin_missing: int
    flagged: int
    impossible: int
    longest_run: int

    @property
    def words(self) -> str:
        """One line for a report."""
        return (
            f"{self.days} days; no maximum on {self.tmax_missing}, no minimum on {self.tmin_missing}"
            f" (longest run {self.longest_run});"
            f" left out: {self.flagged} readings flagged, {self.impossible} impossible"
        )


@dataclass(frozen=True)
class Record:
    """Daily readings by date. A date that is not there is missing."""

    station: str
    days: dict[date, Day] = field(default_factory=dict)
    flagged: int = 0
    impossible: int = 0

    @property
    def first(self) -> date:
        """The first day of the record."""
        return min(self.days)

    @property
    def last(self) -> date:
        """The last day of the record."""
        return max(self.days)

    def span(self, start: date, end: date) -> list[tuple[date, Day]]:
        """Every date from start to end, both counted; a day without readings where the record has none."""
        nothing = Day(None, None)
        dates = (start + timedelta(days=n) for n in range((end - start).days + 1))
        return [(d, self.days.get(d, nothing)) for d in dates]

    def gaps(self, start: date | None = None, end: date | None = None) -> Gaps:
        """The missing days from start to end, or of the whole record."""
        days = [day for _, day in self.span(start or self.first, end or self.last)]
        run = longest = 0
        for day in days:
            run = run + 1 if day.tmin_f is None else 0
            longest = max(longest, run)
        highs, lows = sum(d.tmax_f is None for d in days), sum(d.tmin_f is None for d in days)
        return Gaps(len(days), highs, lows, self.flagged, self.impossible, longest)


def read_record(path: Path, units: str = "") -> Record:
    """The record in a CSV file; see `parse_record`.

    Raises:
        EntryError: naming file, line and field.
    """
    try:
        text = path.read_text("utf-8-sig")
    except (OSError, UnicodeDecodeError) as fault:
        raise EntryError([f"{path.name}:1 file: {fault}"]) from None
    return parse_record(text, path.name, units)


def parse_record(text: str, name: str = "record", units: str = "") -> Record:
    """A record from CSV text with a header, one row a day, in either of two layouts.

    GHCN-Daily by station: DATE, TMAX, TMIN, PRCP in tenths of a degree C and of a millimetre, each perhaps with an
    `..._ATTRIBUTES` column whose second part is a quality flag; a flagged reading counts as missing. Plain: date,
    tmax_f and tmin_f (or tmax_c and tmin_c), perhaps prcp_in (or prcp_mm). `units` overrides for files with the
    first header but whole degrees: f or c (rain then in inches or millimetres). Empty and -9999 are missing; a minimum
    above its maximum makes both missing.

    Raises:
        EntryError: naming file, line and field of every fault.
    """
    rows = list(csv.reader(io.StringIO(text.removeprefix("\ufeff"))))
    if units and units not in UNITS:
        raise EntryError([f"{name}:1 units: {units!r} is not one of {', '.join(UNITS)}"])
    header = [cell.strip().lower() for cell in rows[0]] if rows else []
    columns, scale = _layout(header, name, units)
    problems: list[str] = []
    days: dict[date, Day] = {}
    flagged = impossible = 0
    station = ""
    for line, row in enumerate(rows[1:], start=2):
        if not any(cell.strip() for cell in row):
            continue
        cells = dict(zip(header, (c.strip() for c in row), strict=False))
        here = cells.get("station", "")
        if here and station and here != station:
            problems.append(f"{name}:{line} STATION: {here} after {station}; give one station a file")
        station = station or here
        try:
            day = date.fromisoformat(cells.get("date", ""))
        except ValueError:
            problems.append(f"{name}:{line} DATE: {cells.get('date', '')!r} is not a date as YYYY-MM-DD")
            continue
        if day in days:
            problems.append(f"{name}:{line} DATE: {day} is there twice")
        values: dict[str, float | None] = {}
        for what, column in columns.items():
            if _is_flagged(cells.get(f"{column}_attributes", "")):
                flagged += 1
                values[what] = None
                continue
            try:
                values[what] = _reading(what, cells.get(column, ""), _RAIN.get(column, scale))
            except ValueError as fault:
                problems.append(f"{name}:{line} {column.upper()}: {fault}")
        high, low = values.get("tmax"), values.get("tmin")
        if high is not None and low is not None and low > high:
            impossible, high, low = impossible + 1, None, None
        days[day] = Day(high, low, values.get("prcp"))
    if not days and not problems:
        problems.append(f"{name}:1 DATE: there are no days in it")
    if scale == "tenths_c" and _reads_as_whole_degrees(days.values()):
        problems.append(f"{name}:2 TMAX: never 14 C in a year; these look like whole degrees: give units f or c")
    if problems:
        raise EntryError(problems)
    return Record(station or name, dict(sorted(days.items())), flagged, impossible)


def _layout(header: list[str], name: str, units: str) -> tuple[dict[str, str], str]:
    if "date" not in header:
        raise EntryError([f"{name}:1 DATE: no such column; there are {', '.join(header) or 'none'}"])
    for tail, scale in (("", units or "tenths_c"), ("_f", "f"), ("_c", "c")):
        if f"tmax{tail}" in header and f"tmin{tail}" in header:
            rain = next((c for c in (("prcp",) if not tail else ("prcp_in", "prcp_mm")) if c in header), None)
            return {"tmax": f"tmax{tail}", "tmin": f"tmin{tail}"} | ({"prcp": rain} if rain else {}), scale
    raise EntryError([f"{name}:1 TMAX: no TMAX and TMIN, tmax_f and tmin_f, or tmax_c and tmin_c columns"])


def _is_flagged(attributes: str) -> bool:
    parts = attributes.split(",")
    return len(parts) > 1 and bool(parts[1].strip())


def _reading(what: str, text: str, scale: str) -> float | None:
    """The reading in F or inches.

    Raises:
        ValueError: saying what is wrong with it.
    """
    if text in ("", "-9999", "-9999.0", "NA", "M"):
        return None
    try:
        value = float(text)
    except ValueError:
        raise ValueError(f"{text!r} is not a number; leave it empty where missing") from None
    if scale == "tenths_c" and value != int(value):
        raise ValueError(f"{text} has a fraction, and this layout is in whole tenths; give units f or c")
    if what == "prcp":
        rain = value / {"tenths_c": 254.0, "c": 25.4, "f": 1.0}[scale]
        if not 0 <= rain <= 50:
            raise ValueError(f"{text} is no day's rain")
        return rain
    degrees = value if scale == "f" else value / (10 if scale == "tenths_c" else 1) * 1.8 + 32
    if not _COLDEST_F <= degrees <= _HOTTEST_F:
        raise ValueError(f"{text} is no air temperature ({degrees:.0f} F)")
    return degrees


def _reads_as_whole_degrees(days: Iterable[Day]) -> bool:
    """Whether a year or more never passes 14 C (57 F) as tenths: whole F or C under the GHCN header."""
    highs = [d.tmax_f for d in days if d.tmax_f is not None]
    return len(highs) >= 300 and max(highs) < 57.2
