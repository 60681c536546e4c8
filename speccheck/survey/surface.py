"""The closed surface as a choice: one control layer for each thing, so that the fewest connections are wanting.

Two tight layers of one wall may each carry the line at some of its sides; a surface is closed only where the *same*
layer is joined at every side. So the walk chooses one layer for each thing. At a place where things meet, the layers
chosen should all lie in one group of layers joined there; each group more is one connection that is wanting.
"""

from collections import deque
from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import product
from typing import NamedTuple

__all__ = ["Choice", "Meeting", "cheapest", "cost_of", "fully_joined"]

_MOST_WORK = 30_000
_MOST_STEPS = 200_000
_LEAST_TRIES = 50
_MOST_SWEEPS = 50

Domains = Mapping[str, tuple[str, ...]]


class Meeting(NamedTuple):
    """A place where things meet: the things, and for each node joined there the group it is in."""

    things: tuple[str, ...]
    groups: Mapping[str, str]

    def wanting(self, nodes: Sequence[str]) -> int:
        """Return how many connections are wanting here when these nodes, one of each thing, are to be joined."""
        groups = self.groups
        if len(nodes) == 1:
            return 0 if nodes[0] in groups else 1
        return len({groups.get(node, node) for node in nodes}) - 1


class Choice(NamedTuple):
    """A layer for each thing, the connections wanting, and whether no choice wants fewer for sure."""

    nodes: dict[str, str]
    wanting: int
    exact: bool


def cost_of(nodes: Mapping[str, str], meetings: Sequence[Meeting]) -> int:
    """Return how many connections are wanting for a choice of nodes."""
    return sum(place.wanting([nodes[thing] for thing in place.things]) for place in meetings)


def cheapest(domains: Domains, meetings: Sequence[Meeting]) -> Choice:
    """Return the choice of one node for each thing that wants the fewest connections.

    Args:
        domains: for each thing the nodes to choose from, at least one.
        meetings: the places where things meet.

    Returns:
        The choice; exact where it is certain that no other wants fewer. The order in which things, nodes and
        meetings are given does not matter.

    Notes:
        Things with one node are settled; a node that another does as well as everywhere is left out; what
        remains is solved by eliminating one thing after the other (Bertelè and Brioschi, nonserial dynamic
        programming, 1972, memory). Where that grows too wide, a choice that wants nothing is searched for,
        and failing that a choice is improved step by step, which need not end at the fewest.
    """
    here = _by_thing(domains, meetings)
    kept = {thing: _undominated(sorted(nodes), here[thing]) for thing, nodes in sorted(domains.items())}
    found = _eliminate(kept, meetings)
    if found is not None:
        return Choice(found, cost_of(found, meetings), True)
    joined, decided = fully_joined(kept, meetings)
    if joined is not None:
        return Choice(joined, 0, True)
    improved = _improve(kept, here)
    wanting = cost_of(improved, meetings)
    return Choice(improved, wanting, decided and wanting == 1)


