"""One entry of the rule base as a colleague would want to read it, with its sources at the foot.

Not here: finding entries (kb/find.py).
"""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Iterator

from answers.drafts.compose import cite
from kb.entries import Place, Plant, Problem, Rule, Say, Source, Window
from kb.load import Knowledge

Sources = str | tuple[str, ...]
WIDTH = 96


def page(entry: Rule | Problem | Plant | Place | Source, k: Knowledge) -> str:
    """The entry in full; each statement carries the number of its source."""
    notes = _Notes(k)
    writer = {Rule: _rule, Problem: _problem, Plant: _plant, Place: _place, Source: _source}[type(entry)]
    lines = [*writer(entry, k, notes), *notes.lines(), "", f"({entry.where})"]  # type: ignore[operator]
    return "\n".join(lines)


class _Notes:
    """Sources by number, in the order they are first met."""

    def __init__(self, k: Knowledge) -> None:
        self._k, self._ids = k, dict[str, int]()

    def mark(self, sources: Sources) -> str:
        names = (sources,) if isinstance(sources, str) else sources
        return "".join(f"[{self._ids.setdefault(name, len(self._ids) + 1)}]" for name in names)

    def lines(self) -> Iterator[str]:
        if self._ids:
            yield from ("", "Sources")
        for name, number in self._ids.items():
            source = self._k.sources[name]
            yield from _wrapped(f"[{number}] {cite(source)} {source.address}".rstrip(), "    ")


def _wrapped(text: str, indent: str = "  ", first: str = "  ") -> list[str]:
    return textwrap.wrap(text, WIDTH, initial_indent=first, subsequent_indent=indent, break_long_words=False)


def _rule(rule: Rule, k: Knowledge, notes: _Notes) -> Iterator[str]:
    def said(statements: Iterable[Say], label: bool = False) -> Iterator[str]:
        for s in statements:
            step = f"{s.step}: " if label else ""
            yield from _wrapped(f"- {step}{s.say} {notes.mark(s.source)}", "    ")

    yield from (rule.title, "=" * len(rule.title))
    zones = f"; zones {rule.zones[0]} to {rule.zones[-1]}" if rule.zones else ""
    yield f"Answers {k.problems[rule.problem].name} ({', '.join(rule.kinds)}){zones}"
    plants = [k.plants[p].common for p in rule.plants] + [f"any {g}" for g in rule.groups]
    yield from _wrapped("On " + (", ".join(plants) or "no plant in particular"), "  ", "")
    yield from ("", *_wrapped(f"{rule.what.say} {notes.mark(rule.what.source)}", "", ""), "", "What to do")
    yield from said(rule.do, label=True)
    yield from ("", "What not to do")
    yield from said(rule.avoid)
    if rule.windows:
        yield from ("", "When")
        for w in rule.windows:
            yield from _wrapped(f"- {w.action}: {when(w)}. {w.too_late} {notes.mark(w.source)}", "    ")
    if rule.figures:
        yield from ("", "Figures")
        for figure in rule.figures:
            yield from _wrapped(f"- {figure.calculator}: {figure.say}", "    ")
            for name, given in figure.inputs.items():
                if given.value is not None:
                    where = f" ({given.locator})" if given.locator else ""
                    yield from _wrapped(
                        f"{name} = {given.value} {given.unit}{where} {notes.mark(given.source)}", "      ", "    "
                    )
    yield from ("", "Ask for", *(f"  - {a.question}" for a in rule.ask)) if rule.ask else ()
    yield from ("", "Cautions", *(f"  - {k.cautions[c].text}" for c in rule.cautions)) if rule.cautions else ()
    if rule.hand_off:
        yield from ("", f"Hand on to {k.hand_offs[rule.hand_off].who}")
    yield from ("", "Look-alikes", *_look_alikes(k.problems[rule.problem], notes))
    yield from ("", "On the air", *_wrapped(f"Ann in Elmford {rule.spoken}"), "", f"Last reviewed {rule.reviewed}")


