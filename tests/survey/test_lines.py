"""Lines on random enclosures: trees, rings, several rooms, several lines; against brute force and a graph library.

What is checked follows from what a closed surface is, not from a text: one tight layer for each assembly, the same at
all its sides, joined wherever assemblies meet.
"""

import itertools

import networkx
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from speccheck.survey.lines import Place, groups_of, parts_of, walk
from speccheck.survey.surface import Meeting, cheapest, cost_of, fully_joined

NAMES = tuple("abcdefgh")


def layers_of(things, count):
    return {thing: tuple(f"{thing}.{number}" for number in range(count[thing])) for thing in things}


@st.composite
def shapes(draw, most=5):
    """Return what meets where: a tree, a ring, a room with a lid and a floor, two rooms, or anything."""
    shape = draw(st.sampled_from(["tree", "ring", "room", "rooms", "any"]))
    size = draw(st.integers(2, most))
    things = NAMES[:size]
    if shape == "tree":
        meets = [(things[draw(st.integers(0, i - 1))], things[i]) for i in range(1, size)]
    elif shape == "ring":
        meets = list(itertools.pairwise([*things, things[0]]))
    elif shape == "room":
        walls = list(itertools.pairwise([*things, things[0]]))
        things = (*things, "lid", "floor")
        meets = walls + [(one, end) for one in things[:size] for end in ("lid", "floor")]
    elif shape == "rooms":
        things = NAMES[:5]
        meets = [("a", "b", "c"), ("a", "b"), ("b", "c"), ("c", "d"), ("d", "e"), ("b", "d", "e")]
    else:
        several = st.lists(st.sampled_from(things), min_size=1, max_size=3, unique=True).map(tuple)
        meets = draw(st.lists(several, min_size=1, max_size=5))
    return things, meets


@st.composite
def enclosures(draw, most=5, layers=2):
    """Return layers and places with some links drawn at random, some of them a step beside the layers."""
    things, meets = draw(shapes(most))
    found = layers_of(things, {thing: draw(st.integers(1, layers)) for thing in things})
    places = []
    for number, meeting in enumerate(meets):
        nodes = [node for thing in meeting for node in found[thing]] + [f"{meeting[0]}.plate"]
        pairs = st.tuples(st.sampled_from(nodes), st.sampled_from(nodes))
        links = draw(st.lists(pairs, max_size=4))
        places.append(Place(f"j{number}", meeting, tuple(links)))
    return found, places


@st.composite
def closed_enclosures(draw, most=5):
    """Return an enclosure with exactly one closed line: a chosen layer of each, joined with no link to spare."""
    things, meets = draw(shapes(most))
    layers = layers_of(things, {thing: draw(st.integers(1, 3)) for thing in things})
    chosen = {thing: draw(st.sampled_from(nodes)) for thing, nodes in layers.items()}
    places = []
    for number, meeting in enumerate(meets):
        nodes = [chosen[thing] for thing in draw(st.permutations(meeting))]
        links = list(itertools.pairwise(nodes)) if len(nodes) > 1 else [(nodes[0], nodes[0])]
        places.append(Place(f"j{number}", meeting, tuple(links)))
    assume(len(parts_of(layers, places)) == 1)
    return layers, places, chosen


def by_hand(layers, places):
    """Return the least number of connections wanting, over every choice of a layer for each thing."""
    things = list(layers)
    best = None
    for choice in itertools.product(*layers.values()):
        chosen = dict(zip(things, choice, strict=True))
        wanting = 0
        for place in places:
            graph = networkx.Graph(place.links)
            nodes = {chosen[thing] for thing in place.things}
            if len(nodes) == 1:
                wanting += not nodes <= set(graph.nodes)
            else:
                graph.add_nodes_from(nodes)
                pieces = [piece for piece in networkx.connected_components(graph) if piece & nodes]
                wanting += len(pieces) - 1
        best = wanting if best is None else min(best, wanting)
    return best


