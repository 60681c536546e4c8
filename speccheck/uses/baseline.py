"""The baseline: an older report that findings are held against, so that only what is new or worse counts."""

from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import NamedTuple

from speccheck.judgement.finding import Finding
from speccheck.uses.compare import TRENDS, Move, Record, moves_between, record_of
from speccheck.uses.pairing import Contents, contents_of_file, pair_documents

__all__ = ["Against", "Baseline", "read_baseline"]


class Against(NamedTuple):
    """One document held against the baseline; it had no part in it where ``older`` is empty."""

    baseline: str
    older: str
    moves: tuple[Move, ...]

    @property
    def counting(self) -> frozenset[tuple[str, str]]:
        """Rule and place of each finding that counts."""
        return frozenset(move.record.key for move in self.moves if move.counts)

    @property
    def trends(self) -> dict[str, int]:
        """How many findings, other than those at rest before and after, moved which way."""
        spoken = [move.trend for move in self.moves if move.speaks]
        return {trend: spoken.count(trend) for trend in TRENDS}

    def of(self, *trends: str) -> tuple[Move, ...]:
        """Return the moves of some trends where there is or was something to act on."""
        return tuple(move for move in self.moves if move.speaks and move.trend in trends)


class Baseline(NamedTuple):
    """What an older report keeps of each document."""

    name: str
    records: Mapping[str, tuple[Record, ...]]
    contents: Mapping[str, Contents | None] = {}

    def paired(self, names: Iterable[str]) -> dict[str, str]:
        """Return for each document to be checked the older one it is held against, where there is one."""
        olds = {name: self.contents.get(name) for name in self.records}
        return pair_documents(olds, names, contents_of_file)

    def against(self, older: str | None, findings: Iterable[Finding]) -> Against:
        """Return the findings of one document held against an older document of the baseline; None for a new one."""
        records = self.records[older] if older is not None else ()
        return Against(self.name, older or "", moves_between(records, map(record_of, findings)))


def read_baseline(path: Path) -> Baseline:
    """Return the baseline in a report; raises Unreadable with the place of what is wrong."""
    from speccheck.uses.report_file import read_report  # few runs bring an older report

    report = read_report(path)
    records = {kept.file: kept.records for kept in report}
    return Baseline(str(path), records, {kept.file: kept.contents for kept in report})
