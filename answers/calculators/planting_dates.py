"""Sowing dates: back from the first frost for fall, forward from the last for spring, and every so often between.

Not here: a place's frost dates (kb/places, kb/station_years.py), which crop wants what (kb/rules).
"""

from __future__ import annotations

from datetime import date, timedelta

from answers.calculators.figure import Figure, Step
from answers.calculators.frost_and_heat import a_date
from answers.calculators.ranges import within
from kb.errors import RangeError

FAMILY = "season"

_FALL = "Virginia Cooperative Extension fall planting formula, as explained by the Metropolitan Washington Council of"
_FALL += " Governments garden site (2011)"
_EVEN_ODDS = "An average frost date comes too early one year in two; move it by two weeks for a safe one."


def fall_planting(
    *,
    first_frost: date,
    maturity_days: float,
    seedling_days: float = 0.0,
    harvest_days: float = 0.0,
    fall_factor_days: float = 14.0,
    frost_tender: bool = False,
) -> Figure:
    """The last date to sow for a fall harvest, counted back from the first frost.

    Args:
        first_frost: the usual first frost, as YYYY-MM-DD.
        maturity_days: days to maturity on the packet, from sowing or from setting out, 10 to 250.
        seedling_days: days from sowing to setting out, where the packet counts from setting out, 0 to 120.
        harvest_days: days of picking wanted before frost, 0 to 120.
        fall_factor_days: days added for shorter, cooler days, 0 to 30; usually 14.
        frost_tender: True for a crop that frost kills: 14 days more.

    Returns: the ISO date to sow; also days_back, set_out_date, first_harvest_date.
    Raises: RangeError outside these ranges.
    Formula: days back = maturity + seedling + harvest + fall factor (+ 14 if tender).
    Source: Virginia Cooperative Extension formula, Metropolitan Washington Council of Governments garden site (2011).
    """
    frost = a_date("first_frost", first_frost)
    maturity = round(within("maturity_days", maturity_days, 10, 250, "days"))
    seedling = round(within("seedling_days", seedling_days, 0, 120, "days"))
    harvest = round(within("harvest_days", harvest_days, 0, 120, "days"))
    factor = round(within("fall_factor_days", fall_factor_days, 0, 30, "days"))
    tender = 14 if frost_tender else 0
    back = maturity + seedling + harvest + factor + tender
    sow = frost - timedelta(days=back)
    return Figure(
        "fall_planting",
        "sow by",
        sow.isoformat(),
        "date",
        {"first_frost": frost.isoformat(), "maturity_days": maturity, "seedling_days": seedling}
        | {"harvest_days": harvest, "fall_factor_days": factor, "frost_tender": frost_tender},
        (
            Step(
                f"days back = {maturity} to maturity + {seedling} as a seedling + {harvest} of harvest"
                f" + {factor} for fall + {tender} if tender = {back}"
            ),
            Step(f"{back} days before {frost.isoformat()} is {sow.isoformat()}"),
        ),
        "days back = maturity + seedling + harvest + fall factor (+ 14 if frost-tender)",
        _FALL,
        {
            "days_back": back,
            "set_out_date": (sow + timedelta(days=seedling)).isoformat(),
            "first_harvest_date": (frost - timedelta(days=harvest + tender)).isoformat(),
        },
        (_EVEN_ODDS,),
    )


