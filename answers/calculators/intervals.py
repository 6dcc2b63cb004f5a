"""What a pesticide label's limits leave: active ingredient applied, the season's remainder, harvest and re-entry dates.

Not here: any limit or interval. Each is read from the label, which is the law.
"""

from __future__ import annotations

import math
from datetime import date, datetime, timedelta

from answers.calculators.figure import Figure, Step, pencil
from answers.calculators.ranges import one_of, within
from answers.calculators.units import UNITS, convert
from kb.errors import RangeError

FAMILY = "spray"

_VOLUMES = ("floz", "tbsp", "tsp", "pt", "qt", "gal", "mL", "L")
_MASSES = ("oz", "lb", "g", "kg")
_PER = {"1000sqft": 1000.0, "acre": 43560.0, "ha": convert(1, "ha", "sqft")}
RATE_UNITS = tuple(f"{u}/{per}" for per in _PER for u in (*_VOLUMES, *_MASSES))
_LABEL = "The label's own limits and intervals govern; the strictest of any that apply is the one to keep."


def active_ingredient_applied(
    *,
    product_rate: float,
    product_rate_unit: str,
    area_sqft: float = 43560.0,
    ai_lb_per_gal: float | None = None,
    ai_percent: float | None = None,
) -> Figure:
    """Active ingredient that a rate of product puts on an acre.

    Args:
        product_rate: product applied, 0.001 to 10,000.
        product_rate_unit: per 1000sqft, acre or ha, such as pt/acre, floz/1000sqft, lb/acre, L/ha.
        area_sqft: area treated, 1 to 10,000,000 sq ft.
        ai_lb_per_gal: active ingredient in a liquid product, 0.01 to 15 lb a gallon; needed for volumes.
        ai_percent: active ingredient in a dry product, 0.001 to 100 % by weight; needed for weights.

    Returns: lb of active ingredient an acre; also active_lb on the area, kg_per_ha, product_lb or product_gal an acre.
    Raises: RangeError outside these ranges, or without the strength that fits the unit.
    Formula: active = product x strength.
    Source: Pacific Northwest Pest Management Handbooks, Weights and measures; US Army Medical Department MD0173.
    """
    unit = one_of("product_rate_unit", product_rate_unit, RATE_UNITS)
    rate = within("product_rate", product_rate, 0.001, 10_000, unit)
    area = within("area_sqft", area_sqft, 1, 10_000_000, "sq ft")
    liquid = None if ai_lb_per_gal is None else within("ai_lb_per_gal", ai_lb_per_gal, 0.01, 15, "lb a gallon")
    dry = None if ai_percent is None else within("ai_percent", ai_percent, 0.001, 100, "%")
    amount, _, per = unit.partition("/")
    by_volume = UNITS[amount][0] == "volume"
    per_acre = convert(rate, amount, "gal" if by_volume else "lb") * 43560 / _PER[per]
    if by_volume and liquid is not None:
        active, strength, measure = per_acre * liquid, f"{pencil(liquid)} lb a gallon", "gal"
    elif not by_volume and dry is not None:
        active, strength, measure = per_acre * dry / 100, f"{pencil(dry)} %", "lb"
    else:
        field = "ai_lb_per_gal" if by_volume else "ai_percent"
        raise RangeError(field, "nothing", f"the product's strength, since the rate is in {amount}")
    total = active * area / 43560
    inputs = {"product_rate": rate, "product_rate_unit": unit, "area_sqft": area}
    inputs |= {"ai_lb_per_gal": liquid, "ai_percent": dry}
    return Figure(
        "active_ingredient_applied",
        "active ingredient applied",
        active,
        "lb per acre",
        {k: v for k, v in inputs.items() if v is not None},
        (
            Step(f"product = {pencil(rate)} {unit} = {pencil(per_acre)} {measure} an acre"),
            Step(f"active ingredient = {pencil(per_acre)} {measure} x {strength} = {pencil(active)} lb an acre"),
            Step(f"on {pencil(area)} sq ft = {pencil(active)} x {pencil(area)} / 43,560 = {pencil(total)} lb"),
        ),
        "active = product x strength",
        "Pacific Northwest Pest Management Handbooks: Weights and measures",
        {
            "active_lb": total,
            "kg_per_ha": convert(active, "lb", "kg") / convert(1, "acre", "ha"),
            f"product_{measure}": per_acre,
        },
        (_LABEL,),
    )


