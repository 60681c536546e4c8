"""Which layer is the main insulation, where the condensing plane lies, and what lies inboard, outboard and beyond."""

import pytest

LINING = "{id: lining, material: gypsum-board, thickness: 12.7 mm}"
BATT = "{id: batt, material: mineral-wool-batt, thickness: 140 mm, framed: true}"
OSB = "{id: osb, material: osb, thickness: 11 mm}"
FOAM = "{id: foam, material: xps, thickness: 50 mm}"
MEMBRANE = "{id: control, material: variable-permeance-membrane}"
VENTED = "{id: cavity, material: air-cavity, thickness: 19 mm, ventilation: ventilated}"
SIDING = "{id: siding, material: wood-siding, thickness: 19 mm}"
CLOSED = "{id: foam, material: spray-foam-closed-cell, thickness: 140 mm, framed: true}"
OPEN = "{id: foam, material: spray-foam-open-cell, thickness: 140 mm, air-permeance: 0.5 L/(s·m²) at 75 Pa, framed: true}"
OPEN_TIGHT = OPEN.replace("0.5 L", "0.015 L")
FLASH = "{id: flash, material: spray-foam-closed-cell, thickness: 50 mm, framed: true}"
SERVICE = "{id: service, material: mineral-wool-batt, thickness: 45 mm}"
CONCRETE = "{id: concrete, material: concrete, thickness: 100 mm}"


def wall(*layers: str, kind: str = "wall") -> str:
    listed = "\n".join(f"      - {layer}" for layer in layers)
    return f"""
speccheck: 1
project: {{place: {{zone: 6A}}, indoor: {{humidity: 35 %}}}}
assemblies:
  it:
    kind: {kind}
    framing: {{spacing: 16 in}}
    layers:
{listed}
"""


# Sections by the definitions of the survey: first layer moving room air cannot pass, outboard of the insulation that lets
# air through; of air-impermeable insulation its own inner face (common practice, no source).
SECTIONS = {
    "batt and panel": ((LINING, BATT, OSB, VENTED, SIDING), "batt", "osb"),
    "foam outside the panel": ((LINING, BATT, OSB, FOAM, SIDING), "batt", "osb"),
    "foam in place of the panel": ((LINING, BATT, FOAM, VENTED, SIDING), "batt", "foam"),
    "closed-cell foam fills the wall": ((LINING, CLOSED, OSB, SIDING), "foam", "foam"),
    "open-cell foam that lets air through": ((LINING, OPEN, OSB, SIDING), "foam", "osb"),
    "open-cell foam tested air-impermeable": ((LINING, OPEN_TIGHT, OSB, SIDING), "foam", "foam"),
    "flash of foam behind the panel, batt inside": ((LINING, BATT, FLASH, OSB, SIDING), "batt", "flash"),
    "insulated service cavity inside a membrane": ((LINING, SERVICE, MEMBRANE, BATT, OSB, VENTED, SIDING), "batt", "osb"),
    "mineral wool outside the panel too": (
        (LINING, BATT, OSB, "{id: outer, material: mineral-wool-board, thickness: 50 mm}", VENTED, SIDING), "batt", "osb",
    ),
    "more mineral wool outside the panel than between the studs": (
        (LINING, BATT, OSB, "{id: outer, material: mineral-wool-board, thickness: 250 mm}", VENTED, SIDING), "batt", "osb",
    ),
    "closed-cell foam between studs, mineral wool outside": (
        (LINING, CLOSED, OSB, "{id: outer, material: mineral-wool-board, thickness: 100 mm}", VENTED, SIDING), "foam", "foam",
    ),
    "all insulation outboard": ((LINING, "{id: frame, material: air-cavity, thickness: 90 mm}", OSB, FOAM, VENTED, SIDING), "foam", "osb"),
    "membrane between batt and panel": ((LINING, BATT, "{id: wrap, material: housewrap-microporous}", OSB, SIDING), "batt", "wrap"),
}  # fmt: skip


@pytest.mark.parametrize("name", SECTIONS)
def test_main_insulation_and_condensing_plane(facts_of, name):
    layers, main, plane = SECTIONS[name]
    facts = facts_of(wall(*layers))
    assert facts.value("it.main_insulation") == f"it.{main}"
    assert facts.value("it.condensing_plane") == f"it.{plane}"
    assert facts.value(f"it.{main}.side") == "insulation"
    # the plane parts the whole section: nothing counts twice, nothing is lost
    assert facts.value("it.inboard_r") + facts.value("it.outboard_r") == pytest.approx(
        facts.value("it.r_series"), rel=1e-9
    )


