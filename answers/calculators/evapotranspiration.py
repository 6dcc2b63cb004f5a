"""Reference evapotranspiration of one day: Hargreaves-Samani from temperatures, Penman-Monteith from a full record.

Not here: what a planting uses of it, and for how long to water (irrigation.py).
"""

from __future__ import annotations

import math

from answers.calculators.figure import Figure, Step, pencil
from answers.calculators.ranges import within
from answers.calculators.units import convert
from kb.errors import RangeError

FAMILY = "water"

_FAO = "FAO Irrigation and Drainage Paper 56 (1998): Crop evapotranspiration"
_MM_PER_MJ = 0.408  # 1 / 2.45 MJ a kilogram of water
_SIGMA = 4.903e-9  # MJ per K4, sq m and day
_ALBEDO = 0.23


def extraterrestrial_radiation(*, latitude_deg: float, day_of_year: float) -> Figure:
    """Sun's energy at the top of the air, on a level plane.

    Args:
        latitude_deg: latitude, -66 to 66 degrees, south negative.
        day_of_year: 1 to 366.

    Returns: MJ per square meter a day; also mm_per_day (as water evaporated), daylight_hours.
    Raises: RangeError outside these ranges.
    Formula: FAO-56 equations 21 to 25 and 34.
    Source: FAO Irrigation and Drainage Paper 56 (1998), equations 21 to 25 and 34.
    """
    latitude, day = _where_and_when(latitude_deg, day_of_year)
    energy, daylight = _ra(latitude, day)
    return Figure(
        "extraterrestrial_radiation",
        "radiation at the top of the air",
        energy,
        "MJ per sq m a day",
        {"latitude_deg": latitude, "day_of_year": day},
        (
            Step(f"sun's declination = 0.409 sin(2 pi {day:g} / 365 - 1.39) = {_declination(day):.3f} rad"),
            Step(f"daylight = 24 / pi x sunset angle = {pencil(daylight)} hours"),
            Step(f"Ra = {pencil(energy)} MJ = {pencil(energy * _MM_PER_MJ)} mm of water"),
        ),
        "Ra = 37.6 dr (ws sin lat sin dec + cos lat cos dec sin ws)",
        f"{_FAO}, equations 21 to 25",
        {"mm_per_day": energy * _MM_PER_MJ, "daylight_hours": daylight},
    )


def et_hargreaves(*, tmax_f: float, tmin_f: float, latitude_deg: float, day_of_year: float) -> Figure:
    """Reference evapotranspiration of a day from its temperatures (Hargreaves-Samani).

    Args:
        tmax_f: highest temperature, 0 to 130 F.
        tmin_f: lowest temperature, -40 to 100 F, at most tmax_f.
        latitude_deg: latitude, -66 to 66 degrees, south negative.
        day_of_year: 1 to 366.

    Returns: inches a day; also mm, ra_mj.
    Raises: RangeError outside these ranges, or for a mean under -17.8 C (0 F).
    Formula: ET = 0.0023 (mean + 17.8) sqrt(max - min) Ra, in C and mm.
    Source: FAO Irrigation and Drainage Paper 56 (1998), equation 52; Hargreaves and Samani (1985).
    """
    high, low = _temperatures(tmax_f, tmin_f)
    latitude, day = _where_and_when(latitude_deg, day_of_year)
    mean = (high + low) / 2
    if mean < -17.8:
        raise RangeError("tmin_f", f"{tmin_f:g} F", "a mean of the day over 0 F; nothing evaporates below it")
    energy, _ = _ra(latitude, day)
    mm = 0.0023 * (mean + 17.8) * math.sqrt(high - low) * energy * _MM_PER_MJ
    return Figure(
        "et_hargreaves",
        "reference evapotranspiration",
        convert(mm, "mm", "in"),
        "in",
        {"tmax_f": float(tmax_f), "tmin_f": float(tmin_f), "latitude_deg": latitude, "day_of_year": day},
        (
            Step(f"temperatures = {pencil(high)} and {pencil(low)} C, mean {pencil(mean)} C"),
            Step(f"sun at the top of the air = {pencil(energy)} MJ x 0.408 = {pencil(energy * _MM_PER_MJ)} mm"),
            Step(
                f"ET = 0.0023 x ({pencil(mean)} + 17.8) x sqrt({pencil(high - low)}) x {pencil(energy * _MM_PER_MJ)}"
                f" = {pencil(mm)} mm = {pencil(convert(mm, 'mm', 'in'))} in"
            ),
        ),
        "ET = 0.0023 (mean + 17.8) sqrt(max - min) Ra",
        f"{_FAO}, equation 52",
        {"mm": mm, "ra_mj": energy},
        ("From temperatures alone: good for a week's total, rough for one day, and off in wind or humid places.",),
    )