def seasonal_maximum_left(
    *,
    season_max: float,
    used_so_far: float = 0.0,
    each_time: float | None = None,
    most_applications: float | None = None,
    applications_made: float = 0.0,
) -> Figure:
    """What a label's seasonal limit leaves, all amounts in the label's one unit (product or active ingredient).

    Args:
        season_max: the most allowed in a season or year on this area, 0.001 to 100,000.
        used_so_far: used this season, 0 to season_max.
        each_time: what one application uses, 0.0001 to 100,000.
        most_applications: the label's own limit of applications a season, 1 to 100.
        applications_made: made this season, 0 to 100.

    Returns: amount left, in that unit; also percent_used, and applications_left when each_time is given.
    Raises: RangeError outside these ranges, or when more than the maximum has been used already.
    Formula: left = maximum - used; applications = whole number of times each_time goes in, or the label's limit.
    Source: arithmetic of the label's seasonal limit.
    """
    most = within("season_max", season_max, 0.001, 100_000)
    used = within("used_so_far", used_so_far, 0, 100_000)
    each = None if each_time is None else within("each_time", each_time, 0.0001, 100_000)
    times = None if most_applications is None else within("most_applications", most_applications, 1, 100)
    made = within("applications_made", applications_made, 0, 100)
    if used > most:
        raise RangeError("used_so_far", f"{used:g}", f"at most the season's {most:g}; no more may be applied")
    if times is not None and made > times:
        raise RangeError("applications_made", f"{made:g}", f"at most the label's {times:g}; no more may be made")
    left = most - used
    also: dict[str, float | str] = {"percent_used": used / most * 100}
    steps = [Step(f"left = {pencil(most)} - {pencil(used)} = {pencil(left)}")]
    counts = [] if times is None else [math.floor(times - made)]
    if each is not None:
        counts.append(math.floor(left / each + 1e-9))
        steps.append(Step(f"by amount: {pencil(left)} / {pencil(each)} = {counts[-1]} whole applications"))
    if counts:
        also["applications_left"] = min(counts)
        if times is not None:
            steps.append(Step(f"by the label's count: {pencil(times)} - {pencil(made)} = {counts[0]}; the fewer holds"))
    inputs = {"season_max": most, "used_so_far": used, "each_time": each, "most_applications": times}
    return Figure(
        "seasonal_maximum_left",
        "left of the seasonal maximum",
        left,
        "in the label's unit",
        {k: v for k, v in {**inputs, "applications_made": made}.items() if v is not None},
        tuple(steps),
        "left = maximum - used",
        "Arithmetic of the label's seasonal limit",
        also,
        (_LABEL, "Count every product with the same active ingredient, and this year's earlier uses by anyone."),
    )


