"""The entries of the rule base as frozen dataclasses: what a horticulturist writes in YAML, typed.

Not here: reading the files (load.py), sense across entries (check.py), windows into dates (schedule.py).
A field's comment is its help text; `schema.py` turns these classes into the published JSON Schema.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

KINDS = (
    "diagnosis",
    "how-to",
    "rate",
    "timing",
    "plant choice",
    "identification",
    "safety",
    "hand-off",
    "not-a-question",
)
STEP_ORDER = ("first", "cultural", "mechanical", "biological", "chemical")
PROBLEM_SORTS = ("insect", "mite", "disease", "disorder", "injury", "weed", "animal", "soil", "task")
URGENT, NOT_URGENT = "urgent", "not-urgent"  # the two lists of urgent_letters.yaml
NO_PLANT = "none"  # stands for letters that ask about no plant of ours: plant_letters.yaml, a rule's examples
POSSIBLE_EMERGENCY = "possible-emergency"  # the hand-off of a letter that sounds urgent and meets no sign
SEEN = ("read", "from memory", "common practice")
MEASUREMENTS = (  # what a letter may tell, in the unit of its name
    *("area_sqft", "length_ft", "width_ft", "height_ft", "depth_in", "spacing_in", "trunk_diameter_in"),
    *("crown_spread_ft", "count", "age_years", "soil_ph", "target_ph", "buffer_ph", "temperature_f", "slope_percent"),
    *("n_percent", "p_percent", "k_percent", "product_lb", "tank_gal", "label_rate", "label_rate_unit", "texture"),
)
TRAITS = {  # what a plant's `traits` may say; rules and windows ask for them by these names
    "blooms_on": "old wood | new wood | both",
    "zones": "[coldest, warmest] hardiness zone",
    "soil_ph": "[low, high]",
    "target_ph": "the pH to lime or acidify to",
    "toxic_to": "any of people, dogs, cats, horses, livestock",
    "planting": "{of: last|first, from_days, to_days, soil_min_f}: days from the 50 % freeze date",
    "days_to_harvest": "[fewest, most] from sowing or setting out",
    "acid_loving": "true",
    "shallow_rooted": "true",
}


@dataclass(frozen=True)
class Source:
    """A publication. `seen` says whether the numbers were read in it."""

    id: str
    publisher: str
    title: str
    seen: str  # read | from memory | common practice
    number: str = ""
    year: int | None = None
    address: str = ""
    where: str = ""  # file:line, filled by the loader


@dataclass(frozen=True)
class Caution:
    """A shared warning; `order` 0 comes first (people), higher later."""

    id: str
    text: str
    order: int = 5
    with_chemicals: bool = False  # every rule with a chemical step must carry it, within the limits that follow
    groups: tuple[str, ...] = ()  # only rules on a plant of these groups
    not_groups: tuple[str, ...] = ()  # not rules whose every plant is of these groups
    sorts: tuple[str, ...] = ()  # only against these sorts of problem
    source: str = "common-practice"
    where: str = ""


@dataclass(frozen=True)
class HandOff:
    """Somebody else who must answer, and the words that say so. `urgent` ones are emergencies."""

    id: str
    who: str
    text: str
    urgent: bool = False
    signs: tuple[str, ...] = ()  # regular expressions on the letter's lower-case text; any one is enough
    source: str = "common-practice"
    where: str = ""


@dataclass(frozen=True)
class Plant:
    """A plant, or (with `generic`) a whole group when the writer does not say which."""

    id: str
    common: str
    group: str
    aliases: tuple[str, ...] = ()  # regional names, plurals, misspellings people really write
    cultivars: tuple[str, ...] = ()  # names that also mean something else: "my Stanley"; from memory
    botanical: str = ""
    generic: bool = False
    kind_of: str = ""  # the wider plant that people often call it: a Japanese maple is a maple
    traits: dict[str, Any] = field(default_factory=dict)  # see TRAITS
    traits_from: dict[str, Any] = field(default_factory=dict)  # trait -> source id, or a list of them
    sources: tuple[str, ...] = ()
    where: str = ""


@dataclass(frozen=True)
class Looks:
    """How people tell a plant who do not write its name; `id` is the plant's. From memory, never shown as advice."""

    id: str
    told: tuple[str, ...]
    where: str = ""


@dataclass(frozen=True)
class LookAlike:
    """What else it could be, and the sign that decides."""

    name: str
    sign: str
    problem: str = ""
    source: str = "common-practice"


@dataclass(frozen=True)
class Problem:
    """A trouble or a task. `phrases` are what people write without knowing its name."""

    id: str
    name: str
    sort: str
    synonyms: tuple[str, ...] = ()
    phrases: tuple[str, ...] = ()
    look_alikes: tuple[LookAlike, ...] = ()
    plants: tuple[str, ...] = ()
    groups: tuple[str, ...] = ()
    months: tuple[int, ...] = ()  # when it shows, northern hemisphere
    expects: dict[str, Any] = field(default_factory=dict)  # {soil_ph: [3.5, 6.6]}: told otherwise, not this
    sources: tuple[str, ...] = ()
    where: str = ""


