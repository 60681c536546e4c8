"""What a document calls an assembly stands beside its key wherever a person reads of it, and never in place of it."""

import json
import re
from typing import Any

import pytest

from speccheck.report.assembly_names import assembly_name, called
from speccheck.report.formats import Manner, Run, format_named, tell
from speccheck.uses.check import Checked, check_data

WALL: dict[str, Any] = {
    "kind": "wall",
    "name": "Exterior *wall*",
    "framing": {"spacing": "16 in"},
    "layers": [
        {"id": "lining", "material": "gypsum-board", "thickness": "1/2 in"},
        {"id": "fill", "material": "glass-fibre-batt", "thickness": "3.5 in", "framed": True},
        {"id": "board", "material": "osb", "thickness": "7/16 in"},
    ],
}
DATA: dict[str, Any] = {
    "speccheck": 1,
    "project": {"name": "House", "place": {"zone": "6A"}, "use": "dwelling", "adopted": ["us/irc-2021"]},
    "assemblies": {
        "wall": WALL,
        "slab": {"kind": "slab", "layers": [{"material": "concrete", "thickness": "4 in"}]},
    },
}


@pytest.fixture(scope="module")
def house() -> Checked:
    return check_data(DATA, "house.yaml")


def written(name: str, checked: Checked) -> str:
    manner = Manner(fail_on="ask")
    return format_named(name).whole(Run([tell(checked, name, manner)], (), manner, 1))


def test_an_assembly_and_its_layers_are_called_by_name(house: Checked) -> None:
    assert called(house, "wall") == "wall (Exterior *wall*)"
    assert assembly_name(house, "wall.board") == "Exterior *wall*"
    assert called(house, "slab") == "slab"
    assert called(house, "project") == "project"


def test_the_text_names_it_in_the_heading(house: Checked) -> None:
    assert re.search(r"^wall \(Exterior \*wall\*; wall, effective ", written("text", house), re.MULTILINE)


def test_the_summary_names_it_as_plain_text(house: Checked) -> None:
    assert r"at `wall` (Exterior \*wall\*): " in written("markdown", house)


def test_the_json_tells_every_assembly_with_its_name(house: Checked) -> None:
    (document,) = json.loads(written("json", house))["documents"]
    assert document["assemblies"] == [
        {"place": "wall", "name": "Exterior *wall*"},
        {"place": "slab", "name": None},
    ]


def test_what_servers_keep_from_run_to_run_does_not_hang_on_the_name(house: Checked) -> None:
    unnamed = {**DATA, "assemblies": {**DATA["assemblies"], "wall": {**WALL, "name": None}}}
    del unnamed["assemblies"]["wall"]["name"]
    other = check_data(unnamed, "house.yaml")
    for name in ("junit", "sarif"):
        assert written(name, house) == written(name, other)