def when(w: Window) -> str:
    """A window in words, without a place."""
    zones = f" (zones {w.zones[0]} to {w.zones[-1]})" if w.zones else ""
    if w.frost:
        side = "last" if w.frost.get("of", "last") == "last" else "first"
        return f"from {w.frost['from_days']:+} to {w.frost['to_days']:+} days around the {side} freeze{zones}"
    if w.degree_days:
        d = w.degree_days
        return (
            f"{d['low']} to {d['high']} degree days above {d.get('base_f', 50)} F from {d.get('start', '01-01')}{zones}"
        )
    if w.soil_temp_f:
        soil = w.soil_temp_f
        return f"soil from {soil['low']} to {soil['high']} F, {soil.get('trend', 'rising')}{zones}"
    if w.months:
        return "months " + ", ".join(map(str, w.months)) + zones
    if w.dates:
        return f"{w.dates[0]} to {w.dates[1]}{zones}"
    return ("while dormant" if w.dormant else f"by the plant's own {w.trait} dates") + zones


def _look_alikes(problem: Problem, notes: _Notes) -> Iterator[str]:
    for look in problem.look_alikes:
        yield from _wrapped(f"- {look.name}: {look.sign} {notes.mark(look.source)}", "    ")


def _problem(problem: Problem, k: Knowledge, notes: _Notes) -> Iterator[str]:
    yield from (problem.name, "=" * len(problem.name), f"A {problem.sort}. {notes.mark(problem.sources)}".rstrip())
    on = [k.plants[p].common for p in problem.plants] + [f"any {g}" for g in problem.groups]
    yield from _wrapped("On " + (", ".join(on) or "no plant in particular"), "  ", "")
    if problem.months:
        yield "Seen in months " + ", ".join(map(str, problem.months))
    for title, words in (("Also called", problem.synonyms), ("People write", problem.phrases)):
        yield from ("", title, *_wrapped("; ".join(words)))
    yield from ("", "Look-alikes", *_look_alikes(problem, notes), "", "Rules")
    for rule in k.rules_by_problem.get(problem.id, ()):
        yield f"  {rule.id}: {rule.title}"


def _plant(plant: Plant, k: Knowledge, notes: _Notes) -> Iterator[str]:
    title = f"{plant.common} ({plant.botanical})" if plant.botanical else plant.common
    yield from (title, "=" * len(title), " < ".join(k.lineage(plant.group)))
    yield from ("", "Also called", *_wrapped(", ".join(plant.aliases) or "nothing else"))
    if plant.traits:
        yield from ("", "Traits")
    for trait, value in plant.traits.items():
        yield f"  {trait}: {_value(value)} {notes.mark(plant.traits_from.get(trait, plant.sources))}".rstrip()
    rules = [r for r in k.rules.values() if plant.id in r.plants or set(k.lineage(plant.group)) & set(r.groups)]
    yield from ("", "Rules", *(f"  {r.id}: {r.title}" for r in rules))


def _value(value: object) -> str:
    if isinstance(value, dict):
        return ", ".join(f"{key} {held}" for key, held in value.items())
    return ", ".join(map(str, value)) if isinstance(value, list | tuple) else str(value)


def _place(place: Place, k: Knowledge, notes: _Notes) -> Iterator[str]:
    title = f"{place.name}, {place.state or place.country}"
    yield from (title, "=" * len(title))
    side = "W" if place.lon < 0 else "E"
    yield f"{place.lat:.2f} N {abs(place.lon):.2f} {side}, {place.elevation_ft:.0f} ft, zone {place.zone}"
    for name, table in (("Last 32 F freeze", place.last_freeze), ("First 32 F freeze", place.first_freeze)):
        yield f"{name}: " + (", ".join(f"{p} % {day}" for p, day in table.items()) or "rare")
    for name, normals in (("Highs, F", place.tmax_f), ("Lows, F", place.tmin_f), ("Rain, in", place.rain_in)):
        yield f"{name:10}" + " ".join(f"{v:5.4g}" for v in normals)
    yield f"{place.note} {notes.mark(place.source)}".strip()


def _source(source: Source, k: Knowledge, notes: _Notes) -> Iterator[str]:
    yield from (cite(source), "=" * len(cite(source)), f"Seen: {source.seen}", source.address)
    used = [r for r in k.rules.values() if source.id in _cited(r)]
    yield from ("", "Used by", *(f"  {r.id}: {r.title}" for r in used))


def _cited(rule: Rule) -> set[str]:
    parts = [rule.what.source, *(s.source for s in (*rule.do, *rule.avoid)), *(w.source for w in rule.windows)]
    parts += [i.source for f in rule.figures for i in f.inputs.values()]
    return {name for part in parts for name in ((part,) if isinstance(part, str) else part)}