def et_penman_monteith(
    *,
    tmax_f: float,
    tmin_f: float,
    latitude_deg: float,
    day_of_year: float,
    elevation_ft: float = 0.0,
    wind_mph: float = 4.5,
    wind_height_ft: float = 6.5617,
    rh_max_percent: float | None = None,
    rh_min_percent: float | None = None,
    dewpoint_f: float | None = None,
    sunshine_hours: float | None = None,
    solar_mj: float | None = None,
) -> Figure:
    """Reference evapotranspiration of a day from a full weather record (FAO-56 Penman-Monteith).

    Args:
        tmax_f: highest temperature, 0 to 130 F.
        tmin_f: lowest temperature, -40 to 100 F, at most tmax_f.
        latitude_deg: latitude, -66 to 66 degrees, south negative.
        day_of_year: 1 to 366.
        elevation_ft: height above the sea, -1,300 to 15,000 ft.
        wind_mph: mean wind, 0 to 60 miles an hour (4.5, about 2 m/s, when unknown: FAO-56).
        wind_height_ft: height of the wind gauge, 2 to 165 ft (6.56 is 2 m; airports 33).
        rh_max_percent: highest humidity, 5 to 100 %; with rh_min_percent.
        rh_min_percent: lowest humidity, 1 to 100 %.
        dewpoint_f: dew point, -60 to 100 F; instead of humidity. With neither, the minimum temperature stands in.
        sunshine_hours: bright sunshine, 0 to 24 hours, at most the day's length.
        solar_mj: measured solar radiation, 0 to 45 MJ per sq m; instead of sunshine. With neither, it is estimated
            from the temperature range.

    Returns: inches a day; also mm, ra_mj, rs_mj, rn_mj, wind_2m, ea_kpa.
    Raises: RangeError outside these ranges.
    Formula: ET = (0.408 slope Rn + g 900 / (T + 273) u (es - ea)) / (slope + g (1 + 0.34 u)), soil heat taken as zero.
    Source: FAO Irrigation and Drainage Paper 56 (1998), equations 6 to 50; chapter 4, example 18.
    """
    high, low = _temperatures(tmax_f, tmin_f)
    latitude, day = _where_and_when(latitude_deg, day_of_year)
    height = convert(within("elevation_ft", elevation_ft, -1300, 15_000, "ft"), "ft", "m")
    wind = within("wind_mph", wind_mph, 0, 60, "mph") * 0.44704
    gauge = convert(within("wind_height_ft", wind_height_ft, 2, 165, "ft"), "ft", "m")
    wettest = None if rh_max_percent is None else within("rh_max_percent", rh_max_percent, 5, 100, "%")
    driest = None if rh_min_percent is None else within("rh_min_percent", rh_min_percent, 1, wettest or 100, "%")
    dew = None if dewpoint_f is None else within("dewpoint_f", dewpoint_f, -60, 100, "F")
    energy, daylight = _ra(latitude, day)
    sun = None if sunshine_hours is None else within("sunshine_hours", sunshine_hours, 0, daylight + 0.05, "hours")
    solar = None if solar_mj is None else within("solar_mj", solar_mj, 0, 45, "MJ")
    if (wettest is None) != (driest is None):
        raise RangeError("rh_max_percent" if wettest is None else "rh_min_percent", "nothing", "both humidities")
    mean = (high + low) / 2
    full = (_vapor(high) + _vapor(low)) / 2
    if wettest is not None and driest is not None:
        vapor = (_vapor(low) * wettest + _vapor(high) * driest) / 200
    else:
        vapor = _vapor(low if dew is None else convert(dew, "F", "C"))
    if vapor > full + 1e-9:
        raise RangeError("dewpoint_f", f"{dewpoint_f:g} F", "a dew point the day's air could hold")
    clear = (0.75 + 2e-5 * height) * energy
    if solar is None:
        if sun is None:
            solar = min(0.16 * math.sqrt(high - low) * energy, clear)
        else:
            solar = (0.25 + 0.5 * min(sun / daylight, 1.0)) * energy
    warmth = ((high + 273.16) ** 4 + (low + 273.16) ** 4) / 2
    cloud = 1.35 * min(solar / clear, 1.0) - 0.35
    lost = max(0.0, _SIGMA * warmth * (0.34 - 0.14 * math.sqrt(vapor)) * cloud)
    net = (1 - _ALBEDO) * solar - lost
    wind_2m = wind * 4.87 / math.log(67.8 * gauge - 5.42)
    gamma = 0.000665 * 101.3 * ((293 - 0.0065 * height) / 293) ** 5.26
    slope = 4098 * _vapor(mean) / (mean + 237.3) ** 2
    top = _MM_PER_MJ * slope * net + gamma * 900 / (mean + 273) * wind_2m * (full - vapor)
    mm = max(0.0, top / (slope + gamma * (1 + 0.34 * wind_2m)))
    inputs = {"tmax_f": float(tmax_f), "tmin_f": float(tmin_f), "latitude_deg": latitude, "day_of_year": day}
    inputs |= {"elevation_ft": float(elevation_ft), "wind_mph": float(wind_mph), "wind_height_ft": wind_height_ft}
    given = {"rh_max_percent": wettest, "rh_min_percent": driest, "dewpoint_f": dew}
    given |= {"sunshine_hours": sun, "solar_mj": solar_mj}
    return Figure(
        "et_penman_monteith",
        "reference evapotranspiration",
        convert(mm, "mm", "in"),
        "in",
        inputs | {k: v for k, v in given.items() if v is not None},
        (
            Step(f"temperatures = {pencil(high)} and {pencil(low)} C; wind at 2 m = {pencil(wind_2m)} m/s"),
            Step(f"vapor pressure = {vapor:.3f} kPa of {full:.3f} kPa the air could hold"),
            Step(f"sun = {pencil(solar)} MJ of {pencil(energy)} MJ at the top of the air"),
            Step(f"net radiation = 0.77 x {pencil(solar)} - {pencil(lost)} = {pencil(net)} MJ"),
            Step(f"slope = {slope:.4f}, psychrometric constant = {gamma:.4f} kPa per C"),
            Step(
                f"ET = (0.408 x {slope:.4f} x {pencil(net)} + {gamma:.4f} x 900 / {pencil(mean + 273)}"
                f" x {pencil(wind_2m)} x {full - vapor:.3f}) / ({slope:.4f} + {gamma:.4f} x (1 + 0.34 x"
                f" {pencil(wind_2m)})) = {pencil(mm)} mm = {pencil(convert(mm, 'mm', 'in'))} in"
            ),
        ),
        "ET = (0.408 slope Rn + g 900 / (T + 273) u (es - ea)) / (slope + g (1 + 0.34 u))",
        f"{_FAO}, equation 6",
        {"mm": mm, "ra_mj": energy, "rs_mj": solar, "rn_mj": net, "wind_2m": wind_2m, "ea_kpa": vapor},
        ("Weather at the station, over watered grass, may not be the weather in the garden.",),
    )


