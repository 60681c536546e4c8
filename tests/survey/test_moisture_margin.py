"""How near the verdict is to its limit, and how long enclosed water takes to leave."""

import pytest

from speccheck.physics.psychrometrics import saturation_pressure

CLASS_2, CLASS_3 = ({"temperature": "20 °C", "humidity-class": number} for number in (2, 3))
ROOF = (
    ("lining", 0.14, 0.9, "gypsum-board"),
    ("retarder", 0.0, 20.0, "polyethylene-film"),
    ("foam", 4.0, 6.0, "eps"),
    ("membrane", 0.03, 100.0, "epdm-membrane"),
)


class TestHigherLoad:
    """The verdict with 1.25 times the excess of vapour indoors."""

    def verdicts(self, facts):
        return facts.value("wall.moisture_verdict"), facts.value("wall.moisture_by_higher_load")

    def test_far_from_the_limit_both_are_the_same(self, moist, section_document):
        wall = (
            ("lining", 0.05, 0.1, "gypsum-board"),
            ("retarder", 0.0, 2.0, "polyethylene-film"),
            ("wool", 4.0, 0.16, "mineral-wool-batt"),
            ("cladding", 0.06, 3.0, "fibre-cement-siding"),
        )
        assert self.verdicts(moist(section_document(wall, CLASS_2))) == ("dries", "dries")

    def test_it_turns_with_the_humidity_that_a_quarter_more_is(self, moist, section_document):
        # By the other road: a year of one weather has one excess, and a quarter more of it is another set-point.
        outside, weather = (0.0, 2.0, 4.0, 8.0, 12.0, 15.0, 16.0, 16.0, 12.0, 8.0, 4.0, 2.0), 500.0
        found = {}
        for percent in range(30, 90, 2):
            indoor = {"temperature": "20 °C", "humidity": f"{percent} %"}
            facts = moist(section_document(ROOF, indoor, kind="roof"), outside, weather)
            found[percent] = self.verdicts(facts)
        assert {true for true, _ in found.values()} >= {"dries", "accumulates"}
        turns = min(percent for percent, (true, _) in found.items() if true == "accumulates")
        near = min(percent for percent, (_, loaded) in found.items() if loaded == "accumulates")
        whole = saturation_pressure(20.0)
        excess = 0.01 * turns * whole - weather
        assert near < turns
        assert 0.01 * near * whole - weather == pytest.approx(excess / 1.25, abs=0.02 * whole)

    def test_no_weather_no_verdict(self, moist, section_document):
        document = section_document(ROOF, CLASS_3, kind="roof")
        del document["project"]["place"]
        facts = moist(document)
        assert facts["wall.moisture_by_higher_load"].missing == facts["wall.moisture_verdict"].missing != ()


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
