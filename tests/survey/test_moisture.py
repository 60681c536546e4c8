"""The year of moisture of declared assemblies: reference years month by month, films, and the climate of the rooms.

The reference years C1 to C3 follow ISO 13788:2012, clause 6 (memory). They are our own and computed, by half-hour
stepping and by a complementarity solution, not by this code; every R and sd is declared, so that nothing of a material
table takes part. The balance takes the films of ISO 6946 whatever the country, since they belong to its method.
"""

from itertools import pairwise

import pytest

from speccheck.physics.psychrometrics import saturation_pressure, vapour_pressure
from speccheck.survey import Origin

MONTHS = (
    "January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November",
    "December",
)  # fmt: skip

WALL = (
    ("lining", 0.05, 0.1, "gypsum-board"),
    ("retarder", 0.0, 2.0, "polyethylene-film"),
    ("wool", 4.0, 0.16, "mineral-wool-batt"),
    ("cladding", 0.06, 3.0, "fibre-cement-siding"),
)
ROOF = (
    ("deck", 0.14, 0.9, "plywood"),
    ("retarder", 0.0, 20.0, "polyethylene-film"),
    ("wool", 4.0, 6.0, "mineral-wool-batt"),
    ("membrane", 0.03, 100.0, "epdm-membrane"),
)
TWO_PLANES = (
    ("lining", 0.05, 0.5, "gypsum-board"),
    ("inner-wool", 3.0, 0.1, "mineral-wool-batt"),
    ("sheathing", 0.1, 3.0, "plywood"),
    ("outer-wool", 1.0, 0.1, "mineral-wool-batt"),
    ("board", 0.05, 5.0, "fibre-cement-siding"),
)
# g/m² at the end of each month, from the month in which the year begins
WALL_CLASS_2 = (
    "November",
    [61.07, 153.23, 249.29, 331.88, 361.21, 298.86, 135.83, 0, 0, 0, 0, 0],
)
WALL_CLASS_3 = (
    "October",
    [26.74, 142.32, 301.35, 467.81, 613.99, 699.63, 674.75, 532.84, 326.37, 104.93, 0, 0],
)
ROOF_CLASS_3 = (
    "October",
    [4.48, 15.46, 29.95, 45.16, 58.62, 67.92, 69.17, 62.12, 50.34, 37.41, 25.53, 21.84],
)
INNER_PLANE = ("November", [34.85, 163.03, 309.58, 434.65, 398.09, 143.87, 0, 0, 0, 0, 0, 0])
OUTER_PLANE = (
    "November",
    [32.5, 68.85, 104.68, 135.63, 160.51, 164.87, 90.01, 0, 0, 0, 0, 0],
)


def by_calendar(year):
    first, masses = year
    start = MONTHS.index(first)
    return [masses[(month - start) % 12] for month in range(12)]


def rooms(number):
    return {"temperature": "20 °C", "humidity-class": number}


def grams(table, face):
    at = table.faces.index(face)
    return [1000 * month.water[at] for month in table.months]


def words(facts, *names):
    return tuple(facts.value(f"wall.moisture_{name}") for name in names)


