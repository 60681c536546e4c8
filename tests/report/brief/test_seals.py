"""The seal list of a brief: places that say the same share a row, and gathering loses nothing."""

import re
from collections import Counter
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from speccheck.document import Document
from speccheck.document.load import load_data, load_file
from speccheck.report.brief import brief_of
from speccheck.report.brief.seals import Group, Row, gathered, seals
from speccheck.uses.check import KNOWN, Checked

EXAMPLES = Path(__file__).parents[3] / "examples"
WORDS = re.compile(r"(?P<first>\S+) (?P<join>to|over|under) (?P<last>\S+?)(?P<rest>( at [a-z ]+)?: .*)")


def _in_full(words: tuple[str, ...], group: Group, names: set[str]) -> tuple[str, ...]:
    """Return the words of a row as they read for a group: every layer with its assembly."""

    def end(text: str, of: str) -> str:
        head = text.partition(".")[0]
        bare = head not in names and not (head in ("frame", "ring") and group.kind != "junction")
        return f"{of}.{text}" if bare else text

    def full(text: str) -> str:
        found = WORDS.fullmatch(text)
        if not found or not group.within:
            return text
        first, last = end(found["first"], group.within[0]), end(found["last"], group.within[-1])
        return f"{first} {found['join']} {last}{found['rest']}"

    return tuple(full(text) for text in words)


def _nothing_is_lost(document: Document) -> None:
    names = {*document.assemblies, *document.openings, *document.penetrations}
    told = [
        (group.kind, spot.name, _in_full(row.air, group, names), _in_full(row.water, group, names), group.who)
        for row in gathered(document)
        for group in row.groups
        for spot in group.spots
    ]
    listed = [(seal.kind, seal.place, seal.air, seal.water, seal.who) for seal in seals(document)]
    assert Counter(told) == Counter(listed)
    assert len(listed) == len(document.junctions) + len(document.openings) + len(document.penetrations)


@pytest.mark.parametrize("name", ["studio", "studio-mistakes", "studio-not-shown"])
def test_gathering_loses_nothing_of_the_examples(name: str) -> None:
    _nothing_is_lost(load_file(EXAMPLES / "studio" / f"{name}.yaml", KNOWN).document)


def test_gathering_loses_nothing_of_a_large_house(large_house: dict[str, Any]) -> None:
    document = load_data(large_house, "large.yaml", KNOWN).document
    _nothing_is_lost(document)
    assert len(gathered(document)) < 0.7 * len(seals(document))


# a layer may be called as an assembly is, or as the frame of an opening
_LAYERS = ("sheet", "board", "frame", "ring", "roof")
_ASSEMBLIES = ("north", "south", "roof")
_MEANS = st.sampled_from(["acrylic-tape", "liquid-flashing", ["acrylic-tape", "liquid-flashing"]])


