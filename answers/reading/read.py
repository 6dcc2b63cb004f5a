"""A question into a reading: names, amounts, emergencies and the text model joined into probabilities.

Not here: the parsers themselves, one module each beside this one; the weights (weights.py).
"""

from __future__ import annotations

import math
from collections.abc import Iterable

from answers.letters.letter import Question
from answers.reading import train, weights
from answers.reading.amounts import measurements
from answers.reading.emergencies import hand_offs
from answers.reading.names_in_text import Names, words_of
from answers.reading.reading import Candidate, Mention, Reading
from kb.load import Knowledge
from kb.match import matches, occurs_on

IMPLIED = 0.1  # worth of the plant a problem says by itself, beside those named (a named host is worth 0.3 to 1)


class Reader:
    """Reads questions against one rule base. Making one loads the fitted text model (or fits it, the first time)."""

    def __init__(self, knowledge: Knowledge) -> None:
        self.knowledge = knowledge
        ordinary = _ordinary_words(knowledge)
        self._plants = Names({p.id: (p.common, *p.aliases) for p in knowledge.plants.values()}, ordinary)
        covered = [p for p in knowledge.problems.values() if p.id in knowledge.rules_by_problem]
        self._problems = Names({p.id: (p.name, *p.synonyms) for p in covered}, ordinary)
        self._phrases = Names({p.id: p.phrases for p in covered})
        self._models = train.cached_models(knowledge, self.mask)

    def mask(self, text: str) -> str:
        """`text` with each plant's name replaced by its group, so that the text model learns signs and not plants."""
        pieces, at = [], 0
        for mention in self._plants.find(text):
            pieces += [text[at : mention.start], f" plant{self.knowledge.plants[mention.id].group.replace('-', '')} "]
            at = mention.end
        return "".join([*pieces, text[at:]])

    def read(self, question: Question) -> Reading:
        """What `question` asks, with probabilities and the words that decided."""
        text = question.text
        plants = self._plants.find(text)
        named, phrases = self._problems.find(text), self._phrases.find(text)
        beside = [p for p in plants if not any(n.start <= p.start and p.end <= n.end for n in named)]
        plants = beside or plants  # the squash of "squash bugs on my pumpkin" is not the plant asked about
        masked = self.mask(text)
        chances = self._problem_chances(masked, plants, named, phrases)
        candidates = self._candidates(chances, plants)
        offs = hand_offs(text, self.knowledge)
        emergency = any(self.knowledge.hand_offs[o].urgent for o in offs)
        if emergency:  # who to call comes first, and nothing is guessed about the garden
            candidates = []
        best = candidates[0] if candidates else Candidate(None, None, 0.0)
        strange = self._models["problem"].known_share(text) < weights.KNOWN_WORDS  # another language, or no language
        decided = best.problem is not None and self._belief(best, candidates) >= weights.DECIDED and not strange
        return Reading(
            kind=self._kind(masked, text, decided, bool(offs), emergency),
            plant=best.plant if best.problem else self._main_plant(plants),
            problem=best.problem,
            candidates=tuple(c for c in candidates if c.problem),
            confidence=round(best.probability, 3) if best.problem else 0.0,
            decided=decided,
            emergency=emergency,
            hand_offs=offs,
            measurements=measurements(text),
            evidence=tuple(dict.fromkeys(m.words.lower() for m in (*plants, *named, *phrases))),
        )

    def _problem_chances(
        self, masked: str, plants: list[Mention], named: list[Mention], phrases: list[Mention]
    ) -> dict[str, float]:
        scores = {label: score * weights.SHARPNESS for label, score in self._models["problem"].logits(masked).items()}
        specific = {m.id for m in plants if not self.knowledge.plants[m.id].generic} or {m.id for m in plants}
        names, said = {m.id for m in named}, _counts(m.id for m in phrases)
        for problem in scores:
            if problem == train.OTHER:
                scores[problem] += weights.PLANT_BUT_NONE if specific else 0.0
                continue
            scores[problem] += weights.NAMED * (problem in names) + weights.PHRASE * min(said.get(problem, 0), 2)
            if specific and self._has_hosts(problem):
                fit = max(occurs_on(problem, plant, self.knowledge) for plant in specific)
                scores[problem] += weights.SUITS * fit if fit else weights.DOES_NOT_SUIT
        top = max(scores.values())
        powers = {label: math.exp(score - top) for label, score in scores.items()}
        total = sum(powers.values())
        return {label: power / total for label, power in powers.items()}

    def _belief(self, best: Candidate, candidates: list[Candidate]) -> float:
        """The probability of every pair that leads to the same rule: tomatoes and peppers are set out alike."""
        rule = self._rule_of(best)
        return sum(c.probability for c in candidates if c.problem == best.problem and self._rule_of(c) == rule)

    def _rule_of(self, candidate: Candidate) -> str:
        found = matches(candidate.plant, candidate.problem, self.knowledge) if candidate.problem else []
        return found[0].rule.id if found else ""

    def _has_hosts(self, problem: str) -> bool:
        entry = self.knowledge.problems[problem]
        return bool(entry.plants or entry.groups) or any(
            r.plants or r.groups for r in self.knowledge.rules_by_problem.get(problem, ())
        )

    def _candidates(self, chances: dict[str, float], plants: list[Mention]) -> list[Candidate]:
        pairs: list[Candidate] = []
        for problem, chance in sorted(chances.items(), key=lambda item: -item[1])[: weights.CANDIDATES]:
            if problem == train.OTHER:
                pairs.append(Candidate(None, None, chance))
                continue
            pairs += [Candidate(p, problem, chance * share) for p, share in self._plant_shares(problem, plants)]
        pairs.sort(key=lambda c: -c.probability)
        kept, held = [], 0.0
        for pair in pairs[: weights.CANDIDATES]:
            kept.append(Candidate(pair.plant, pair.problem, round(pair.probability, 4)))
            held += pair.probability
            if held >= weights.COVERAGE:
                break
        return kept

    def _plant_shares(self, problem: str, plants: list[Mention]) -> list[tuple[str | None, float]]:
        """The plants the problem may be on, each with its share of belief."""
        weight: dict[str, float] = {}
        for order, mention in enumerate(plants):
            fit = occurs_on(problem, mention.id, self.knowledge) if self._has_hosts(problem) else 0.5
            generic = self.knowledge.plants[mention.id].generic
            worth = (fit + 0.02) * (0.3 if generic else 1.0) * (1.0 if mention.exact else 0.7) / (1 + 0.25 * order)
            weight[mention.id] = weight.get(mention.id, 0.0) + worth
        implied = self._implied_plant(problem)
        if not weight:
            return [(implied, 1.0)]
        if implied is not None and self._has_hosts(problem):  # the plants named may be beside the point
            weight[implied] = weight.get(implied, 0.0) + IMPLIED
        weight = self._to_specific(weight)
        squared = {plant: w * w for plant, w in weight.items()}
        total = sum(squared.values())
        return [(plant, w / total) for plant, w in squared.items()]

    def _to_specific(self, weight: dict[str, float]) -> dict[str, float]:
        """ "My lawn ... the bluegrass": what speaks for the generic plant speaks for the kind of it that is named."""
        entries = self.knowledge.plants
        specific = [p for p in weight if not entries[p].generic]
        moved = {p: weight[p] for p in specific}
        for generic in (p for p in weight if entries[p].generic):
            kinds = [p for p in specific if entries[generic].group in self.knowledge.lineage(entries[p].group)]
            heir = max(kinds, key=lambda p: weight[p], default=generic)
            moved[heir] = moved.get(heir, 0.0) + weight[generic]
        return moved

    def _implied_plant(self, problem: str) -> str | None:
        """The plant a problem says by itself: the only one it occurs on, or the generic plant of its only group."""
        entry = self.knowledge.problems[problem]
        rules = self.knowledge.rules_by_problem.get(problem, ())
        plants = set(entry.plants) | {p for r in rules for p in r.plants}
        groups = set(entry.groups) | {g for r in rules for g in r.groups}
        if len(plants) == 1 and not groups:
            return plants.pop()
        of_groups = [p.id for p in self.knowledge.plants.values() if p.generic and p.group in groups]
        generic = [p for p in plants if self.knowledge.plants[p].generic]
        return of_groups[0] if len(of_groups) == 1 else generic[0] if len(generic) == 1 else None

    def _main_plant(self, plants: list[Mention]) -> str | None:
        specific = [m for m in plants if not self.knowledge.plants[m.id].generic] or plants
        return specific[0].id if specific else None

    def _kind(self, masked: str, text: str, decided: bool, handed: bool, emergency: bool) -> str:
        scores = self._models["kind"].logits(masked)
        if emergency:
            return max(("safety", "hand-off"), key=lambda k: scores.get(k, -9.0))
        if "?" in text or decided:
            scores.pop("not-a-question", None)
        if not handed:
            scores.pop("hand-off", None)
        return max(scores, key=lambda k: scores[k])


def _counts(ids: Iterable[str]) -> dict[str, int]:
    found: dict[str, int] = {}
    for id_ in ids:
        found[id_] = found.get(id_, 0) + 1
    return found


def _ordinary_words(knowledge: Knowledge) -> set[str]:
    """Words the rule base's own sentences use: correctly spelt, so never a plant's name with a typo."""
    words: set[str] = set()
    for rule in knowledge.rules.values():
        for text in (rule.spoken, rule.what.say, *(s.say for s in (*rule.do, *rule.avoid))):
            words.update(w for w, _, _ in words_of(text))
    return words
