"""Changing a document by path, without touching the original; and the guard that no test reaches for a network."""

import copy
import socket
from typing import Any

import pytest

from speccheck.uses.change import ChangeError, changed

DOCUMENT: dict[str, Any] = {
    "speccheck": 1,
    "project": {"indoor": {"humidity": "35 %"}},
    "assemblies": {
        "wall": {
            "kind": "wall",
            "layers": [
                {"material": "osb", "thickness": "11 mm"},
                {"id": "inner", "material": "osb"},
                {"material": "osb"},
            ],
        }
    },
}


@pytest.mark.parametrize(
    ("path", "value", "where"),
    [
        ("project.indoor.humidity", "40 %", ("project", "indoor", "humidity")),
        ("project.place.zone", "6A", ("project", "place", "zone")),
        ("assemblies.wall.layers.osb.thickness", "12 mm", ("assemblies", "wall", "layers", 0, "thickness")),
        ("assemblies.wall.layers.inner.thickness", "12 mm", ("assemblies", "wall", "layers", 1, "thickness")),
        ("assemblies.wall.layers.osb-2.thickness", "12 mm", ("assemblies", "wall", "layers", 2, "thickness")),
        ("assemblies.wall.layers.2.thickness", "12 mm", ("assemblies", "wall", "layers", 2, "thickness")),
        ("assemblies.wall.layers.inner", {"material": "plywood"}, ("assemblies", "wall", "layers", 1)),
    ],
)
def test_a_value_is_set_at_its_path_and_the_original_stays(path, value, where):
    before = copy.deepcopy(DOCUMENT)
    result: Any = changed(DOCUMENT, {path: value})
    for step in where:
        result = result[step]
    assert result == value
    assert before == DOCUMENT


def test_none_takes_an_entry_away():
    result = changed(DOCUMENT, {"project.indoor": None, "assemblies.wall.layers.inner": None})
    assert result["project"] == {}
    assert len(result["assemblies"]["wall"]["layers"]) == 2
    assert changed(DOCUMENT, {"project.nothing": None}) == DOCUMENT


def test_what_is_set_is_not_shared_with_what_was_given():
    given = {"material": "plywood"}
    result = changed(DOCUMENT, {"assemblies.wall.layers.inner": given})
    given["material"] = "osb"
    assert result["assemblies"]["wall"]["layers"][1]["material"] == "plywood"


@pytest.mark.parametrize(
    "path",
    [
        "assemblies.wall.layers.nothing.thickness",
        "assemblies.wall.layers.9",
        "speccheck.x",
        "project.indoor.humidity.x",
    ],
)
def test_a_path_that_leads_nowhere_is_told(path):
    with pytest.raises(ChangeError) as caught:
        changed(DOCUMENT, {path: 1})
    assert str(caught.value).startswith(f"{path}: ")


def test_no_test_can_open_a_socket():
    with pytest.raises(AssertionError, match="reaches for a network"):
        socket.socket()
    with pytest.raises(AssertionError, match="reaches for a network"):
        socket.create_connection(("example.org", 80))
