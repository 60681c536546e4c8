"""The air barrier as a closed surface: what is joined where, which lines are closed, what would close the best."""

from collections.abc import Callable, Iterable, Sequence

from speccheck.document import Document
from speccheck.survey.assembly import SurveyedAssembly
from speccheck.survey.enclosure import Bounds, unnamed_sides
from speccheck.survey.fact import Fact, Gap, Origin
from speccheck.survey.ledger import Ledger, Page
from speccheck.survey.lines import Walk, parts_of, walk
from speccheck.survey.linked import Control, Linked, control_layers, linked, unreached
from speccheck.survey.shown_links import enter_links
from speccheck.survey.unshown import joined_words, side_gaps
from speccheck.tables.junction_kinds import junction_kinds

__all__ = ["survey_air_continuity"]

_METHOD = "one surface of air-control layers, joined at every side, reaches all that is declared"


def survey_air_continuity(ledger: Ledger, document: Document, built: Sequence[SurveyedAssembly]) -> None:
    """Enter the air-barrier facts of junctions, openings, penetrations, assemblies and the project.

    Args:
        ledger: where the facts go.
        document: what is declared.
        built: the assemblies with their slices.
    """
    layers = control_layers(document, built, "air")
    found = linked(document, "air", layers)
    gaps = _enter_places(ledger, found, layers)
    sides = _gaps_of_sides(document)
    way = _walk(found, layers)
    _enter_wanted(ledger, found, way)
    unshown = _enter_assemblies(ledger, document, found, layers, sides)
    _enter_sides(ledger.page("project", "project"), document)
    _enter_project(
        ledger.page("project", "project"), found, layers, way, [*gaps.values(), *unshown], document
    )


def _walk(found: Sequence[Linked], layers: Control) -> Walk:
    """Walk the lines of what is shown; what is not shown can neither close nor open them."""
    shown = [one for one in found if one.joint.links is not None]
    things = {thing for one in shown for thing in one.joint.things} | set(layers.named)
    nodes = {thing: nodes for thing, nodes in layers.nodes.items() if thing in things}
    return walk(nodes, [one.place for one in shown])


# ---- junctions, openings, penetrations


def _enter_places(ledger: Ledger, found: Sequence[Linked], layers: Control) -> dict[str, Gap]:
    """Enter what is shown at each place; return the question of each where nothing is."""
    by_place: dict[tuple[str, str], list[Linked]] = {}
    for one in found:
        by_place.setdefault((one.joint.subject, one.joint.place), []).append(one)
    gaps: dict[str, Gap] = {}
    for (subject, place), parts in by_place.items():
        page = ledger.page(subject, place)
        gap = _QUESTIONS[subject](parts[0])
        enter_links(page, "air", parts)
        _enter_connected(page, parts, layers, gap)
        if parts[0].joint.links is None:
            gaps[f"{subject} {place}"] = gap
    return gaps


def _on_junction(one: Linked) -> Gap:
    things, name = one.joint.things, one.joint.place
    question = f"How does the air barrier of {' meet that of '.join(things)} at {name}?"
    if len(things) == 1:
        question = f"How is the air barrier of {things[0]} carried on at {name}?"
    return Gap(name, "air barrier connection", question, one.joint.path)


def _on_opening(one: Linked) -> Gap:
    host, name = one.joint.things
    question = f"How does the frame of {name} meet the air barrier of {host}?"
    return Gap(name, "air barrier connection", question, one.joint.path)


def _on_penetration(one: Linked) -> Gap:
    host, name = one.joint.things
    question = f"How is {name} sealed to the air barrier of {host}?"
    return Gap(name, "air barrier connection", question, one.joint.path)


_QUESTIONS: dict[str, Callable[[Linked], Gap]] = {
    "junction": _on_junction,
    "opening": _on_opening,
    "penetration": _on_penetration,
}


