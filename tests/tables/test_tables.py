"""What the rule base says of plants and insects agrees with published tables, row by row; see README.md beside this."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
import yaml

from kb.load import Knowledge, load

HERE = Path(__file__).parent
FEWEST = {"bloom_wood": 40, "hardiness": 40, "soil_ph": 25, "toxicity": 25, "planting": 25, "degree_days": 30}


def rows(name: str) -> list[dict[str, Any]]:
    """The rows of one table."""
    return yaml.safe_load((HERE / f"{name}.yaml").read_text("utf-8"))


def overlap(a: list[float], b: list[float]) -> bool:
    """Whether two ranges share a value."""
    return max(a[0], b[0]) <= min(a[1], b[1])


def bloom_wood(k: Knowledge, entry: str, says: Any) -> str:
    ours = k.plants[entry].traits.get("blooms_on")
    return "" if ours == says else f"{ours} here, {says} there"


def hardiness(k: Knowledge, entry: str, says: Any) -> str:
    ours = k.plants[entry].traits["zones"]
    return "" if abs(ours[0] - says[0]) <= 1 else f"coldest zone {ours[0]} here, {says[0]} there"


def soil_ph(k: Knowledge, entry: str, says: Any) -> str:
    ours = k.plants[entry].traits["soil_ph"]
    near = all(abs(a - b) <= 0.7 + 1e-9 for a, b in zip(ours, says, strict=True))
    return "" if overlap(ours, says) and near else f"{ours} here, {says} there"


def toxicity(k: Knowledge, entry: str, says: Any) -> str:
    ours = k.plants[entry].traits.get("toxic_to", [])
    return "" if set(says) <= set(ours) else f"{ours} here, {says} there"


def planting(k: Knowledge, entry: str, says: Any) -> str:
    ours = k.plants[entry].traits["planting"]
    if "from_days" in says:
        if ours["of"] != says.get("of", "last"):
            return f"{ours['of']} freeze here, {says.get('of', 'last')} there"
        if not overlap([ours["from_days"], ours["to_days"]], [says["from_days"], says["to_days"]]):
            return f"{ours} here, {says} there"
    if "soil_min_f" in says and abs(ours.get("soil_min_f", -99) - says["soil_min_f"]) > 6:
        return f"{ours.get('soil_min_f')} F here, {says['soil_min_f']} F there"
    return ""


def degree_days(k: Knowledge, entry: str, says: Any) -> str:
    windows = [w.degree_days for w in k.rules[entry].windows if w.degree_days]
    if not windows:
        return "no degree-day window here"
    same = [w for w in windows if float(w.get("base_f", 50)) == float(says.get("base_f", 50))]
    if not same:
        return f"base {windows[0].get('base_f', 50)} here, {says.get('base_f', 50)} there"
    if any(overlap([w["low"], w["high"]], [says["low"], says["high"]]) for w in same):
        return ""
    return f"{[(w['low'], w['high']) for w in same]} here, {(says['low'], says['high'])} there"


COMPARE: dict[str, Callable[[Knowledge, str, Any], str]] = {
    "bloom_wood": bloom_wood,
    "hardiness": hardiness,
    "soil_ph": soil_ph,
    "toxicity": toxicity,
    "planting": planting,
    "degree_days": degree_days,
}


@pytest.fixture(scope="module")
def k() -> Knowledge:
    """The shipped rule base."""
    return load()


@pytest.mark.parametrize(
    ("table", "row"),
    [pytest.param(name, row, id=f"{name}-{row['entry']}-{i}") for name in COMPARE for i, row in enumerate(rows(name))],
)
def test_agrees_with_the_publication(k: Knowledge, table: str, row: dict[str, Any]) -> None:
    """The entry says what the publication says, within the agreement the README states."""
    assert row["source"]
    assert COMPARE[table](k, row["entry"], row["says"]) == "", row["source"]


@pytest.mark.parametrize("table", COMPARE)
def test_enough_entries_are_compared(table: str) -> None:
    """Each table compares as many different entries as the rule base promises."""
    assert len({row["entry"] for row in rows(table)}) >= FEWEST[table]


def rereads() -> list[dict[str, Any]]:
    """The rules that were read again against a second publication."""
    return [row for name in ("reread-1", "reread-2") for row in rows(name)]


def test_three_rules_of_each_family_were_read_again(k: Knowledge) -> None:
    """Each family has three rules compared with another publication, and each row says which and what came of it."""
    families: dict[str, int] = {}
    for row in rereads():
        assert row["read"]
        assert row["found"]
        assert isinstance(row["agrees"], bool)
        family = k.rules[row["rule"]].where.split(":")[0]
        families[family] = families.get(family, 0) + 1
    assert families.keys() == {rule.where.split(":")[0] for rule in k.rules.values()}
    assert min(families.values()) >= 3
