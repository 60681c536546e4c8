"""The two-season period balance and the drying reserve of declared assemblies: textbook cases, worked cases, by hand.

The balance of DIN 4108-3 has films of its own, 0.25 inside and 0.04 outside, and its own climate: what a document says
of place and rooms does not move it.
"""

import pytest

from speccheck.physics.air_leakage import air_density
from speccheck.physics.psychrometrics import saturation_pressure

PARTICLEBOARDS = (
    ("inner", 0.15, 0.95, "particleboard", {"thickness": "19 mm"}),
    ("retarder", 0.0, 2.0, "polyethylene-film"),
    ("wool", 4.0, 0.16, "mineral-wool-batt"),
    ("outer", 0.15, 1.9, "particleboard", {"thickness": "19 mm", "density": "700 kg/m³"}),
)
FLAT_ROOF = (
    ("concrete", 0.086, 12.6, "concrete"),
    ("retarder", 0.0, 20.0, "polyethylene-film"),
    ("foam", 3.5, 4.2, "eps"),
    ("membrane", 0.0, 600.0, "epdm-membrane"),
)


def two_planes(inner, outer, board):
    return (
        ("lining", 0.05, 0.5, "gypsum-board"),
        ("inner-wool", inner, 0.1, "mineral-wool-batt"),
        ("sheathing", 0.1, 3.0, "plywood"),
        ("outer-wool", outer, 0.1, "mineral-wool-batt"),
        ("board", 0.05, board, "fibre-cement-siding"),
    )


def masses(facts):
    return facts.value("wall.period_condensed"), facts.value("wall.period_evaporable")


class TestTextbookCases:
    """A building-physics textbook, section 13.2.5, examples a and b after DIN 4108-3 (read in study notes)."""

    def test_wall_of_two_particleboards(self, moist, section_document):
        facts = moist(section_document(PARTICLEBOARDS))
        condensed, evaporable = masses(facts)
        assert condensed == pytest.approx(0.27, abs=0.003)  # the book rounds temperatures to 0.1 K first
        assert evaporable == pytest.approx(0.659, abs=0.001)
        assert facts.value("wall.period_dries") is True
        assert facts.value("wall.period_reserve") == pytest.approx(0.659 - 0.27, abs=0.004)
        assert facts.value("wall.period_place") == "inner face of wall.outer"
        assert facts.value("wall.period_beside_nonabsorbent") is True
        assert facts.value("wall.period_wood_kind") == "panel"
        assert 100 * facts.value("wall.period_wood_gain") == pytest.approx(2.0, abs=0.05)

    def test_concrete_flat_roof(self, moist, section_document):
        facts = moist(section_document(FLAT_ROOF, kind="roof"))
        condensed, evaporable = masses(facts)
        assert condensed == pytest.approx(0.032, abs=0.0005)
        assert evaporable == pytest.approx(0.036, abs=0.0005)
        assert facts.value("wall.period_dries") is True
        assert facts.value("wall.period_place") == "inner face of wall.membrane"
        for name in ("period_wood_gain", "period_wood_kind"):
            assert facts[f"wall.{name}"].inapplicable

    def test_under_the_pressure_of_walls_the_roof_does_not_dry(self, moist, section_document):
        # Negative control: 1700 Pa at the plane instead of the 2000 Pa of a roof that the sun warms.
        assert moist(section_document(FLAT_ROOF, kind="wall")).value("wall.period_dries") is False


class TestTwoPlanes:
    """C4 and C4b: two planes, worked out beside this code (computed, not outside evidence)."""

    def test_both_dry_within_the_period(self, moist, section_document):
        facts = moist(section_document(two_planes(3.0, 1.0, 5.0)))
        assert masses(facts) == pytest.approx((1.217324, 1.431803), rel=0.001)
        assert facts.value("wall.period_dries") is True
        assert facts.value("wall.period_place") == "inner face of wall.sheathing"

    def test_the_outer_one_does_not_dry_alone(self, moist, section_document):
        facts = moist(section_document(two_planes(2.0, 2.0, 10.0)))
        assert masses(facts) == pytest.approx((0.382057, 0.370239), rel=0.001)
        assert facts.value("wall.period_dries") is False
        assert facts.value("wall.period_reserve") == pytest.approx(0.370239 - 0.382057, abs=0.0005)
        assert facts.value("wall.period_place") == "inner face of wall.board"


