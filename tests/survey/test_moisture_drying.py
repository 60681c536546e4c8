"""What a wet layer would lose inward and outward, and the inside retarder of a cooled building in summer, by hand."""

import math

import pytest

from speccheck.physics.psychrometrics import dew_point, saturation_pressure, vapour_pressure

TEMPERATURES = (-1.0, 0.0, 4.0, 9.0, 14.0, 17.0, 18.0, 18.0, 14.0, 9.0, 4.0, 1.0)
HUMIDITIES = (0.85, 0.84, 0.78, 0.72, 0.70, 0.70, 0.72, 0.74, 0.78, 0.83, 0.88, 0.88)
OUTSIDE = [vapour_pressure(t, rh) for t, rh in zip(TEMPERATURES, HUMIDITIES, strict=True)]
SECONDS = [86400.0 * days for days in (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)]
DELTA = 2.0e-10
"""Vapour permeability of still air [kg/(m·s·Pa)]: the convention of ISO 13788 (memory)."""

THREE = (
    ("lining", 0.05, 0.1, "gypsum-board"),
    ("wool", 2.0, 0.2, "mineral-wool-batt"),
    ("board", 0.1, 2.0, "plywood"),
)
SET_POINT = {"temperature": "20 °C", "humidity": "30 %"}
INSIDE = [max(pressure, vapour_pressure(20.0, 0.30)) for pressure in OUTSIDE]
"""The room at its set-point, never drier than outdoors."""


def saturation_at(before, whole):
    """Saturation by month at the place that has this resistance before it, of this whole [m²·K/W]."""
    return [saturation_pressure(20.0 + (outside - 20.0) * before / whole) for outside in TEMPERATURES]


def summed(saturation, air, sd):
    flows = [DELTA * (s - p) / sd * t for s, p, t in zip(saturation, air, SECONDS, strict=True)]
    return math.fsum(max(0.0, flow) for flow in flows)