def _enter_connected(page: Page, parts: Sequence[Linked], layers: Control, gap: Gap) -> None:
    """Enter which layers are joined here, and whether all that meets here is."""
    nodes = {node for thing in parts[0].joint.things for node in layers.nodes[thing]}
    ends = [node for one in parts for pair in one.pairs for node in pair]
    page.declare("air_layers", _each_once(node for node in ends if node in nodes), origin=Origin.COMPUTED)
    apart = {one.joint.part: unreached(one, layers.nodes) for one in parts}
    lost = _each_once(thing for things in apart.values() for thing in things)
    method = "what meets here and no connection reaches that can carry the line"
    page.declare("air_unconnected", lost, origin=Origin.COMPUTED, method=method)
    if page.subject == "opening":
        open_ = tuple(part for part, things in apart.items() if things and part)
        page.declare("air_open_parts", open_, origin=Origin.COMPUTED)
    if parts[0].joint.links is None:
        page.unknown("air_connected", gap)
        return
    method = "connections that can carry the line join air-control layers of all that meets here"
    page.declare("air_connected", not lost, origin=Origin.COMPUTED, method=method)


def _each_once(words: Iterable[str]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(words))


def _enter_wanted(ledger: Ledger, found: Sequence[Linked], way: Walk) -> None:
    """Enter at each place the connections that the best line wants there."""
    place_of = {one.joint.name: one.joint for one in found}
    wanted: dict[str, list[str]] = {}
    for missing in way.missing:
        wanted.setdefault(place_of[missing.place].place, []).append(_connection(missing.one, missing.other))
    for one in found:
        page = ledger.page(one.joint.subject, one.joint.place)
        words = tuple(wanted.get(one.joint.place, ()))
        page.declare(
            "air_wanted", words, origin=Origin.COMPUTED, method="what would close the best line here"
        )


def _connection(one: str, other: str) -> str:
    first, last = sorted((one, other), key=lambda node: (node.endswith(".?"), node))
    return f"{_node_words(first)} to {'what it meets' if first == last else _node_words(last)}"


def _node_words(node: str) -> str:
    thing, _, layer = node.partition(".")
    return f"{thing}, which names no layer that stops air" if layer == "?" else node


# ---- assemblies


def _bounds(document: Document) -> dict[str, Bounds]:
    return {name: Bounds(one.kind, one.sides) for name, one in document.assemblies.items()}


def _named(document: Document) -> list[tuple[str, str]]:
    places = [side for junction in document.junctions.values() for side in junction.joins]
    return [(assembly, side) for assembly, _, side in (place.partition(".") for place in places)]


def _gaps_of_sides(document: Document) -> dict[str, tuple[Gap, ...]]:
    bounds, named = _bounds(document), _named(document)
    met = {assembly for assembly, _ in named}
    unnamed = unnamed_sides(bounds, named)
    if not unnamed:
        return {}
    lone = [name for name in bounds if name not in met and name in unnamed]
    # the table tells which sides belong together; it is not read where no junction names anything
    kinds = junction_kinds() if len(lone) < len(unnamed) else ()
    return side_gaps(bounds, unnamed, lone, kinds)


def _enter_assemblies(
    ledger: Ledger,
    document: Document,
    found: Sequence[Linked],
    layers: Control,
    sides: dict[str, tuple[Gap, ...]],
) -> list[Gap]:
    """Enter for each assembly whether it is joined all round; return the questions that are open."""
    parts: dict[str, list[Fact]] = {name: [] for name in document.assemblies}
    met = {thing for one in found if one.joint.subject == "junction" for thing in one.joint.things}
    for one in found:
        fact = ledger.page(one.joint.subject, one.joint.place)["air_connected"]
        for thing in one.joint.things:
            if thing in parts and fact not in parts[thing]:
                parts[thing].append(fact)
    unshown: list[Gap] = []
    for name in document.assemblies:
        page = ledger.page("assembly", name)
        page.declare("junctions_shown", name in met, origin=Origin.COMPUTED)
        gaps = [*sides.get(name, ())]
        if not layers.named[name]:
            gaps = [*page["air_barrier"].missing, *gaps]
        unshown += gaps
        _enter_all_round(page, parts[name], gaps)
    return unshown