def fewest_added(layers, places, most):
    """Return the least number of added links that closes a line, trying every set of them; None above ``most``."""
    candidates = [
        (number, pair)
        for number, place in enumerate(places)
        for pair in itertools.combinations_with_replacement(
            [node for thing in place.things for node in layers[thing]], 2
        )
    ]
    for count in range(most + 1):
        for added in itertools.combinations(candidates, count):
            trial = [
                place._replace(links=(*place.links, *(pair for at, pair in added if at == number)))
                for number, place in enumerate(places)
            ]
            if by_hand(layers, trial) == 0:
                return count
    return None


def with_added(places, missing):
    return [
        place._replace(
            links=(*place.links, *((one, other) for at, one, other in missing if at == place.name))
        )
        for place in places
    ]


@settings(max_examples=150, deadline=None)
@given(enclosures())
def test_the_fewest_connections_agree_with_brute_force(drawn):
    layers, places = drawn
    found = walk(layers, places)
    assert found.exact
    assert len(found.missing) == by_hand(layers, places)


@settings(max_examples=25, deadline=None)
@given(enclosures(most=3))
def test_no_smaller_set_of_connections_closes_it(drawn):
    # every subset of every possible connection is tried, not only those a surface suggests
    layers, places = drawn
    wanted = len(walk(layers, places).missing)
    assume(wanted <= 2 and len(places) <= 3)
    assert fewest_added(layers, places, wanted) == wanted


@settings(max_examples=100, deadline=None)
@given(enclosures(layers=3))
def test_adding_what_is_suggested_closes_it(drawn):
    layers, places = drawn
    found = walk(layers, places)
    mended = walk(layers, with_added(places, found.missing))
    assert mended.missing == ()
    if len(found.parts) == 1:
        assert mended.closed
    for missing in found.missing:  # each is between layers of things that meet there
        things = next(place.things for place in places if place.name == missing.place)
        assert {missing.one.partition(".")[0], missing.other.partition(".")[0]} <= set(things)


@settings(max_examples=100, deadline=None)
@given(st.data())
def test_removing_any_connection_of_a_minimal_line_opens_it_there(data):
    layers, places, chosen = data.draw(closed_enclosures())
    whole = walk(layers, places)
    assert len(whole.closed) == 1
    assert whole.surface == chosen
    number = data.draw(st.integers(0, len(places) - 1))
    link = data.draw(st.integers(0, len(places[number].links) - 1))
    left = tuple(pair for at, pair in enumerate(places[number].links) if at != link)
    opened = [*places[:number], places[number]._replace(links=left), *places[number + 1 :]]
    found = walk(layers, opened)
    assert found.closed == ()
    assert [missing.place for missing in found.missing] == [places[number].name]


@settings(max_examples=100, deadline=None)
@given(st.data())
def test_order_never_matters(data):
    layers, places = data.draw(enclosures(layers=3))
    turned = {
        thing: tuple(data.draw(st.permutations(layers[thing])))
        for thing in data.draw(st.permutations(list(layers)))
    }
    shuffled = []
    for place in data.draw(st.permutations(places)):
        links = [
            pair[::-1] if data.draw(st.booleans()) else pair
            for pair in data.draw(st.permutations(place.links))
        ]
        shuffled.append(Place(place.name, tuple(data.draw(st.permutations(place.things))), tuple(links)))
    assert walk(turned, shuffled) == walk(layers, places)


@settings(max_examples=100, deadline=None)
@given(enclosures())
def test_lines_and_parts_are_those_of_a_graph_library(drawn):
    layers, places = drawn
    nodes = [node for options in layers.values() for node in options]
    graph = networkx.Graph([link for place in places for link in place.links])
    graph.add_nodes_from(nodes)
    found = walk(layers, places)
    pieces = [tuple(sorted(piece)) for piece in networkx.connected_components(graph)]
    assert found.lines == tuple(sorted(piece for piece in pieces if set(piece) & set(nodes)))
    meets = networkx.Graph()
    meets.add_nodes_from(layers)
    for place in places:
        networkx.add_path(meets, place.things)
    assert set(found.parts) == {tuple(sorted(piece)) for piece in networkx.connected_components(meets)}