class TestReferenceYears:
    """C1 to C3 through documents."""

    def test_one_plane_that_dries(self, moist, section_document, year_table):
        facts = moist(section_document(WALL))
        place = "inner face of wall.cladding"
        assert words(facts, "verdict", "peak_place", "peak_month", "dry_month", "path") == (
            "dries",
            place,
            "March",
            "June",
            "insulation",
        )
        assert 1000 * facts.value("wall.moisture_peak") == pytest.approx(361.21, rel=0.001)
        assert facts.value("wall.moisture_residual") == pytest.approx(0.0, abs=1e-9)
        assert facts.value("wall.moisture_settled") is True
        table = year_table(facts)
        assert grams(table, place) == pytest.approx(by_calendar(WALL_CLASS_2), rel=0.001, abs=0.1)
        assert table.months[0].temperature[table.faces.index(place)] == pytest.approx(-0.51, abs=0.005)

    def test_the_humidity_class_nearly_doubles_it(self, moist, section_document, year_table):
        facts = moist(section_document(WALL, rooms(3)))
        assert words(facts, "verdict", "dry_month") == ("dries", "August")
        assert 1000 * facts.value("wall.moisture_peak") == pytest.approx(699.63, rel=0.001)
        found = grams(year_table(facts), "inner face of wall.cladding")
        assert found == pytest.approx(by_calendar(WALL_CLASS_3), rel=0.001, abs=0.1)

    def test_a_roof_that_keeps_water(self, moist, section_document, year_table):
        # heat flows up: inside film 0.10
        facts = moist(section_document(ROOF, rooms(3), kind="roof"))
        place = "inner face of wall.membrane"
        assert words(facts, "verdict", "peak_place", "peak_month") == ("accumulates", place, "April")
        assert facts["wall.moisture_dry_month"].inapplicable
        assert 1000 * facts.value("wall.moisture_peak") == pytest.approx(69.17, abs=0.1)
        assert 1000 * facts.value("wall.moisture_residual") == pytest.approx(21.84, abs=0.1)
        found = grams(year_table(facts), place)
        assert found == pytest.approx(by_calendar(ROOF_CLASS_3), rel=0.001, abs=0.1)

    def test_the_same_roof_over_a_drier_room_dries(self, moist, section_document):
        facts = moist(section_document(ROOF, rooms(2), kind="roof"))
        assert words(facts, "verdict", "dry_month") == ("dries", "August")
        assert 1000 * facts.value("wall.moisture_peak") == pytest.approx(38.48, abs=0.1)

    def test_two_planes_and_a_month_cut_in_two(self, moist, section_document, year_table):
        facts = moist(section_document(TWO_PLANES))
        assert words(facts, "verdict", "peak_place", "peak_month", "dry_month") == (
            "dries",
            "inner face of wall.sheathing",
            "February",
            "June",
        )
        assert 1000 * facts.value("wall.moisture_peak") == pytest.approx(434.65, rel=0.001)
        table = year_table(facts)
        inner, outer = "inner face of wall.sheathing", "inner face of wall.board"
        assert grams(table, inner) == pytest.approx(by_calendar(INNER_PLANE), rel=0.001, abs=0.1)
        assert grams(table, outer) == pytest.approx(by_calendar(OUTER_PLANE), rel=0.001, abs=0.1)
        january = table.months[0]
        assert january.temperature[table.faces.index(inner)] == pytest.approx(4.72, abs=0.005)
        assert january.temperature[table.faces.index(outer)] == pytest.approx(-0.57, abs=0.005)

    def test_a_weather_file_gives_the_same(self, facts_of, section_document, reference_year):
        # A weather file tells the vapour pressure by an hourly dew point; the months are those of the reference year.
        facts = facts_of(section_document(WALL), reference_year)
        assert 1000 * facts.value("wall.moisture_peak") == pytest.approx(361.21, rel=0.001)
        assert facts["climate.winter_mean_temperature"].source == "weather file reference.epw"

    @pytest.mark.parametrize(
        ("number", "month", "factor"),
        [(2, "December", 0.593), (3, "February", 0.773), (4, "February", 0.924)],
    )
    def test_temperature_factor_by_class(self, moist, section_document, number, month, factor):
        # C5: ISO 13788 design temperature factor by humidity class at 80 % (computed beside this code)
        facts = moist(section_document(WALL, rooms(number)))
        assert facts.value("wall.frsi_required") == pytest.approx(factor, abs=0.001)
        assert facts.value("wall.frsi_required_month") == month
        # the plain section with the film of the mould check: 1 - 0.25/(0.25 + 4.11 + 0.04)
        assert facts.value("wall.frsi") == pytest.approx(1 - 0.25 / 4.40, rel=1e-9)
        assert facts.value("wall.frsi_margin") == pytest.approx(1 - 0.25 / 4.40 - factor, abs=0.001)