class TestDryingByHand:
    """Saturation at the wet face less the vapour pressure of the air, over the sd between, month by month."""

    def test_the_plane_of_three_layers(self, moist, section_document):
        facts = moist(section_document(THREE, SET_POINT))
        assert facts.value("wall.condensing_plane") == "wall.board"
        wet = saturation_at(0.13 + 0.05 + 2.0, 0.13 + 2.15 + 0.04)
        inward, outward = summed(wet, INSIDE, 0.3), summed(wet, OUTSIDE, 2.0)
        assert 0.2 < outward < 3.0
        for place in ("wall", "wall.board"):
            assert facts.value(f"{place}.drying_inward") == pytest.approx(inward, rel=1e-6)
            assert facts.value(f"{place}.drying_outward") == pytest.approx(outward, rel=1e-6)
        net = math.fsum(
            max(0.0, DELTA * t * ((s - i) / 0.3 + (s - o) / 2.0))
            for s, i, o, t in zip(wet, INSIDE, OUTSIDE, SECONDS, strict=True)
        )
        assert facts.value("wall.drying_net") == pytest.approx(net, rel=1e-6)
        assert facts.value("wall.board.drying_net") == facts.value("wall.drying_net")
        assert facts.value("wall.drying_moved") == 0.0
        assert facts.value("wall.drying_net") <= inward + outward

    def test_a_closed_air_layer_counts_a_centimetre(self, moist, section_document):
        # ISO 13788:2012, 4.4 (memory): 0.01 m of still air, whatever its depth
        document = section_document(THREE, SET_POINT)
        gap = {"id": "gap", "material": "air-cavity", "thickness": "40 mm", "ventilation": "none"}
        document["assemblies"]["wall"]["layers"].insert(1, gap)
        facts = moist(document)
        before = 0.13 + 0.05 + facts.value("wall.gap.resistance") + 2.0
        wet = saturation_at(before, before + 0.1 + 0.04)
        assert facts.value("wall.drying_inward") == pytest.approx(summed(wet, INSIDE, 0.31), rel=1e-6)

    def test_it_dries_by_wet_cups(self, moist, section_document):
        document = section_document(THREE, SET_POINT)
        board = document["assemblies"]["wall"]["layers"][2]
        board["permeance"] = {"dry-cup": "sd 40 m", "wet-cup": "sd 2 m"}
        lining = document["assemblies"]["wall"]["layers"][0]
        lining["permeance"] = {"dry-cup": "sd 5 m", "wet-cup": "sd 0.1 m"}
        facts = moist(document)
        wet = saturation_at(0.13 + 0.05 + 2.0, 0.13 + 2.15 + 0.04)
        assert facts.value("wall.drying_outward") == pytest.approx(summed(wet, OUTSIDE, 2.0), rel=1e-6)
        assert facts.value("wall.drying_inward") == pytest.approx(summed(wet, INSIDE, 0.3), rel=1e-6)

    def test_each_layer_that_moisture_harms_has_its_own(self, moist, section_document):
        layers = (
            ("lining", 0.05, 0.1, "fibre-cement-siding"),
            ("inner", 0.1, 1.0, "osb"),
            ("wool", 2.0, 0.2, "mineral-wool-batt"),
            ("board", 0.1, 2.0, "plywood"),
        )
        facts = moist(section_document(layers, SET_POINT))
        warm = saturation_at(0.13 + 0.05, 0.13 + 2.25 + 0.04)
        assert facts.value("wall.inner.drying_inward") == pytest.approx(summed(warm, INSIDE, 0.1), rel=1e-6)
        # away from the warm face vapour meets colder places: no more than passes the coldest of them, at saturation
        # there, gets out, and the rest is moved
        cold = saturation_at(0.13 + 2.15, 0.13 + 2.25 + 0.04)
        assert facts.value("wall.inner.drying_outward") <= summed(cold, OUTSIDE, 2.0) * (1 + 1e-9)
        assert facts.value("wall.inner.drying_outward") <= summed(warm, OUTSIDE, 3.2) * (1 + 1e-9)
        assert facts.value("wall.inner.drying_moved") > 0.0
        assert facts["wall.wool.drying_inward"].inapplicable
        assert "does not harm" in facts["wall.wool.drying_inward"].method
        # of the assembly it is that of the condensing plane
        assert facts.value("wall.drying_inward") == facts.value("wall.board.drying_inward")

    def test_under_a_tight_skin_it_goes_to_the_skin_and_no_further(self, moist, section_document):
        # What leaves the wet face outward condenses under the skin, through the board at the saturation of both its
        # faces; outdoors arrives what passes the skin from there, over 1500 m.
        layers = (*THREE, ("skin", 0.0, 1500.0, "epdm-membrane"))
        facts = moist(section_document(layers, SET_POINT))
        whole = 0.13 + 2.15 + 0.04
        wet, under_skin = saturation_at(0.13 + 2.05, whole), saturation_at(0.13 + 2.15, whole)
        passing = summed(under_skin, OUTSIDE, 1500.0)
        assert facts.value("wall.drying_outward") == pytest.approx(passing, rel=1e-6)
        assert facts.value("wall.drying_moved") == pytest.approx(
            summed(wet, under_skin, 2.0) - passing, rel=0.01
        )
        assert 1e-4 < facts.value("wall.drying_outward") < 0.02 * facts.value("wall.drying_moved")

    def test_the_months_of_each_wet_layer_stand_in_its_table(self, moist, section_document):
        facts = moist(section_document(THREE, SET_POINT))
        facts.value("wall.drying_net")
        table = facts.surveyed.ledger.page("layer", "wall.board").table
        assert (table.is_plane, table.assembly, table.face) == (True, "wall", "inner face of wall.board")
        wet = saturation_at(0.13 + 0.05 + 2.0, 0.13 + 2.15 + 0.04)
        for row, s, i, o, t in zip(table.months, wet, INSIDE, OUTSIDE, SECONDS, strict=True):
            assert row.inward == pytest.approx(DELTA * t * (s - i) / 0.3, rel=1e-6)
            assert row.outward == pytest.approx(DELTA * t * (s - o) / 2.0, rel=1e-6)
            assert row.moved == 0.0
        assert table.months[0].month == "January"
        assert table.best.net == max(row.net for row in table.months)
        assert facts.value("wall.drying_months") == sum(row.net > 0.0 for row in table.months)
        assert f"most in {table.best.month}" in facts["wall.drying_net"].method
        assert facts.surveyed.ledger.page("layer", "wall.wool").table is None