@settings(max_examples=100, deadline=None)
@given(enclosures(layers=3))
def test_a_search_for_a_choice_without_wants_agrees_with_elimination(drawn):
    # two ways to the same answer: narrowing with search, and eliminating one thing after the other
    layers, places = drawn
    meetings = [Meeting(place.things, groups_of(place.links)) for place in places]
    choice, decided = fully_joined(layers, meetings)
    best = cheapest(layers, meetings)
    assert decided
    assert (choice is not None) == (best.wanting == 0)
    if choice is not None:
        assert cost_of(choice, meetings) == 0


def two_lines(things, meets):
    layers = {thing: (f"{thing}.inner", f"{thing}.outer") for thing in things}
    places = [
        Place(f"j{n}", (a, b), ((f"{a}.inner", f"{b}.inner"), (f"{a}.outer", f"{b}.outer")))
        for n, (a, b) in enumerate(meets)
    ]
    return layers, places


RING = [("a", "b"), ("b", "c"), ("c", "d"), ("d", "a")]


def test_two_closed_lines():
    layers, places = two_lines("abcd", RING)
    found = walk(layers, places)
    assert [set(line) for line in found.closed] == [
        {f"{thing}.{side}" for thing in "abcd"} for side in ("inner", "outer")
    ]


def test_a_line_that_changes_from_inner_to_outer_layer_inside_a_wall_is_open():
    # the inner layer is joined at the top and the outer one at the base, and both at the corners: one component,
    # and air goes in under the inner layer, up the cavity, and out over the outer one
    layers = {"wall": ("wall.inner", "wall.outer"), "roof": ("roof.x",), "slab": ("slab.x",)}
    top = Place("top", ("wall", "roof"), (("wall.inner", "roof.x"),))
    base = Place("base", ("wall", "slab"), (("wall.outer", "slab.x"),))
    crossing = ("wall.inner", "wall.outer")
    corner = Place(
        "corner", ("wall",), (("wall.inner", "wall.inner"), ("wall.outer", "wall.outer"), crossing)
    )
    found = walk(layers, [top, base, corner])
    assert len(found.lines) == 1
    assert found.closed == ()
    assert len(found.missing) == 1
    # carried over at the base, it is closed
    closed = walk(layers, [top, base._replace(links=(*base.links, crossing)), corner])
    assert closed.closed
    assert closed.surface["wall"] == "wall.inner"


def test_a_plate_that_is_no_control_layer_carries_the_line_on():
    layers = {"wall": ("wall.x",), "roof": ("roof.x",)}
    top = Place("top", ("wall", "roof"), (("wall.x", "wall.plate"), ("wall.plate", "roof.x")))
    assert walk(layers, [top]).closed


def test_three_that_meet_need_two_connections():
    layers = {thing: (f"{thing}.x",) for thing in "abc"}
    assert len(walk(layers, [Place("j", ("a", "b", "c"))]).missing) == 2
    assert len(walk(layers, [Place("j", ("a", "b", "c"), (("a.x", "c.x"),))]).missing) == 1


def test_two_buildings_are_two_parts():
    layers = {thing: (f"{thing}.x",) for thing in "abcd"}
    found = walk(
        layers, [Place("j", ("a", "b"), (("a.x", "b.x"),)), Place("k", ("c", "d"), (("c.x", "d.x"),))]
    )
    assert found.parts == (("a", "b"), ("c", "d"))
    assert found.closed == ()
    assert found.missing == ()


@pytest.mark.parametrize("wide", [9, 14])
def test_an_interwoven_building_is_answered_and_says_when_it_is_not_sure(wide):
    # every thing of three layers meets every other: too wide to eliminate, so the list need not be the shortest
    things = [f"t{number}" for number in range(wide)]
    layers = {thing: tuple(f"{thing}.{k}" for k in range(3)) for thing in things}
    places = [
        Place(f"{a}{b}", (a, b), tuple((f"{a}.{k}", f"{b}.{(k + n) % 3}") for k in range(3)))
        for n, (a, b) in enumerate(itertools.combinations(things, 2))
    ]
    found = walk(layers, places)
    assert walk(layers, with_added(places, found.missing)).closed
    assert found.exact is (wide == 9)
