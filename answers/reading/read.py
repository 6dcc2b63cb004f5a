"""A question into a reading: names, amounts, emergencies and the text model joined into probabilities.

Not here: the parsers themselves, one module each beside this one; the weights (weights.py).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache, lru_cache
from typing import Any

from answers.letters.letter import Question
from answers.reading import train, weights
from answers.reading.amounts import measurements
from answers.reading.asking import asking
from answers.reading.context import long_past
from answers.reading.emergencies import Signs, sounds_urgent
from answers.reading.heard import Heard, hear
from answers.reading.language import language_of
from answers.reading.lessons import Lesson
from answers.reading.names_in_text import Names
from answers.reading.reading import Candidate, Measurement, Mention, Reading
from answers.reading.which_plant import WhichPlant
from answers.reading.words import Token, pairs, tokens
from kb.entries import POSSIBLE_EMERGENCY
from kb.load import Knowledge
from kb.match import matches, occurs_on

_NO_PLANT = "-"
_LISTED = 3  # problems listed as candidates at least, in the set or not
_DECIDING = 6  # words shown as having decided


@dataclass(frozen=True)
class _Seen:
    """What stands in a letter: every plant named, what is said of plants, problems named, words, amounts."""

    every: list[Mention]
    heard: Heard
    named: list[Mention]
    tokens: list[Token]
    amounts: dict[str, Measurement]


class Reader:
    """Reads questions against one rule base. Making one loads the text models (or makes them, the first time)."""

    def __init__(self, knowledge: Knowledge, lessons: Sequence[Lesson] = ()) -> None:
        import numpy as np

        self.knowledge = knowledge
        names = {p.id: (p.common, *p.aliases) for p in knowledge.plants.values()}
        cultivars = {p.id: p.cultivars for p in knowledge.plants.values()}
        self._plants = Names({_NO_PLANT: knowledge.not_plants, **names}, cultivars)
        covered = [p for p in knowledge.problems.values() if p.id in knowledge.rules_by_problem]
        self._problems = Names({p.id: (p.name, *p.synonyms) for p in covered})
        self._signs = Signs(knowledge)
        models = train.cached_models(knowledge, self, lessons)
        self._likeness, self._pairs, self._looks = models.problem, models.pairs, models.looks
        self._plain, self._kinds, self.roles = models.plain, models.kind, models.role
        self._urgent, self._spoken_of = models.urgent, models.spoken_of
        self._which = WhichPlant(knowledge, models)
        self.labels = self._likeness.labels
        self._place = {label: i for i, label in enumerate(self.labels)}
        self._hosted = np.array([label != train.OTHER and self._which.has_hosts(label) for label in self.labels])
        self._other = np.array([label == train.OTHER for label in self.labels])
        self._expected: dict[str, list[tuple[int, float, float]]] = {}
        for place, label in enumerate(self.labels):
            for name, (low, high) in (knowledge.problems[label].expects if label in knowledge.problems else {}).items():
                self._expected.setdefault(name, []).append((place, float(low), float(high)))
        self._fits = cache(self._fits_of)
        self._suited = lru_cache(maxsize=1000)(self._suited_of)
        self._rule_for = cache(self._rule_for_pair)
        self._out_of_season = cache(self._out_of_season_in)

    def plants_in(self, text: str) -> list[Mention]:
        """Every plant named; "wood ash" and "pea gravel" name none."""
        return [m for m in self._plants.find(text) if m.id != _NO_PLANT]

    def mask(self, text: str) -> str:
        """`text` with each plant's name replaced by its group: the kind of a question does not hang on the plant."""
        return self._masked(text, self.plants_in(text))

    def _masked(self, text: str, plants: list[Mention]) -> str:
        pieces, at = [], 0
        for mention in plants:
            pieces += [text[at : mention.start], f" plant{self.knowledge.plants[mention.id].group.replace('-', '')} "]
            at = mention.end
        return "".join([*pieces, text[at:]])

    def tokens(self, text: str, plants: list[Mention]) -> list[Token]:
        """What the text model counts in `text`."""
        return tokens(text, plants, lambda plant: self.knowledge.plants[plant].group)

    def token_names(self, text: str) -> list[str]:
        """The names of those tokens, for making the model."""
        return [token.name for token in self.tokens(text, self.plants_in(text))]

    def _look(self, question: Question) -> _Seen:
        text = question.text
        every, named = self.plants_in(text), self._problems.find(text)
        words = self.tokens(text, every)
        described = self._looks.scores(t.name for t in words if not t.of_plant)
        heard = hear(text, every, named, self._spoken_of.scores(text, every), described, self.knowledge)
        amounts = measurements(text, self.roles, every, question.sent.year if question.sent else None)
        return _Seen(every, heard, named, words, amounts)

    def read(self, question: Question) -> Reading:
        """What `question` asks, with probabilities and the words that decided."""
        text, seen = question.text, self._look(question)
        heard, found = seen.heard, seen.tokens
        chances = self._problem_chances(self._evidence(question, seen))
        order = [int(i) for i in (-chances).argsort(kind="stable")[: weights.CANDIDATES]]
        candidates = self._candidates([(self.labels[i], float(chances[i])) for i in order], heard)
        offs = self._signs.hand_offs(text)
        urgent = any(self.knowledge.hand_offs[off].urgent for off in offs)
        suspected = not urgent and sounds_urgent(text, self._urgent)
        if suspected:
            offs = (POSSIBLE_EMERGENCY, *offs)
        best = _likeliest(() if urgent else candidates)  # who to call comes first: nothing is guessed about the garden
        strange = self._likeness.known_share([t.name for t in found]) < weights.KNOWN_WORDS
        language = language_of(text) if strange else ""
        decided = best.problem is not None and self._belief(best, candidates) >= weights.DECIDED and not strange
        if suspected or (decided and best.problem and not self._which.suits(best.problem, heard)):
            decided = False  # it may be urgent, or is not known on the plant named: a person should look
        return Reading(
            kind=self._kind(self._masked(text, seen.every), text, best, decided, bool(offs), urgent or suspected),
            plant=best.plant if best.problem else self._which.main(heard),
            problem=best.problem,
            candidates=tuple(c for c in candidates if c.problem),
            confidence=round(self._belief(best, candidates), 3) if best.problem else 0.0,
            decided=decided,
            emergency=urgent or suspected,
            hand_offs=offs,
            measurements=seen.amounts,
            evidence=self._deciding_words(text, found, order[0], order[1]),
            language=language,
        )

    def urgent_signs(self, text: str) -> tuple[str, ...]:
        """The urgent hand-offs whose signs are in `text`."""
        return tuple(off for off in self._signs.hand_offs(text) if self.knowledge.hand_offs[off].urgent)

    def evidence_of(self, question: Question) -> dict[str, Any]:
        """Each kind of evidence as an array over the labels, unweighted but for the text model."""
        return self._evidence(question, self._look(question))

    def plant_evidence_of(self, question: Question, problem: str) -> dict[str | None, dict[str, float]]:
        """Each plant that the problem may be on, and none -> each kind of evidence, unweighted."""
        return self._which.evidence(problem, self._look(question).heard)

    def _evidence(self, question: Question, seen: _Seen) -> dict[str, Any]:
        import numpy as np

        plants, sent = seen.heard.plants, question.sent
        kinds = {p for p in plants if not self.knowledge.plants[p].generic} or set(plants)
        suits, does_not = self._suited(frozenset(kinds))
        named = np.zeros(len(self.labels))
        for mention in seen.named:
            worth, at = 0.3 if long_past(question.text, mention) else 1.0, self._place[mention.id]
            named[at] = max(named[at], worth)
        names = [token.name for token in seen.tokens]
        return {
            "text": self._likeness.scores(names),
            "pairs": self._pairs.scores(pairs(names)),
            "plain words": self._plain.scores(question.text),
            "named": named,
            "suits": suits,
            "does not suit": does_not,
            "amount against it": self._against(seen.amounts),
            "out of season": self._out_of_season(sent.month) if sent else np.zeros(len(self.labels)),
            "none": self._other * 1.0,
            "plant but none": self._other * float(bool(kinds)),
        }

    def _problem_chances(self, given: dict[str, Any]) -> Any:
        """The probability of each label."""
        import numpy as np

        score = sum(weights.EVIDENCE[kind] * values for kind, values in given.items())
        powers = np.exp(score - np.max(score))
        return powers / powers.sum()

    def _fits_of(self, plant: str) -> Any:
        import numpy as np

        return np.array(
            [0.0 if label == train.OTHER else occurs_on(label, plant, self.knowledge) for label in self.labels]
        )

    def _suited_of(self, plants: frozenset[str]) -> tuple[Any, Any]:
        """How well each label's problem fits the plant it fits best, and 1 for each that occurs on none of them."""
        import numpy as np

        fit = self._hosted * np.max([np.zeros(len(self.labels)), *map(self._fits, plants)], axis=0)
        return fit, self._hosted * (fit == 0) * float(bool(plants))

    def _out_of_season_in(self, month: int) -> Any:
        import numpy as np

        near = {(month - 2) % 12 + 1, month, month % 12 + 1}
        seasons = [() if x == train.OTHER else self.knowledge.problems[x].months for x in self.labels]
        return np.array([float(bool(months) and not near & set(months)) for months in seasons])

    def _against(self, amounts: dict[str, Measurement]) -> Any:
        """1 for each problem that an amount told rules out: lime for a soil of pH 7.4, frost at 90 degrees."""
        import numpy as np

        against = np.zeros(len(self.labels))
        for name, measurement in amounts.items():
            for place, low, high in self._expected.get(name, ()):
                if not isinstance(measurement.value, str) and not low <= measurement.value <= high:
                    against[place] = 1.0
        return against

    def _deciding_words(self, text: str, found: list[Token], first: int, second: int) -> tuple[str, ...]:
        """The letter's own words that speak most for the leading problem against its first rival."""
        worth = self._likeness.worth([token.name for token in found], first, second)
        order = sorted((i for i, value in enumerate(worth) if value > 0), key=lambda i: -worth[i])
        words = dict.fromkeys(text[found[i].start : found[i].end].lower() for i in order)
        return tuple(sorted([*words][:_DECIDING], key=text.lower().find))

    def _belief(self, best: Candidate, candidates: list[Candidate]) -> float:
        """The probability of every pair that leads to the same rule: tomatoes and peppers are set out alike."""
        rule = self._rule_of(best)
        return sum(c.probability for c in candidates if c.problem == best.problem and self._rule_of(c) == rule)

    def _rule_of(self, candidate: Candidate) -> str:
        return self._rule_for(candidate.plant, candidate.problem) if candidate.problem else ""

    def _rule_for_pair(self, plant: str | None, problem: str) -> str:
        found = matches(plant, problem, self.knowledge)
        return found[0].rule.id if found else ""

    def _candidates(self, likely: list[tuple[str, float]], heard: Heard) -> list[Candidate]:
        """The set of problems that holds the truth at the stated rate, each with the plants it may be on."""
        pairs: list[Candidate] = []
        for problem, chance in likely:
            if problem == train.OTHER:
                pairs.append(Candidate(None, None, round(chance, 4)))
                continue
            if len({pair.problem for pair in pairs} - {None}) >= _LISTED and chance < weights.IN_THE_SET:
                break
            shares = sorted(self._which.shares(problem, heard), key=lambda share: -share[1])
            pairs += [Candidate(plant, problem, round(chance * share, 4)) for plant, share in shares if share > 0.02]
        return sorted(pairs, key=lambda c: -c.probability)

    def _kind(self, masked: str, text: str, best: Candidate, decided: bool, handed: bool, emergency: bool) -> str:
        whole, question = self._kinds.logits(masked), asking(masked)
        asked = self._kinds.logits(question) if question != masked else whole
        scores = {kind: whole[kind] + asked[kind] for kind in whole}
        if emergency:
            return max(("safety", "hand-off"), key=lambda k: scores.get(k, -9.0))
        if "?" in text or decided:
            scores.pop("not-a-question", None)
        if not handed:
            scores.pop("hand-off", None)
        if decided and (rule := self._rule_of(best)):  # it answers certain kinds of question
            kinds = self.knowledge.rules[rule].kinds
            scores = {kind: score for kind, score in scores.items() if kind in kinds} or scores
        return max(scores, key=lambda k: scores[k])


def _likeliest(candidates: Sequence[Candidate]) -> Candidate:
    """The likeliest pair of the likeliest plant: a letter may tell its plant plainly and its trouble not."""
    belief: dict[str | None, float] = {}
    for candidate in candidates:
        belief[candidate.plant] = belief.get(candidate.plant, 0.0) + candidate.probability
    if not belief:
        return Candidate(None, None, 0.0)
    plant = max(belief, key=lambda each: belief[each])
    return next(c for c in candidates if c.plant == plant)
