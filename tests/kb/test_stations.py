"""A station's record read from both layouts, and what its years say, on records made here with known answers."""

import math
from datetime import date, timedelta

import pytest

from kb import heat, station_years
from kb.errors import EntryError, RangeError
from kb.stations import Day, Record, parse_record, read_record


def made(first=1995, last=2010, weather=None, drop=()):
    """A record in which every day is weather(day) -> (tmax_f, tmin_f), without the days in `drop`."""
    weather = weather or seasonal
    count = (date(last, 12, 31) - date(first, 1, 1)).days + 1
    dates = [date(first, 1, 1) + timedelta(days=n) for n in range(count)]
    return Record("made", {d: Day(*weather(d)) for d in dates if d not in drop})


def seasonal(day):
    """A smooth year: 20 to 80 F means, twenty degrees between high and low, coldest in mid-January."""
    mean = 50 - 30 * math.cos(2 * math.pi * (day.timetuple().tm_yday - 15) / 365.25)
    return mean + 10, mean - 10


def one_frost(day):
    """32 F exactly on one spring and one fall day, later and earlier by a day each year; 40 F otherwise."""
    n = day.year - 1990
    frosts = (date(day.year, 4, 1) + timedelta(days=n), date(day.year, 10, 31) - timedelta(days=n))
    return 60.0, 32.0 if day in frosts else 40.0


GHCN = """"STATION","DATE","TMAX","TMAX_ATTRIBUTES","TMIN","TMIN_ATTRIBUTES","PRCP","PRCP_ATTRIBUTES"
"XX000000001","2020-01-01","  100",",,7","    0",",,7","  254",",,7"
"XX000000001","2020-01-02","  211",",,7","  -50",",I,7","",""
"XX000000001","2020-01-03","-9999",",,7","  -28",",,7","    0","T,,7"
"XX000000001","2020-01-05","   50",",,7","   60",",,7","    0",",,7"
"""


def test_the_station_layout_is_in_tenths():
    """Tenths of a degree C and of a millimetre become F and inches; flagged, missing and impossible are left out."""
    record = parse_record(GHCN)
    assert record.station == "XX000000001"
    first = record.days[date(2020, 1, 1)]
    assert (first.tmax_f, first.tmin_f) == pytest.approx((50, 32))
    assert first.rain_in == pytest.approx(1)
    assert record.days[date(2020, 1, 2)].both is None
    assert record.days[date(2020, 1, 3)].tmin_f == pytest.approx(26.96)
    gaps = record.gaps()
    assert (gaps.days, gaps.tmax_missing, gaps.tmin_missing) == (5, 3, 3)
    assert (gaps.flagged, gaps.impossible, gaps.longest_run) == (1, 1, 2)
    assert "5 days" in gaps.words


@pytest.mark.parametrize(
    ("text", "units"),
    [
        ("date,tmax_f,tmin_f,prcp_in\n2020-01-01,50,32,1\n", ""),
        ("date,tmax_c,tmin_c,prcp_mm\n2020-01-01,10,0,25.4\n", ""),
        ("DATE,TMAX,TMIN,PRCP\n2020-01-01,50,32,1\n", "f"),
        ("DATE,TMAX,TMIN,PRCP\n2020-01-01,10,0,25.4\n", "c"),
        ("\ufeffDATE,TMAX,TMIN,PRCP\n2020-01-01,100,0,254\n\n", ""),
    ],
)
def test_every_layout_gives_the_same_day(tmp_path, text, units):
    """Plain F, plain C, and the station header in whole degrees, also with a byte-order mark and blank lines."""
    path = tmp_path / "record.csv"
    path.write_text(text, "utf-8")
    day = read_record(path, units).days[date(2020, 1, 1)]
    assert (day.tmax_f, day.tmin_f, day.rain_in) == pytest.approx((50, 32, 1))