def earliest_harvest(
    *, last_spray: date, phi_days: float, rei_hours: float | None = None, other_sprays: str = ""
) -> Figure:
    """The first day a crop may be picked, by pre-harvest intervals.

    Args:
        last_spray: date of the spray.
        phi_days: its pre-harvest interval on the label for this crop, 0 to 365 days.
        rei_hours: its restricted-entry interval, 0 to 2,160 hours; entry to pick waits for it too.
        other_sprays: further sprays as date:days, such as "2026-07-01:7 2026-07-05:1".

    Returns: the date; also day_of_year, and governed_by (the spray whose interval ends last).
    Raises: RangeError outside these ranges, or for a spray that cannot be read.
    Formula: each spray's date + interval; the latest governs.
    Source: Mississippi State University Extension, Follow label directions for garden product use (2024); Washington
        State University Tree Fruit, Entry and Preharvest Intervals (the REI holds over a shorter PHI).
    """
    days = within("phi_days", phi_days, 0, 365, "days")
    rei = None if rei_hours is None else within("rei_hours", rei_hours, 0, 2160, "hours")
    ends = [(last_spray + timedelta(days=math.ceil(days)), f"{last_spray.isoformat()} + {days:g} days")]
    if rei is not None:
        ends.append((last_spray + timedelta(days=math.ceil(rei / 24)), f"{last_spray.isoformat()} + REI {rei:g} hours"))
    for text in other_sprays.replace(",", " ").replace(";", " ").split():
        when, _, interval = text.partition(":")
        try:
            sprayed, wait = date.fromisoformat(when), float(interval)
        except ValueError:
            raise RangeError("other_sprays", repr(text), "date:days, such as 2026-07-01:7") from None
        wait = within("other_sprays", wait, 0, 365, "days")
        ends.append((sprayed + timedelta(days=math.ceil(wait)), f"{when} + {wait:g} days"))
    harvest, governs = max(ends, key=lambda end: end[0])
    return Figure(
        "earliest_harvest",
        "earliest harvest",
        harvest.isoformat(),
        "date",
        {"last_spray": last_spray.isoformat(), "phi_days": days}
        | ({} if rei is None else {"rei_hours": rei})
        | ({"other_sprays": other_sprays} if other_sprays else {}),
        (
            *(Step(f"{how} = {end.isoformat()}") for end, how in ends),
            Step(f"the latest governs: {harvest.isoformat()}"),
        ),
        "spray date + interval; the latest governs",
        "Mississippi State University Extension: Follow label directions for garden product use (2024)",
        {"day_of_year": harvest.timetuple().tm_yday, "governed_by": governs},
        (_LABEL, "Washing does not shorten the wait. A crop that is not on the label may not be sprayed at all."),
    )


def earliest_reentry(*, application_end: str, rei_hours: float, other_rei_hours: float | None = None) -> Figure:
    """When people may go back into a sprayed place, by restricted-entry interval.

    Args:
        application_end: when spraying ended, as 2026-07-01T08:00 (or with a space).
        rei_hours: restricted-entry interval on the label, 0 to 2,160 hours (a day counts 24).
        other_rei_hours: the interval of another product in the mix, or of state law, 0 to 2,160 hours.

    Returns: date and time as 2026-07-03T08:00; also hours.
    Raises: RangeError outside these ranges, or when the time cannot be read.
    Formula: end of application + the longest interval.
    Source: 3 CCR 6772 (2016): a day is 24 hours from the end of the application, the longer interval applies.
    """
    hours = within("rei_hours", rei_hours, 0, 2160, "hours")
    other = None if other_rei_hours is None else within("other_rei_hours", other_rei_hours, 0, 2160, "hours")
    try:
        end = datetime.fromisoformat(application_end.strip())
    except ValueError:
        raise RangeError("application_end", repr(application_end), "a date and time as 2026-07-01T08:00") from None
    if len(application_end.strip()) <= 10:
        raise RangeError("application_end", repr(application_end), "the time of day too, as 2026-07-01T08:00")
    longest = max(hours, other or 0.0)
    entry = (end + timedelta(hours=longest)).isoformat(timespec="minutes")
    return Figure(
        "earliest_reentry",
        "earliest re-entry",
        entry,
        "date and time",
        {"application_end": application_end, "rei_hours": hours}
        | ({} if other is None else {"other_rei_hours": other}),
        (
            Step(f"longest interval = {longest:g} hours"),
            Step(f"{end.isoformat(timespec='minutes')} + {longest:g} hours = {entry}"),
        ),
        "end of application + the longest interval",
        "California Code of Regulations, 3 CCR 6772 (2016)",
        {"hours": longest},
        (_LABEL, "Home-garden labels often say until sprays have dried; keep people and pets out at least that long."),
    )
