"""Every material has a sign, and the signs are those of drafting (common practice, no source)."""

import xml.etree.ElementTree as ET

import pytest

from speccheck.report.drawing.hatch import HATCHES, hatch_of, hatch_patterns, looped, patterned
from speccheck.tables.materials import material, material_ids

BY_HAND = {"batt", "sheet", "coating", "air", "other"}


def test_every_material_of_the_table_has_a_sign() -> None:
    for name in material_ids():
        found = material(name)
        assert found is not None
        sign = hatch_of(name, found.group)
        assert sign in HATCHES, name
        assert sign != "other" or found.group == "cladding", name


def test_every_sign_is_drawn_by_a_pattern_or_by_hand() -> None:
    assert {sign for sign in HATCHES if not patterned(sign)} == BY_HAND
    root = ET.fromstring(hatch_patterns())
    names = {pattern.attrib["id"] for pattern in root.iter("pattern")}
    assert names == {f"h-{sign}" for sign in HATCHES if patterned(sign)} | {"h-wet"}


@pytest.mark.parametrize(
    ("name", "group", "sign"),
    [
        ("glass-fibre-batt", "insulation", "batt"),
        ("cellulose-dense-pack", "insulation", "batt"),
        ("polyiso-foil-faced", "insulation", "rigid"),
        ("mineral-wool-board", "insulation", "rigid"),
        ("spray-foam-closed-cell", "insulation", "foam"),
        ("softwood-board", "wood", "timber"),
        ("plywood", "wood", "panel"),
        ("gypsum-board", "gypsum", "gypsum"),
        ("clay-brick", "masonry", "brick"),
        ("concrete", "masonry", "concrete"),
        ("cement-stucco", "masonry", "render"),
        ("brick-veneer", "cladding", "brick"),
        ("concrete-roof-tile", "roof-covering", "stone"),
        ("metal-roofing", "roof-covering", "metal"),
        ("asphalt-shingles", "roof-covering", "sheet"),
        ("glass", "metal-glass-plastic", "glass"),
        ("steel", "metal-glass-plastic", "metal"),
        ("air-cavity", "air", "air"),
        ("gravel-capillary-break", "soil", "gravel"),
        ("something-nobody-knows", "", "other"),
    ],
)
def test_the_sign_of_a_material(name: str, group: str, sign: str) -> None:
    assert hatch_of(name, group) == sign


@pytest.mark.parametrize("width", [3.0, 40.0, 280.0])
def test_the_looped_line_stays_in_its_layer(width: float) -> None:
    line = looped(width, 130.0)
    assert all(0 <= depth <= width and 0 <= across <= 130.0 for depth, across in line)
    assert max(depth for depth, _ in line) > 0.7 * width