class TestFilms:
    """The films are those of the method, ISO 6946, whatever the convention of the country."""

    def test_a_place_in_the_united_states_takes_the_same(self, moist, section_document):
        document = section_document(WALL)
        document["project"]["place"]["zone"] = "4A"
        facts = moist(document)
        assert 1000 * facts.value("wall.moisture_peak") == pytest.approx(361.21, rel=0.001)
        # heat alone follows the country: still-air film 0.68 and winter wind 0.17 h·ft²·°F/Btu (trade tables, read)
        assert facts.value("wall.r_series") == pytest.approx(4.11 + 0.85 * 0.1761102, rel=1e-4)

    def test_behind_a_ventilated_cladding_the_air_is_still(self, moist, section_document, year_table):
        # ISO 6946 (memory): outside film 0.13 there; cavity and cladding take no part. January by hand.
        layers = (*WALL[:3], ("board", 0.06, 3.0, "plywood"), "cavity", ("siding", 0.1, 5.0, "wood-siding"))
        table = year_table(moist(section_document(layers)))
        assert table.faces[-1] == "outer face of wall.board"
        share = (0.13 + 0.05 + 4.0) / (0.13 + 4.11 + 0.13)
        at = table.faces.index("inner face of wall.board")
        assert table.months[0].temperature[at] == pytest.approx(20 - 21 * share, abs=1e-9)

    def test_toward_an_attic_too(self, moist, section_document, year_table):
        ceiling = (WALL[0], WALL[1], WALL[2], ("deck", 0.06, 3.0, "plywood"))
        table = year_table(moist(section_document(ceiling, kind="ceiling", outside="attic")))
        share = (0.10 + 0.05 + 4.0) / (0.10 + 4.11 + 0.10)
        at = table.faces.index("inner face of wall.deck")
        assert table.months[0].temperature[at] == pytest.approx(20 - 21 * share, abs=1e-9)

    def test_toward_the_ground_there_is_no_balance(self, moist, section_document):
        facts = moist(section_document(WALL, kind="below-grade-wall"))
        for name in ("moisture_verdict", "frsi", "period_condensed", "summer_margin"):
            assert facts[f"wall.{name}"].inapplicable
            assert "outdoor air" in facts[f"wall.{name}"].method


class TestRooms:
    """The climate of the rooms: by class, by set-point, or by the daily mean where nothing is told."""

    def test_no_humidity_takes_the_daily_mean_and_says_so(self, moist, section_document):
        facts = moist(section_document(WALL, {"temperature": "20 °C"}))
        model = facts["project.indoor_model"]
        assert (model.value, model.origin) == ("daily mean", Origin.ASSUMED)
        verdict = facts["wall.moisture_verdict"]
        assert model.key in verdict.inputs
        assert any("since no humidity is declared" in words for words in verdict.assumed)
        assert "daily mean outdoors" in verdict.method
        # January at -1 °C by EN 15026 annex C (memory): 30 % at -10 °C to 60 % at 20 °C, and 5 % of margin: 44 % in
        # the room of 20 °C. July at 18 °C: 24 °C and 63 %. Surface factor: 80 % at (p/0.8).
        assert facts.value("wall.frsi_required_month") == "January"

    def test_daily_mean_by_hand(self, moist, section_document, year_table):
        # One film-less reading: at the inner face of the lining the pressure is that of the room.
        table = year_table(moist(section_document(WALL, {})))
        january = table.months[0]
        room = january.humidity[0] * saturation_pressure(january.temperature[0])
        assert room == pytest.approx((0.30 + 0.30 * 9 / 30 + 0.05) * saturation_pressure(20.0), rel=1e-9)
        # at 18 °C outside the room has 24 °C, so its inner face lies a little below
        assert table.months[6].temperature[0] == pytest.approx(24 - 6 * 0.13 / 4.28, abs=1e-9)

    def test_a_class_goes_before_a_set_point(self, moist, section_document):
        both = moist(section_document(WALL, rooms(2) | {"humidity": "80 %"}))
        alone = moist(section_document(WALL, rooms(2)))
        assert both.value("wall.moisture_peak") == alone.value("wall.moisture_peak")
        assert "humidity class 2" in both["wall.moisture_peak"].method

    def test_class_5_has_no_excess_of_its_own(self, moist, section_document):
        # Laundries, breweries, pools (ISO 13788 annex A, memory): neither a table nor the model of dwellings serves.
        asked = moist(section_document(WALL, rooms(5)))
        assert asked["wall.moisture_verdict"].value is None
        (gap,) = asked["wall.moisture_verdict"].missing
        assert gap.question == "Which relative humidity is kept indoors in winter?"
        assert "project.indoor_model" not in asked
        told = moist(section_document(WALL, rooms(5) | {"humidity": "60 %"}))
        assert told.value("wall.moisture_verdict") in ("dries", "accumulates")
        assert "set-point" in told["wall.moisture_verdict"].method

    def test_a_set_point_is_never_drier_than_outdoors(self, moist, section_document, year_table):
        # 20 °C at 30 % is 701 Pa; outdoors July has 1485 Pa: nothing takes moisture out of the room.
        table = year_table(moist(section_document(WALL, {"temperature": "20 °C", "humidity": "30 %"})))
        winter, july = table.months[0], table.months[6]
        assert winter.humidity[0] * saturation_pressure(winter.temperature[0]) == pytest.approx(
            vapour_pressure(20.0, 0.30), rel=1e-9
        )
        assert july.humidity[0] * saturation_pressure(july.temperature[0]) == pytest.approx(
            vapour_pressure(18.0, 0.72), rel=1e-9
        )

    def test_a_set_point_never_exceeds_saturation(self, moist, section_document):
        # Tropical months of 35 °C and 5000 Pa over rooms at 21 °C: saturated, not more.
        facts = moist(section_document(WALL, {"temperature": "21 °C", "humidity": "50 %"}), 35.0, 5000.0)
        assert facts["wall.moisture_verdict"].known
        assert facts["wall.frsi_required"].inapplicable  # never colder outside than inside
        assert facts["wall.frsi_required"].method == "no month is colder outdoors than the rooms"

    def test_no_place_asks_for_it(self, facts_of, section_document):
        document = section_document(WALL)
        del document["project"]["place"]
        facts = facts_of(document)
        for name in (
            "moisture_verdict",
            "moisture_by_dry_cup",
            "drying_net",
            "frsi_required",
            "outboard_r_to_add",
        ):
            (gap,) = facts[f"wall.{name}"].missing
            assert gap.question == "Where does the building stand (ZIP code, county or climate zone)?"
        # the period balance has its own climate, and the factor of the section needs none
        assert facts["wall.period_condensed"].known
        assert facts["wall.frsi"].known

    def test_a_place_without_months_asks_for_temperatures(self, facts_of, section_document):
        document = section_document(WALL)
        document["project"]["place"] = {"town": "Airdrie", "state": "AB"}
        (gap,) = facts_of(document)["wall.moisture_verdict"].missing
        assert "gives the outdoor temperatures" in gap.question

    def test_a_zone_alone_is_carried_as_an_assumption(self, facts_of, section_document):
        document = section_document(WALL)
        document["project"]["place"] = {"zone": "6A"}
        verdict = facts_of(document)["wall.moisture_verdict"]
        assert any("stands in for zone 6A" in words for words in verdict.assumed)


