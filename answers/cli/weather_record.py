"""`trug station`: what a station's own daily record says of frost, heat, chill and hardiness.

Not here: the reckoning (kb/station_years.py) or reading the file (kb/stations.py).
"""

from __future__ import annotations

import json
from datetime import date
from pathlib import Path
from typing import Any

import typer

from answers.cli.one_shot import day
from kb.errors import RangeError, UnitError
from kb.station_years import freeze_probabilities, reached, winter_chill, zone
from kb.stations import Record, read_record

THRESHOLDS_F = (32.0, 28.0, 24.0)
PERCENTS = (10, 50, 90)


def station(
    file: Path, total: float, base: float, start: str, latitude: float | None, today: str, as_json: bool
) -> None:
    """Print the record's gaps, freeze dates and zone; the date a degree-day total is reached and chill when asked."""
    record = read_record(file)
    on = day(today)
    found: dict[str, Any] = {"station": record.station, "record": record.gaps().words, "freezes": _freezes(record)}
    try:
        half_zone, mean, winters = zone(record)
        found["zone"] = {"zone": half_zone, "mean_minimum_f": round(mean, 1), "winters": winters}
    except RangeError as error:
        found["zone"] = {"not known": str(error)}
    if total:
        try:
            since = date.fromisoformat(f"{on.year}-{start}")
        except ValueError:
            raise UnitError("--from", start, "a day of the year as MM-DD") from None
        found["degree_days"] = reached(record, since, on, total, base).words
    if latitude is not None:
        if on < record.first:
            raise RangeError("--today", on.isoformat(), f"a day after the record begins, {record.first.isoformat()}")
        last = max(d for d in record.days if d <= on)
        first = date(last.year - (last.month < 10), 10, 1)
        winter = winter_chill(record, latitude, first, last)
        found["chill"] = {"from": first.isoformat(), "to": last.isoformat(), **vars(winter.chill)}
    if as_json:
        typer.echo(json.dumps(found, default=str))
        return
    typer.echo(f"{found['station']}: {found['record']}")
    for line in found["freezes"]:
        typer.echo(f"  {line['words']}")
    typer.echo("  zone: " + ", ".join(f"{k} {v}" for k, v in found["zone"].items()))
    for key in ("degree_days", "chill"):
        if key in found:
            typer.echo(f"  {key.replace('_', ' ')}: {found[key]}")


def _freezes(record: Record) -> list[dict[str, Any]]:
    lines = []
    for threshold in THRESHOLDS_F:
        for which, side in (("last", "after"), ("first", "before")):
            try:
                dates = freeze_probabilities(record, which, threshold, PERCENTS)
                told = ", ".join(f"{p} % {side} {d or '(too rare to say)'}" for p, d in dates.items())
            except RangeError as error:
                dates, told = {}, str(error)
            words = f"{which} {threshold:g} F: {told}"
            lines.append({"which": which, "threshold_f": threshold, "dates": dates, "words": words})
    return lines