class TestItsOwnClimate:
    """Neither the place nor the rooms of the document take part."""

    def test_place_and_rooms_do_not_move_it(self, moist, section_document):
        one = moist(section_document(PARTICLEBOARDS))
        other = moist(
            section_document(PARTICLEBOARDS, {"temperature": "25 °C", "humidity": "70 %"}), -30.0, 30.0
        )
        assert masses(one) == masses(other)

    def test_a_ventilated_cladding_takes_no_part(self, moist, section_document):
        clad = moist(section_document((*PARTICLEBOARDS, "cavity", ("siding", 0.1, 4.0, "wood-siding"))))
        assert masses(clad) == masses(moist(section_document(PARTICLEBOARDS)))


class TestNothingCondenses:
    """A wall tight inside has a reserve all the same: what could dry from where it is dampest."""

    def test_reserve_by_hand(self, moist, section_document):
        # sd 10 m inside, 0.2 wool, 0.2 outside: the inner face of the board dries over 10.2 m and over 0.2 m.
        tight = (
            ("lining", 0.05, 10.0, "gypsum-board"),
            ("wool", 4.0, 0.2, "mineral-wool-batt"),
            ("board", 0.05, 0.2, "plywood"),
        )
        facts = moist(section_document(tight))
        assert facts.value("wall.period_condensed") == 0.0
        by_hand = 2e-10 * 500.0 * (1 / 10.2 + 1 / 0.2) * 7_776_000
        assert facts.value("wall.period_reserve") == pytest.approx(by_hand, rel=1e-6)
        for name in ("place", "beside_nonabsorbent", "wood_gain", "wood_kind"):
            assert facts[f"wall.period_{name}"].inapplicable


class TestWood:
    """What the condensate adds to wood, by hand: mass over thickness and density."""

    @pytest.mark.parametrize(
        ("board", "kind", "density"),
        [
            ({"material": "softwood", "density": "400 kg/m³"}, "wood", 400.0),
            ({"material": "particleboard"}, "panel", 640.0),  # of the material table
            (
                {"material": "oriented-strand-board", "density": "600 kg/m³"},
                "panel",
                600.0,
            ),  # osb by its other name
            ({"material": "plywood", "density": "550 kg/m³"}, "panel", 550.0),
        ],
    )
    def test_gain_of_the_board_at_the_plane(self, moist, section_document, board, kind, density):
        layers = (
            *PARTICLEBOARDS[:3],
            ("outer", 0.15, 1.9, board["material"], {**board, "thickness": "16 mm"}),
        )
        facts = moist(section_document(layers))
        assert facts.value("wall.period_wood_kind") == kind
        gain = facts.value("wall.period_condensed") / (0.016 * density)
        assert facts.value("wall.period_wood_gain") == pytest.approx(gain, rel=1e-9)

    def test_wood_inside_the_plane_counts_where_the_outer_layer_is_none(self, moist, section_document):
        layers = (
            ("lining", 0.05, 0.3, "gypsum-board"),
            ("wool", 4.0, 0.16, "mineral-wool-batt"),
            ("board", 0.01, 0.02, "plywood", {"thickness": "18 mm", "density": "500 kg/m³"}),
            ("skin", 0.0, 50.0, "epdm-membrane"),
        )
        facts = moist(section_document(layers))
        assert facts.value("wall.period_place") == "inner face of wall.skin"
        assert facts.value("wall.period_wood_gain") == pytest.approx(
            facts.value("wall.period_condensed") / 9.0, rel=1e-9
        )

    def test_a_board_of_no_thickness_asks_for_it(self, moist, section_document):
        document = section_document(PARTICLEBOARDS)
        del document["assemblies"]["wall"]["layers"][3]["thickness"]
        facts = moist(document)
        assert [gap.question for gap in facts["wall.period_wood_gain"].missing] == [
            "How thick is wall.outer?"
        ]
        assert facts.value("wall.period_wood_kind") == "panel"


class TestBesideWhatTakesNoWater:
    """DIN 4108-3:2018, 5.2.2 (read in textbook notes): metal, foil, normal concrete, foam, mineral wool."""

    @pytest.mark.parametrize(
        ("insulation", "outer", "expected"),
        [
            ("mineral-wool-batt", "plywood", True),
            ("xps", "plywood", True),
            ("cellulose-dense-pack", "plywood", False),
            ("wood-fibre-batt", "plywood", False),
            ("cellulose-dense-pack", "clay-brick", False),
            ("cellulose-dense-pack", "concrete", True),
            ("cellulose-dense-pack", "epdm-membrane", True),
            ("cellulose-dense-pack", "concrete-reinforced", True),
            ("cellulose-dense-pack", "steel-siding", True),
            ("cellulose-dense-pack", "vinyl-siding", True),
            ("cellulose-dense-pack", "fibre-cement-siding", False),
            ("cellulose-dense-pack", "autoclaved-aerated-concrete", False),
        ],
    )
    def test_by_the_layers_at_the_plane(self, moist, section_document, insulation, outer, expected):
        layers = (
            ("lining", 0.05, 0.3, "gypsum-board"),
            ("fill", 4.0, 0.4, insulation),
            ("outer", 0.05, 20.0, outer),
        )
        facts = moist(section_document(layers))
        assert facts.value("wall.period_place") == "inner face of wall.outer"
        assert facts.value("wall.period_beside_nonabsorbent") is expected