class TestYearTable:
    """The year as a table for reports."""

    @pytest.mark.parametrize(
        ("layers", "kind", "number"),
        [(WALL, "wall", 2), (ROOF, "roof", 3), (TWO_PLANES, "wall", 3), (WALL, "wall", 1)],
    )
    def test_its_shape(self, moist, section_document, year_table, layers, kind, number):
        facts = moist(section_document(layers, rooms(number), kind=kind))
        table = year_table(facts)
        assert tuple(row.month for row in table.months) == MONTHS
        assert table.assembly == "wall"
        assert table.path == facts.value("wall.moisture_path")
        assert table.faces == (
            *(f"inner face of wall.{layer[0]}" for layer in layers),
            f"outer face of wall.{layers[-1][0]}",
        )
        assert 0 <= table.worst < len(table.faces)
        for row in table.months:
            assert len(row.temperature) == len(row.humidity) == len(row.water) == len(table.faces)
            assert min(row.water) >= 0.0
            assert all(0.0 <= humidity <= 1.0 for humidity in row.humidity)
            inside, outside = row.temperature[0], row.temperature[-1]
            assert list(row.temperature) == sorted(row.temperature, reverse=inside > outside)

    def test_the_worst_face_is_that_of_the_peak(self, moist, section_document, year_table):
        facts = moist(section_document(TWO_PLANES))
        table = year_table(facts)
        assert table.faces[table.worst] == facts.value("wall.moisture_peak_place")
        assert max(row.water[table.worst] for row in table.months) <= facts.value("wall.moisture_peak")

    def test_where_nothing_condenses_it_is_the_dampest(self, moist, section_document, year_table):
        tight = (
            WALL[0],
            ("retarder", 0.0, 200.0, "polyethylene-film"),
            WALL[2],
            ("board", 0.06, 0.3, "plywood"),
        )
        facts = moist(section_document(tight))
        table = year_table(facts)
        assert facts.value("wall.moisture_verdict") == "none"
        assert facts.value("wall.moisture_peak") == 0.0
        for name in ("peak_place", "peak_month", "dry_month"):
            assert facts[f"wall.moisture_{name}"].inapplicable
        highest = [max(row.humidity[face] for row in table.months) for face in range(len(table.faces))]
        assert highest[table.worst] == max(highest[:-1])  # behind the outer surface

    @pytest.mark.parametrize(("layers", "kind"), [(ROOF, "roof"), (TWO_PLANES, "wall")])
    def test_wetting_less_drying_is_what_is_left(self, moist, section_document, year_table, layers, kind):
        # The year of class 3 begins in October, dry: month by month, what came less what went is what stays.
        facts = moist(section_document(layers, rooms(3), kind=kind))
        held = [sum(row.water) for row in year_table(facts).months]
        run = held[9:] + held[:9]
        steps = [run[0], *(b - a for a, b in pairwise(run))]
        wetted, dried = sum(max(0.0, s) for s in steps), sum(max(0.0, -s) for s in steps)
        assert wetted > 0.0
        assert wetted - dried == pytest.approx(facts.value("wall.moisture_residual"), abs=1e-12)

    def test_a_winter_without_end_at_two_planes_by_hand(self, moist, section_document, year_table):
        # -10 °C and 200 Pa all year: what flows in over 0.6 m less what flows out over 5 m stays, at both planes together.
        indoor = {"temperature": "20 °C", "humidity": "60 %"}
        facts = moist(section_document(TWO_PLANES, indoor), -10.0, 200.0)
        inner, outer = (20 - 30 * before / 4.37 for before in (0.13 + 3.05, 0.13 + 4.15))
        inward = 2e-10 * (0.60 * saturation_pressure(20.0) - saturation_pressure(inner)) / 0.6
        outward = 2e-10 * (saturation_pressure(outer) - 200.0) / 5.0
        kept = (inward - outward) * 365 * 86400
        assert facts.value("wall.moisture_residual") == pytest.approx(kept, rel=1e-6)
        assert facts.value("wall.moisture_verdict") == "accumulates"
        # the year ends in September; the peak is that of the wetter plane alone
        september = year_table(facts).months[8].water
        assert sum(1 for mass in september if mass > 0.01) == 2
        assert facts.value("wall.moisture_peak") == pytest.approx(max(september), rel=1e-9)
        assert max(september) < 0.99 * kept


