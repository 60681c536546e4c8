"""How much of the drying season the water needs, and how long enclosed water takes to leave."""

import pytest

from speccheck.physics.psychrometrics import saturation_pressure

CLASS_2, CLASS_3 = ({"temperature": "20 °C", "humidity-class": number} for number in (2, 3))
# The reference wall: computed by half-hour stepping and by a complementarity solution, not by this code; in g/m² at the
# end of each month from December in class 2. April to June dry 62.35 and 163.02 whole.
WALL = (
    ("lining", 0.05, 0.1, "gypsum-board"),
    ("retarder", 0.0, 2.0, "polyethylene-film"),
    ("wool", 4.0, 0.16, "mineral-wool-batt"),
    ("cladding", 0.06, 3.0, "fibre-cement-siding"),
)


class TestSeason:
    """The peak over what leaves in the months after it."""

    def test_of_the_reference_wall(self, moist, section_document, year_table):
        facts = moist(section_document(WALL, CLASS_2))
        share = facts.value("wall.moisture_season_share")
        peak = facts.value("wall.moisture_peak")
        assert 1000 * peak == pytest.approx(361.21, rel=0.001)
        # what is known of the season: the first two whole months of drying
        assert peak / share > (62.35 + 163.02) / 1000
        assert 0.2 < share < 1.0

    def test_it_tells_what_dries_from_what_does_not(self, moist, section_document):
        roof = (
            ("lining", 0.14, 0.9, "gypsum-board"),
            ("retarder", 0.0, 20.0, "polyethylene-film"),
            ("foam", 4.0, 6.0, "eps"),
            ("membrane", 0.03, 100.0, "epdm-membrane"),
        )
        dries, stays = (moist(section_document(roof, c, kind="roof")) for c in (CLASS_2, CLASS_3))
        assert (dries.value("wall.moisture_verdict"), stays.value("wall.moisture_verdict")) == (
            "dries",
            "accumulates",
        )
        assert dries.value("wall.moisture_season_share") < 1.0 < stays.value("wall.moisture_season_share")

    def test_by_hand_where_one_month_condenses(self, moist, section_document):
        # Rooms and weather alike but for a January at -10 °C: what came in it leaves from the same place in the others.
        outside = (-10.0, *[15.0] * 11)
        layers = (
            ("lining", 0.1, 1.0, "gypsum-board"),
            ("wool", 2.0, 0.2, "mineral-wool-batt"),
            ("skin", 0.1, 20.0, "osb"),
        )
        indoor = {"temperature": "20 °C", "humidity": "40 %"}
        facts = moist(section_document(layers, indoor), outside, 300.0)
        whole, before = 0.13 + 2.2 + 0.04, 0.13 + 2.1
        room = 0.40 * saturation_pressure(20.0)

        def leaves(outdoor, days):
            plane = saturation_pressure(20.0 + (outdoor - 20.0) * before / whole)
            return 2e-10 * ((plane - room) / 1.2 + (plane - 300.0) / 20.0) * days * 86400.0

        peak = -leaves(-10.0, 31)
        season = leaves(15.0, 365 - 31)
        assert facts.value("wall.moisture_peak") == pytest.approx(peak, rel=1e-6)
        assert facts.value("wall.moisture_season_share") == pytest.approx(peak / season, rel=1e-6)

    def test_nothing_condenses(self, moist, section_document):
        tight = (("film", 0.0, 200.0, "polyethylene-film"), *WALL[2:])
        assert moist(section_document(tight, CLASS_2))["wall.moisture_season_share"].inapplicable


class TestEnclosed:
    """ISO 13788:2012, 7 (memory): 1 kg/m² in the middle, up to ten years."""

    def closed(self, section_document, sd, kind="wall"):
        layers = (
            ("film", 0.0, sd, "polyethylene-film"),
            ("wool", 4.0, 0.2, "mineral-wool-batt"),
            ("skin", 0.0, sd, "osb"),
        )
        return section_document(layers, CLASS_2, kind=kind)

    def test_a_tighter_section_takes_longer(self, moist, section_document):
        months = [
            moist(self.closed(section_document, sd)).value("wall.enclosed_water_months")
            for sd in (2.0, 10.0, 30.0)
        ]
        assert months == sorted(months)
        assert months[0] < months[2]

    def test_by_bounds(self, moist, section_document):
        # At most saturation at 20 °C over 10 m to either side for a year: 2.9 kg/m². One kilogram takes four months or more.
        months = moist(self.closed(section_document, 10.0)).value("wall.enclosed_water_months")
        most = 2 * 2e-10 * saturation_pressure(20.0) / 10.0 * 86400.0 * 31
        assert months >= 1.0 / most

    def test_between_foils_it_stays(self, moist, section_document):
        facts = moist(self.closed(section_document, 1e5))
        assert facts.value("wall.enclosed_water_dries") is False
        assert facts.value("wall.enclosed_water_months") == 120.0
        assert "10 years" in facts["wall.enclosed_water_months"].method