WHOLE_YEAR = "DATE,TMAX,TMIN\n" + "".join(f"{date(2020, 1, 1) + timedelta(days=n)},75,50\n" for n in range(366))


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("", "DATE"),
        ("day,high,low\n", "DATE"),
        ("DATE,TMAX\n2020-01-01,5\n", "TMIN"),
        ("DATE,TMAX,TMIN\n", "no days"),
        ("DATE,TMAX,TMIN\n2020-02-30,5,1\n", "record:2 DATE"),
        ("DATE,TMAX,TMIN\n2020-01-01,5,1\n2020-01-01,6,1\n", "record:3 DATE.*twice"),
        ("DATE,TMAX,TMIN\n2020-01-01,warm,1\n", "record:2 TMAX"),
        ("DATE,TMAX,TMIN\n2020-01-01,5.5,1\n", "whole tenths"),
        ("DATE,TMAX,TMIN\n2020-01-01,nan,1\n", "record:2 TMAX"),
        ("date,tmax_f,tmin_f\n2020-01-01,400,1\n", "no air temperature"),
        ("STATION,DATE,TMAX,TMIN\nA,2020-01-01,5,1\nB,2020-01-02,5,1\n", "record:3 STATION"),
        (WHOLE_YEAR, "whole degrees"),
    ],
)
def test_a_faulty_file_says_where(text, message):
    """File, line and field are named; nothing is guessed."""
    with pytest.raises(EntryError, match=message):
        parse_record(text)


def test_a_file_that_is_not_there_is_one_line(tmp_path):
    """And so is one that is not text."""
    with pytest.raises(EntryError, match=r"none\.csv"):
        read_record(tmp_path / "none.csv")
    (tmp_path / "odd.csv").write_bytes(b"\xff\xfe\x00")
    with pytest.raises(EntryError, match=r"odd\.csv"):
        read_record(tmp_path / "odd.csv")


def test_freeze_dates_of_each_year_are_found():
    """32.0 F itself is a freeze; the dates are those put in."""
    record = made(1995, 2010, one_frost)
    last, first = (station_years.freezes(record, which) for which in ("last", "first"))
    assert last.days[2000] == (date(2001, 4, 11) - date(2001, 1, 1)).days
    assert first.days[2000] == (date(2000, 10, 21) - date(2000, 7, 1)).days
    assert station_years.freezes(record, "last", 28).days == {}


def test_freeze_probabilities_are_the_ranked_years():
    """Of 19 years a day apart, the tenth is the even chance and the second and eighteenth one in ten."""
    record = made(1990, 2008, one_frost)
    assert station_years.freeze_probabilities(record, "first") == {10: "10-14", 50: "10-22", 90: "10-30"}
    assert station_years.freeze_probabilities(record, "last") == {10: "04-18", 50: "04-10", 90: "04-02"}


def test_a_freeze_that_half_the_years_lack_has_no_certain_date():
    """Years without one count as years: the rare chance has a date and the likely one none."""

    def every_other(day):
        frost = day.year % 2 == 0 and (day.month, day.day) == (4, 10)
        return 60.0, 30.0 if frost else 45.0

    chances = station_years.freeze_probabilities(made(1990, 2011, every_other), "last", percents=(20, 90))
    assert chances == {20: "04-10", 90: None}


def test_lower_thresholds_end_sooner_in_spring():
    """28 F and 24 F freezes are over before the 32 F ones, and start after them."""
    record = made()
    springs = [station_years.freezes(record, "last", t).days[2000] for t in (32, 28, 24)]
    falls = [station_years.freezes(record, "first", t).days[2000] for t in (32, 28, 24)]
    assert springs == sorted(springs, reverse=True)
    assert falls == sorted(falls)
    assert len({*springs}) == len({*falls}) == 3


def test_a_season_with_a_hole_where_it_matters_is_left_out():
    """Twenty missing days after the last freeze could hide a later one; twenty in February could not."""
    after = {date(2000, 4, 20) + timedelta(days=n) for n in range(20)}
    before = {date(2001, 2, 1) + timedelta(days=n) for n in range(20)}
    found = station_years.freezes(made(1995, 2005, one_frost, after | before), "last")
    assert 2000 in found.left_out
    assert 2000 not in found.days
    assert 2001 in found.days


@pytest.mark.parametrize(
    "call",
    [
        lambda r: station_years.freeze_probabilities(r, "last"),
        lambda r: station_years.zone(r),
        lambda r: station_years.reached(r, date(2000, 1, 1), date(2000, 4, 1), 500),
        lambda r: station_years.freezes(r, "middle"),
        lambda r: station_years.freeze_probabilities(made(), "last", percents=(0,)),
    ],
)
def test_too_few_years_are_refused(call):
    """Four years make no probability, zone or spread; nor do words nobody knows."""
    with pytest.raises(RangeError):
        call(made(1998, 2001))