class TestPlane:
    """The dampest month at the condensing plane, and what wood takes on there."""

    def test_wood_at_the_plane_by_the_handbook(self, moist, section_document, year_table):
        layers = (
            WALL[0],
            ("retarder", 0.0, 6.0, "polyethylene-film"),
            WALL[2],
            ("board", 0.06, 0.5, "plywood"),
        )
        facts = moist(section_document(layers))
        table = year_table(facts)
        at = table.faces.index("inner face of wall.board")
        assert facts.value("wall.condensing_plane") == "wall.board"
        dampest = max(table.months, key=lambda row: row.humidity[at])
        assert facts.value("wall.plane_rh_max") == pytest.approx(dampest.humidity[at], rel=1e-12)
        assert facts.value("wall.plane_rh_month") == dampest.month
        # Wood Handbook FPL-GTR-190, table 4-2, row of 30 °F (read): 18.5, 21.0 and 24.3 % at 85, 90 and 95 %; the row
        # of 50 °F lies 0.1 below. Straight lines between the cells run up to 0.1 above the curve.
        humidity, temperature = dampest.humidity[at], dampest.temperature[at]
        assert 0.85 < humidity < 0.95
        assert -2.0 < temperature < 10.0
        row = [(0.85, 0.185), (0.90, 0.210), (0.95, 0.243)]
        (a, low), (b, high) = row[:2] if humidity < 0.90 else row[1:]
        by_cells = low + (high - low) * (humidity - a) / (b - a)
        assert facts.value("wall.plane_wood_moisture") == pytest.approx(by_cells, abs=0.002)

    def test_what_is_not_of_wood_takes_nothing_on(self, moist, section_document):
        assert moist(section_document(WALL))["wall.plane_wood_moisture"].inapplicable