def _where_and_when(latitude_deg: float, day_of_year: float) -> tuple[float, float]:
    return within("latitude_deg", latitude_deg, -66, 66, "degrees"), within("day_of_year", day_of_year, 1, 366)


def _temperatures(tmax_f: float, tmin_f: float) -> tuple[float, float]:
    high, low = within("tmax_f", tmax_f, 0, 130, "F"), within("tmin_f", tmin_f, -40, 100, "F")
    if low > high:
        raise RangeError("tmin_f", f"{low:g} F", f"at most the day's high of {high:g} F")
    return convert(high, "F", "C"), convert(low, "F", "C")


def _declination(day: float) -> float:
    return 0.409 * math.sin(2 * math.pi * day / 365 - 1.39)


def _ra(latitude_deg: float, day: float) -> tuple[float, float]:
    """MJ per sq m a day at the top of the air, and hours of daylight; within the polar circles the sun rises daily."""
    latitude, declination = math.radians(latitude_deg), _declination(day)
    near = 1 + 0.033 * math.cos(2 * math.pi * day / 365)
    sunset = math.acos(-math.tan(latitude) * math.tan(declination))
    beam = sunset * math.sin(latitude) * math.sin(declination)
    beam += math.cos(latitude) * math.cos(declination) * math.sin(sunset)
    return 24 * 60 / math.pi * 0.0820 * near * beam, 24 / math.pi * sunset


def _vapor(celsius: float) -> float:
    """Saturation vapor pressure, kPa (FAO-56 equation 11)."""
    return 0.6108 * math.exp(17.27 * celsius / (celsius + 237.3))
