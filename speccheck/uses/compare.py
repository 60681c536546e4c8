"""Comparing: the same rule at the same place in two runs, and which way it moved."""

from collections.abc import Iterable, Mapping
from typing import NamedTuple

from speccheck.judgement.finding import SEVERITIES, Finding

__all__ = ["SLACK", "TRENDS", "Move", "Record", "moves_between", "pair_names", "record_of", "tidy"]

SLACK = 0.02
"""Margins that move by less than this share of the limit count as unchanged: data sheets are not that exact."""
TRENDS = ("new", "worse", "unsure", "same", "better", "gone")
"""``unsure``: it waits for an answer now and did not before."""
_RANK = {severity: rank for rank, severity in enumerate(SEVERITIES)}
_AT_REST = ("held-back", "waived", "pass")


class Record(NamedTuple):
    """What a finding leaves behind to be compared with; numbers are None where nothing was measured."""

    rule: str
    place: str
    severity: str
    title: str
    reason: str
    fact: str = ""
    kind: str = ""
    observed: float | None = None
    limit: float | None = None
    margin: float | None = None

    @property
    def key(self) -> tuple[str, str]:
        """Rule and place: what identifies a finding from run to run, never its line."""
        return (self.rule, self.place)

    @property
    def at_rest(self) -> bool:
        """Is there nothing to act on?"""
        return self.severity in _AT_REST


def record_of(finding: Finding) -> Record:
    """Return the record of a finding."""
    measured = finding.measured
    numbers = (
        ()
        if measured is None
        else (measured.fact, measured.kind, measured.observed, measured.limit, measured.margin)
    )
    return Record(finding.rule, finding.place, finding.severity, finding.title, finding.reason, *numbers)


class Move(NamedTuple):
    """A rule at a place, before and after; None where it had nothing to say. One of the two is there."""

    before: Record | None
    after: Record | None

    @property
    def record(self) -> Record:
        """The record that still speaks, or the one that spoke."""
        found = self.after or self.before
        assert found is not None
        return found

    @property
    def trend(self) -> str:
        """One of TRENDS."""
        old, new = self.before, self.after
        if old is None:
            return "new"
        if new is None:
            return "gone"
        if new.severity == "ask" != old.severity:
            return "unsure"
        if new.severity != old.severity:
            return "worse" if _RANK[new.severity] < _RANK[old.severity] else "better"
        return _by_margin(old, new)

    @property
    def counts(self) -> bool:
        """Is it something to act on that is new, worse, or no longer answered?"""
        return self.after is not None and not self.after.at_rest and self.trend in ("new", "worse", "unsure")

    @property
    def speaks(self) -> bool:
        """Is or was there something to act on?"""
        return any(record is not None and not record.at_rest for record in self)


def _by_margin(old: Record, new: Record) -> str:
    """Return which way a margin moved, where both sides measured the same fact."""
    if old.margin is None or new.margin is None or old.fact != new.fact:
        return "same"
    scale = max(abs(old.limit or 0.0), abs(new.limit or 0.0)) or 1.0
    moved = (new.margin - old.margin) / scale
    return "same" if abs(moved) <= SLACK else "better" if moved > 0 else "worse"


def moves_between(before: Iterable[Record], after: Iterable[Record]) -> tuple[Move, ...]:
    """Return every rule and place of two runs with what it said in each, the worst first.

    Args:
        before: records of the older run.
        after: records of the newer run.

    Example:
        >>> old = Record("thermal.enough", "wall", "caution", "Enough", "", "r", "", 3.0, 4.0, -1.0)
        >>> [move.trend for move in moves_between([old], [old._replace(observed=2.9, margin=-1.1)])]
        ['worse']
        >>> [move.trend for move in moves_between([old], [])]
        ['gone']
    """
    old = {record.key: record for record in before}
    new = {record.key: record for record in after}
    moves = [Move(old.get(key), new.get(key)) for key in dict.fromkeys((*old, *new))]
    return tuple(sorted(moves, key=_order))


def _order(move: Move) -> tuple[int, int, str, str]:
    worst = min(_RANK[record.severity] for record in move if record is not None)
    return (TRENDS.index(move.trend), worst, *move.record.key)


def pair_names(old: Iterable[str], new: Iterable[str]) -> Mapping[str, str]:
    """Return for each newer document the older one it goes with: by path, by file name, or the only two there are.

    A file name pairs documents only where it stands once on either side, so that no document is held against
    another by mistake.

    Example:
        >>> pair_names(["a/wall.yaml", "b/roof.yaml"], ["wall.yaml", "b/roof.yaml"])
        {'wall.yaml': 'a/wall.yaml', 'b/roof.yaml': 'b/roof.yaml'}
        >>> pair_names(["before.yaml"], ["after.yaml"])
        {'after.yaml': 'before.yaml'}
    """
    olds, news = list(dict.fromkeys(old)), list(dict.fromkeys(new))
    paths = {tidy(name): name for name in olds}
    found = {name: paths.get(tidy(name)) for name in news}
    free = [name for name in olds if name not in found.values()]
    waiting = [name for name in news if found[name] is None]
    by_last, waiting_by_last = _once(free), _once(waiting)
    for last, name in waiting_by_last.items():
        found[name] = by_last.get(last)
    if len(olds) == len(news) == 1 and found[news[0]] is None:
        found[news[0]] = olds[0]
    return {name: other for name, other in found.items() if other is not None}


def tidy(name: str) -> str:
    """Return a path spelled one way, whatever separators and dots it was written with."""
    import posixpath

    return posixpath.normpath(name.replace("\\", "/"))


def _once(names: Iterable[str]) -> dict[str, str]:
    """Return the names by their last part, where that part stands once."""
    by_last: dict[str, list[str]] = {}
    for name in names:
        by_last.setdefault(tidy(name).rpartition("/")[2], []).append(name)
    return {last: found[0] for last, found in by_last.items() if len(found) == 1}
