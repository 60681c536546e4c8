"""Walls without framing under the residential code: which of the two rules speaks, and the rows it is held to.

Each check of a table names its source.
"""

from datetime import date
from itertools import pairwise

import pytest

from speccheck.judgement.library import load_pack
from speccheck.uses.check import check_data

R_US = 0.17611018682
"""One h·ft²·°F/Btu in m²·K/W: NIST Special Publication 811, table of units, read."""
U_US = 5.678263
EDITIONS = ("2018", "2021", "2024")
ZONES = ("1", "2", "3", "4", "4C", "5", "6", "7", "8")

FOAM = {"id": "foam", "material": "xps", "thickness": "2 in", "thermal-resistance": "R-10"}
LINING = {"id": "lining", "material": "gypsum-board", "thickness": "1/2 in", "finish": "latex-paint"}
SIDING = {"id": "siding", "material": "fibre-cement-siding", "thickness": "5/16 in"}
PANEL = [
    {"id": "inner", "material": "osb", "thickness": "7/16 in"},
    {"id": "core", "material": "eps", "thickness": "5.5 in", "thermal-resistance": "R-22"},
    {"id": "outer", "material": "osb", "thickness": "7/16 in"},
]


def _rows(edition, name, table):
    rule = next(r for r in load_pack(f"codes/us/irc-{edition}").rules if r.id == f"irc-{edition}.{name}")
    return next(t.rows for t in rule.tables if t.name == table)


def _body(material, thickness="8 in"):
    return {"id": "body", "material": material, "thickness": thickness}


def _spoken(edition, layers, zone="4A", **wall):
    """Return rule, place and finding of what the two rules say, apart from what does not apply."""
    document = {
        "speccheck": 1,
        "project": {"use": "dwelling", "place": {"zone": zone}, "adopted": [f"us/irc-{edition}"]},
        "assemblies": {"wall": {"kind": "wall", "layers": layers, **wall}},
    }
    checked = check_data(document, "a wall without framing", today=date(2026, 1, 15))
    names = {f"irc-{edition}.{name}": name for name in ("mass-wall-insulation", "unframed-wall-insulation")}
    return [
        (names[finding.rule], finding.place, finding)
        for finding in checked.findings
        if finding.rule in names and finding.level != "not-applicable"
    ]


@pytest.mark.parametrize("edition", EDITIONS)
@pytest.mark.parametrize(
    "material",
    # Concrete, block, brick but not brick veneer, earth, solid timber: N1102.2.5 of the code, memory.
    [
        "concrete",
        "concrete-block",
        "clay-brick",
        "adobe",
        "rammed-earth",
        "softwood",
        "cross-laminated-timber",
    ],
)
@pytest.mark.parametrize("inside", [True, False], ids=["foam inside", "foam outside"])
def test_a_heavy_body_is_judged_once_as_a_mass_wall(edition, material, inside):
    middle = [FOAM, _body(material)] if inside else [_body(material), FOAM]
    said = _spoken(edition, [LINING, *middle, SIDING])
    assert [(rule, place) for rule, place, _ in said] == [("mass-wall-insulation", "wall.body")]


@pytest.mark.parametrize("edition", EDITIONS)
@pytest.mark.parametrize(
    "facing",
    [SIDING, {"id": "siding", "material": "clay-brick", "thickness": "3.5 in"}],
    ids=["siding", "brick veneer"],
)
def test_a_panel_is_judged_once_by_the_row_of_frame_walls(edition, facing):
    said = _spoken(edition, [LINING, *PANEL, facing])
    assert [(rule, place) for rule, place, _ in said] == [("unframed-wall-insulation", "wall")]
    assert said[0][2].level == "pass"
    assert "frame walls" in said[0][2].reason


@pytest.mark.parametrize("edition", EDITIONS)
def test_a_facing_of_brick_is_not_judged_beside_the_block(edition):
    brick = {"id": "brick", "material": "clay-brick", "thickness": "3.5 in"}
    said = _spoken(edition, [_body("concrete-block"), FOAM, brick])
    assert [place for _, place, _ in said] == ["wall.body"]


@pytest.mark.parametrize("edition", EDITIONS)
def test_neither_speaks_of_a_framed_wall(edition):
    fill = {"id": "fill", "material": "glass-fibre-batt", "thickness": "3.5 in", "thermal-resistance": "R-13"}
    layers = [LINING, {**fill, "framed": True}, PANEL[2], SIDING]
    assert _spoken(edition, layers, framing={"spacing": "16 in"}) == []


@pytest.mark.parametrize("edition", EDITIONS)
def test_the_side_of_the_insulation_turns_the_verdict(edition):
    # Zone 4: where more than half is inside (mass wall R-value of the insulation table, read).
    foam = {**FOAM, "thermal-resistance": "R-9"}
    outside = _spoken(edition, [LINING, _body("concrete"), foam, SIDING])[0][2]
    inside = _spoken(edition, [LINING, foam, _body("concrete"), SIDING])[0][2]
    assert (outside.level, inside.level) == ("pass", "warn")
    assert "R-9" in inside.reason
    assert "R-13" in inside.reason


@pytest.mark.parametrize("edition", EDITIONS)
@pytest.mark.parametrize(
    ("zone", "other", "inside"),
    # A national-laboratory comparison of the insulation tables of the code, read.
    [("1", 3, 4), ("2", 4, 6), ("3", 8, 13), ("4", 8, 13), ("4C", 13, 17), ("5", 13, 17), ("6", 15, 20), ("7", 19, 21), ("8", 19, 21)],
)  # fmt: skip
def test_resistances_of_mass_walls(edition, zone, other, inside):
    assert _rows(edition, "mass-wall-insulation", "r")[zone] / R_US == pytest.approx(other)
    assert _rows(edition, "mass-wall-insulation", "r_inside")[zone] / R_US == pytest.approx(inside)


@pytest.mark.parametrize("edition", EDITIONS)
def test_insulation_inside_is_never_asked_for_less_by_resistance(edition):
    other, inside = (_rows(edition, "mass-wall-insulation", table) for table in ("r", "r_inside"))
    assert all(inside[zone] > other[zone] for zone in ZONES)


@pytest.mark.parametrize("edition", EDITIONS)
def test_transmittances_inside_keep_to_the_other_but_in_zone_3(edition):
    # Zone 3 prints 0.12 inside beside 0.098: the tables and their note, read for 2021 and 2024, memory for 2018.
    other, inside = (_rows(edition, "mass-wall-insulation", table) for table in ("u", "u_inside"))
    assert [zone for zone in ZONES if inside[zone] > other[zone]] == ["3"]
    assert inside["3"] / U_US == pytest.approx(0.12, abs=1e-4)
    along = [inside[zone] for zone in ("1", "2", "3", "4", "5", "6", "7", "8")]
    assert all(warm >= cold for warm, cold in pairwise(along))


@pytest.mark.parametrize("edition", EDITIONS)
def test_walls_without_framing_have_the_rows_of_the_other_rules(edition):
    # One table of transmittances: its frame row serves three rules, its mass row two.
    frame = _rows(edition, "wall-insulation", "u")
    mass = _rows(edition, "mass-wall-insulation", "u")
    assert _rows(edition, "unframed-wall-insulation", "u") == frame
    assert _rows(edition, "unframed-wall-insulation", "mass") == mass
    assert all(frame[zone] <= mass[zone] for zone in frame)
