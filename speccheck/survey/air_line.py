"""The air barrier as a graph: air-control layers are nodes, stated connections are edges.

A node is ``assembly.layer``, or the frame of an opening or the ring of a penetration. A *line* is a connected
component. It is closed when it reaches every assembly, junction, opening and penetration declared. Two lines may run
side by side in one building; each is walked on its own, so that what one reaches does not mend a hole in the other.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field

from speccheck.document import Document
from speccheck.document.junction import Connection, Junction, Opening, Penetration
from speccheck.survey.fact import Fact, Gap, Origin
from speccheck.survey.ledger import Ledger, Page

__all__ = ["AirLine", "survey_air_line"]


@dataclass(slots=True)
class AirLine:
    """Nodes joined into lines."""

    _parent: dict[str, str] = field(default_factory=dict)

    def add(self, node: str) -> None:
        """Add a node on its own."""
        self._parent.setdefault(node, node)

    def join(self, one: str, other: str) -> None:
        """Join two nodes."""
        self.add(one)
        self.add(other)
        self._parent[self.line(one)] = self.line(other)

    def line(self, node: str) -> str:
        """Return the node that stands for the whole line."""
        root = node
        while self._parent[root] != root:
            root = self._parent[root]
        while self._parent[node] != root:
            self._parent[node], node = root, self._parent[node]
        return root

    def lines(self) -> dict[str, list[str]]:
        """Return the nodes of each line."""
        found: dict[str, list[str]] = {}
        for node in self._parent:
            found.setdefault(self.line(node), []).append(node)
        return found


def _means(connections: Iterable[Connection]) -> tuple[str, ...]:
    found: dict[str, None] = {}
    for connection in connections:
        found.update(dict.fromkeys((connection.by,) if isinstance(connection.by, str) else connection.by))
    return tuple(found)


def _sole_means(connections: Iterable[Connection]) -> tuple[str, ...]:
    """Return the means on which a connection rests alone."""
    alone = [_means([connection]) for connection in connections]
    return tuple(dict.fromkeys(means[0] for means in alone if len(means) == 1))


def _assembly(place: str) -> str:
    return place.partition(".")[0]


def survey_air_line(ledger: Ledger, document: Document, air_layers: Mapping[str, tuple[str, ...]]) -> None:
    """Enter the air-barrier facts of junctions, openings, penetrations, assemblies and the project.

    Args:
        ledger: where the facts go.
        document: what is declared.
        air_layers: for each assembly, the names of the layers that control air.
    """
    graph = _graph(document, air_layers)
    tears: list[str] = []
    unshown: list[Gap] = []
    for page, gap in _parts(ledger, document, air_layers):
        if page[_SHOWN].value is not True:
            unshown.append(gap)
        elif page[_CONNECTED].value is not True:
            tears.append(page.place)
    _enter_assemblies(ledger, document, air_layers, unshown)
    _enter_project(ledger.page("project", "project"), document, air_layers, graph, tears, unshown)


_SHOWN, _CONNECTED = "air_shown", "air_connected"


def _graph(document: Document, air_layers: Mapping[str, tuple[str, ...]]) -> AirLine:
    graph = AirLine()
    for assembly, layers in air_layers.items():
        for layer in layers:
            graph.add(f"{assembly}.{layer}")
    things: list[Junction | Opening | Penetration] = [
        *document.junctions.values(),
        *document.openings.values(),
        *document.penetrations.values(),
    ]
    for thing in things:
        for connection in thing.air or ():
            graph.join(connection.from_, connection.to)
    return graph


def _parts(
    ledger: Ledger, document: Document, air_layers: Mapping[str, tuple[str, ...]]
) -> Iterator[tuple[Page, Gap]]:
    for name, junction in document.junctions.items():
        yield _enter_junction(ledger.page("junction", name), name, junction, air_layers)
    for name, opening in document.openings.items():
        yield _enter_opening(ledger.page("opening", name), name, opening, air_layers)
    for name, penetration in document.penetrations.items():
        yield _enter_penetration(ledger.page("penetration", name), name, penetration, air_layers)


def _enter_junction(
    page: Page, name: str, junction: Junction, air_layers: Mapping[str, tuple[str, ...]]
) -> tuple[Page, Gap]:
    assemblies = tuple(dict.fromkeys(_assembly(side) for side in junction.joins))
    page.declare("kind", junction.kind)
    page.declare("sides", junction.joins)
    page.declare("joined_count", float(len(junction.joins)))
    path = ("junctions", name)
    gap = Gap(
        name,
        "air barrier connection",
        f"How does the air barrier of {' meet that of '.join(assemblies)} at {name}?"
        if len(assemblies) > 1
        else f"How is the air barrier of {assemblies[0]} carried on at {name}?",
        path,
    )
    _enter_shown(page, junction.air, gap)
    reached = _reached(junction.air or (), air_layers)
    apart = _unconnected(assemblies, junction.air or (), air_layers)
    page.declare("air_layers", reached, origin=Origin.COMPUTED)
    page.declare(
        "air_unconnected", apart, origin=Origin.COMPUTED, method="assemblies no connection here reaches"
    )
    if junction.air is None:
        page.unknown(_CONNECTED, gap)
    else:
        page.declare(
            _CONNECTED,
            not apart,
            origin=Origin.COMPUTED,
            method="the connections stated here join air-control layers of all assemblies that meet",
        )
    water = junction.water
    page.declare("water_shown", water is not None)
    page.declare("water_connection_count", float(len(water or ())))
    page.declare("thermal_shown", junction.thermal is not None)
    if junction.thermal is not None:
        page.declare("thermal", junction.thermal)
    else:
        page.unknown(
            "thermal", Gap(name, "thermal continuity", f"Is the insulation continuous at {name}?", path)
        )
    return page, gap


def _enter_shown(page: Page, air: tuple[Connection, ...] | None, gap: Gap) -> None:
    page.declare(_SHOWN, air is not None)
    page.declare("air_connection_count", float(len(air or ())))
    page.declare("air_means", _means(air or ()))
    page.declare("air_sole_means", _sole_means(air or ()))


def _reached(connections: Iterable[Connection], air_layers: Mapping[str, tuple[str, ...]]) -> tuple[str, ...]:
    nodes = {f"{assembly}.{layer}" for assembly, layers in air_layers.items() for layer in layers}
    ends = [end for connection in connections for end in (connection.from_, connection.to)]
    return tuple(dict.fromkeys(end for end in ends if end in nodes))


def _unconnected(
    assemblies: tuple[str, ...],
    connections: tuple[Connection, ...],
    air_layers: Mapping[str, tuple[str, ...]],
) -> tuple[str, ...]:
    """Return the assemblies that the largest joined group of connections here does not reach."""
    local = AirLine()
    for connection in connections:
        local.join(connection.from_, connection.to)
    best: set[str] = set()
    for nodes in local.lines().values():
        inside = {_assembly(n) for n in nodes if n.partition(".")[2] in air_layers.get(_assembly(n), ())}
        best = max(best, inside & set(assemblies), key=len)
    if len(assemblies) == 1:
        return () if connections and best else assemblies
    return tuple(a for a in assemblies if a not in best)


def _enter_opening(
    page: Page, name: str, opening: Opening, air_layers: Mapping[str, tuple[str, ...]]
) -> tuple[Page, Gap]:
    gap = Gap(
        name,
        "air barrier connection",
        f"How does the frame of {name} meet the air barrier of {opening.within}?",
        ("openings", name),
    )
    page.declare("kind", opening.kind)
    page.declare("assembly", opening.within)
    _enter_ring(page, opening.within, opening.air, gap, air_layers)
    page.declare("sill_pan_shown", opening.sill_pan is not None)
    path = ("openings", name)
    _enter_truth(
        page, "sill_pan", opening.sill_pan, Gap(name, "sill pan", f"Is there a pan under {name}?", path)
    )
    _enter_truth(
        page,
        "drained",
        opening.drained,
        Gap(name, "drained sill gap", f"Is the gap below {name} open to drain?", path),
    )
    if opening.u_factor is not None:
        page.declare("u_factor", opening.u_factor.value)
    else:
        page.unknown("u_factor", Gap(name, "U-factor", f"What is the U-factor of {name}?", path))
    return page, gap


def _enter_penetration(
    page: Page, name: str, penetration: Penetration, air_layers: Mapping[str, tuple[str, ...]]
) -> tuple[Page, Gap]:
    path = ("penetrations", name)
    gap = Gap(
        name,
        "air barrier connection",
        f"How is {name} sealed to the air barrier of {penetration.within}?",
        path,
    )
    page.declare("kind", penetration.kind)
    page.declare("assembly", penetration.within)
    _enter_ring(page, penetration.within, penetration.air, gap, air_layers)
    page.declare("sealer_named", penetration.sealed_by is not None)
    if penetration.sealed_by is not None:
        page.declare("sealed_by", penetration.sealed_by)
    else:
        page.unknown("sealed_by", Gap(name, "trade that seals it", f"Which trade seals {name}?", path))
    hot = True if penetration.hot is None and penetration.kind == "flue" else penetration.hot
    page.declare("hot", bool(hot), method="as declared; a flue is hot, anything else is not unless declared")
    return page, gap


def _enter_ring(
    page: Page,
    assembly: str,
    air: tuple[Connection, ...] | None,
    gap: Gap,
    air_layers: Mapping[str, tuple[str, ...]],
) -> None:
    _enter_shown(page, air, gap)
    if air is None:
        page.unknown(_CONNECTED, gap)
        return
    reached = any(place.partition(".")[0] == assembly for place in _reached(air, air_layers))
    page.declare(
        _CONNECTED,
        reached,
        origin=Origin.COMPUTED,
        method="a connection stated here ends at an air-control layer",
    )


def _enter_truth(page: Page, name: str, value: bool | None, gap: Gap) -> None:
    if value is None:
        page.unknown(name, gap)
    else:
        page.declare(name, value)


def _enter_assemblies(
    ledger: Ledger, document: Document, air_layers: Mapping[str, tuple[str, ...]], unshown: list[Gap]
) -> None:
    parts: dict[str, list[Fact]] = {name: [] for name in document.assemblies}
    met: set[str] = set()
    for name, junction in document.junctions.items():
        fact = ledger.page("junction", name)[_CONNECTED]
        for assembly in dict.fromkeys(_assembly(side) for side in junction.joins):
            met.add(assembly)
            parts.setdefault(assembly, []).append(fact)
    for kind, things in (("opening", document.openings), ("penetration", document.penetrations)):
        for name, thing in things.items():
            parts.setdefault(thing.within, []).append(ledger.page(kind, name)[_CONNECTED])
    for name in document.assemblies:
        page = ledger.page("assembly", name)
        page.declare("junctions_shown", name in met, origin=Origin.COMPUTED)
        if not air_layers[name]:
            page.unknown("air_barrier_connected", *page["air_barrier"].missing)
            unshown.extend(page["air_barrier"].missing)
        elif name not in met:
            gap = Gap(
                name,
                "junctions",
                f"How is the air barrier of {name} carried on to what it meets?",
                ("assemblies", name),
            )
            page.unknown("air_barrier_connected", gap)
            unshown.append(gap)
        else:
            # one place shown open settles it, whatever else is not shown
            open_ = [fact for fact in parts[name] if fact.value is False]
            page.compute(
                "air_barrier_connected",
                lambda *answers: all(answers),
                open_ or parts[name],
                method="every junction, opening and penetration declared is connected",
            )


def _missed(
    document: Document, air_layers: Mapping[str, tuple[str, ...]], nodes: Iterable[str], graph: AirLine
) -> list[str]:
    """Return what one line does not reach: assemblies, then junctions, openings and penetrations."""
    inside = set(nodes)
    line = graph.line(next(iter(inside)))

    def own(air: tuple[Connection, ...] | None) -> tuple[Connection, ...]:
        return tuple(connection for connection in air or () if graph.line(connection.from_) == line)

    missed = [
        name
        for name in document.assemblies
        if not any(f"{name}.{layer}" in inside for layer in air_layers[name])
    ]
    for name, junction in document.junctions.items():
        assemblies = tuple(dict.fromkeys(_assembly(side) for side in junction.joins))
        if _unconnected(assemblies, own(junction.air), air_layers):
            missed.append(name)
    rings: dict[str, Opening | Penetration] = {**document.openings, **document.penetrations}
    for name, thing in rings.items():
        reached = _reached(own(thing.air), air_layers)
        if not any(_assembly(place) == thing.within for place in reached):
            missed.append(name)
    return missed


def _enter_project(
    page: Page,
    document: Document,
    air_layers: Mapping[str, tuple[str, ...]],
    graph: AirLine,
    tears: list[str],
    unshown: list[Gap],
) -> None:
    gaps = tuple({gap.key: gap for gap in unshown}.values())
    lines = [
        nodes for nodes in graph.lines().values() if any(_assembly(n) in document.assemblies for n in nodes)
    ]
    page.declare("air_line_count", float(len(lines)), origin=Origin.COMPUTED)
    page.declare(
        "air_gap_count", float(len(tears)), origin=Origin.COMPUTED, method="places shown without connection"
    )
    page.declare("air_unshown_count", float(len(gaps)), origin=Origin.COMPUTED, method="places not shown")
    method = (
        "one line of air-control layers reaches every assembly, junction, opening and penetration declared"
    )
    if tears:
        page.declare(
            "air_line_closed",
            False,
            origin=Origin.COMPUTED,
            method=f"{method}; it stops at {', '.join(tears)}",
        )
    elif gaps:
        page.unknown("air_line_closed", *gaps, method=method)
    else:
        missed = min((_missed(document, air_layers, nodes, graph) for nodes in lines), key=len, default=[])
        best = f"{method}; the best line does not reach {', '.join(missed)}" if missed else method
        page.declare("air_line_closed", not missed, origin=Origin.COMPUTED, method=best)