class TestSides:
    """Inboard, outboard, beyond."""

    def test_sides_of_a_ventilated_wall(self, facts_of):
        facts = facts_of(wall(LINING, MEMBRANE, BATT, OSB, VENTED, SIDING))
        sides = {
            name: facts.value(f"it.{name}.side")
            for name in ("lining", "control", "batt", "osb", "cavity", "siding")
        }
        assert sides == {
            "lining": "inboard", "control": "inboard", "batt": "insulation", "osb": "outboard", "cavity": "beyond",
            "siding": "beyond",
        }  # fmt: skip

    def test_beyond_takes_no_part_in_vapour(self, facts_of):
        with_, without = (facts_of(wall(LINING, BATT, OSB, VENTED, *rest)) for rest in ((SIDING,), ()))
        for fact in ("exterior_permeance_dry", "total_permeance_dry", "sd_outside", "outboard_r"):
            assert with_.value(f"it.{fact}") == without.value(f"it.{fact}")

    def test_service_insulation_counts_inboard_of_the_membrane(self, facts_of):
        facts = facts_of(wall(LINING, SERVICE, MEMBRANE, BATT, OSB, VENTED, SIDING))
        assert facts.value("it.service.side") == "inboard"
        assert facts.value("it.interior_retarder") == "it.control"
        warm = (
            facts.value("it.film_inside")
            + facts.value("it.lining.resistance")
            + facts.value("it.service.resistance")
        )
        assert facts.value("it.warm_side_share") == pytest.approx(warm / facts.value("it.r_series"), rel=1e-9)

    def test_foam_outboard_and_its_sum(self, facts_of):
        facts = facts_of(wall(LINING, BATT, OSB, FOAM, SIDING))
        assert facts.value("it.foam_outboard") is True
        assert facts.value("it.foam_outboard_r") == facts.value("it.foam.resistance")
        assert facts.value("it.continuous_r_outboard") == facts.value("it.foam.resistance")
        assert facts.value("it.cavity_r") == facts.value("it.batt.resistance")
        assert facts.value("it.air_impermeable_r") == facts.value("it.foam.resistance")

    def test_flash_of_foam_counts_as_air_impermeable(self, facts_of):
        facts = facts_of(wall(LINING, BATT, FLASH, OSB, SIDING))
        assert facts.value("it.air_impermeable_r") == facts.value("it.flash.resistance")
        assert facts.value("it.cavity_r") == pytest.approx(
            facts.value("it.batt.resistance") + facts.value("it.flash.resistance")
        )

    def test_all_insulation_outboard(self, facts_of):
        layers = SECTIONS["all insulation outboard"][0]
        assert facts_of(wall(*layers)).value("it.all_insulation_outboard") is True
        assert facts_of(wall(LINING, BATT, OSB, FOAM)).value("it.all_insulation_outboard") is False


class TestOtherAssemblies:
    """Slab, compact roof, no insulation."""

    def test_slab_over_foam(self, facts_of):
        facts = facts_of(wall(CONCRETE, "{id: barrier, material: polyethylene-film}", FOAM, kind="slab"))
        assert facts.value("it.outside") == "ground"
        assert facts.value("it.film_outside") == 0.0
        assert facts.value("it.above_grade") is False
        assert facts.value("it.main_insulation") == "it.foam"
        assert facts["it.cladding_material"].inapplicable

    @pytest.mark.parametrize(
        ("kind", "outside"), [("slab", ""), ("below-grade-wall", ""), ("wall", "neighbour")]
    )
    def test_where_outdoor_air_is_not_the_cold_side_no_figure_rests_on_it(self, facts_of, kind, outside):
        # Ground some metres down stays near the yearly mean of the place (ISO 13370:2017, memory); no climate of it here.
        text = wall(LINING, FOAM, CONCRETE, kind=kind)
        facts = facts_of(
            text.replace(f"kind: {kind}", f"kind: {kind}\n    outside: {outside}") if outside else text
        )
        for name in (
            "plane_temperature",
            "plane_margin",
            "plane_freezes",
            "critical_indoor_rh",
            "surface_rh",
        ):
            assert facts[f"it.{name}"].inapplicable, name
        assert facts["it.required_outboard_share"].inapplicable
        assert facts.value("it.temperature_factor") > 0.0

    def test_compact_roof(self, facts_of):
        deck = "{id: deck, material: plywood, thickness: 18 mm}"
        roof = wall(LINING, BATT, deck, "{id: cover, material: epdm-membrane}", kind="roof")
        facts = facts_of(roof)
        assert facts.value("it.condensing_plane") == "it.deck"
        assert facts.value("it.exterior_retarder") == "it.cover"
        assert facts.value("it.exterior_class") == "I"
        assert facts.value("it.cavity_ventilation") == "none"

    def test_no_insulation_leaves_nothing_to_part(self, facts_of):
        facts = facts_of(wall(CONCRETE))
        assert facts.value("it.has_insulation") is False
        for name in (
            "main_insulation",
            "condensing_plane",
            "plane_temperature",
            "interior_permeance_dry",
            "sd_ratio",
            "critical_indoor_rh",
        ):
            assert facts[f"it.{name}"].inapplicable, name
        assert facts.value("it.effective_r") > 0

    def test_insulation_with_nothing_outboard(self, facts_of):
        facts = facts_of(wall(LINING, BATT))
        assert facts["it.condensing_plane"].inapplicable
        assert facts["it.exterior_permeance_dry"].inapplicable
        assert facts.value("it.interior_permeance_dry") > 0


