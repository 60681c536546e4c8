"""Tables and word lists of the air pack against a second source, and how much it asks of a short document."""

import pytest

from speccheck.judgement.library import load_pack
from speccheck.judgement.pack import Rule
from speccheck.tables.construction import sealing_means_ids
from speccheck.tables.materials import material

TEN_LINES = """
speccheck: 1
project: {place: {zone: 6A}, adopted: [us/irc-2021], indoor: {humidity: 35 %}}
assemblies:
  wall:
    kind: wall
    framing: {spacing: 16 in}
    layers:
      - {material: gypsum-board, thickness: 1/2 in, finish: latex-paint}
      - {material: glass-fibre-batt, thickness: 5.5 in, thermal-resistance: R-21, framed: true}
      - {material: osb, thickness: 7/16 in, controls: [air]}
      - {material: xps, thickness: 1 in}
      - {material: housewrap-microporous, controls: [water]}
      - {material: air-cavity, thickness: 3/8 in, ventilation: vented}
      - {material: vinyl-siding}
"""


def _rule(id_: str) -> Rule:
    return next(rule for rule in load_pack("practice/air").rules if rule.id == id_)


# Foam over the whole insulation of a 2x6 wall with R-20 between the studs, by the foam column of IRC 2021
# R702.7(3), 7.5, 11.25, 15, 20 (read).
@pytest.mark.parametrize(
    ("zone", "foam"), [("4C", 3.75), ("5A", 7.5), ("5B", 7.5), ("6A", 11.25), ("7", 15), ("8", 20)]
)
def test_shares_follow_from_the_foam_table(zone: str, foam: float) -> None:
    (table,) = _rule("air.outer-sheet-open-or-warm").tables
    assert table.find({"climate.zone_2021": zone}) == pytest.approx(foam / (20 + foam), abs=0.005)


def test_no_share_is_given_where_the_code_gives_no_foam() -> None:
    (table,) = _rule("air.outer-sheet-open-or-warm").tables
    assert table.find({"climate.zone_2021": "4A"}) is None


# The pack goes by guides to knee walls and tubs; the material table by foam data and a utility's list (read).
@pytest.mark.parametrize("foam", ["spray-foam-open-cell", "spray-foam-closed-cell"])
def test_foam_thickness_agrees_with_the_material_table(foam: str) -> None:
    (table,) = _rule("air.foam-thick-enough").tables
    found = material(foam)
    assert found is not None
    row = next(row for row in found.rows if row.air is not None and row.air.minimum_thickness is not None)
    assert row.air is not None
    assert table.find({"layer.material": foam}) == pytest.approx(row.air.minimum_thickness, rel=0.01)


def test_every_means_of_sealing_but_metal_and_what_bears_heat_is_kept_from_a_hot_flue() -> None:
    """Silicone bears the heat of a flue where it is made for it; all other means burn or soften (common practice, no source)."""
    named = " ".join(_rule("health.hot-flue-sealed-without-foam").holds)
    left_out = {means for means in sealing_means_ids() if f'"{means}"' not in named}
    assert left_out == {"silicone-sealant-bead", "high-temperature-sealant", "sheet-metal-collar"}


def test_ten_lines_earn_few_questions(checked) -> None:
    found = [f for f in checked(TEN_LINES).findings if f.pack.startswith("practice/")]
    asked = {gap.key for finding in found for gap in finding.gaps}
    assert ("wall", "junctions") in asked
    assert len(asked) <= 8
    ours = [f for f in found if f.pack.split("/")[1] in ("air", "thermal", "paperwork", "waivers")]
    assert {f.rule for f in ours if f.level != "pass"} == {"air.line-closed", "paperwork.use-stated"}


def test_an_open_place_is_told_once_for_the_project_and_once_where_it_is(checked) -> None:
    text = (
        TEN_LINES
        + """
junctions:
  base: {kind: wall-to-slab, joins: [wall.base], thermal: continuous, air: []}
  eave: {kind: wall-to-eave, joins: [wall.top]}
"""
    )
    found = [f for f in checked(text).findings if f.rule.startswith("air.") and f.level != "pass"]
    told = {(f.rule, f.place, str(f.level)) for f in found}
    assert told == {
        ("air.line-closed", "project", "warn"),
        ("air.junction-connected", "base", "warn"),
        ("air.junction-connected", "eave", "ask"),
    }
    base = next(f for f in found if f.place == "base")
    assert base.reason == "The air barrier stops here. No connection reaches the air barrier of: wall."
    assert (
        base.line
        == text.split("\n").index(
            "  base: {kind: wall-to-slab, joins: [wall.base], thermal: continuous, air: []}"
        )
        + 1
    )
