"""The humidity and the outboard resistance at which a verdict turns, and what must hold of any section: order, mirrors,
monotony, the same facts twice."""

import copy
import json

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from speccheck.physics.psychrometrics import saturation_pressure, vapour_pressure
from speccheck.survey.moisture import MOISTURE_FACTS

NEAR = 1.0 / 256.0
WALL = (
    ("lining", 0.05, 0.1, "gypsum-board"),
    ("retarder", 0.0, 2.0, "polyethylene-film"),
    ("wool", 4.0, 0.16, "mineral-wool-batt"),
    ("cladding", 0.06, 3.0, "fibre-cement-siding"),
)
FRAMED = (
    ("lining", 0.05, 0.1, "gypsum-board"),
    ("service", 1.6, 0.05, "mineral-wool-batt"),
    ("film", 0.0, 50.0, "polyethylene-film"),
    ("wool", 3.0, 0.14, "mineral-wool-batt", {"framed": True, "thickness": "140 mm"}),
    ("sheathing", 0.08, 0.3, "plywood"),
)
OPEN_TO_VAPOUR = 1e-7


def at(humidity):
    return {"temperature": "20 °C", "humidity": f"{100 * humidity!r} %"}


def studs(layers):
    return {"framing": {"material": "softwood", "fraction": 0.15}} if layers is FRAMED else {}


def more_outboard(layers, resistance):
    return (*layers, ("more", resistance, OPEN_TO_VAPOUR, "fibre-cement-siding"))


