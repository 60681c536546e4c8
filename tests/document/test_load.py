"""Loading any plain structure: a document or located problems, never anything else; order of keys has no meaning."""

import json
from collections.abc import Iterator
from copy import deepcopy
from random import Random
from typing import Any

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator
from pydantic import BaseModel, TypeAdapter, ValidationError

from speccheck.document import Document, Loaded, Unreadable, load_bytes
from speccheck.document.load import load_data
from speccheck.uses.check import KNOWN

HOUSE: dict[str, Any] = {
    "speccheck": 1,
    "project": {
        "name": "House",
        "place": {"zip": "04101", "latitude": 43.7, "longitude": -70.3, "degree-days": "4200 K·d"},
        "use": "dwelling",
        "adopted": ["us/irc-2021"],
        "indoor": {"temperature": "21 °C", "humidity": 0.35, "cooled": True, "humidity-class": 2},
        "airtightness": {"target": "1.5 ACH50"},
        "storeys": 2,
    },
    "products": {
        "membrane": {
            "family": "osb",
            "permeance": {"dry-cup": "0.8 perm", "curve": {"25 %": "0.9 perm", "0.8": "8 perm"}},
            "air-permeance": "0.0005 L/(s·m²) at 75 Pa",
            "responsive": True,
            "evidence": [{"property": "permeance", "method": "ASTM E96", "date": "2026-03-31"}],
        }
    },
    "assemblies": {
        "wall": {
            "kind": "wall",
            "framing": {"material": "softwood", "spacing": "16 in", "fraction": "23 %"},
            "layers": [
                {"id": "lining", "material": "gypsum-board", "thickness": "12.7 mm", "finish": "latex-paint"},
                {"id": "control", "product": "membrane", "controls": ["air", "vapour"], "sealed": ["laps"]},
                {
                    "material": "glass-fibre-batt",
                    "thickness": "5.5 in",
                    "thermal-resistance": "R-21",
                    "framed": True,
                },
                {"material": "osb", "thickness": "11 mm", "framing": {"spacing": "600 mm"}},
            ],
            "stated": {"u-factor": "0.26 W/(m²·K)"},
        },
        "slab": {"kind": "slab", "sides": ["edge"], "layers": [{"id": "concrete", "material": "concrete"}]},
    },
    "junctions": {
        "base": {
            "kind": "wall-slab",
            "joins": ["wall.base", "slab.edge"],
            "air": [{"from": "wall.control", "to": "slab.concrete", "by": ["acrylic-tape", "sealant"]}],
            "thermal": "reduced",
        }
    },
    "openings": {
        "w1": {
            "kind": "window",
            "in": "wall",
            "air": [{"from": "w1.frame", "to": "wall.control", "by": "tape"}],
        }
    },
    "penetrations": {"p1": {"kind": "pipe", "in": "wall", "hot": False}},
    "site-tests": [{"kind": "blower-door", "date": "2026-05-01", "result": "1.2 ACH50", "at": "wall"}],
    "waivers": [
        {
            "rule": "vapour.falls-outward",
            "place": "wall",
            "reason": "The data sheet comes next week.",
            "agreed-by": "architect",
            "until": "2027-01-01",
        }
    ],
}

Path = tuple[str | int, ...]


def paths(value: Any, path: Path = ()) -> Iterator[Path]:
    """Yield the path of every value in a structure, the top's first."""
    yield path
    steps = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for step, inner in steps:
        yield from paths(inner, (*path, step))


