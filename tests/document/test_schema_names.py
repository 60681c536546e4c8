"""The published schema offers the names that the tables hold, and refuses a name exactly where a check refuses it."""

import json
import re
from copy import deepcopy
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

from speccheck.document import Loaded, Unreadable
from speccheck.document.load import load_data
from speccheck.judgement.library import in_force
from speccheck.schemas import generated
from speccheck.tables.construction import sealing_means
from speccheck.tables.materials import material, material_ids, row_ids
from speccheck.uses.check import KNOWN

SCHEMA = json.loads(generated()["document.schema.json"])
FITS = Draft202012Validator(SCHEMA)
DOCUMENT: dict[str, Any] = {
    "speccheck": 1,
    "project": {"adopted": ["us/irc-2021"]},
    "products": {"board": {"family": "osb"}},
    "assemblies": {
        "wall": {
            "kind": "wall",
            "layers": [
                {"material": "gypsum-board", "thickness": "1/2 in", "finish": "latex-paint"},
                {
                    "material": "mineral-wool-batt",
                    "thickness": "140 mm",
                    "facing": "kraft-paper-facing",
                },
                {"product": "board", "thickness": "11 mm"},
            ],
        }
    },
    "openings": {
        "window": {"kind": "window", "in": "wall", "frame": "pvc-rigid", "air": [{"from": "wall.board", "to": "window.frame", "by": "backer-rod"}]}
    },
}  # fmt: skip
CLOSED = (
    ("assemblies", "wall", "layers", 0, "material"),
    ("assemblies", "wall", "layers", 0, "finish"),
    ("assemblies", "wall", "layers", 1, "facing"),
    ("products", "board", "family"),
)
OPEN = (
    ("openings", "window", "frame"),
    ("openings", "window", "air", 0, "by"),
    ("project", "adopted", 0),
)
NAMES = (*material_ids(), *row_ids(), "mineral-fiber-board", "gypsum", "vapor-retarder-primer", "fiber", "")


def put(path: tuple[Any, ...], value: Any) -> dict[str, Any]:
    document = deepcopy(DOCUMENT)
    here: Any = document
    for step in path[:-1]:
        here = here[step]
    here[path[-1]] = value
    return document


def is_read(document: dict[str, Any]) -> bool:
    try:
        return isinstance(load_data(document, "house", KNOWN), Loaded)
    except Unreadable:
        return False


def test_the_document_of_these_tests_is_read_and_fits():
    assert is_read(DOCUMENT)
    assert FITS.is_valid(DOCUMENT)


@pytest.mark.parametrize("path", CLOSED)
@pytest.mark.parametrize("name", ["gypsum", "OSB", "gypsum board", "osb ", "no-such-thing"])
def test_a_material_that_a_check_refuses_does_not_fit(path, name):
    assert not is_read(put(path, name))
    assert not FITS.is_valid(put(path, name))


@given(st.sampled_from(CLOSED), st.sampled_from(NAMES), st.sampled_from(("", "-x", "x-")), st.booleans())
@settings(max_examples=200, deadline=None)
def test_a_name_fits_exactly_where_it_is_known(path, name, more, american):
    name = name.replace("fibre", "fiber").replace("vapour", "vapor") if american else name
    name = name + more if more.startswith("-") else more + name
    assert FITS.is_valid(put(path, name)) == (material(name) is not None)


def test_every_other_name_of_a_material_fits():
    others = [name for id_ in material_ids() for name in getattr(material(id_), "also", ())]
    assert len(others) > 100
    pattern = re.compile(SCHEMA["$defs"]["MaterialId"]["anyOf"][1]["pattern"])
    assert [name for name in others if not pattern.search(name)] == []


@pytest.mark.parametrize("path", OPEN)
def test_other_words_fit_where_a_check_takes_them(path):
    document = put(path, "something of our own")
    assert is_read(document)
    assert FITS.is_valid(document)


def offered(name: str) -> list[str]:
    return [one for form in SCHEMA["$defs"][name]["anyOf"] for one in form.get("enum", ())]


def test_what_is_offered_is_known():
    assert all(material(name) for name in offered("MaterialId"))
    assert set(material_ids()) <= set(offered("MaterialId")) == set(offered("MaterialWords"))
    means = [name for name in offered("SealingMeans") if sealing_means(name)]
    assert "acrylic-tape" in means
    assert "primer" in offered("SealingMeans")
    assert "us/irc-2021" in offered("CodeEdition")
    assert in_force(offered("CodeEdition"))[1] == []
