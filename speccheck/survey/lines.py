"""Lines of a control layer: what is joined to what, which lines are closed, and what would close the best.

A node is ``assembly.layer``, or the frame of an opening or the ring of a penetration. A link joins two nodes at a
place. A *line* is a connected component. A line is closed when a surface lies in it: one layer of each thing, the
same at all its sides, joined at every place where things meet.
"""

from collections.abc import Iterable, Mapping, Sequence
from typing import NamedTuple

from speccheck.survey.surface import Choice, Meeting, cheapest, fully_joined

__all__ = ["Missing", "Place", "Walk", "groups_of", "parts_of", "walk"]

Link = tuple[str, str]


class Place(NamedTuple):
    """Where things meet: a junction, the ring of an opening or of a penetration, and the links there.

    ``things`` are the names of what meets, each once; ``links`` the pairs of nodes joined by a means that carries.
    """

    name: str
    things: tuple[str, ...]
    links: tuple[Link, ...] = ()


class Missing(NamedTuple):
    """A connection that is wanting: where, and the two nodes; one node twice where it meets what is not declared."""

    place: str
    one: str
    other: str


class Walk(NamedTuple):
    """What a walk along the lines finds.

    ``lines`` are the connected components that hold a control layer, ``closed`` those among them that are closed.
    ``surface`` is the best choice of a layer for each thing, ``missing`` the shortest list of connections that
    closes it (empty where a line is closed), ``exact`` whether no shorter list is possible for sure. ``parts`` are
    the groups of things that meet one another, of which a single building has one.
    """

    lines: tuple[tuple[str, ...], ...]
    closed: tuple[tuple[str, ...], ...]
    surface: Mapping[str, str]
    missing: tuple[Missing, ...]
    exact: bool
    parts: tuple[tuple[str, ...], ...]


def walk(layers: Mapping[str, tuple[str, ...]], places: Sequence[Place]) -> Walk:
    """Return lines, closed lines, and the shortest list of connections that closes the best.

    Args:
        layers: for each thing the nodes that can carry its line, at least one.
        places: where things meet; a link to a node that is in no thing's list carries on to what it is joined to.

    Example:
        Two walls that meet at both ends; at one of them the connection is wanting:

        >>> layers = {"a": ("a.x",), "b": ("b.x",)}
        >>> found = walk(layers, [Place("left", ("a", "b"), (("a.x", "b.x"),)), Place("right", ("a", "b"))])
        >>> found.closed, found.missing
        ((), (Missing(place='right', one='a.x', other='b.x'),))
    """
    meetings = [Meeting(place.things, groups_of(place.links)) for place in places]
    nodes = {node for options in layers.values() for node in options}
    joined = _joined([link for place in places for link in place.links], nodes)
    lines = tuple(sorted(line for line in joined if nodes.intersection(line)))
    closed = tuple(line for line in lines if _is_closed(line, layers, meetings))
    best = _settled(closed, layers, meetings) or cheapest(layers, meetings)
    missing = () if best.wanting == 0 else _missing(best.nodes, places, meetings)
    return Walk(lines, closed, best.nodes, missing, best.exact, parts_of(layers, places))


def groups_of(links: Iterable[Link]) -> dict[str, str]:
    """Return for each node among some links the node that stands for its group.

    Args:
        links: pairs of nodes that are joined.

    Example:
        >>> sorted(groups_of([("a", "b"), ("c", "d"), ("b", "e")]).items())
        [('a', 'a'), ('b', 'a'), ('c', 'c'), ('d', 'c'), ('e', 'a')]
    """
    parent: dict[str, str] = {}
    for one, other in links:
        first, second = _root(parent, one), _root(parent, other)
        # the lesser name stands for both, so that the order of the links does not matter
        low, high = min(first, second), max(first, second)
        parent[high] = low
    return {node: _root(parent, node) for node in parent}


def _root(parent: dict[str, str], node: str) -> str:
    parent.setdefault(node, node)
    root = node
    while parent[root] != root:
        root = parent[root]
    while parent[node] != root:
        parent[node], node = root, parent[node]
    return root


def _joined(links: Iterable[Link], alone: Iterable[str]) -> list[tuple[str, ...]]:
    """Return the connected components of some links and nodes, each sorted."""
    found: dict[str, list[str]] = {}
    for node, root in groups_of([*links, *((node, node) for node in alone)]).items():
        found.setdefault(root, []).append(node)
    return [tuple(sorted(nodes)) for nodes in found.values()]


def _is_closed(
    line: tuple[str, ...], layers: Mapping[str, tuple[str, ...]], meetings: Sequence[Meeting]
) -> bool:
    if not layers or len(line) < len(layers):  # it cannot reach every thing
        return False
    return fully_joined(_within(line, layers), meetings)[0] is not None


def _within(line: tuple[str, ...], layers: Mapping[str, tuple[str, ...]]) -> dict[str, tuple[str, ...]]:
    held = set(line)
    return {thing: tuple(node for node in nodes if node in held) for thing, nodes in layers.items()}


def _settled(
    closed: Sequence[tuple[str, ...]], layers: Mapping[str, tuple[str, ...]], meetings: Sequence[Meeting]
) -> Choice | None:
    """Return the surface of the first closed line, which wants nothing."""
    for line in closed:
        surface, _ = fully_joined(_within(line, layers), meetings)
        if surface is not None:
            return Choice(surface, 0, True)
    return None


def _missing(
    surface: Mapping[str, str], places: Sequence[Place], meetings: Sequence[Meeting]
) -> tuple[Missing, ...]:
    """Return at each place the connections that join the chosen nodes to the largest group of them."""
    found: list[Missing] = []
    for place, meeting in zip(places, meetings, strict=True):
        nodes = sorted(surface[thing] for thing in place.things)
        if meeting.wanting(nodes) == 0:
            continue
        if len(nodes) == 1:
            found.append(Missing(place.name, nodes[0], nodes[0]))
            continue
        groups: dict[str, list[str]] = {}
        for node in nodes:
            groups.setdefault(meeting.groups.get(node, node), []).append(node)
        largest = min(groups, key=lambda group: (-len(groups[group]), group))
        hub = groups[largest][0]
        for group, members in sorted(groups.items()):
            if group != largest:
                one, other = sorted((members[0], hub))
                found.append(Missing(place.name, one, other))
    return tuple(sorted(found))


def parts_of(things: Iterable[str], places: Sequence[Place]) -> tuple[tuple[str, ...], ...]:
    """Return the groups of things that meet one another, directly or by way of others.

    Args:
        things: all things.
        places: where they meet.
    """
    links = [(place.things[0], thing) for place in places for thing in place.things]
    return tuple(sorted(_joined(links, things)))