PATHS = [path for path in paths(HOUSE) if path]
WORDS = ["", "no", "wall", "wall.control", "osb", "5", "5 mm", "-1 m", "R-20", "140 %", "NaN", "1e999 mm", "2026-02-30", "x" * 3000, "\x1b[2J", "\u202e", "a.b.c", "..", "\x00", "½ in", "12,7 mm", "{{ 1 }}", "wall."]  # fmt: skip
SCALARS = (
    st.sampled_from([*WORDS, None, True, False, 0, -1, 1.5, 10**15, -0.0, 1e300])
    | st.text(max_size=20)
    | st.integers(-(10**12), 10**12)
    | st.floats(allow_nan=False, allow_infinity=False)
)
KEYS = st.sampled_from(["id", "kind", "layers", "wall", "by", "speccheck", "", "a b", "\x1b", "k" * 500]) | st.text(max_size=8)  # fmt: skip
VALUES = st.recursive(
    SCALARS,
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(KEYS, inner, max_size=3),
    max_leaves=6,
)


@st.composite
def mutated(draw: st.DrawFn) -> dict[str, Any]:
    """Draw the house with one to three values replaced, taken out, added, or moved from another place."""
    house = deepcopy(HOUSE)
    for _ in range(draw(st.integers(1, 3))):
        *above, last = draw(st.sampled_from(PATHS))
        here: Any = house
        try:
            for step in above:
                here = here[step]
            change = draw(st.sampled_from(["replace", "take out", "add", "move"]))
            if change == "take out":
                del here[last]
            elif change == "add" and isinstance(here, dict):
                here[draw(KEYS)] = draw(VALUES)
            elif change == "move":
                value: Any = HOUSE
                for step in draw(st.sampled_from(PATHS)):
                    value = value[step]
                here[last] = deepcopy(value)
            else:
                here[last] = draw(VALUES)
        except (KeyError, IndexError, TypeError):
            continue  # an earlier change took the place away
    return house


def outcome(data: bytes, name: str) -> Loaded | Unreadable:
    """Return what comes of bytes; any other error than Unreadable is raised."""
    try:
        return load_bytes(data, name, KNOWN)
    except Unreadable as error:
        return error


def outcome_of_data(house: dict[Any, Any]) -> Loaded | Unreadable:
    """Return what comes of plain data; any other error than Unreadable is raised."""
    try:
        return load_data(house, "house", KNOWN)
    except Unreadable as error:
        return error


def assert_told_well(error: Unreadable, text: str) -> None:
    """Hold each problem against what a person and an editor need: words, and a place that the file has."""
    lines = text.split("\n")
    assert error.problems
    for problem in error.problems:
        assert problem.text().isprintable()
        assert problem.what
        assert problem.mark is not None, problem.what
        assert 1 <= problem.mark.line <= len(lines)
        assert 1 <= problem.mark.column <= len(lines[problem.mark.line - 1]) + 1
    marks = [problem.mark for problem in error.problems]
    assert marks == sorted(marks, key=lambda mark: (mark.line, mark.column))


def test_the_house_loads():
    assert load_data(HOUSE, "house", KNOWN).document.assemblies["wall"].layer_ids[1] == "control"


@given(mutated(), st.sampled_from([None, 1]))
@settings(max_examples=250, deadline=None)
def test_any_structure_in_json_loads_or_is_told(house: dict[str, Any], indent: int | None):
    text = json.dumps(house, indent=indent)
    found = outcome(text.encode(), "house.json")
    if isinstance(found, Unreadable):
        assert_told_well(found, text)


@given(mutated())
@settings(max_examples=150, deadline=None)
def test_any_structure_in_yaml_loads_or_is_told(house: dict[str, Any]):
    text = yaml.safe_dump(house, sort_keys=False)
    found = outcome(text.encode(), "house.yaml")
    if isinstance(found, Unreadable):
        assert_told_well(found, text)


ODD_KEYS = st.integers() | st.none() | st.booleans() | KEYS
ODD_MAPPINGS = st.dictionaries(ODD_KEYS, VALUES | st.just(10**5000), max_size=4)
ODD_HOUSES = st.builds(
    lambda part, names, odd: (
        HOUSE | {part: {name: {**next(iter(HOUSE[part].values())), **odd} for name in names}}
    ),
    st.sampled_from(["assemblies", "products", "junctions", "openings", "penetrations"]),
    st.sets(ODD_KEYS, max_size=3),
    ODD_MAPPINGS,
)


