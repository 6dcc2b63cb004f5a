"""`trug station` on a record whose answers are known because the test wrote it."""

import json
import math
from datetime import date, timedelta

import pytest
from typer.testing import CliRunner

from answers.cli import app


@pytest.fixture
def record(tmp_path):
    """Twelve years of one smooth year, GHCN layout in tenths of C: freezing nights until mid spring."""
    lines = ['"STATION","DATE","TMAX","TMIN"']
    day = date(2012, 1, 1)
    while day < date(2024, 1, 1):
        mean = 10 - 14 * math.cos(2 * math.pi * (day.timetuple().tm_yday - 20) / 365)
        lines.append(f'"USX0001","{day}","{round((mean + 6) * 10)}","{round((mean - 6) * 10)}"')
        day += timedelta(days=1)
    path = tmp_path / "station.csv"
    path.write_text("\n".join(lines) + "\n")
    return path


def test_the_record_gives_freezes_zone_heat_and_chill(record):
    """Every part is there, and the freeze date is the day the written curve leaves freezing behind."""
    run = CliRunner().invoke(
        app,
        ["station", str(record), "--total", "300", "--latitude", "43", "--today", "2023-04-10", "--json"],
    )
    assert run.exit_code == 0, run.output
    found = json.loads(run.stdout)
    last = next(f for f in found["freezes"] if (f["which"], f["threshold_f"]) == ("last", 32.0))
    angle = math.acos((10 - 6) / 14)  # mean - 6 = 0
    expected = date(2023, 1, 1) + timedelta(days=20 + 365 * angle / (2 * math.pi) - 1)
    month, day = map(int, last["dates"]["50"].split("-"))
    assert abs((date(2023, month, day) - expected).days) <= 2
    assert found["zone"]["winters"] >= 10
    assert found["degree_days"]
    assert found["chill"]["from"] == "2022-10-01"


def test_a_short_record_says_so_instead_of_guessing(record):
    """Three years are too few for a probability."""
    lines = record.read_text().splitlines()
    record.write_text("\n".join(lines[: 3 * 366]) + "\n")
    run = CliRunner().invoke(app, ["station", str(record), "--today", "2014-06-01"])
    assert run.exit_code == 0, run.output
    assert "usable years" in run.stdout
