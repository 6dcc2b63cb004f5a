"""Winter chill by hours, Utah units and portions, from hourly temperatures or from each day's high and low.

Not here: the counts themselves (kb/cold.py), a winter from a station's record (kb/station_years.py).
"""

from __future__ import annotations

from datetime import date

from answers.calculators.figure import Figure, Step, pencil
from answers.calculators.frost_and_heat import a_date, temperatures
from answers.calculators.ranges import one_of, within
from kb import cold
from kb.errors import RangeError

FAMILY = "season"

MODELS = {  # model -> (label, unit, formula, source)
    "hours_32_to_45": (
        "chill hours, 32 to 45 F",
        "hours",
        "hours from 32 to 45 F",
        "University of California Fruit and Nut Research and Information Center: Chilling Accumulation Models",
    ),
    "hours_below_45": (
        "chill hours, 45 F and below",
        "hours",
        "hours at or below 45 F",
        "University of California Fruit and Nut Research and Information Center: Chilling Accumulation Models",
    ),
    "utah": (
        "Utah chill units",
        "units",
        "sum of each hour's weight: 0 to 1.4 C, 1/2 to 2.4, 1 to 9.1, 1/2 to 12.4, 0 to 15.9, -1/2 to 18, -1 above",
        "Richardson, Seeley and Walker (1974), HortScience 9: 331-332",
    ),
    "dynamic": (
        "chill portions",
        "portions",
        "a part grows by the hour towards (A0 / A1) exp((E1 - E0) / T) at the rate A1 exp(-E1 / T); once it is 1 its"
        " share 1 / (1 + exp(-1.6 x 277 x (T - 277) / T)) is kept for good",
        "Fishman, Erez and Couvillon (1987), Journal of Theoretical Biology 124: 473-483 (constants as in open code)",
    ),
}
_CAUTION = "The counts do not convert into one another; use the one that the plant's requirement was stated in."


def chill_of_hours(
    *, temperatures_in_order: str, scale: str = "F", repeats: float = 1.0, model: str = "hours_32_to_45"
) -> Figure:
    """Winter chill from hourly temperatures.

    Args:
        temperatures_in_order: a temperature for each hour, "45 44 41.5", 1 to 9,000 of -80 to 140 F (-62 to 60 C).
        scale: F or C.
        repeats: how often the run of hours comes again in all, 1 to 9,000 (hours in all, to 9,000).
        model: hours_32_to_45, hours_below_45, utah or dynamic.

    Returns: chill by the model; also all four: hours_32_to_45, hours_below_45, utah, dynamic, and hours.
    Raises: RangeError outside these ranges.
    Formula: the hours counted, weighted, or run through the two-step Dynamic model.
    Source: University of California Fruit and Nut Research and Information Center (hours); Richardson and others
        (1974), HortScience 9: 331-332 (Utah); Fishman and others (1987), J. Theor. Biol. 124: 473-483 (Dynamic).
    """
    one_of("scale", scale, ("F", "C"))
    given = temperatures("temperatures_in_order", temperatures_in_order, 9000, *_range(scale), scale)
    times = round(within("repeats", repeats, 1, 9000 / len(given), "times"))
    hours = [_celsius(t, scale) for t in given] * times
    words = f"{len(given)} hourly temperatures" + (f", {times} times over" if times > 1 else "")
    inputs = {"temperatures_in_order": temperatures_in_order, "scale": scale, "repeats": times}
    return _figure("chill_of_hours", model, hours, inputs, (Step(f"{words} = {len(hours)} hours"),))


def chill_of_days(
    *,
    highs: str,
    lows: str,
    scale: str = "F",
    latitude_deg: float = 40.0,
    first_day: date = date(2026, 1, 1),
    repeats: float = 1.0,
    model: str = "hours_32_to_45",
) -> Figure:
    """Winter chill from each day's highest and lowest temperature.

    Args:
        highs, lows: a temperature for each day in order, "52 48 60", 1 to 366 of -80 to 140 F (-62 to 60 C).
        scale: F or C.
        latitude_deg: degrees north (south negative), -60 to 60, for the length of the days.
        first_day: the first day, as YYYY-MM-DD.
        repeats: how often the run of days comes again in all, 1 to 366 (days in all, to 366).
        model: hours_32_to_45, hours_below_45, utah or dynamic.

    Returns: chill by the model; also all four: hours_32_to_45, hours_below_45, utah, dynamic, and hours.
    Raises: RangeError outside these ranges, or for unequal runs.
    Formula: hours on a sine by day and a logarithmic fall by night, then as for chill_of_hours.
    Source: Linvill (1990), HortScience 25: 14-16 (hours, as in open code); counts as for chill_of_hours.
    """
    one_of("scale", scale, ("F", "C"))
    latitude = within("latitude_deg", latitude_deg, -60, 60, "degrees")
    start = a_date("first_day", first_day)
    warm = temperatures("highs", highs, 366, *_range(scale), scale)
    cool = temperatures("lows", lows, 366, *_range(scale), scale)
    if len(warm) != len(cool):
        raise RangeError("lows", f"{len(cool)} days", f"as many as highs, {len(warm)}")
    for i, (high, low) in enumerate(zip(warm, cool, strict=True), start=1):
        if low > high:
            raise RangeError("lows", f"{low:g} {scale} on day {i}", f"not above that day's high of {high:g} {scale}")
    times = round(within("repeats", repeats, 1, 366 / len(warm), "times"))
    daily = [[_celsius(t, scale) for t in run] * times for run in (warm, cool)]
    hours = cold.hours_of_days(daily[0], daily[1], latitude, start)
    light = cold.day_length(latitude, start.timetuple().tm_yday)
    steps = (
        Step(f"{len(warm)} days" + (f", {times} times over" if times > 1 else "") + f" = {len(hours)} hours"),
        Step(f"the first has {pencil(light)} hours of light; its hours rise on a sine and fall by night"),
    )
    inputs = {"highs": highs, "lows": lows, "scale": scale, "latitude_deg": latitude}
    return _figure("chill_of_days", model, hours, inputs | {"first_day": start.isoformat(), "repeats": times}, steps)


def _range(scale: str) -> tuple[float, float]:
    return (-80, 140) if scale == "F" else (-62, 60)


def _celsius(value: float, scale: str) -> float:
    return (value - 32) / 1.8 if scale == "F" else value


def _figure(name: str, model: str, hours: list[float], inputs: dict[str, object], steps: tuple[Step, ...]) -> Figure:
    label, unit, formula, source = MODELS[one_of("model", model, tuple(MODELS))]
    counts = cold.chill_of(hours)
    also: dict[str, float | str] = {
        "hours_32_to_45": counts.hours_32_to_45,
        "hours_below_45": counts.hours_below_45,
        "utah": counts.utah_units,
        "dynamic": counts.portions,
        "hours": len(hours),
    }
    value = also[model]
    more = [
        Step(f"{pencil(counts.hours_below_45)} of them at 45 F or below, {pencil(counts.hours_32_to_45)} not below 32")
    ]
    if model == "utah":
        tally = {units: sum(cold.utah_units(t) == units for t in hours) for units in (1.0, 0.5, 0.0, -0.5, -1.0)}
        more = [Step("units = " + " + ".join(f"{n} h x {units:g}" for units, n in tally.items()) + f" = {value:g}")]
    if model == "dynamic":
        more = [Step(f"run hour by hour, each part kept once whole: {counts.portions:.2f} portions")]
    return Figure(
        name, label, value, unit, dict(inputs) | {"model": model}, (*steps, *more), formula, source, also, (_CAUTION,)
    )
