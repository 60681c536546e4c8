"""The command ``facts``: every number of a document, or one with all it rests on."""

from difflib import get_close_matches
from pathlib import Path

from speccheck.cli.output import CANNOT_RUN, columns, complain, complain_of, write
from speccheck.document import Unreadable
from speccheck.survey import Fact, Surveyed
from speccheck.uses.check import load, survey_of

__all__ = ["run_facts"]


def run_facts(path: Path, wanted: str | None, form: str, units: str, width: int | None) -> int:
    """Write facts; return the exit status."""
    from speccheck.report.trace import choose

    try:
        surveyed = survey_of(load(path))
    except Unreadable as error:
        complain_of(error.problems)
        return CANNOT_RUN
    facts, one = choose(surveyed, wanted)
    if not facts:
        complain(_no_such(surveyed, wanted or ""))
        return CANNOT_RUN
    if form == "json":
        _write_json(surveyed, facts, traced=one)
    else:
        _write_text(surveyed, facts, one, columns(width), units)
    return 0


def _no_such(surveyed: Surveyed, wanted: str) -> str:
    names = {fact.place for fact in surveyed.facts()}
    names |= {f"{fact.place}.{fact.name.partition('.')[2]}" for fact in surveyed.facts()}
    near = get_close_matches(wanted, sorted(names), n=3, cutoff=0.5)
    hint = f"; near it: {', '.join(near)}" if near else ""
    return f"no place and no fact is called {wanted!r}{hint}"


def _write_text(surveyed: Surveyed, facts: list[Fact], one: bool, width: int, units: str) -> None:
    from speccheck.report.trace import facts_text, trace_text

    if one:
        write("\n".join(trace_text(surveyed, fact, width, units) for fact in facts))
    else:
        write(facts_text(facts, width, units))


def _write_json(surveyed: Surveyed, facts: list[Fact], *, traced: bool) -> None:
    from speccheck.report.plain import json_text, plain_fact

    chosen = _with_inputs(surveyed, facts) if traced else facts
    write(json_text({"facts": [plain_fact(fact) for fact in chosen]}))


def _with_inputs(surveyed: Surveyed, facts: list[Fact]) -> list[Fact]:
    index = {fact.key: fact for fact in surveyed.facts()}
    chosen: dict[tuple[str, str], Fact] = {}
    queue = list(facts)
    while queue:
        fact = queue.pop(0)
        if fact.key not in chosen:
            chosen[fact.key] = fact
            queue += [index[key] for key in fact.inputs if key in index]
    return list(chosen.values())
