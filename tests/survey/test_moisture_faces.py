"""The wooden faces toward the cold by hand, what their material bears, and the months in which the plane is damp."""

import pytest

from speccheck.physics.psychrometrics import saturation_pressure, vapour_pressure
from speccheck.physics.wood import equilibrium_moisture_content
from speccheck.survey.moisture import MOISTURE_FACTS
from speccheck.tables.materials import material

TEMPERATURES = (-1.0, 0.0, 4.0, 9.0, 14.0, 17.0, 18.0, 18.0, 14.0, 9.0, 4.0, 1.0)
HUMIDITIES = (0.85, 0.84, 0.78, 0.72, 0.70, 0.70, 0.72, 0.74, 0.78, 0.83, 0.88, 0.88)
OUTSIDE = [vapour_pressure(t, rh) for t, rh in zip(TEMPERATURES, HUMIDITIES, strict=True)]
SET_POINT = {"temperature": "20 °C", "humidity": "30 %"}
INSIDE = [max(pressure, vapour_pressure(20.0, 0.30)) for pressure in OUTSIDE]
STUDS = {"material": "softwood", "fraction": 0.15, "conductivity": "0.12 W/(m·K)"}
FACES = [name for name in MOISTURE_FACTS if name.startswith(("sheathing_", "framing_"))]

WALL = (
    ("lining", 0.05, 2.0, "gypsum-board"),
    ("wool", 3.0, 0.2, "mineral-wool-batt", {"framed": True, "thickness": "140 mm"}),
    ("board", 0.1, 1.0, "osb"),
)


def by_hand(before, whole, sd_before, sd_whole):
    """Temperature and humidity by month at a place with so much resistance and sd before it, where nothing condenses."""
    found = []
    for outside, p_in, p_out in zip(TEMPERATURES, INSIDE, OUTSIDE, strict=True):
        temperature = 20.0 + (outside - 20.0) * before / whole
        pressure = p_in + (p_out - p_in) * sd_before / sd_whole
        found.append((temperature, pressure / saturation_pressure(temperature)))
    return found


class TestFaces:
    """Series resistance and a straight vapour line; moisture content by the Wood Handbook equation, tested elsewhere."""

    def test_the_sheathing_between_the_studs(self, moist, section_document, year_table):
        facts = moist(section_document(WALL, SET_POINT, framing=STUDS))
        face = year_table(facts).wood[0]
        expected = by_hand(0.13 + 3.05, 0.13 + 3.15 + 0.04, 2.2, 3.2)
        assert (face.role, face.words) == ("sheathing", "inner face of wall.board")
        assert face.temperature == pytest.approx([t for t, _ in expected], abs=1e-9)
        assert face.humidity == pytest.approx([rh for _, rh in expected], rel=1e-9)
        assert face.moisture == pytest.approx([equilibrium_moisture_content(*one) for one in expected])
        assert facts.value("wall.sheathing_rh_max") == pytest.approx(max(rh for _, rh in expected), rel=1e-9)
        assert facts.value("wall.sheathing_wood_moisture") == max(face.moisture)

    def test_the_framing_where_it_meets_the_sheathing(self, moist, section_document, year_table):
        facts = moist(section_document(WALL, SET_POINT, framing=STUDS))
        face = year_table(facts).wood[1]
        wood = 2e-10 / material("softwood").row_for(0.14).permeance("dry").value
        member = 0.14 / 0.12
        expected = by_hand(0.13 + 0.05 + member, 0.13 + 0.15 + member + 0.04, 2.0 + wood, 3.0 + wood)
        assert (face.role, face.words) == ("framing", "outer face of the framing in wall.wool")
        assert face.temperature == pytest.approx([t for t, _ in expected], abs=1e-9)
        assert face.humidity == pytest.approx([rh for _, rh in expected], rel=1e-6)
        assert facts.value("wall.framing_rh_max") == pytest.approx(max(face.humidity), rel=1e-12)
        # vapour reaches it through 140 mm of wood, so it is drier than the sheathing between the studs
        assert facts.value("wall.framing_wood_moisture") < facts.value("wall.sheathing_wood_moisture")

    def test_what_the_material_bears(self, moist, section_document):
        # Material table: 19 % solid wood (practice, read), 18 % panels (memory).
        facts = moist(section_document(WALL, SET_POINT, framing=STUDS))
        assert facts.value("wall.sheathing_moisture_limit") == pytest.approx(0.18)
        assert facts.value("wall.framing_moisture_limit") == pytest.approx(0.19)
        assert facts.value("wall.plane_moisture_limit") == pytest.approx(0.18)
        for role in ("sheathing", "framing"):
            margin = facts.value(f"wall.{role}_moisture_margin")
            limit = facts.value(f"wall.{role}_moisture_limit")
            assert margin == pytest.approx(limit - facts.value(f"wall.{role}_wood_moisture"))
        assert facts["wall.sheathing_moisture_limit"].source

    def test_a_wet_face_is_saturated_and_no_more(self, moist, section_document, year_table):
        wet = (("lining", 0.05, 0.1, "gypsum-board"), WALL[1], ("board", 0.1, 5.0, "osb"))
        facts = moist(section_document(wet, {"temperature": "20 °C", "humidity": "60 %"}, framing=STUDS))
        assert facts.value("wall.sheathing_rh_max") == 1.0
        # fibre saturation lies near 28 % (Wood Handbook, chapter 4, memory)
        assert 0.25 < facts.value("wall.sheathing_wood_moisture") < 0.32
        assert facts.value("wall.sheathing_moisture_margin") < 0.0

    def test_no_face_where_there_is_no_wood(self, moist, section_document, year_table):
        layers = (WALL[0], WALL[1], ("board", 0.1, 1.0, "fibre-cement-siding"))
        facts = moist(section_document(layers, SET_POINT, framing={"material": "steel", "fraction": 0.1}))
        assert year_table(facts).wood == ()
        assert all(facts[f"wall.{name}"].inapplicable for name in FACES)
        assert facts["wall.plane_moisture_limit"].inapplicable

    def test_framing_with_nothing_outboard_is_the_weather_s(self, moist, section_document):
        facts = moist(section_document(WALL[:2], SET_POINT, framing=STUDS))
        assert facts["wall.framing_rh_max"].inapplicable

    def test_what_the_year_asks_the_faces_ask(self, moist, section_document):
        document = section_document(WALL, SET_POINT, framing=STUDS)
        del document["project"]["place"]
        facts = moist(document)
        verdict = facts["wall.moisture_verdict"].missing
        assert verdict
        assert all(facts[f"wall.{name}"].missing == verdict for name in FACES)