FIBREBOARD = "{id: board, material: wood-fibre-underlay-board, thickness: 60 mm}"


class TestNoPlaneBeyondOutdoorAir:
    """Outdoor air moves in a vented or ventilated cavity: room air meets no plane outside it (by the definition)."""

    @pytest.mark.parametrize("ventilation", ["ventilated", "vented"])
    def test_a_board_air_passes_before_such_a_cavity_is_the_last_plane(self, facts_of, ventilation):
        cavity = VENTED.replace("ventilated", ventilation)
        facts = facts_of(wall(LINING, OSB, BATT, FIBREBOARD, cavity, SIDING))
        assert facts.value("it.condensing_plane") == "it.board"
        assert "outdoor air" in facts["it.condensing_plane"].method
        assert facts.value("it.inboard_r") + facts.value("it.outboard_r") == pytest.approx(
            facts.value("it.r_series"), rel=1e-9
        )

    def test_a_cavity_not_declared_counts_as_ventilated_as_it_does_for_heat(self, facts_of):
        cavity = VENTED.replace(", ventilation: ventilated", "")
        facts = facts_of(wall(LINING, OSB, BATT, FIBREBOARD, cavity, SIDING))
        assert facts.value("it.condensing_plane") == "it.board"

    @pytest.mark.parametrize("ventilation", ["none", "drained"])
    def test_in_a_closed_or_drained_cavity_the_cladding_is_met(self, facts_of, ventilation):
        cavity = VENTED.replace("ventilated", ventilation)
        facts = facts_of(wall(LINING, OSB, BATT, FIBREBOARD, cavity, SIDING))
        assert facts.value("it.condensing_plane") == "it.siding"

    @pytest.mark.parametrize(("area", "plane"), [("300 mm²/m", "siding"), ("1600 mm²/m", "board")])
    def test_openings_tell_where_the_word_does_not(self, facts_of, area, plane):
        # ISO 6946:2017: up to 500 mm² for each metre of length the air layer counts as still (memory)
        cavity = VENTED.replace("ventilation: ventilated", f"vent-area: {area}")
        facts = facts_of(wall(LINING, OSB, BATT, FIBREBOARD, cavity, SIDING))
        assert facts.value("it.condensing_plane") == f"it.{plane}"

    def test_fibre_alone_before_it_leaves_no_plane(self, facts_of):
        facts = facts_of(wall(LINING, OSB, BATT, VENTED, SIDING))
        assert facts["it.condensing_plane"].inapplicable
        assert facts["it.critical_indoor_rh"].inapplicable


def test_open_cell_foam_without_a_test_asks_and_leaves_the_plane_open(facts_of):
    # the table knows it as air-impermeable from 140 mm (trade data, read in part), below that it must be tested
    untested = OPEN.replace(", air-permeance: 0.5 L/(s·m²) at 75 Pa", "")
    assert facts_of(wall(LINING, untested, OSB, SIDING)).value("it.condensing_plane") == "it.foam"
    facts = facts_of(wall(LINING, untested.replace("140 mm", "90 mm"), OSB, SIDING))
    plane = facts["it.condensing_plane"]
    assert plane.value is None
    assert [gap.key for gap in plane.missing] == [("it.foam", "air permeance")]
    assert facts["it.plane_temperature"].missing == plane.missing


def test_air_permeance_at_another_pressure_is_brought_to_75_pa_with_its_range(facts_of):
    # Power law, exponent 0.5 to 1.0 (common practice, no source): (75/50)^0.65 = 1.302
    facts = facts_of(wall(LINING, BATT, OSB.replace("mm}", "mm, air-permeance: 0.01 L/(s·m²) at 50 Pa}")))
    fact = facts["it.osb.air_permeance"]
    assert fact.value == pytest.approx(0.01e-3 * 1.5**0.65, rel=1e-9, abs=0)
    assert (fact.low, fact.high) == pytest.approx((0.01e-3 * 1.5**0.5, 0.01e-3 * 1.5), rel=1e-9, abs=0)
    assert "brought from 50 Pa to 75 Pa" in fact.assumed[0]


def test_gypsum_wood_and_masonry_between_foam_and_the_room(facts_of):
    facts = facts_of(wall(LINING, "{id: panel, material: plywood, thickness: 12 mm}", FOAM, SIDING))
    assert facts.value("it.foam.gypsum_inboard") == pytest.approx(0.0127)
    assert facts.value("it.foam.wood_panel_inboard") == pytest.approx(0.012)
    assert facts.value("it.foam.masonry_inboard") == 0.0
    assert facts["it.panel.gypsum_inboard"].inapplicable
