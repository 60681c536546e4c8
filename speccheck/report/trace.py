"""Facts for people: a list by place, or one fact with everything it rests on."""

from collections.abc import Mapping, Sequence

from speccheck.judgement.wording import word
from speccheck.report.layout import Sheet
from speccheck.survey import Fact, Origin, Surveyed
from speccheck.survey.vocabulary import VOCABULARY

__all__ = ["choose", "facts_text", "trace_text"]

_DEEPEST = 12


def choose(surveyed: Surveyed, wanted: str | None) -> tuple[list[Fact], bool]:
    """Return the facts a person asks for, and whether that is one fact to be traced.

    ``wanted`` is a place (``north-wall``, ``north-wall.fill``, ``project``) or a place and a fact name.
    """
    facts = list(surveyed.facts())
    if wanted is None:
        return facts, False
    at = [fact for fact in facts if fact.place == wanted]
    if at:
        return at, False
    return [fact for fact in facts if f"{fact.place}.{fact.name.partition('.')[2]}" == wanted], True


def facts_text(facts: Sequence[Fact], width: int = 80, system: str = "both") -> str:
    """Return facts as text, grouped by place, each with its value, origin and source."""
    sheet = Sheet(width)
    place = None
    for fact in facts:
        if fact.place != place:
            place = fact.place
            sheet.heading(place)
        if fact.inapplicable:
            continue
        name = fact.name.partition(".")[2]
        sheet.wrap(f"{_value(fact, system)}  [{fact.origin.value}]", 2, f"{name}: ")
        note = _note(fact)
        if note:
            sheet.wrap(note, 6)
    return sheet.text()


def _value(fact: Fact, system: str) -> str:
    if fact.value is None:
        return "not shown" if fact.origin is Origin.UNKNOWN else "does not apply"
    kind = _kind(fact)
    text = word(fact.value, kind, system)
    if fact.low is not None and fact.high is not None:
        text += f", range {word(fact.low, kind, system)} to {word(fact.high, kind, system)}"
    return text


def _kind(fact: Fact) -> str:
    declared = VOCABULARY.get(fact.name)
    return declared.kind if declared else "text"


def _note(fact: Fact) -> str:
    if fact.missing:
        return " ".join(dict.fromkeys(gap.question for gap in fact.missing))
    return "; ".join(part for part in (fact.method, fact.source) if part)


def trace_text(surveyed: Surveyed, fact: Fact, width: int = 80, system: str = "both") -> str:
    """Return one fact with its method, its source and, indented under it, each input down to what is declared."""
    index = {one.key: one for one in surveyed.facts()}
    sheet = Sheet(width)
    _trace(sheet, index, fact, system, 0, set())
    if fact.assumed:
        sheet.heading("Stands in for what is not declared")
        for line in fact.assumed:
            sheet.wrap(line, 2, "- ")
    return sheet.text()


def _trace(
    sheet: Sheet,
    index: Mapping[tuple[str, str], Fact],
    fact: Fact,
    system: str,
    depth: int,
    seen: set[tuple[str, str]],
) -> None:
    indent = 2 * depth
    name = fact.name.partition(".")[2]
    again = " (traced above)" if fact.key in seen and fact.inputs else ""
    sheet.wrap(f"= {_value(fact, system)}  [{fact.origin.value}]{again}", indent, f"{fact.place}.{name} ")
    if again:
        return
    seen.add(fact.key)
    if fact.missing:
        sheet.wrap(_note(fact), indent + 2, "ask: ")
    elif fact.method:
        sheet.wrap(fact.method, indent + 2, "by ")
    if fact.source:
        sheet.wrap(fact.source, indent + 2, "source: ")
    if depth < _DEEPEST:
        for key in fact.inputs:
            if key in index:
                _trace(sheet, index, index[key], system, depth + 1, seen)