class TestSurfaceByMonth:
    """ISO 13788:2012, 5 (read in textbook notes): the surface that is at 80 % in each month, over the way to outdoors."""

    def test_by_hand(self, moist, section_document, year_table):
        factors = year_table(moist(section_document(WALL, SET_POINT, framing=STUDS))).surface_factors
        for factor, outside, pressure in zip(factors, TEMPERATURES, INSIDE, strict=True):
            surface = outside + factor * (20.0 - outside)
            assert saturation_pressure(surface) == pytest.approx(pressure / 0.8, rel=1e-6)

    def test_the_month_that_governs_asks_most(self, moist, section_document, year_table):
        facts = moist(section_document(WALL, SET_POINT, framing=STUDS))
        factors = year_table(facts).surface_factors
        assert max(factors) == facts.value("wall.frsi_required")
        month = year_table(facts).months[factors.index(max(factors))].month
        assert month == facts.value("wall.frsi_required_month")

    def test_warmer_outdoors_asks_nothing(self, moist, section_document, year_table):
        facts = moist(section_document(WALL, SET_POINT, framing=STUDS), 25.0, 1500.0)
        assert year_table(facts).surface_factors == (None,) * 12


class TestDampWhileWarm:
    """80 % and more while at 5 to 40 °C (ASHRAE 160-2009, read in an abstract), at the plane."""

    def test_by_hand(self, moist, section_document):
        facts = moist(section_document(WALL, SET_POINT, framing=STUDS))
        plane = by_hand(0.13 + 3.05, 0.13 + 3.15 + 0.04, 2.2, 3.2)
        counts = [rh >= 0.8 and 5.0 <= t <= 40.0 for t, rh in plane]
        assert facts.value("wall.plane_damp_months") == sum(counts)
        assert facts.value("wall.plane_damp_run") <= facts.value("wall.plane_damp_months")

    def test_an_open_inside_makes_the_run_longer(self, moist, section_document):
        runs = []
        for sd in (0.1, 20.0):
            layers = (("lining", 0.05, sd, "gypsum-board"), WALL[1], ("board", 0.1, 5.0, "osb"))
            facts = moist(
                section_document(layers, {"temperature": "20 °C", "humidity": "60 %"}, framing=STUDS)
            )
            runs.append(facts.value("wall.plane_damp_run"))
        assert runs[0] >= 2 > runs[1]

    def test_no_plane_no_months(self, moist, section_document):
        facts = moist(section_document(WALL[:2], SET_POINT, framing=STUDS))
        assert facts["wall.plane_damp_months"].inapplicable