def spring_planting(
    *, last_frost: date, indoor_weeks: float = 0.0, weeks_after_frost: float = 0.0, maturity_days: float = 60.0
) -> Figure:
    """The dates to sow and set out in spring, counted from the last frost.

    Args:
        last_frost: the usual last frost, as YYYY-MM-DD.
        indoor_weeks: weeks from sowing indoors to setting out, 0 (sown outdoors) to 20.
        weeks_after_frost: weeks from the last frost to setting out, negative for hardy crops, -12 to 12.
        maturity_days: days from setting out (or sowing outdoors) to harvest, 10 to 250.

    Returns: the ISO date to sow; also set_out_date, harvest_date.
    Raises: RangeError outside these ranges.
    Formula: set out = last frost + 7 x weeks after; sow = set out - 7 x weeks indoors.
    Source: The Morning Call, garden column on seed starting (2021).
    """
    frost = a_date("last_frost", last_frost)
    indoors = within("indoor_weeks", indoor_weeks, 0, 20, "weeks")
    after = within("weeks_after_frost", weeks_after_frost, -12, 12, "weeks")
    maturity = round(within("maturity_days", maturity_days, 10, 250, "days"))
    set_out = frost + timedelta(days=round(after * 7))
    sow = set_out - timedelta(days=round(indoors * 7))
    return Figure(
        "spring_planting",
        "sow on",
        sow.isoformat(),
        "date",
        {"last_frost": frost.isoformat(), "indoor_weeks": indoors, "weeks_after_frost": after}
        | {"maturity_days": maturity},
        (
            Step(f"set out {after:g} x 7 = {round(after * 7)} days from {frost.isoformat()}: {set_out.isoformat()}"),
            Step(f"sow {indoors:g} x 7 = {round(indoors * 7)} days before that: {sow.isoformat()}"),
        ),
        "set out = last frost + 7 x weeks after; sow = set out - 7 x weeks indoors",
        "The Morning Call: garden column on seed starting (2021)",
        {
            "set_out_date": set_out.isoformat(),
            "harvest_date": (set_out + timedelta(days=maturity)).isoformat(),
            "sow_day_of_year": sow.timetuple().tm_yday,
        },
        (_EVEN_ODDS,),
    )


def succession_sowings(
    *, first_sowing: date, first_frost: date, weeks_before_frost: float, interval_days: float = 14.0
) -> Figure:
    """The number and dates of repeated sowings from the first to the last that still ripens.

    Args:
        first_sowing: the first sowing, as YYYY-MM-DD.
        first_frost: the usual first frost, as YYYY-MM-DD, at most a year after the first sowing.
        weeks_before_frost: weeks before it that the last sowing must be in, 0 to 30.
        interval_days: days from one sowing to the next, 3 to 90.

    Returns: the number of sowings; also sowing_1, sowing_2 ..., and last_chance_date.
    Raises: RangeError outside these ranges, or when no sowing fits.
    Formula: sowings = whole part of (last chance - first) / interval, + 1.
    Source: Elm Dirt, Succession Planting (intervals, and weeks before frost by crop).
    """
    start, frost = a_date("first_sowing", first_sowing), a_date("first_frost", first_frost)
    weeks = within("weeks_before_frost", weeks_before_frost, 0, 30, "weeks")
    interval = round(within("interval_days", interval_days, 3, 90, "days"))
    latest = frost - timedelta(days=round(weeks * 7))
    between = (latest - start).days
    if not 0 <= between <= 366:
        raise RangeError(
            "first_sowing", start.isoformat(), f"a date in the year before the last chance, {latest.isoformat()}"
        )
    count = between // interval + 1
    dates = [(start + timedelta(days=interval * k)).isoformat() for k in range(count)]
    return Figure(
        "succession_sowings",
        "sowings",
        count,
        "sowings",
        {"first_sowing": start.isoformat(), "first_frost": frost.isoformat(), "weeks_before_frost": weeks}
        | {"interval_days": interval},
        (
            Step(f"last chance = {round(weeks * 7)} days before {frost.isoformat()} = {latest.isoformat()}"),
            Step(f"{between} days / {interval} = {between // interval} whole intervals, so {count} sowings"),
            Step("sow on " + ", ".join(dates)),
        ),
        "sowings = whole part of (last chance - first) / interval, + 1",
        "Elm Dirt: Succession Planting",
        {"last_chance_date": latest.isoformat(), **{f"sowing_{k}": d for k, d in enumerate(dates, start=1)}},
        ("Sowings in heat come up poorly; shade and water them, or leave the hottest weeks out.",),
    )
