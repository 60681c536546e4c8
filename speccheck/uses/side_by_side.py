"""Two documents, or two reports of any number of them, held side by side."""

from collections import Counter
from collections.abc import Mapping, Sequence
from datetime import date
from pathlib import Path
from typing import Any, NamedTuple

from speccheck.judgement.finding import SEVERITIES
from speccheck.judgement.pack import Pack
from speccheck.uses.check import check_file
from speccheck.uses.compare import SLACK, Move, Record, moves_between, record_of
from speccheck.uses.pairing import Contents, contents_of, pair_documents
from speccheck.uses.report_file import Kept, is_report, read_report

__all__ = ["HEADLINE", "Comparison", "Differing", "Pair", "Side", "compare_files"]

HEADLINE = (
    "climate.zone",
    "project.indoor_rh",
    "project.airtightness_target",
    "project.air_line_closed",
    "project.air_gap_count",
    "assembly.effective_r",
    "assembly.u_factor",
    "assembly.cavity_r",
    "assembly.continuous_r",
    "assembly.framing_fraction",
    "assembly.outboard_share",
    "assembly.plane_temperature",
    "assembly.critical_indoor_rh",
    "assembly.interior_class",
    "assembly.interior_permeance_dry",
    "assembly.exterior_permeance_wet",
    "assembly.sd_ratio",
    "assembly.surface_rh",
    "assembly.cavity_ventilation",
    "assembly.air_barrier",
    "junction.air_connected",
    "opening.air_connected",
    "penetration.air_connected",
    "opening.u_factor",
)
"""The facts that are compared, in this order."""
_MORE_IS_BETTER = {
    "project.airtightness_target": False,
    "project.air_line_closed": True,
    "project.air_gap_count": False,
    "assembly.effective_r": True,
    "assembly.critical_indoor_rh": True,
    "junction.air_connected": True,
    "opening.air_connected": True,
    "penetration.air_connected": True,
    "opening.u_factor": False,
}
"""Those of which more is better, or worse, wherever they stand; of the others it hangs on the rest of the assembly."""
_Facts = Mapping[tuple[str, str], tuple[str, Any]]


class Side(NamedTuple):
    """One document as it came out; facts are None where a report was written without them."""

    name: str
    verdict: str
    records: tuple[Record, ...]
    facts: _Facts | None
    contents: Contents | None = None

    @property
    def counts(self) -> dict[str, int]:
        """How many findings of each severity."""
        counted = Counter(record.severity for record in self.records)
        return {severity: counted.get(severity, 0) for severity in SEVERITIES}


class Differing(NamedTuple):
    """A fact that differs; a value is None where it is not known."""

    place: str
    name: str
    kind: str
    before: Any
    after: Any

    @property
    def fell(self) -> bool:
        """Is it a fact of quality that is known on both sides and now worse, by more than data sheets differ?"""
        more = _MORE_IS_BETTER.get(self.name)
        if more is None or not all(isinstance(value, int | float) for value in (self.before, self.after)):
            return False
        was, now = float(self.before), float(self.after)
        worse = was - now if more else now - was
        return worse > SLACK * max(abs(was), abs(now))


class Pair(NamedTuple):
    """A document before and after."""

    before: Side
    after: Side
    moves: tuple[Move, ...]
    facts: tuple[Differing, ...] | None

    def of(self, *trends: str) -> tuple[Move, ...]:
        """Return the moves of some trends where there is or was something to act on."""
        return tuple(move for move in self.moves if move.speaks and move.trend in trends)