def test_a_total_carried_forward_agrees_with_the_year_itself():
    """When every year is the same, the forecast is the day the sum by hand reaches it, with hardly a spread."""
    record = made()
    start, today = date(2005, 1, 1), date(2005, 4, 15)
    total, day = 0.0, start - timedelta(days=1)
    while total < 600:
        day += timedelta(days=1)
        total += heat.sine(*seasonal(day), 50)
    shown = station_years.reached(record, start, today, 600)
    assert abs((shown.day - day).days) <= 1
    assert abs((shown.latest - shown.earliest).days) <= 2
    assert shown.years >= 10
    assert shown.filled == 0
    already = station_years.reached(record, start, date(2005, 9, 1), 600)
    assert (already.day, already.years) == (day, 0)


def test_the_spread_is_the_stations_own():
    """Years that differ give an early and a late date either side of the usual one."""

    def uneven(day):
        high, low = seasonal(day)
        shift = (day.year * 7 % 11) - 5
        return high + shift, low + shift

    shown = station_years.reached(made(1985, 2010, uneven), date(2005, 1, 1), date(2005, 3, 1), 600)
    assert shown.earliest < shown.day < shown.latest
    assert (shown.latest - shown.earliest).days > 10
    assert "600" in shown.words


def test_missing_days_are_filled_and_counted():
    """A week lost from a total comes back as usual days, and is said."""
    lost = {date(2005, 5, 1) + timedelta(days=n) for n in range(7)}
    whole, holed = made(), made(drop=lost)
    span = (date(2005, 4, 1), date(2005, 6, 1), 50.0)
    full, none = station_years.accumulated(whole, *span)
    filled, count = station_years.accumulated(holed, *span)
    assert (none, count) == (0, 7)
    assert filled == pytest.approx(full, rel=0.01)


def test_every_method_runs_on_a_record():
    """Cap, cut-off and the double sine reach the formula."""
    record, span = made(), (date(2005, 4, 1), date(2005, 9, 1), 50.0)
    plain, _ = station_years.accumulated(record, *span)
    capped, _ = station_years.accumulated(record, *span, cap=80.0)
    stopped, _ = station_years.accumulated(record, *span, cap=80.0, cutoff="vertical")
    double, _ = station_years.accumulated(record, *span, method="double_sine")
    assert stopped < capped < plain
    assert double == pytest.approx(plain, rel=0.02)


def test_a_total_that_cold_years_never_reach_has_no_date():
    """Said as never, not as a far date."""
    shown = station_years.reached(made(), date(2005, 1, 1), date(2005, 3, 1), 19_000)
    assert (shown.day, shown.earliest, shown.latest) == (None, None, None)
    assert "never" in shown.words


def test_winter_chill_bridges_short_gaps_only():
    """Three days are drawn between their neighbours and counted; ten, or an end, are refused."""
    start, end = date(2004, 11, 1), date(2005, 2, 28)
    hole = [date(2005, 1, 10) + timedelta(days=n) for n in range(10)]
    whole = station_years.winter_chill(made(), 42, start, end)
    short = station_years.winter_chill(made(drop=set(hole[:3])), 42, start, end)
    assert (whole.days, whole.filled, short.filled) == (120, 0, 3)
    assert short.chill.portions == pytest.approx(whole.chill.portions, rel=0.02)
    for drop in (set(hole), {start}, {end}):
        with pytest.raises(RangeError, match="record"):
            station_years.winter_chill(made(drop=drop), 42, start, end)


def test_the_zone_is_that_of_the_mean_winter():
    """One night each January at -7 or -9 F makes a mean of -8 F: 6a; winters with holes are left out."""

    def cold_night(day):
        return 40.0, (-7.0 if day.year % 2 else -9.0) if (day.month, day.day) == (1, 20) else 20.0

    holes = {date(2003, 1, 5) + timedelta(days=n) for n in range(25)}
    name, mean, winters = station_years.zone(made(1990, 2010, cold_night))
    assert (name, winters) == ("6a", 20)
    assert mean == pytest.approx(-8, abs=0.2)
    assert station_years.zone(made(1990, 2010, cold_night, holes))[2] == 19
