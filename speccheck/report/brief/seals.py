"""The seals of a brief: how air and water barrier are carried on at each place; places that say the same share a row.

An end is worded from the place: the frame of a window is ``frame`` in that window's row. A junction is worded in the
order in which it joins its assemblies. Rows that differ only in the assembly are gathered too: its name then stands
beside the place, once, and its layers stand without it. So it stands wherever that takes fewer words.
"""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from speccheck.document import Document
from speccheck.document.junction import Connection, Junction, RingConnection

__all__ = ["NOT_SHOWN", "Group", "Row", "Seal", "Spot", "gathered", "seals"]

NOT_SHOWN = "not shown"
_NO_WATER = ("—",)
_OWN_PARTS = frozenset({"frame", "ring"})
_OVER = {"from": "over", "to": "under"}
_TURNED = {"from": "to", "to": "from", None: None}


class Seal(NamedTuple):
    """How the air and the water barrier are carried on at one place; ``who`` is the trade that seals it.

    It is ``open`` where a finding speaks against the place: what is declared there is then no instruction to build by.
    ``kind`` is junction, opening or penetration.
    """

    kind: str
    place: str
    air: tuple[str, ...]
    water: tuple[str, ...]
    who: str
    open: bool = False


class Spot(NamedTuple):
    """A place of a row; ``open`` as in a seal."""

    name: str
    open: bool


class Group(NamedTuple):
    """Places of a row whose layers, where they stand without an assembly, belong to ``within``.

    ``within`` names no assembly (all layers stand with theirs), one, or two: every connection then runs from the first
    to the second. ``who`` is the trade that seals these places.
    """

    spots: tuple[Spot, ...]
    within: tuple[str, ...]
    kind: str
    who: str

    @property
    def beside(self) -> str:
        """What stands beside the places, such as ``in long-wall``."""
        if len(self.within) > 1:
            return f"from {self.within[0]} to {self.within[1]}"
        return f"{'of' if self.kind == 'junction' else 'in'} {self.within[0]}" if self.within else ""


class Row(NamedTuple):
    """Places that are sealed in the same words, be it by several trades."""

    groups: tuple[Group, ...]
    air: tuple[str, ...]
    water: tuple[str, ...]

    @property
    def who(self) -> str:
        """The trade of all its places; empty where none is shown, or where they have several."""
        trades = {group.who for group in self.groups}
        return trades.pop() if len(trades) == 1 else ""

    @property
    def many_trades(self) -> bool:
        """Whether its places are sealed by several trades, so that each is named beside its places."""
        return len({group.who for group in self.groups}) > 1

    @property
    def length(self) -> int:
        """Characters of the row."""
        heads = [
            word
            for group in self.groups
            for word in (*(spot.name for spot in group.spots), group.beside, group.who)
        ]
        return sum(map(len, (*heads, *self.air, *self.water)))

    @property
    def has_water(self) -> bool:
        """Whether a water barrier is asked for here at all: a penetration declares none."""
        return self.water != _NO_WATER


class _Place(NamedTuple):
    kind: str
    name: str
    assemblies: tuple[str, ...]
    air: Sequence[Connection] | None
    water: Sequence[Connection] | None
    who: str
    open: bool

    @property
    def seal(self) -> Seal:
        return Seal(self.kind, self.name, *_told(self, ()), self.who, self.open)


class _Wording(NamedTuple):
    kind: str
    sides: int
    air: tuple[str, ...]
    water: tuple[str, ...]


def seals(document: Document, against: frozenset[tuple[str, str]] = frozenset()) -> tuple[Seal, ...]:
    """Return the seals of junctions, openings and penetrations in the order of the document.

    Args:
        document: what is declared.
        against: kinds and names of the places a finding speaks against.
    """
    return tuple(place.seal for place in _places(document, against))


def gathered(document: Document, against: frozenset[tuple[str, str]] = frozenset()) -> tuple[Row, ...]:
    """Return the same seals with the places that say the same in one row, in the order of each row's first place.

    The largest gathering comes first; where two are as large, the one of fewer words.
    """
    names = frozenset({*document.assemblies, *document.openings, *document.penetrations})
    places = list(_places(document, against))
    ways = [_ways(place, names) for place in places]
    left = set(range(len(places)))
    rows: list[tuple[int, Row]] = []
    while left:
        told: dict[_Wording, list[int]] = {}
        for number in sorted(left):
            for wording in ways[number]:
                told.setdefault(wording, []).append(number)
        most = max(map(len, told.values()))
        made = [
            (_row(wording, [(places[n].seal, ways[n][wording]) for n in numbers]), numbers)
            for wording, numbers in told.items()
            if len(numbers) == most
        ]
        for row, numbers in sorted(made, key=lambda entry: entry[0].length):
            if left.issuperset(numbers):
                rows.append((numbers[0], row))
                left.difference_update(numbers)
    return tuple(row for _, row in sorted(rows, key=lambda entry: entry[0]))