class TestLeakage:
    """The reserve less what leaking air would leave in 90 days, all of it condensing."""

    def project(self, **more):
        return {"airtightness": {"target": "3 m³/(h·m²) at 50 Pa"}, **more}

    def test_by_hand(self, moist, section_document):
        # Two storeys of 2.5 m: neutral plane at half of 5 m. Stack by density, power law with 0.65, vapour by gas law.
        indoor = {"temperature": "20 °C", "humidity": "50 %"}
        facts = moist(section_document(PARTICLEBOARDS, indoor, project=self.project(storeys=2)))
        winter = facts.value("climate.winter_mean_temperature")
        assert winter == pytest.approx((-1.0 + 0.0 + 1.0) / 3, abs=0.06)
        plane = facts.value("wall.plane_temperature")
        push = 9.81 * 2.5 * (air_density(winter) - air_density(20.0))
        flow = 3 / 3600 * (push / 50) ** 0.65
        excess = 0.5 * saturation_pressure(20.0) - saturation_pressure(plane)
        deposit = flow * excess / (461.5 * 293.15) * 90 * 86400
        assert deposit > 0.1
        left = facts.value("wall.period_reserve") - deposit
        assert facts.value("wall.reserve_after_leakage") == pytest.approx(left, rel=0.001)

    def test_a_leakier_target_leaves_less(self, moist, section_document):
        indoor = {"temperature": "20 °C", "humidity": "50 %"}
        found = [
            moist(
                section_document(
                    PARTICLEBOARDS, indoor, project={"airtightness": {"target": f"{q} m³/(h·m²) at 50 Pa"}}
                )
            ).value("wall.reserve_after_leakage")
            for q in (1, 2, 6)
        ]
        assert found == sorted(found, reverse=True)

    @pytest.mark.parametrize("project", [{}, {"airtightness": {"target": "1.5 ACH50"}}])
    def test_what_no_target_tells_is_assumed_and_said(self, moist, section_document, project):
        indoor = {"temperature": "20 °C", "humidity": "50 %"}
        fact = moist(section_document(PARTICLEBOARDS, indoor, project=project))["wall.reserve_after_leakage"]
        declared = moist(section_document(PARTICLEBOARDS, indoor, project=self.project()))
        assert fact.value == pytest.approx(declared.value("wall.reserve_after_leakage"), rel=1e-9)
        assert any("leakage of 3 m³/(h·m²) at 50 Pa" in words for words in fact.assumed)
        assert not any("3 m³/(h·m²)" in words for words in declared["wall.reserve_after_leakage"].assumed)

    def test_air_changes_with_volume_and_area_tell_it(self, moist, section_document):
        # 1.5 air changes of 400 m³ through 200 m² are 3 m³/(h·m²)
        indoor = {"temperature": "20 °C", "humidity": "50 %"}
        house = {"airtightness": {"target": "1.5 ACH50"}, "volume": "400 m³", "enclosure-area": "200 m²"}
        by_change = moist(section_document(PARTICLEBOARDS, indoor, project=house))
        by_area = moist(section_document(PARTICLEBOARDS, indoor, project=self.project()))
        name = "wall.reserve_after_leakage"
        assert by_change.value(name) == pytest.approx(by_area.value(name), rel=1e-9)

    def test_a_target_at_another_pressure_is_brought_to_50_pa(self, moist, section_document):
        # 3·1.5^0.65 m³/(h·m²) at 75 Pa are 3 at 50 Pa
        indoor = {"temperature": "20 °C", "humidity": "50 %"}
        other = {"airtightness": {"target": f"{3 * 1.5**0.65!r} m³/(h·m²) at 75 Pa"}}
        found = [
            moist(section_document(PARTICLEBOARDS, indoor, project=one)) for one in (other, self.project())
        ]
        values = [facts.value("wall.reserve_after_leakage") for facts in found]
        assert values[0] == pytest.approx(values[1], rel=1e-6)