def fully_joined(domains: Domains, meetings: Sequence[Meeting]) -> tuple[dict[str, str] | None, bool]:
    """Return a choice that wants no connection, or None; and whether the answer is certain.

    Args:
        domains: for each thing the nodes to choose from.
        meetings: the places where things meet.
    """
    if not all(domains.values()):
        return None, True
    here = _by_thing(domains, meetings)
    left = {thing: set(nodes) for thing, nodes in domains.items()}
    if not _narrow(left, here, list(domains)):
        return None, True
    tries = [max(_LEAST_TRIES, _MOST_STEPS // (len(domains) + len(meetings)))]
    answer = _search(left, here, tries)
    if answer is None:
        return None, tries[0] > 0
    return {thing: min(nodes) for thing, nodes in answer.items()}, True


def _by_thing(domains: Domains, meetings: Sequence[Meeting]) -> dict[str, list[Meeting]]:
    here: dict[str, list[Meeting]] = {thing: [] for thing in domains}
    for place in meetings:
        for thing in place.things:
            here[thing].append(place)
    return here


def _undominated(nodes: Sequence[str], meetings: Sequence[Meeting]) -> tuple[str, ...]:
    """Leave out a node where an earlier or a later one is joined to the same at every place, or to more."""
    kept: list[str] = []
    for node in nodes:
        if any(_does_as_well(other, node, meetings) for other in kept):
            continue
        kept = [other for other in kept if not _does_as_well(node, other, meetings)]
        kept.append(node)
    return tuple(kept)


def _does_as_well(one: str, other: str, meetings: Sequence[Meeting]) -> bool:
    """Is ``one`` at every place in the group that ``other`` is in, or ``other`` in none?"""
    for place in meetings:
        group = place.groups.get(other)
        if group is None:
            continue
        if place.groups.get(one) != group and not (len(place.things) == 1 and one in place.groups):
            return False
    return True


# ---- eliminating one thing after the other

_Table = tuple[tuple[str, ...], dict[tuple[str, ...], int]]
_Step = tuple[str, tuple[str, ...]]


def _eliminate(kept: Domains, meetings: Sequence[Meeting]) -> dict[str, str] | None:
    """Return the cheapest choice, or None where the tables would grow too wide."""
    order = _order(kept, meetings)
    if order is None:
        return None
    tables = _tables(kept, meetings)
    done: list[tuple[_Step, dict[tuple[str, ...], str]]] = []
    for thing, others in order:
        mine = [table for table in tables if thing in table[0]]
        tables = [table for table in tables if thing not in table[0]]
        costs, best = _without(thing, others, mine, kept)
        if others:
            tables.append((others, costs))
        done.append(((thing, others), best))
    nodes = {thing: options[0] for thing, options in kept.items() if len(options) == 1}
    for (thing, others), best in reversed(done):
        nodes[thing] = best[tuple(nodes[other] for other in others)]
    return nodes


def _order(kept: Domains, meetings: Sequence[Meeting]) -> list[_Step] | None:
    """Return the things in the order of elimination, each with those it is then tied to; None where it is too much."""
    near: dict[str, set[str]] = {thing: set() for thing, options in kept.items() if len(options) > 1}
    work = 0
    for place in meetings:
        open_ = [thing for thing in place.things if thing in near]
        work += _width(open_, kept)
        for thing in open_:
            near[thing].update(open_)
            near[thing].discard(thing)
    order: list[_Step] = []
    while near and work <= _MOST_WORK:
        thing = min(near, key=lambda name: (len(near[name]), name))
        others = near.pop(thing)
        work += _width(others, kept) * len(kept[thing])
        order.append((thing, tuple(sorted(others))))
        for other in others:
            near[other] = (near[other] | others) - {thing, other}
    return order if work <= _MOST_WORK else None


def _width(things: Iterable[str], kept: Domains) -> int:
    width = 1
    for thing in things:
        width *= len(kept[thing])
    return width


def _tables(kept: Domains, meetings: Sequence[Meeting]) -> list[_Table]:
    """Return for each set of open things that meet somewhere what each choice of them wants there."""
    costs: dict[tuple[str, ...], dict[tuple[str, ...], int]] = {}
    for place in meetings:
        open_ = tuple(sorted({thing for thing in place.things if len(kept[thing]) > 1}))
        if not open_:
            continue
        table = costs.setdefault(open_, {})
        for choice in product(*[kept[thing] for thing in open_]):
            chosen = dict(zip(open_, choice, strict=True))
            nodes = [chosen.get(thing) or kept[thing][0] for thing in place.things]
            table[choice] = table.get(choice, 0) + place.wanting(nodes)
    return sorted(costs.items())


def _without(
    thing: str, others: tuple[str, ...], mine: Sequence[_Table], kept: Domains
) -> tuple[dict[tuple[str, ...], int], dict[tuple[str, ...], str]]:
    """Return, for each choice of the others, what the best node of this thing wants, and which it is."""
    costs: dict[tuple[str, ...], int] = {}
    best: dict[tuple[str, ...], str] = {}
    for choice in product(*[kept[other] for other in others]):
        chosen = dict(zip(others, choice, strict=True))
        for node in kept[thing]:
            chosen[thing] = node
            cost = sum(table[tuple(chosen[name] for name in things)] for things, table in mine)
            if choice not in costs or cost < costs[choice]:
                costs[choice], best[choice] = cost, node
    return costs, best


# ---- a choice that wants nothing

_Left = dict[str, set[str]]


def _narrow(left: _Left, here: Mapping[str, Sequence[Meeting]], changed: Sequence[str]) -> bool:
    """Take out nodes that are joined to no node left of some other thing at a place; False where none is left."""
    queue = deque(changed)
    waiting = set(changed)
    while queue:
        thing = queue.popleft()
        waiting.discard(thing)
        for place in here[thing]:
            common = set.intersection(*[_groups(left[one], place) for one in place.things])
            for one in place.things:
                stays = {node for node in left[one] if place.groups.get(node) in common}
                if not stays:
                    return False
                if len(stays) < len(left[one]):
                    left[one] = stays
                    if one not in waiting:
                        waiting.add(one)
                        queue.append(one)
    return True


def _groups(nodes: set[str], place: Meeting) -> set[str]:
    return {place.groups[node] for node in nodes if node in place.groups}


def _search(left: _Left, here: Mapping[str, Sequence[Meeting]], tries: list[int]) -> _Left | None:
    """Choose a node for one thing after the other, narrowing after each; go back where nothing is left."""
    stack: list[tuple[_Left, Iterator[tuple[str, str]]]] = [(left, _guesses(left))]
    while stack:
        now, guesses = stack[-1]
        if all(len(nodes) == 1 for nodes in now.values()):
            return now
        guess = next(guesses, None)
        if guess is None:
            stack.pop()
            continue
        tries[0] -= 1
        if tries[0] <= 0:
            return None
        thing, node = guess
        then = {name: set(nodes) for name, nodes in now.items()}
        then[thing] = {node}
        if _narrow(then, here, [thing]):
            stack.append((then, _guesses(then)))
    return None


def _guesses(left: _Left) -> Iterator[tuple[str, str]]:
    open_ = sorted((len(nodes), thing) for thing, nodes in left.items() if len(nodes) > 1)
    return ((open_[0][1], node) for node in sorted(left[open_[0][1]])) if open_ else iter(())


# ---- step by step


def _improve(kept: Domains, here: Mapping[str, Sequence[Meeting]]) -> dict[str, str]:
    """Return a choice that no change of a single node betters."""
    nodes = {thing: options[0] for thing, options in kept.items()}
    for _ in range(_MOST_SWEEPS):
        before = dict(nodes)
        for thing, options in kept.items():
            if len(options) > 1:
                nodes[thing] = min(options, key=lambda node: (_local(thing, node, nodes, here), node))
        if nodes == before:
            break
    return nodes


def _local(thing: str, node: str, nodes: dict[str, str], here: Mapping[str, Sequence[Meeting]]) -> int:
    """Return what is wanting at the places of one thing when it takes this node."""
    return sum(
        place.wanting([node if one == thing else nodes[one] for one in place.things]) for place in here[thing]
    )