def _row(wording: _Wording, told: Sequence[tuple[Seal, tuple[str, ...]]]) -> Row:
    return Row(tuple(_groups(told)), wording.air, wording.water)


def _groups(told: Sequence[tuple[Seal, tuple[str, ...]]]) -> Iterator[Group]:
    for within, who in dict.fromkeys((within, seal.who) for seal, within in told):
        here = [seal for seal, own in told if (own, seal.who) == (within, who)]
        yield Group(tuple(Spot(seal.place, seal.open) for seal in here), within, here[0].kind, who)


def _places(document: Document, against: frozenset[tuple[str, str]]) -> Iterator[_Place]:
    for name, junction in document.junctions.items():
        open_ = ("junction", name) in against
        joined = _joined(junction)
        air, water = _in_order(junction.air, joined), _in_order(junction.water, joined)
        yield _Place("junction", name, joined, air, water, "", open_)
    for name, opening in document.openings.items():
        open_ = ("opening", name) in against
        yield _Place("opening", name, (opening.within,), opening.air, opening.water, "", open_)
    for name, penetration in document.penetrations.items():
        open_, who = ("penetration", name) in against, penetration.sealed_by or ""
        yield _Place("penetration", name, (penetration.within,), penetration.air, None, who, open_)


def _joined(junction: Junction) -> tuple[str, ...]:
    return tuple(dict.fromkeys(side.partition(".")[0] for side in junction.joins))


def _in_order(
    connections: Sequence[Connection] | None, joined: Sequence[str]
) -> tuple[Connection, ...] | None:
    """Return connections, each from the assembly that is joined first to the one that is joined later."""
    return None if connections is None else tuple(_turned(one, joined) for one in connections)


def _turned(one: Connection, joined: Sequence[str]) -> Connection:
    heads = [_head(one.from_), _head(one.to)]
    if not set(heads) <= set(joined) or joined.index(heads[0]) <= joined.index(heads[1]):
        return one
    return one.model_copy(update={"from_": one.to, "to": one.from_, "over": _TURNED[one.over]})


def _told(place: _Place, within: tuple[str, ...]) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Return the words of the air and of the water barrier, the layers of ``within`` without their assembly."""
    water = _NO_WATER if place.kind == "penetration" else _words(place.water, place.name, within)
    return _words(place.air, place.name, within), water


def _ways(place: _Place, names: frozenset[str]) -> dict[_Wording, tuple[str, ...]]:
    """Return the ways a place can be worded, each with the assemblies to name beside it; the full words come first."""
    connections = [*(place.air or ()), *(place.water or ())]
    choices: list[tuple[str, ...]] = [(), *((name,) for name in place.assemblies)]
    ways = {(_head(one.from_), _head(one.to)) for one in connections}
    if len(ways) == 1 and (pair := next(iter(ways)))[0] != pair[1] and set(pair) <= set(place.assemblies):
        choices.append(pair)
    ends = [end for one in connections for end in (one.from_, one.to)]
    found: dict[_Wording, tuple[str, ...]] = {}
    for within in choices:
        if all(_bare(end, names) for end in ends if _head(end) in within) and set(within) <= set(
            map(_head, ends)
        ):
            found[_Wording(place.kind, len(within), *_told(place, within))] = within
    return found


def _head(end: str) -> str:
    return end.partition(".")[0]


def _bare(end: str, names: frozenset[str]) -> bool:
    """Return whether an end can stand without its assembly: what is left must not read as another name."""
    left = end.partition(".")[2]
    return bool(left) and _head(left) not in names | _OWN_PARTS


def _words(connections: Sequence[Connection] | None, own: str, within: tuple[str, ...]) -> tuple[str, ...]:
    if not connections:
        return (NOT_SHOWN,) if connections is None else ("none",)
    return tuple(_connection(connection, (own, *within)) for connection in connections)


def _connection(connection: Connection, silent: tuple[str, ...]) -> str:
    """Return a connection in words; its ends stand without the names that need not be said."""
    from_, to = (
        end.partition(".")[2] if _head(end) in silent and "." in end else end
        for end in (connection.from_, connection.to)
    )
    by = (connection.by,) if isinstance(connection.by, str) else connection.by
    joined = _OVER.get(connection.over or "", "to")
    parts = connection.at if isinstance(connection, RingConnection) and connection.at else ()
    where = f" at {' and '.join(parts)}" if parts else ""
    return f"{from_} {joined} {to}{where}: {' with '.join(name.replace('-', ' ') for name in by)}"