@st.composite
def _documents(draw: st.DrawFn) -> dict[str, Any]:
    layers = [{"id": name, "material": "plywood", "thickness": "12 mm"} for name in _LAYERS]

    def connection(first: list[str], last: list[str], over: bool) -> dict[str, Any]:
        start = draw(st.sampled_from(first))
        end = draw(st.sampled_from([name for name in last if name != start]))
        side = draw(st.sampled_from(["from", "to", None])) if over else None
        return {"from": start, "to": end, "by": draw(_MEANS)} | ({"over": side} if side else {})

    def barrier(first: list[str], last: list[str], over: bool = False) -> list[dict[str, Any]] | None:
        count = draw(st.sampled_from([None, 0, 1, 1, 1, 2]))
        return None if count is None else [connection(first, last, over) for _ in range(count)]

    def layers_of(*assemblies: str) -> list[str]:
        return [f"{assembly}.{layer}" for assembly in assemblies for layer in _LAYERS]

    def given_only(entry: dict[str, Any]) -> dict[str, Any]:
        return {key: value for key, value in entry.items() if value is not None}

    document: dict[str, Any] = {"speccheck": 1}
    document["assemblies"] = {name: {"kind": "wall", "layers": layers} for name in _ASSEMBLIES}
    junctions, openings, penetrations = {}, {}, {}
    for n in range(draw(st.integers(0, 6))):
        joined = draw(st.permutations(_ASSEMBLIES))[: draw(st.integers(1, 3))]
        ends = layers_of(*joined)
        junctions[f"meeting-{n}"] = given_only(
            {
                "kind": "corner",
                "joins": [f"{name}.side-{n}" for name in joined],
                "air": barrier(ends, ends),
                "water": barrier(ends, ends, over=True),
            }
        )
    for n in range(draw(st.integers(0, 6))):
        name, within = f"window-{n}", draw(st.sampled_from(_ASSEMBLIES))
        frame, layers_there = [f"{name}.frame"], layers_of(within)
        air, water = barrier(frame, layers_there), barrier(frame, layers_there)
        openings[name] = given_only({"kind": "window", "in": within, "air": air, "water": water})
    for n in range(draw(st.integers(0, 6))):
        name, within = f"pipe-{n}", draw(st.sampled_from(_ASSEMBLIES))
        trade = draw(st.sampled_from([None, "plumber", "electrician"]))
        air = barrier([f"{name}.ring"], layers_of(within))
        penetrations[name] = given_only({"kind": "pipe", "in": within, "air": air, "sealed-by": trade})
    document |= {"junctions": junctions, "openings": openings, "penetrations": penetrations}
    return document


@settings(max_examples=150, deadline=None)
@given(_documents())
def test_gathering_loses_nothing(data: dict[str, Any]) -> None:
    _nothing_is_lost(load_data(data, "drawn.yaml", KNOWN).document)


def _named(row: Row) -> list[str]:
    return [spot.name for group in row.groups for spot in group.spots]


def test_windows_of_several_walls_share_a_row(large_house: dict[str, Any]) -> None:
    rows = gathered(load_data(large_house, "large.yaml", KNOWN).document)
    (row,) = (row for row in rows if "kitchen-window" in _named(row))
    assert _named(row) == ["kitchen-window", "stair-window", "living-room-window"]
    assert [group.beside for group in row.groups] == ["in north-wall", "in south-wall"]
    assert row.air == ("frame to membrane: acrylic tape",)


def test_a_place_open_by_a_finding_stays_marked_by_name(large_house: dict[str, Any]) -> None:
    document = load_data(large_house, "large.yaml", KNOWN).document
    rows = gathered(document, frozenset({("opening", "stair-window"), ("junction", "living-room-window")}))
    (row,) = (row for row in rows if "stair-window" in _named(row))
    marks = {spot.name: spot.open for group in row.groups for spot in group.spots}
    assert marks == {"kitchen-window": False, "stair-window": True, "living-room-window": False}


def test_flues_and_fibre_are_marked_in_a_large_house(
    checked: Callable[..., Checked], large_house: Any
) -> None:
    rows = brief_of(checked(large_house)).rows
    open_ = {spot.name for row in rows for group in row.groups for spot in group.spots if spot.open}
    # fibre as a seal, a lap the wrong way round, foam at a hot flue
    assert open_ == {"south-eave", "dormer-cheek", "stove-flue"}


def test_a_junction_says_which_laps_over_which(large_house: dict[str, Any]) -> None:
    told = {seal.place: seal.water for seal in seals(load_data(large_house, "large.yaml", KNOWN).document)}
    assert told["north-base"] == ("north-wall.weather over slab.concrete: liquid flashing",)
    # declared from the roof to the wall, the roof over: told in the order in which the junction joins them
    assert told["north-eave"] == ("north-wall.weather under main-roof.weather: acrylic tape",)


def test_parts_of_a_frame_are_named(large_house: dict[str, Any]) -> None:
    large_house["openings"]["roof-light"]["water"][0]["at"] = ["head", "jambs"]
    told = {seal.place: seal.water for seal in seals(load_data(large_house, "large.yaml", KNOWN).document)}
    assert told["roof-light"] == ("frame to main-roof.weather at head and jambs: butyl tape",)