class Comparison(NamedTuple):
    """Two sides with their documents paired, and those that have no partner."""

    names: tuple[str, str]
    pairs: tuple[Pair, ...]
    only_before: tuple[Side, ...] = ()
    only_after: tuple[Side, ...] = ()

    @property
    def counting(self) -> set[str]:
        """Severities of findings that are new, worse or no longer answered."""
        return {
            move.after.severity
            for pair in self.pairs
            for move in pair.moves
            if move.counts and move.after is not None
        }

    @property
    def fell(self) -> tuple[tuple[str, Differing], ...]:
        """Facts of quality that are worse on the second side, each with its document; none where none are known."""
        return tuple((pair.after.name, fact) for pair in self.pairs for fact in pair.facts or () if fact.fell)

    @property
    def verdict(self) -> str:
        """How the findings of the second side compare: ``worse``, ``ask``, ``better`` or ``as before``."""
        if not self.pairs:
            return "no document is on both sides"
        if self.counting:
            return "ask" if self.counting == {"ask"} else "worse"
        eased = any(pair.of("better", "gone") for pair in self.pairs)
        return "better" if eased else "as before"


def compare_files(
    before: Path, after: Path, extra: Sequence[Pack] = (), today: date | None = None, system: str = "both"
) -> Comparison:
    """Return two files side by side; each is a document, or a report in JSON.

    Args:
        before: the older file.
        after: the newer file.
        extra: packs in force besides practice and the editions adopted, for documents.
        today: the day waivers are held against, for documents.
        system: units the sentences show.

    Raises:
        Unreadable: when one of them cannot be read, with the place of every problem.
    """
    olds, news = (_sides(path, extra, today, system) for path in (before, after))
    contents = {name: side.contents for name, side in news.items()}
    partners = pair_documents({name: side.contents for name, side in olds.items()}, news, contents.get)
    pairs = tuple(_pair(olds[partners[name]], side) for name, side in news.items() if name in partners)
    return Comparison(
        (str(before), str(after)),
        pairs,
        tuple(side for name, side in olds.items() if name not in partners.values()),
        tuple(side for name, side in news.items() if name not in partners),
    )


def _sides(path: Path, extra: Sequence[Pack], today: date | None, system: str) -> dict[str, Side]:
    if is_report(path):
        return {kept.file: _kept_side(kept) for kept in read_report(path)}
    checked = check_file(path, extra, today, system)
    records = tuple(map(record_of, checked.findings))
    verdict = min((r.severity for r in records), key=SEVERITIES.index, default="pass")
    facts = {
        (fact.place, fact.name): (_kind(fact.name), fact.value)
        for fact in checked.surveyed.facts()
        if fact.name in HEADLINE
    }
    name = checked.loaded.name
    return {name: Side(name, verdict, records, facts, contents_of(checked.loaded.source.data))}


def _kept_side(kept: Kept) -> Side:
    return Side(kept.file, kept.verdict, kept.records, kept.facts, kept.contents)


def _kind(name: str) -> str:
    from speccheck.survey.vocabulary import VOCABULARY

    return VOCABULARY[name].kind


def _pair(before: Side, after: Side) -> Pair:
    moves = moves_between(before.records, after.records)
    facts = None if before.facts is None or after.facts is None else _differing(before.facts, after.facts)
    return Pair(before, after, moves, facts)


def _differing(old: _Facts, new: _Facts) -> tuple[Differing, ...]:
    nothing = ("", None)
    found = [
        Differing(place, name, (new.get((place, name)) or old[(place, name)])[0], was, now)
        for place, name in dict.fromkeys((*old, *new))
        if name in HEADLINE
        and _differ(was := old.get((place, name), nothing)[1], now := new.get((place, name), nothing)[1])
    ]
    return tuple(sorted(found, key=lambda fact: (HEADLINE.index(fact.name), fact.place)))


def _differ(was: Any, now: Any) -> bool:
    """Do two values differ by more than the digits a report keeps?"""
    if isinstance(was, int | float) and isinstance(now, int | float):
        return abs(was - now) > 1e-9 * max(abs(was), abs(now))
    return bool(_plain(was) != _plain(now))


def _plain(value: Any) -> Any:
    return list(value) if isinstance(value, tuple) else value