@dataclass(frozen=True)
class Window:
    """When an action is right. Exactly one of the `by` forms is given; schedule.py turns it into dates at a place."""

    action: str  # "spray the trunk", "sow peas": reads well after "the time to"
    months: tuple[int, ...] = ()
    dates: tuple[str, ...] = ()  # ("03-15", "04-30")
    frost: dict[str, Any] = field(default_factory=dict)  # {of: last|first, from_days: -14, to_days: 0, probability: 50}
    degree_days: dict[str, Any] = field(default_factory=dict)  # {base_f: 50, low: 245, high: 440, start: "01-01"}
    soil_temp_f: dict[str, Any] = field(default_factory=dict)  # {low: 50, high: 55, trend: rising|falling}
    dormant: bool = False  # leaf fall to bud break
    trait: str = ""  # the plant's own trait that says when: "planting"
    zones: tuple[int, ...] = ()  # (coldest, warmest): only at places of these hardiness zones
    too_late: str = ""  # what to say when it has just closed
    source: str | tuple[str, ...] = "from-memory"
    locator: str = ""


@dataclass(frozen=True)
class Say:
    """One sentence or two of advice, and where it comes from. `step` places it in the integrated order."""

    say: str
    source: str | tuple[str, ...]
    step: str = "first"
    locator: str = ""


@dataclass(frozen=True)
class AmountLetter:
    """A letter and the amounts told in it, by MEASUREMENTS: it teaches the reading what a quantity measures."""

    id: str
    letter: str
    amounts: dict[str, float] = field(default_factory=dict)
    where: str = ""


@dataclass(frozen=True)
class Input:
    """Where an argument comes from: the first present of reading, trait, place, figure, value; else the default."""

    reading: str = ""  # a measurement's name, see reading/amounts.py
    trait: str = ""
    place: str = ""  # a number of the writer's place: "elevation_ft"
    figure: str = ""  # "root-zone" (its value) or "root-zone.holes" (one of its `also`)
    value: float | str | None = None  # a dose: one line with its source
    unit: str = ""
    source: str | tuple[str, ...] = ""
    locator: str = ""
    default: float | str | None = None
    default_words: str = ""  # how the draft says the assumption aloud: "a tree with a 30-foot crown"


@dataclass(frozen=True)
class Calculation:
    """A calculator to run for this rule, and the sentence that carries its result."""

    id: str
    calculator: str
    inputs: dict[str, Input]
    say: str  # may use {value} {unit}, any input by its name, any of the figure's `also`
    needs: tuple[str, ...] = ()  # readings without which it is not run at all


@dataclass(frozen=True)
class Ask:
    """A fact to ask the writer for, needless when `unless` (a measurement, or plant, place, photo) is known."""

    question: str
    unless: str = ""


@dataclass(frozen=True)
class Rule:
    """Curated answer logic for plants x problem x window."""

    id: str
    title: str
    problem: str
    kinds: tuple[str, ...]
    what: Say
    do: tuple[Say, ...]
    avoid: tuple[Say, ...]
    spoken: str  # for air; a lower-case start carries on from the writer's name ("Ann in Elmford" + "has a tree ...")
    examples: dict[str, tuple[str, ...]]  # plant asked about, or "none" -> letters in different voices
    reviewed: str
    plants: tuple[str, ...] = ()
    groups: tuple[str, ...] = ()
    zones: tuple[int, ...] = ()  # (coldest, warmest) hardiness zone where this advice holds; empty for everywhere
    windows: tuple[Window, ...] = ()
    figures: tuple[Calculation, ...] = ()
    ask: tuple[Ask, ...] = ()
    cautions: tuple[str, ...] = ()
    hand_off: str = ""
    where: str = ""

    @property
    def letters(self) -> tuple[str, ...]:
        """Its examples, whatever plant they ask about."""
        return tuple(letter for letters in self.examples.values() for letter in letters)


@dataclass(frozen=True)
class Place:
    """A place with the climate numbers windows need. Temperatures in F, rain in inches, freeze dates as "MM-DD"."""

    id: str
    name: str
    state: str
    lat: float
    lon: float
    zone: str
    elevation_ft: float
    last_freeze: dict[int, str]  # probability percent of a later 32 F freeze -> date
    first_freeze: dict[int, str]  # probability percent of an earlier 32 F freeze -> date
    tmax_f: tuple[float, ...]  # monthly normals, January first
    tmin_f: tuple[float, ...]
    rain_in: tuple[float, ...]
    country: str = "US"  # elsewhere, figures are also given in metric units
    source: str | tuple[str, ...] = "from-memory"
    note: str = ""
    invented: bool = False  # a made-up place: used only when a letter names it
    where: str = ""