@given(mutated() | ODD_MAPPINGS | ODD_HOUSES)
@settings(max_examples=250, deadline=None)
def test_any_plain_data_loads_or_is_told(house: dict[Any, Any]):
    found = outcome_of_data(house)
    if isinstance(found, Unreadable):
        assert found.problems
        assert all(problem.text().isprintable() for problem in found.problems)


@given(mutated())
@settings(max_examples=150, deadline=None)
def test_text_and_plain_data_come_to_the_same(house: dict[str, Any]):
    found = outcome(json.dumps(house).encode(), "house.json")
    plain = outcome_of_data(house)
    if isinstance(plain, Unreadable):
        assert isinstance(found, Unreadable)
    elif isinstance(found, Loaded):
        assert found.document == plain.document
    else:  # only what is wrong with the writing, such as a control character, is told of the text alone
        assert all("unprintable" in problem.what for problem in found.problems)


@given(st.sampled_from(PATHS), SCALARS)
@settings(max_examples=300, deadline=None)
def test_what_loads_fits_the_published_schema(path: Path, value: Any):
    house = deepcopy(HOUSE)
    here: Any = house
    for step in path[:-1]:
        here = here[step]
    here[path[-1]] = value
    if isinstance(outcome_of_data(house), Loaded):
        assert not list(SCHEMA.iter_errors(house))


SCHEMA = Draft202012Validator(Document.model_json_schema(by_alias=True))


def shuffled(value: Any, random: Random) -> Any:
    """Return the structure with the keys of every mapping in another order; lists keep theirs."""
    if isinstance(value, dict):
        keys = list(value)
        random.shuffle(keys)
        return {key: shuffled(value[key], random) for key in keys}
    return [shuffled(inner, random) for inner in value] if isinstance(value, list) else value


@given(st.randoms(use_true_random=False))
@settings(max_examples=30, deadline=None)
def test_the_order_of_keys_means_nothing(random: Random):
    text = yaml.safe_dump(shuffled(HOUSE, random), sort_keys=False, allow_unicode=True)
    found = outcome(text.encode(), "house.yaml")
    assert isinstance(found, Loaded)
    assert found.document == load_data(HOUSE, "house", KNOWN).document


@given(mutated(), st.randoms(use_true_random=False))
@settings(max_examples=100, deadline=None)
def test_the_order_of_keys_changes_no_fault(house: dict[str, Any], random: Random):
    def told(data: dict[str, Any]) -> set[tuple[Any, ...]]:
        found = outcome_of_data(data)
        problems = found.problems if isinstance(found, Unreadable) else ()
        return {(problem.path, problem.what) for problem in problems}

    assert told(house) == told(shuffled(house, random))


def models(
    model: type[BaseModel] = Document, seen: set[type[BaseModel]] | None = None
) -> set[type[BaseModel]]:
    """Return the models a document is made of."""
    seen = seen if seen is not None else set()
    if model not in seen:
        seen.add(model)
        for field in model.model_fields.values():
            waiting = [field.annotation]
            while waiting:
                one = waiting.pop()
                waiting += getattr(one, "__args__", ())
                if isinstance(one, type) and issubclass(one, BaseModel):
                    models(one, seen)
    return seen


EXAMPLES = [
    pytest.param(model, field.alias or name, example, id=f"{model.__name__}.{name}-{example}")
    for model in sorted(models(), key=lambda one: one.__name__)
    for name, field in model.model_fields.items()
    for example in field.examples or ()
]


@pytest.mark.parametrize(("model", "key", "example"), EXAMPLES)
def test_what_a_message_names_as_an_example_is_read(model: type[BaseModel], key: str, example: Any):
    try:
        TypeAdapter(model).validate_python({key: example})
    except ValidationError as error:
        at_fault = [one for one in error.errors() if one["type"] != "missing"]
        assert not at_fault
