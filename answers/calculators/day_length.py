"""Hours of daylight at a latitude and date.

Not here: the sun's formulas (kb/cold.py).
"""

from __future__ import annotations

import math
from datetime import date

from answers.calculators.figure import Figure, Step, pencil
from answers.calculators.frost_and_heat import a_date
from answers.calculators.ranges import within
from kb import cold

FAMILY = "season"


def day_length(*, latitude_deg: float, day: date) -> Figure:
    """Daylight hours of a date at a latitude.

    Args:
        latitude_deg: degrees north (south negative), -65 to 65; nearer the poles the sun may not set.
        day: the date, as YYYY-MM-DD.

    Returns: hours with the sun's center above a flat horizon; also almanac_hours (upper edge and refraction
        counted, as sunrise tables do), with_twilight_hours (sun less than 6 degrees down), day_of_year.
    Raises: RangeError outside these ranges.
    Formula: N = 24 / pi x arccos(-tan(latitude) tan(declination)).
    Source: FAO Irrigation and Drainage Paper 56 (1998), equations 24, 25 and 34; for the almanac and twilight hours
        the declination is Spencer's (1971, Search 2: 172; from memory), as FAO's is up to a degree off in fall.
    """
    latitude = within("latitude_deg", latitude_deg, -65, 65, "degrees")
    number = a_date("day", day).timetuple().tm_yday
    hours = cold.day_length(latitude, number)
    almanac = cold.day_length(latitude, number, -0.833)
    sun = math.degrees(cold.declination(number))
    return Figure(
        "day_length",
        "daylight",
        hours,
        "hours",
        {"latitude_deg": latitude, "day": day.isoformat()},
        (
            Step(f"day of the year = {number}"),
            Step(f"declination = 23.43 x sin(360 / 365 x {number} - 79.6) = {pencil(sun)} degrees"),
            Step(f"sunset angle = arccos(-tan({latitude:g}) x tan({pencil(sun)})) = {pencil(hours * 7.5)} degrees"),
            Step(f"daylight = {pencil(hours * 7.5)} x 2 / 15 = {hours:.2f} hours"),
            Step(f"as sunrise tables count, with the sun's edge and the bending of light: {almanac:.2f} hours"),
        ),
        "N = 24 / pi x arccos(-tan(latitude) tan(declination))",
        "FAO Irrigation and Drainage Paper 56 (1998), equations 24, 25 and 34",
        {
            "almanac_hours": almanac,
            "with_twilight_hours": cold.day_length(latitude, number, -6.0),
            "day_of_year": number,
        },
    )