class TestWhereItTurns:
    """A limit is where the verdict of the same document turns, when the humidity or resistance is declared."""

    @pytest.mark.parametrize("layers", [WALL, FRAMED])
    def test_condensation_begins_just_above_the_limit(self, moist, section_document, layers):
        more = studs(layers)
        limit = moist(section_document(layers, at(0.45), **more)).value("wall.humidity_without_condensation")
        assert 0.1 < limit < 0.9
        below = moist(section_document(layers, at(limit), **more))
        above = moist(section_document(layers, at(limit + NEAR), **more))
        assert below.value("wall.moisture_verdict") == "none"
        assert above.value("wall.moisture_verdict") == "dries"

    @pytest.mark.parametrize("layers", [WALL, FRAMED])
    def test_accumulation_begins_just_above_the_other(self, moist, section_document, layers):
        more = studs(layers)
        limit = moist(section_document(layers, at(0.45), **more)).value("wall.humidity_drying_in_year")
        below = moist(section_document(layers, at(limit), **more))
        above = moist(section_document(layers, at(limit + NEAR), **more))
        assert below.value("wall.moisture_verdict") == "dries"
        assert above.value("wall.moisture_verdict") == "accumulates"

    def test_the_limits_do_not_hang_on_the_humidity_declared(self, moist, section_document):
        found = [moist(section_document(WALL, at(humidity))) for humidity in (0.2, 0.6)]
        for name in ("humidity_without_condensation", "humidity_drying_in_year"):
            assert found[0].value(f"wall.{name}") == found[1].value(f"wall.{name}")

    @pytest.mark.parametrize("layers", [WALL, FRAMED])
    def test_resistance_outboard_ends_condensation(self, moist, section_document, layers):
        more = studs(layers)
        indoor = at(0.50)
        wanted = moist(section_document(layers, indoor, **more)).value("wall.outboard_r_to_add")
        assert 0.05 < wanted < 19.0
        enough = moist(section_document(more_outboard(layers, wanted), indoor, **more))
        too_little = moist(section_document(more_outboard(layers, wanted - 0.06), indoor, **more))
        assert enough.value("wall.moisture_verdict") == "none"
        assert too_little.value("wall.moisture_verdict") == "dries"

    def test_where_nothing_condenses_none_is_wanted(self, moist, section_document):
        facts = moist(section_document(WALL, at(0.2)))
        assert facts.value("wall.moisture_verdict") == "none"
        assert facts.value("wall.outboard_r_to_add") == 0.0

    def test_where_no_resistance_would_do_there_is_none(self, moist, section_document):
        # Warm, humid air all year over rooms at 20 °C: it condenses from outside, and resistance outboard cools the plane.
        facts = moist(section_document(WALL, at(0.5)), 33.0, 4500.0)
        assert facts.value("wall.moisture_verdict") == "accumulates"
        assert facts["wall.outboard_r_to_add"].inapplicable
        assert facts.value("wall.humidity_without_condensation") == 0.0
        assert facts.value("wall.humidity_drying_in_year") == 0.0

    def test_a_section_that_bears_any_humidity(self, moist, section_document):
        # Outdoors as warm as the room and dry: not even a saturated room wets it.
        facts = moist(section_document(WALL, at(0.5)), 20.0, 1000.0)
        assert facts.value("wall.humidity_without_condensation") == 1.0
        assert facts.value("wall.humidity_drying_in_year") == 1.0

    def test_the_limits_follow_the_curves_of_the_verdict(self, moist, section_document):
        # a membrane that opens in damp air, inside of insulation and a tight skin: by its usual cup the limit is another
        layers = (WALL[0], ("control", 0.0, 2.0, "variable-permeance-membrane"), *WALL[2:])
        document = section_document(layers, at(0.45))
        control = document["assemblies"]["wall"]["layers"][1]
        control["permeance"] = {
            "dry-cup": "sd 10 m",
            "curve": {"25 %": "sd 10 m", "60 %": "sd 3 m", "70 %": "sd 0.5 m", "90 %": "sd 0.1 m"},
        }
        plain = copy.deepcopy(document)
        del plain["assemblies"]["wall"]["layers"][1]["permeance"]["curve"]
        for name, below, above in (
            ("humidity_without_condensation", "none", "dries"),
            ("humidity_drying_in_year", "dries", "accumulates"),
        ):
            limit = moist(document).value(f"wall.{name}")
            assert 0.1 < limit < 1.0
            assert abs(moist(plain).value(f"wall.{name}") - limit) > 2 * NEAR
            for humidity, verdict in ((limit, below), (limit + NEAR, above)):
                document["project"]["indoor"] = at(humidity)
                assert moist(document).value("wall.moisture_verdict") == verdict

    def test_the_surface_is_damp_just_above_its_limit(self, moist, section_document):
        limit = moist(section_document(WALL, at(0.45))).value("wall.humidity_surface_bears")
        assert 0.4 < limit < 1.0
        assert moist(section_document(WALL, at(limit))).value("wall.frsi_margin") >= 0.0
        assert moist(section_document(WALL, at(limit + NEAR))).value("wall.frsi_margin") < 0.0

    @pytest.mark.parametrize("more", [{}, studs(FRAMED)])
    def test_wood_takes_on_too_much_just_above_its_limit(self, moist, section_document, more):
        wool = FRAMED[3] if more else FRAMED[3][:4]
        layers = (FRAMED[0], ("film", 0.0, 3.0, "polyethylene-film"), wool, FRAMED[4])
        # winters dry enough that the outdoor air alone does not bring wood there
        weather = (-5.0, 220.0)

        def least(humidity):
            facts = moist(section_document(layers, at(humidity), **more), *weather)
            margins = [facts[f"wall.{role}_moisture_margin"] for role in ("sheathing", "framing")]
            return min(fact.value for fact in margins if fact.known)

        facts = moist(section_document(layers, at(0.45), **more), *weather)
        limit = facts.value("wall.humidity_wood_bears")
        assert 0.1 < limit < 0.9
        assert least(limit) >= 0.0 > least(limit + NEAR)

    def test_without_wood_toward_the_cold_there_is_no_limit_of_it(self, moist, section_document):
        assert moist(section_document(WALL, at(0.45)))["wall.humidity_wood_bears"].inapplicable

    def test_a_winter_without_end_by_hand(self, moist, section_document):
        # -5 °C at 321 Pa all year; the plane lies at -4.43 °C. It condenses once the line from the room, over 2.26 m of
        # 5.26 m, reaches saturation there: p = ps + (ps - pe)·2.26/3.0, over 2337 Pa in the room.
        plane = 20 - 25 * (0.13 + 0.05 + 4.0) / 4.28
        saturated = saturation_pressure(plane)
        wanted = saturated + (saturated - 321.0) * 2.26 / 3.0
        facts = moist(section_document(WALL, at(0.5)), -5.0, 321.0)
        limit = facts.value("wall.humidity_without_condensation")
        assert 0.0 <= wanted / saturation_pressure(20.0) - limit <= NEAR
        # in a winter without end what condenses never dries
        assert facts.value("wall.humidity_drying_in_year") == limit


class TestMonotony:
    """More insulation outboard bears no less humidity; a tighter inside lets no more water in."""

    @settings(max_examples=25, deadline=None)
    @given(st.floats(0.05, 3.0), st.floats(0.3, 8.0), st.floats(0.1, 5.0))
    def test_more_outboard_bears_no_less(self, moist, section_document, added, inside, outside):
        layers = [WALL[0], (*WALL[1][:2], inside, WALL[1][3]), WALL[2], (*WALL[3][:2], outside, WALL[3][3])]
        names = ("humidity_without_condensation", "humidity_drying_in_year")
        bare = moist(section_document(layers, at(0.5)))
        more = moist(section_document(more_outboard(layers, added), at(0.5)))
        for name in names:
            assert more.value(f"wall.{name}") >= bare.value(f"wall.{name}") - NEAR
        assert more.value("wall.plane_temperature") >= bare.value("wall.plane_temperature")

    @settings(max_examples=25, deadline=None)
    @given(
        st.floats(-25.0, 5.0),
        st.floats(0.3, 0.7),
        st.floats(0.05, 20.0),
        st.floats(1.01, 10.0),
        st.floats(0.05, 20.0),
    )
    def test_a_tighter_inside_is_never_wetter_in_winter(
        self, moist, section_document, outdoors, humidity, inside, times, outside
    ):
        # The same month twelve times over: what gathers in a year of it.
        pressure = 0.8 * saturation_pressure(outdoors)

        def gathered(sd):
            layers = [WALL[0], (*WALL[1][:2], sd, WALL[1][3]), WALL[2], (*WALL[3][:2], outside, WALL[3][3])]
            facts = moist(section_document(layers, at(humidity)), outdoors, pressure)
            return facts.value("wall.moisture_residual")

        assert gathered(times * inside) <= gathered(inside) * (1 + 1e-9)


