"""Ways to name the place that go together; those that do not are told in `malformed`, word for word."""

import pytest

from speccheck.document import Unreadable
from speccheck.document.load import load_bytes, load_data
from speccheck.uses.check import KNOWN

WALL = "assemblies: {wall: {kind: wall, layers: [{material: osb, thickness: 11 mm}]}}"


def load(place: str):
    return load_bytes(f"speccheck: 1\nproject: {{place: {place}}}\n{WALL}\n".encode(), "place.yaml", KNOWN)


@pytest.mark.parametrize(
    "place",
    [
        '{zip: "05602", zone: 6A}',
        '{zip: "05602", zone: "6"}',  # a zone without its letter, where the map has one
        '{zip: "03276", zone: 5A}',  # Merrimack, New Hampshire: 6A until 2018, 5A since
        '{zip: "03276", zone: 6A}',
        '{zip: "03225", zone: 5A}',  # Belknap, 6A; the ZIP area touches a county of 5A
        '{zip: "05602", latitude: 44.26, longitude: -72.58}',
        '{zip: "05602", latitude: 44.26, longitude: -70.26}',  # 185 km east
        '{zip: "05602", county: Washington, state: VT}',
        '{zip: "05602", fips: "50023", station: Montpelier AP}',
        '{zip: "04101", station: "726145"}',  # Portland, Maine: some 185 km from Montpelier
        '{county: North Slope, state: AK, latitude: 68.35, longitude: -166.8}',  # Point Hope, at its western end
        '{zip: "00000", zone: 6A}',  # held by no table: nothing contradicts it
        '{county: Nowhere, state: VT, zone: 2A}',
    ],
)  # fmt: skip
def test_what_goes_together_is_read(place):
    assert load(place).document.project.place is not None


@pytest.mark.parametrize(
    ("place", "key"),
    [
        ('{zip: "03276", zone: 4A}', "zone"),
        ('{fips: "50023", zone: 5A}', "zone"),
        ("{station: Montpelier AP, zone: 7}", "zone"),
        (
            '{zip: "05602", latitude: 44.26, longitude: -69.9}',
            "latitude",
        ),  # 214 km east, by the cosine of 44°
        ('{zip: "05602", station: Miami Intl AP}', "station"),
    ],
)
def test_what_does_not_is_told_at_its_place(place, key):
    with pytest.raises(Unreadable) as caught:
        load(place.replace("zone: 7", 'zone: "7"'))
    assert [problem.path for problem in caught.value.problems] == [("project", "place", key)]


@pytest.mark.parametrize("value", [10**400, float("nan"), float("inf"), True, "north", None, [1]])
def test_coordinates_that_are_none_are_left_to_the_models(value):
    data = {
        "speccheck": 1,
        "project": {"place": {"zip": "05602", "latitude": value, "longitude": -72.5}},
        "assemblies": {"wall": {"kind": "wall", "layers": [{"material": "osb"}]}},
    }
    with pytest.raises(Unreadable) as caught:
        load_data(data, "place", KNOWN)
    assert not any(" km " in problem.what for problem in caught.value.problems)
