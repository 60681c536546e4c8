"""The judge: each rule held against each thing it looks at. It computes no physics."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from speccheck.judgement.expression import NotEvaluated
from speccheck.judgement.finding import Finding, Level, Limit
from speccheck.judgement.pack import Pack, Rule
from speccheck.judgement.reading import Reader
from speccheck.judgement.wording import Wording
from speccheck.survey.fact import Fact, Gap
from speccheck.survey.subject import Subject, Surveyed
from speccheck.survey.vocabulary import VOCABULARY

__all__ = ["AIR_LINE", "judge"]

AIR_LINE = "project.air_line_closed"
"""The fact behind ``presumes-air-line``: no pass for vapour while it is not true."""

_OUTCOMES = {
    "outside": (Level.WARN, "outside"),
    "caution": (Level.WARN, "caution"),
    "ask": (Level.ASK, ""),
    "refer": (Level.REFER, ""),
}


def judge(
    surveyed: Surveyed, packs: Sequence[Pack], kinds: Iterable[str] | None = None, system: str = "both"
) -> list[Finding]:
    """Return a finding for each rule at each place where it has something to say.

    Args:
        surveyed: the facts.
        packs: the packs in force, in the order in which they are to be reported.
        kinds: kinds of subject to judge; all when not given.
        system: units the sentences show: ``both``, ``us`` or ``si``.
    """
    wanted = None if kinds is None else set(kinds)
    reader = Reader.of(packs)
    by_kind: dict[str, list[_Place]] = {}
    for subject in surveyed.subjects:
        by_kind.setdefault(subject.kind, []).append(_Place(subject, reader, {}))
    findings = []
    for pack in packs:
        for rule in pack.rules:
            if wanted is None or rule.looks_at in wanted:
                for place in by_kind.get(rule.looks_at, ()):
                    unsure = place.applicable(rule)
                    if unsure is None:
                        continue
                    finding = _Case(rule, place, system).decide(unsure)
                    if finding is not None:
                        findings.append(finding)
    return _without_echoes(findings, packs)


def _without_echoes(findings: list[Finding], packs: Sequence[Pack]) -> list[Finding]:
    """Leave out a warning where a rule it yields to warns at the same place."""
    yields = {rule.id: rule.yields_to for pack in packs for rule in pack.rules if rule.yields_to}
    warned = {finding.key for finding in findings if finding.level is Level.WARN}
    return [
        finding
        for finding in findings
        if finding.level is not Level.WARN
        or not any((other, finding.place) in warned for other in yields.get(finding.rule, ()))
    ]


_UNASKED: Any = object()


@dataclass(slots=True)
class _Place:
    """One thing that is judged, and what came of the conditions asked of it so far; many rules share one."""

    subject: Subject
    reader: Reader
    answers: dict[str, tuple[Fact, ...] | None]
    """See :meth:`_met`."""

    def applicable(self, rule: Rule) -> tuple[Fact, ...] | None:
        """Return None where a rule does not apply, else the unknown facts that keep it from being told."""
        unsure: tuple[Fact, ...] = ()
        for source in rule.applies:
            answer = self.answers.get(source, _UNASKED)
            if answer is _UNASKED:
                answer = self.answers[source] = self._met(rule, source)
            if answer is None:
                return None
            if answer:
                unsure += answer
        return unsure

    def _met(self, rule: Rule, source: str) -> tuple[Fact, ...] | None:
        """Return None where a condition is not met, else the unknown facts it hangs on: none where it is met."""
        expression = self.reader.expression(rule, source)
        answer = expression.evaluate(self.subject.values)
        if not isinstance(answer, bool):
            absent = self.absent(expression.names)
            if absent is None or absent:
                return absent
            answer = expression.evaluate(self.subject.values)  # what was left for later is there now
        return () if answer is True else None

    def absent(self, names: Iterable[str]) -> tuple[Fact, ...] | None:
        """Return the facts among ``names`` that are unknown, or None where one of them does not apply here."""
        absent = []
        for name in sorted(names):
            if name in self.subject.values:
                continue
            fact = self.subject.fact(name)
            if fact is None or fact.inapplicable:
                return None
            if fact.value is not None:
                self.subject.values[name] = fact.value
            else:
                absent.append(fact)
        return tuple(absent)


class _Case:
    """One rule at one place where it applies."""

    __slots__ = ("_absent", "reader", "rule", "subject", "system")

    def __init__(self, rule: Rule, place: _Place, system: str) -> None:
        self.rule, self.subject, self.reader, self.system = rule, place.subject, place.reader, system
        self._absent = place.absent

    def decide(self, unsure: tuple[Fact, ...]) -> Finding | None:
        """Return the finding, or None where the rule has nothing to say here.

        ``unsure`` are the unknown facts that keep it from being told whether the rule applies.
        """
        if unsure:
            return self._ask(unsure)
        values = self._with_limits()
        if values is None:
            return None
        if isinstance(values, tuple):
            return self._ask(values)
        return self._judge(values)

    def _with_limits(self) -> dict[str, Any] | tuple[Fact, ...] | None:
        """Return the values with the rule's parameters and table rows; or what is unknown; or None."""
        rule = self.rule
        wanted = {fact for table in rule.tables for fact in table.facts}
        absent = self._absent(wanted)
        if absent is None:
            return None
        if absent:
            return absent
        for name in self.reader.named(rule):
            self._absent((name,))  # fetches what was left for later
        values = self._numbers()
        if any(self.reader.table_name(table) not in values for table in rule.tables):
            return None
        absent = self._absent(self.reader.needs(rule))
        return absent if absent is None or absent else values

    def _numbers(self) -> dict[str, Any]:
        """Return the values with the rule's parameters and with the rows that the values known so far choose."""
        values: dict[str, Any] = dict(self.subject.values)
        for parameter in self.rule.parameters:
            values[f"parameter.{parameter.name}"] = parameter.value
        for table in self.rule.tables:
            row = table.find(self.subject.values)
            if row is not None:
                values[self.reader.table_name(table)] = row
        return values

    def _judge(self, values: Mapping[str, Any]) -> Finding | None:
        """Judge by the conditions of which one is enough; one that cannot be told hides no other."""
        unsure: list[Fact] = []
        told, broken = False, ""
        for expression in self.reader.holds(self.rule):
            absent = self._absent(name for name in expression.names if name in VOCABULARY)
            if absent is None:
                continue
            told = True
            answer = NotEvaluated("") if absent else expression.evaluate(values)
            if answer is True:
                return self._holds(values)
            unsure.extend(absent)
            if isinstance(answer, NotEvaluated) and not absent:
                broken = answer.reason
        if not told:
            return None
        if broken:
            return self._finding(Level.REFER, "", f"This rule could not be evaluated here: {broken}.", values)
        return self._ask(tuple(dict.fromkeys(unsure))) if unsure else self._does_not_hold(values)

    def _holds(self, values: Mapping[str, Any]) -> Finding:
        line = self.subject.fact(AIR_LINE) if self.rule.presumes_air_line else None
        says = self.rule.says.get("pass", self.rule.title)
        if line is None or line.value is True:
            return self._finding(Level.PASS, "", says, values)
        return self._finding(Level.ASK, "", says, values, gaps=line.missing, withheld=True)

    def _does_not_hold(self, values: Mapping[str, Any]) -> Finding:
        outcome, says = self.rule.when_not, ""
        for band, expression in self.reader.bands(self.rule):
            values = self._having(values, expression.names)
            if expression.evaluate(values) is True:
                outcome, says = band.outcome, band.says
                break
        level, strength = _OUTCOMES[outcome]
        says = says or self.rule.says.get(level.value) or self.rule.says.get("warn") or self.rule.title
        gaps: tuple[Gap, ...] = ()
        if level is Level.ASK:
            values = self._fetched(values, (says,))
            question = Wording(values, self.reader.kinds(self.rule), self.system).say(says)
            gaps = (Gap(self.subject.place, self.rule.id, question, self.subject.path),)
        return self._finding(level, strength, says, values, gaps=gaps)

    def _ask(self, absent: Sequence[Fact]) -> Finding:
        gaps = tuple({gap.key: gap for fact in absent for gap in fact.missing}.values())
        says = self.rule.says.get("ask") or "Not shown, so this cannot be judged: {names}.".format(
            names=", ".join(dict.fromkeys(gap.wanted for gap in gaps)) or ", ".join(f.name for f in absent)
        )
        return self._finding(Level.ASK, "", says, self._numbers(), gaps=gaps)

    def _finding(
        self,
        level: Level,
        strength: str,
        says: str,
        values: Mapping[str, Any],
        *,
        gaps: tuple[Gap, ...] = (),
        withheld: bool = False,
    ) -> Finding:
        rule, subject = self.rule, self.subject
        do = rule.do if level in (Level.WARN, Level.REFER) else ()
        values = self._fetched(values, (says, *do))
        words = Wording(values, self.reader.kinds(rule), self.system)
        names = self.reader.shown(rule)
        seen = [fact for name in names if (fact := subject.fact(name)) is not None]
        return Finding(
            level=level,
            strength=strength,
            rule=rule.id,
            pack=rule.pack,
            title=rule.title,
            subject=subject.kind,
            place=subject.place,
            path=subject.path,
            reason=words.say(says),
            why=rule.why,
            do=tuple(words.say(step) for step in do),
            do_is=rule.do_is if len(do) > 1 else "",
            sources=rule.sources,
            consequence=rule.consequence,
            confidence=rule.confidence,
            disputed=rule.disputed,
            measured=self._measured(values),
            observed=tuple((fact.name, fact.value) for fact in seen if fact.value is not None),
            assumed=tuple(dict.fromkeys(line for fact in seen for line in fact.assumed)),
            gaps=gaps,
            withheld=withheld,
            from_memory=rule.from_memory,
        )

    def _fetched(self, values: Mapping[str, Any], sentences: Iterable[str]) -> Mapping[str, Any]:
        """Return the values with those the sentences name that were left for later."""
        return self._having(values, [name for text in sentences for name in self.reader.names_in(text)])

    def _having(self, values: Mapping[str, Any], names: Iterable[str]) -> Mapping[str, Any]:
        """Return the values with those among ``names`` that were left for later."""
        missing = [name for name in names if name not in values and name in VOCABULARY]
        if not missing:
            return values
        for name in missing:
            self._absent((name,))
        return {
            **values,
            **{name: self.subject.values[name] for name in missing if name in self.subject.values},
        }

    def _measured(self, values: Mapping[str, Any]) -> Limit | None:
        rule = self.rule
        observed = values.get(rule.measured) if rule.measured else None
        expression = self.reader.limit(rule)
        if observed is None or expression is None:
            return None
        where = self.reader.measured_where(rule)
        if where is not None and where.evaluate(values) is not True:
            return None
        limit = expression.evaluate(values)
        if not isinstance(limit, float) or not isinstance(observed, float):
            return None
        fact = self.subject.fact(rule.measured)
        low, high = (fact.low, fact.high) if fact else (None, None)
        return Limit(
            fact=rule.measured,
            kind=self.reader.kinds(rule)[rule.measured],
            observed=observed,
            limit=limit,
            sense=rule.sense,
            margin=observed - limit if rule.sense == "at-least" else limit - observed,
            low=low,
            high=high,
            turns=low is not None and high is not None and low < limit < high,
        )