class TestMirror:
    """What leaves a wet layer inward leaves it outward when layers and climates are exchanged.

    Both sides hold the same vapour pressure, so that no rule on indoor air changes it; behind a ventilated cladding both
    films are 0.13 (ISO 6946), so that the section has a mirror image.
    """

    BOARDS = (("p", 0.1, 1.5), ("q", 0.2, 0.4), ("r", 0.3, 2.5), ("s", 0.15, 0.8))

    def drying(self, moist, section_document, layers, inside, outside, of):
        pressure = 700.0
        indoor = {
            "temperature": f"{inside} °C",
            "humidity": f"{100 * pressure / saturation_pressure(inside)!r} %",
        }
        facts = moist(section_document(layers, indoor), outside, pressure)
        return facts.value(f"wall.{of}.drying_inward"), facts.value(f"wall.{of}.drying_outward")

    def test_inward_and_outward_change_places(self, moist, section_document):
        p, q, r, s = ((*board, "plywood") for board in self.BOARDS)
        wool = ("wool", 2.0, 0.2, "mineral-wool-batt")
        siding = ("cavity", ("siding", 0.1, 5.0, "wood-siding"))
        # in one it is the inner face of s, in the mirror the inner face of r: the interface between the two
        one = self.drying(moist, section_document, [p, q, wool, r, s, *siding], 20, 4, "s")
        two = self.drying(moist, section_document, [s, r, wool, q, p, *siding], 4, 20, "r")
        assert one[0] == pytest.approx(two[1], rel=1e-9)
        assert one[1] == pytest.approx(two[0], rel=1e-9)
        assert one[0] != pytest.approx(one[1], rel=0.1)


class TestOrder:
    """The order of keys, and the run, make no difference."""

    def reversed_keys(self, value):
        if isinstance(value, dict):
            return {key: self.reversed_keys(value[key]) for key in reversed(value)}
        return [self.reversed_keys(one) for one in value] if isinstance(value, list) else value

    def told(self, facts, year_table):
        return json.dumps(
            [[fact._asdict() for fact in facts.values()], year_table(facts)], default=str, ensure_ascii=False
        )

    def moisture(self, facts):
        return {name: facts[f"wall.{name}"]._replace(inputs=()) for name in MOISTURE_FACTS}

    def test_keys_in_any_order(self, moist, section_document):
        document = section_document(FRAMED, at(0.5), **studs(FRAMED))
        turned = self.reversed_keys(copy.deepcopy(document))
        assert list(turned) != list(document)
        assert self.moisture(moist(turned)) == self.moisture(moist(document))

    def test_the_same_bytes_twice(self, moist, section_document, year_table):
        document = section_document(FRAMED, at(0.5), **studs(FRAMED))
        assert self.told(moist(document), year_table) == self.told(moist(copy.deepcopy(document)), year_table)

    def test_another_assembly_beside_it_changes_nothing(self, moist, section_document):
        document = section_document(WALL, at(0.5))
        alone = self.moisture(moist(document))
        document["assemblies"]["other"] = section_document(FRAMED, **studs(FRAMED))["assemblies"]["wall"]
        assert self.moisture(moist(document)) == alone

    def test_humidity_of_the_reference_year(self):
        # the year the tests lean on: 477.7 Pa in January and 1485.2 Pa in July
        assert vapour_pressure(-1.0, 0.85) == pytest.approx(477.7, abs=0.1)
        assert vapour_pressure(18.0, 0.72) == pytest.approx(1485.2, abs=0.1)


class TestSecondYear:
    """What a second year adds, by the long run of the physics."""

    def test_water_that_stays_grows(self, moist, section_document):
        indoor = at(0.6)
        facts = moist(section_document((WALL[0], *WALL[2:]), indoor), -1.0, 470.0)
        assert facts.value("wall.moisture_verdict") == "accumulates"
        # the same weather all year: the second adds as much as the first
        gain = facts.value("wall.moisture_yearly_gain")
        assert gain == pytest.approx(facts.value("wall.moisture_residual"), rel=0.02)

    def test_water_that_leaves_does_not(self, moist, section_document):
        facts = moist(section_document(WALL, at(0.45)))
        assert facts.value("wall.moisture_verdict") == "dries"
        assert facts.value("wall.moisture_yearly_gain") == 0.0