def _enter_all_round(page: Page, parts: Sequence[Fact], gaps: Sequence[Gap]) -> None:
    method = "every side, opening and penetration of it is joined"
    # one place shown open settles it, whatever else is not shown
    open_ = [fact for fact in parts if fact.value is False]
    if open_:
        page.compute("air_barrier_connected", lambda *answers: all(answers), open_, method=method)
    elif gaps:
        page.unknown("air_barrier_connected", *gaps, method=method)
    else:
        page.compute("air_barrier_connected", lambda *answers: all(answers), parts, method=method)


# ---- the project


def _enter_sides(page: Page, document: Document) -> None:
    unnamed = unnamed_sides(_bounds(document), _named(document))
    words = tuple(f"{name}.{side}" for name, sides in unnamed.items() for side in sides)
    page.declare("sides_unshown", words, origin=Origin.COMPUTED, method="sides that no junction names")


def _enter_project(
    page: Page,
    found: Sequence[Linked],
    layers: Control,
    way: Walk,
    unshown: Sequence[Gap],
    document: Document,
) -> None:
    gaps = tuple({gap.key: gap for gap in unshown}.values())
    assemblies = document.assemblies
    lines = [line for line in way.lines if any(node.partition(".")[0] in assemblies for node in line)]
    lines = [line for line in lines if not line[0].endswith(".?")]
    stopped = {missing.place for missing in way.missing}
    places = _each_once(one.joint.place for one in found if one.joint.name in stopped)
    parts = _buildings(found, document)
    page.declare("air_line_count", float(len(lines)), origin=Origin.COMPUTED)
    page.declare("air_closed_lines", float(len(way.closed)), origin=Origin.COMPUTED)
    stops = "places where the best line stops"
    page.declare("air_gap_count", float(len(places)), origin=Origin.COMPUTED, method=stops)
    page.declare("air_gap_places", places, origin=Origin.COMPUTED, method=stops)
    questions = {gap.question for gap in gaps}
    page.declare(
        "air_unshown_count",
        float(len(questions)),
        origin=Origin.COMPUTED,
        method="questions on places not shown",
    )
    best = tuple(way.surface[name] for name in assemblies if not way.surface[name].endswith(".?"))
    page.declare("air_best_line", best, origin=Origin.COMPUTED, method="the layers whose line wants least")
    place_of = {one.joint.name: one.joint.place for one in found}
    wanted = tuple(f"{place_of[one.place]}: {_connection(one.one, one.other)}" for one in way.missing)
    method = "the shortest list of connections that closes a line"
    if not way.exact:
        method = "a list of connections that closes a line; the building is too interwoven to be sure none is shorter"
    page.declare("air_missing_connections", wanted, origin=Origin.COMPUTED, method=method)
    page.declare(
        "air_unable_layers", layers.leaky, origin=Origin.COMPUTED, method="named, and air passes them"
    )
    page.declare("enclosure_parts", float(len(parts)), origin=Origin.COMPUTED)
    page.declare("enclosure_groups", tuple(joined_words(part) for part in parts), origin=Origin.COMPUTED)
    _enter_closed(page, way, places, gaps, parts)


def _buildings(found: Sequence[Linked], document: Document) -> list[tuple[str, ...]]:
    """Return the groups of assemblies that meet, of those that meet anything."""
    places = [one.place for one in found if one.joint.subject == "junction"]
    named = {thing for place in places for thing in place.things}
    met = [name for name in document.assemblies if name in named]
    return list(parts_of(met, places))


def _enter_closed(
    page: Page, way: Walk, places: Sequence[str], gaps: tuple[Gap, ...], parts: Sequence[tuple[str, ...]]
) -> None:
    name = "air_line_closed"
    if places:
        method = f"{_METHOD}; it stops at {', '.join(places)}"
        page.declare(name, False, origin=Origin.COMPUTED, method=method)
    elif gaps:
        page.unknown(name, *gaps, method=_METHOD)
    elif len(parts) > 1:
        groups = " and ".join(part[0] for part in parts[:2])
        question = f"Do {groups} belong to one building? No junction leads from one to the other."
        page.unknown(name, Gap("project", "one building", question, ("junctions",)), method=_METHOD)
    else:
        page.declare(name, True, origin=Origin.COMPUTED, method=_METHOD)