class TestSummer:
    """A cooled building: the outer face of the inside retarder against the outdoor dew point."""

    HOT = (24.0, 25.0, 26.0, 27.0, 28.0, 29.0, 30.0, 30.0, 28.5, 27.0, 26.0, 25.0)
    HUMID = (2000.0, 2100.0, 2200.0, 2400.0, 2700.0, 3000.0, 3200.0, 3300.0, 3100.0, 2700.0, 2400.0, 2100.0)
    LAYERS = (
        ("lining", 0.05, 0.1, "gypsum-board"),
        ("vinyl", 0.0, 15.0, "polyethylene-film"),
        ("wool", 2.0, 0.2, "mineral-wool-batt"),
        ("board", 0.1, 1.0, "plywood"),
    )

    def test_by_hand(self, moist, section_document):
        # Rooms at 24 °C (common practice, no source); June to August are the warmest: 3167 Pa, dew 25.0 °C.
        facts = moist(section_document(self.LAYERS, SET_POINT), self.HOT, self.HUMID)
        assert facts.value("wall.summer_plane") == "wall.vinyl"
        dew = facts.value("climate.summer_dew_point")
        assert dew == pytest.approx(dew_point((3000.0 + 3200.0 + 3300.0) / 3), abs=1e-6)
        outer_face = 24 + (30 - 24) * (0.13 + 0.05) / (0.13 + 2.15 + 0.04)
        assert facts.value("wall.summer_margin") == pytest.approx(outer_face - dew, abs=1e-9)
        assert facts.value("wall.summer_margin") < 0.0

    def test_rooms_declared_cooler_are_taken_at_their_word(self, moist, section_document):
        indoor = {"temperature": "20 °C", "humidity": "50 %", "cooled": True}
        facts = moist(section_document(self.LAYERS, indoor), self.HOT, self.HUMID)
        outer_face = 20 + (30 - 20) * (0.13 + 0.05) / (0.13 + 2.15 + 0.04)
        dew = facts.value("climate.summer_dew_point")
        assert facts.value("wall.summer_margin") == pytest.approx(outer_face - dew, abs=1e-9)

    def test_cooled_rooms_are_drier_than_the_air_outdoors(self, moist, section_document):
        # rooms at 50 % all year take up what condensed on the sheet; rooms as damp as outdoors take up nothing
        indoor = {"temperature": "20 °C", "humidity": "50 %"}
        found = {}
        for cooled in (True, False):
            facts = moist(section_document(self.LAYERS, {**indoor, "cooled": cooled}), self.HOT, self.HUMID)
            found[cooled] = facts.value("wall.board.drying_inward")
        assert found[True] > found[False]

    def test_in_a_mild_summer_it_stays_above(self, moist, section_document):
        facts = moist(section_document(self.LAYERS, SET_POINT))
        outer_face = 24 + (18 - 24) * (0.13 + 0.05) / (0.13 + 2.15 + 0.04)
        dew = facts.value("climate.summer_dew_point")
        assert facts.value("wall.summer_margin") == pytest.approx(outer_face - dew, abs=1e-9)
        assert facts.value("wall.summer_margin") > 5.0

    def test_more_resistance_outside_of_it_cools_it_in_a_hot_summer(self, moist, section_document):
        thick = [*self.LAYERS[:2], ("wool", 6.0, 0.2, "mineral-wool-batt"), self.LAYERS[3]]
        margins = [
            moist(section_document(layers, SET_POINT), self.HOT, self.HUMID).value("wall.summer_margin")
            for layers in (self.LAYERS, thick)
        ]
        assert margins[1] < margins[0]

    def test_insulation_as_the_first_layer_has_no_retarder_inside(self, moist, section_document):
        facts = moist(section_document(self.LAYERS[2:], SET_POINT))
        assert facts["wall.summer_margin"].inapplicable
        assert facts["wall.summer_plane"].inapplicable
