"""Permeance, the condensing plane, dew point and surface humidity of declared assemblies against printed examples."""

import pytest

US_R = 0.1761102
PERM = 57.2135e-12
"""One US perm in kg/(s·m²·Pa) (encyclopaedia article on the unit, read)."""
INHG = 3386.389


def celsius(fahrenheit: float) -> float:
    return (fahrenheit - 32) / 1.8


def stack(*permeances: str) -> str:
    """A wall whose layers inboard of its insulation have these permeances."""
    layers = "\n".join(
        f"      - {{id: l{i}, material: gypsum-board, thickness: 12.7 mm, permeance: {{dry-cup: {p}}}}}"
        for i, p in enumerate(permeances)
    )
    return f"""
speccheck: 1
assemblies:
  wall:
    kind: wall
    layers:
{layers}
      - {{id: fill, material: mineral-wool-batt, thickness: 100 mm}}
"""


class TestPermeances:
    """Sums and thickness rules of permeance; tolerances are relative, since SI permeances are tiny numbers."""

    def test_two_layers_in_series(self, facts_of):
        # Trade Q&A page on permeance at increased thickness (read): 2.3 and 1.5 perm make 0.907 (cut, not rounded).
        facts = facts_of(stack("2.3 perm", "1.5 perm"))
        assert facts.value("wall.interior_permeance_dry") / PERM == pytest.approx(0.907, rel=0.0011, abs=0)
        assert [facts.value(f"wall.l{i}.vapour_class") for i in (0, 1)] == ["III", "III"]
        # two class III layers together lie below 1 perm; the class named is that of the tightest layer
        assert facts.value("wall.interior_class") == "III"
        assert facts.value("wall.interior_retarder") == "wall.l1"

    def test_paint_on_gypsum(self, facts_of):
        # Component values from practice pages (read), the sum ours: 5 and 49.75 perm make 4.54, class III.
        facts = facts_of(stack("5 perm", "49.75 perm"))
        assert facts.value("wall.interior_permeance_dry") / PERM == pytest.approx(4.54, rel=0.003, abs=0)
        assert facts.value("wall.interior_class") == "III"

    @pytest.mark.parametrize(
        ("permeability", "thickness", "perm"),
        [("2 perm-in", "2 in", 1.0), ("3 perm-in", "3 in", 1.0), ("3 perm-in", "8 in", 0.375)],
    )
    def test_permeability_over_thickness(self, facts_of, permeability, thickness, perm):
        # University of Alaska Fairbanks extension EEM-00259 and a builder's material page (read)
        facts = facts_of(f"""
speccheck: 1
assemblies:
  wall: {{kind: wall, layers: [{{id: board, material: eps, thickness: {thickness}, permeability: {permeability}}}]}}
""")
        assert facts.value("wall.board.permeance_dry") / PERM == pytest.approx(perm, rel=1e-4, abs=0)

    @pytest.mark.parametrize(
        ("mu", "perm"), [(130, 2.08), (29, 9.33), (51, 5.31), (14, 19.3), (25, 10.8), (8, 33.8)]
    )
    def test_mu_of_plywood(self, facts_of, mu, perm):
        # mu by humidity: Nordic sheet in University of Iceland notes, table 3.4 (read); perm values computed with the
        # permeability of air 1.966e-10, ours takes 2.0e-10: within 2 %.
        facts = facts_of(f"""
speccheck: 1
assemblies:
  wall: {{kind: wall, layers: [{{id: ply, material: plywood, thickness: 12.7 mm, permeability: mu {mu}}}]}}
""")
        assert facts.value("wall.ply.permeance_dry") / PERM == pytest.approx(perm, rel=0.02, abs=0)

    def test_film_and_board_through_a_day(self, facts_of):
        # Heat and Mass Transfer, 5th ed., ch. 14 (statement read, answers from memory): 24 m² of 9.5 mm gypsum at 20 °C and
        # 60 % loses 8.32 kg a day to dry air; with a film of 9.1e-12 kg/(s·m²·Pa) 26.4 g.
        facts = facts_of(
            stack("2860 ng/(Pa·s·m²)", "9.1 ng/(Pa·s·m²)").replace(
                "speccheck: 1", "speccheck: 1\nproject: {indoor: {temperature: 20 °C, humidity: 60 %}}"
            )
        )
        pressure = facts.value("project.indoor_vapour_pressure")
        assert facts.value("wall.l0.permeance_dry") * pressure * 24 * 86400 == pytest.approx(8.32, rel=0.003)
        grams = facts.value("wall.interior_permeance_dry") * pressure * 24 * 86400 * 1000
        assert grams == pytest.approx(26.4, rel=0.003)

    def test_both_cups_stay_apart(self, facts_of):
        facts = facts_of("""
speccheck: 1
products: {film: {permeance: {dry-cup: 0.8 perm, wet-cup: 11 perm}}, sheet: {permeance: {wet-cup: 5 perm}}}
assemblies:
  wall: {kind: wall, layers: [{id: film, product: film}, {id: sheet, product: sheet}]}
""")
        assert facts.value("wall.film.permeance_wet") / facts.value(
            "wall.film.permeance_dry"
        ) == pytest.approx(13.75)
        assert facts.value("wall.film.vapour_class") == "II"
        assert facts.value("wall.film.vapour_class_wet") == "none"
        assert facts.value("wall.film.responsive") is True
        assert facts["wall.sheet.permeance_dry"].missing  # no value of one cup stands in for the other
        assert facts["wall.sheet.vapour_class"].value is None

    @pytest.mark.parametrize(
        ("curve", "dry", "wet"),
        [
            # ASTM E96 (memory): procedure A lies between 0 and 50 % RH, procedure B between 50 and 100 %; means by hand
            ("{25 %: 0.9 perm, 75 %: 8 perm}", 0.9, 8.0),
            ("{20 %: 0.5 perm, 30 %: 1.5 perm, 70 %: 6 perm, 80 %: 10 perm}", 1.0, 8.0),
            ("{80 %: 10 perm, 70 %: 6 perm, 0.30: 1.5 perm, 0.20: 0.5 perm}", 1.0, 8.0),
            ("{30 %: 1.5 perm, 70 %: 6 perm}", 1.5, 6.0),  # ends 5 % RH short: the end stands
            ("{31 %: 1.5 perm, 69 %: 6 perm}", None, None),  # further short: asked for
            ("{0 %: 2 perm, 50 %: 4 perm}", 3.0, None),
            ("{60 %: 4 perm, 90 %: 7 perm}", None, 5.5),
        ],
    )
    def test_a_curve_tells_the_cups_it_reaches(self, facts_of, curve, dry, wet):
        facts = facts_of(f"""
speccheck: 1
products: {{film: {{permeance: {{curve: {curve}}}}}}}
assemblies:
  wall: {{kind: wall, layers: [{{id: film, product: film}}, {{id: own, material: osb, thickness: 11 mm, permeance: {{curve: {curve}}}}}]}}
""")
        for place in ("wall.film", "wall.own"):
            for cup, perm in (("dry", dry), ("wet", wet)):
                fact = facts[f"{place}.permeance_{cup}"]
                if perm is None:
                    (gap,) = fact.missing
                    assert gap.question.startswith(f"What is the {cup}-cup permeance of ")
                    continue
                assert fact.value == pytest.approx(perm * PERM, rel=1e-6, abs=0)
                assert fact.origin.value == "computed"
                assert fact.method.startswith("computed from the declared curve at ")
                assert "ASTM E96" in fact.source
        told = "both" if dry and wet else "dry" if dry else "wet" if wet else "none"
        assert facts.value("film.permeance_by_cup") == told
        assert facts.value("film.states_one_cup_only") is (told in ("dry", "wet"))

    @pytest.mark.parametrize(
        ("permeance", "name", "name_wet", "responsive"),
        [
            ("{curve: {25 %: 0.09 perm, 75 %: 12 perm}}", "I", "none", True),
            ("{curve: {25 %: 0.9 perm, 75 %: 0.8 perm}}", "II", "II", False),
            ("{curve: {25 %: 3 perm, 75 %: 9 perm}}", "III", "III", False),
            # a stated cup goes before the curve
            ("{dry-cup: 1.2 perm, curve: {25 %: 0.9 perm, 75 %: 8 perm}}", "III", "III", False),
            ("{curve: {40 %: 0.9 perm, 75 %: 8 perm}}", None, "III", True),
            ("{curve: {40 %: 9 perm, 75 %: 8 perm}}", None, "III", False),
        ],
    )
    def test_class_and_opening_by_a_curve(self, facts_of, permeance, name, name_wet, responsive):
        # IRC 2021 R702.7 and IRC 2024 R702.7 (read): classes by dry cup; responsive: to 1 perm dry, above it wet
        facts = facts_of(f"""
speccheck: 1
assemblies:
  wall: {{kind: wall, layers: [{{id: film, material: polyamide-film, permeance: {permeance}}}]}}
""")
        assert facts["wall.film.vapour_class"].value == name
        assert facts.value("wall.film.vapour_class_wet") == name_wet
        assert facts.value("wall.film.responsive") is responsive

    def test_the_canadian_barrier_limit_is_class_iii_in_the_united_states(self, facts_of):
        # 60 ng/(Pa·s·m²) is 1.049 perm: NBC 9.25.4.2 against IRC R702.7 (read)
        facts = facts_of(stack("60 ng/(Pa·s·m²)"))
        assert facts.value("wall.l0.permeance_dry") / PERM == pytest.approx(1.0487, rel=1e-4, abs=0)
        assert facts.value("wall.l0.vapour_class") == "III"

    @pytest.mark.parametrize(
        ("perm", "name"),
        [
            ("0.1 perm", "I"),
            ("0.11 perm", "II"),
            ("1 perm", "II"),
            ("1.01 perm", "III"),
            ("10 perm", "III"),
            ("10.1 perm", "none"),
        ],
    )
    def test_class_bounds(self, facts_of, perm, name):
        # IRC 2021 R702.7 (read): I to 0.1, II to 1.0, III to 10 perm, bounds included
        assert facts_of(stack(perm)).value("wall.l0.vapour_class") == name

    def test_sd_in_metres(self, facts_of):
        # sd 2 m is W = 2.0e-10/2 by the ISO 13788 convention (memory)
        facts = facts_of(stack("sd 2 m"))
        assert facts.value("wall.l0.permeance_dry") == pytest.approx(1.0e-10, rel=1e-6, abs=0)
        assert facts.value("wall.sd_inside") == pytest.approx(2.0, rel=1e-6)


COLD_PLANE = """
speccheck: 1
project: {place: {town: Ottawa, state: "ON", weather-file: steady.epw}, indoor: {temperature: 20 °C, humidity: 60 %}}
assemblies:
  wall:
    kind: wall
    layers:
      - {id: gypsum, material: gypsum-board, thickness: 13 mm, thermal-resistance: 0.079 m²·K/W}
      - {id: fill, material: glass-fibre-batt, thickness: 90 mm, thermal-resistance: 2.45 m²·K/W}
      - {id: board, material: fibreboard-sheathing, thickness: 13 mm, thermal-resistance: 0.23 m²·K/W}
      - {id: siding, material: wood-bevel-siding, thickness: 13 mm, thermal-resistance: 0.14 m²·K/W}
"""


def test_freezing_plane_of_the_textbook_wall(facts_of, steady_weather):
    # Heat Transfer: A Practical Approach, ch. 14, example 14-6 (inputs read): 20 °C at 60 %, -16 °C; total 3.05 of which 0.40
    # outboard of the insulation; plane at -11.3 °C, heat flow 11.8 W/m², room vapour pressure 1404 Pa (printed, from memory).
    facts = facts_of(COLD_PLANE, steady_weather(-16.0))
    assert facts.value("climate.winter_mean_temperature") == pytest.approx(-16.0, abs=0.01)
    assert facts.value("wall.condensing_plane") == "wall.board"
    assert facts.value("wall.outboard_r") == pytest.approx(0.40, abs=0.005)
    assert 36 / facts.value("wall.r_series") == pytest.approx(11.8, abs=0.05)
    assert facts.value("wall.plane_temperature") == pytest.approx(-11.3, abs=0.05)
    assert facts.value("wall.plane_freezes") is True
    assert facts.value("project.indoor_vapour_pressure") == pytest.approx(1404, rel=0.002)


HANDBOOK = """
speccheck: 1
project: {place: {zone: 4A, weather-file: steady.epw}, indoor: {temperature: 70 °F, humidity: 40 %}}
assemblies:
  wall:
    kind: wall
    layers:
      - {id: gypsum, material: gypsum-board, thickness: 0.5 in, thermal-resistance: R-0.45, permeance: {dry-cup: 5 perm}}
      - {id: fill, material: glass-fibre-batt, thickness: 3.5 in, thermal-resistance: R-11, permeance: {dry-cup: 30 perm}}
      - {id: plywood, material: plywood, thickness: 0.5 in, thermal-resistance: R-0.62, permeance: {dry-cup: 0.5 perm}}
      - {id: siding, material: wood-bevel-siding, thickness: 0.5 in, thermal-resistance: R-1.0, permeance: {dry-cup: 35 perm}}
"""


def test_dew_point_method_of_the_handbook(facts_of, steady_weather):
    # ASHRAE Fundamentals, dew-point method example (from memory): R 13.92, 2.26 rep; 70 °F at 40 %, 20 °F outdoors; batt and
    # sheathing meet at 26.4 °F.
    facts = facts_of(HANDBOOK, steady_weather(celsius(20)))
    assert facts.value("wall.r_series") / US_R == pytest.approx(13.92, abs=0.02)
    assert PERM / facts.value("wall.total_permeance_dry") == pytest.approx(2.26, abs=0.005)
    assert facts.value("project.indoor_vapour_pressure") / INHG == pytest.approx(0.296, abs=0.002)
    assert facts.value("wall.condensing_plane") == "wall.plywood"
    assert facts.value("wall.plane_temperature") == pytest.approx(celsius(26.4), abs=0.12)
    assert facts.value("wall.plane_margin") < 0  # saturation there 0.140 inHg against 0.271: it condenses
    assert facts.value("wall.interior_permeance_dry") / PERM == pytest.approx(5.0, rel=1e-6, abs=0)
    assert facts.value("wall.exterior_permeance_dry") / PERM == pytest.approx(
        1 / (1 / 0.5 + 1 / 35), rel=1e-6, abs=0
    )


def foam_wall(foam: float, cavity: float = 11, place: str = "{zone: 4A, weather-file: steady.epw}") -> str:
    return f"""
speccheck: 1
project: {{place: {place}, indoor: {{temperature: 70 °F, humidity: 50 %}}}}
assemblies:
  wall:
    kind: wall
    layers:
      - {{id: fill, material: glass-fibre-batt, thickness: 3.5 in, thermal-resistance: R-{cavity}}}
      - {{id: foam, material: polyiso-foil-faced, thickness: 1 in, thermal-resistance: R-{foam}}}
"""


class TestExteriorInsulation:
    """Outboard insulation against the indoor dew point, and the two ways of counting its share."""

    @pytest.mark.parametrize(("foam", "printed", "dry"), [(7, 47, False), (14, 53, True)])
    def test_where_the_dew_drops(self, facts_of, steady_weather, foam, printed, dry):
        # Trade magazine article of that title (read): 70 °F at 50 %, 32 °F outdoors, R-11 and foam; films left out. Plane at
        # 47 and 53 °F, dew point 50 °F; the first condenses, the second does not.
        facts = facts_of(foam_wall(foam), steady_weather(0.0))
        assert facts.value("project.indoor_dew_point") == pytest.approx(celsius(50), abs=0.6)
        outer = facts.value("wall.outboard_r") - facts.value("wall.film_outside")
        inner = facts.value("wall.inboard_r") - facts.value("wall.film_inside")
        assert 32 + 38 * outer / (outer + inner) == pytest.approx(printed, abs=0.5)
        assert (facts.value("wall.plane_margin") > 0) is dry
        share, required = facts.value("wall.outboard_share"), facts.value("wall.required_outboard_share")
        assert (share > required) is dry

    @pytest.mark.parametrize(
        ("cavity", "foam", "share"),
        [(13, 2.5, 0.161), (20, 3.75, 0.158), (13, 5, 0.278), (20, 7.5, 0.273), (13, 7.5, 0.366), (20, 11.25, 0.360),
         (13, 10, 0.435), (20, 15, 0.429), (13, 12.5, 0.490), (20, 20, 0.500)],
    )  # fmt: skip
    def test_share_of_the_nominal_r_in_the_code_table(self, facts_of, cavity, foam, share):
        # IRC table R702.7.1 family, rows read in part; the share is ours: continuous over all insulation.
        facts = facts_of(foam_wall(foam, cavity, "{zone: 6A}"))
        found = facts.value("wall.continuous_r_outboard") / facts.value("wall.insulation_r")
        assert found == pytest.approx(share, abs=0.001)

    def test_canadian_ratio_and_united_states_share_are_not_the_same(self, facts_of):
        # NBC table 9.25.5.2 divides outboard by inboard (0.20 in its first row, memory), the US share by the whole.
        facts = facts_of(foam_wall(3, place="{zone: 6A}"))
        ratio, share = facts.value("wall.outboard_ratio"), facts.value("wall.outboard_share")
        assert share == pytest.approx(ratio / (1 + ratio), rel=1e-9)
        assert ratio != pytest.approx(share, rel=0.1)

    @pytest.mark.parametrize(("humidity", "zone_6"), [(25, 11.3), (30, 18.4), (35, 24.7), (40, 30.1)])
    def test_outdoor_temperature_at_which_the_plane_is_at_the_dew_point(
        self, facts_of, steady_weather, humidity, zone_6
    ):
        # Recomputed for the zone 6 rows of the code table (mean of its two rows, which differ by up to 1.4 °F), 70 °F, films
        # left out: at that outdoor temperature the required share is the share of the table.
        text = foam_wall(7.5, 13).replace("50 %", f"{humidity} %")
        facts = facts_of(text, steady_weather(celsius(zone_6)))
        assert facts.value("wall.required_outboard_share") == pytest.approx((0.366 + 0.360) / 2, abs=0.012)


def insulated(resistance: float, humidity: str) -> str:
    """A wall of this total resistance with the ISO film 0.13 inside."""
    return f"""
speccheck: 1
project: {{place: {{weather-file: steady.epw}}, indoor: {{temperature: 20 °C, humidity: {humidity}}}}}
assemblies:
  wall:
    kind: wall
    layers: [{{id: block, material: clay-block, thickness: 300 mm, thermal-resistance: {resistance - 0.17} m²·K/W}}]
"""


class TestSurface:
    """Temperature factor and surface humidity at -5 °C: DIN 4108-2 conditions, read in three public pages."""

    def test_eighty_percent_at_the_factor_of_0_705(self, facts_of, steady_weather):
        # 20 °C at 50 %: 80 % at the surface wants 12.6 °C, a factor of 0.704 to 0.705; dew point 9.3 °C.
        facts = facts_of(insulated(0.13 / (1 - 0.705), "50 %"), steady_weather(-5.0))
        assert facts.value("wall.temperature_factor") == pytest.approx(0.705, abs=0.0005)
        assert facts.value("wall.surface_rh") == pytest.approx(0.80, abs=0.002)
        assert facts.value("project.indoor_dew_point") == pytest.approx(9.3, abs=0.05)

    def test_the_regulatory_factor_lies_a_little_over_eighty_percent(self, facts_of, steady_weather):
        # fRsi 0.70 is 12.5 °C, not the 12.6 °C quoted everywhere (negative control).
        facts = facts_of(insulated(0.13 / 0.30, "50 %"), steady_weather(-5.0))
        assert facts.value("wall.temperature_factor") == pytest.approx(0.70, abs=0.0005)
        assert 0.803 < facts.value("wall.surface_rh") < 0.812

    @pytest.mark.parametrize(("factor", "humidity"), [(0.56, 40), (0.48, 34)])
    def test_highest_room_humidity(self, facts_of, steady_weather, factor, humidity):
        # Lehrbuch der Bauphysik, sect. 3.2 (study notes, read): 40 % and 34 %, rounded by 1 %
        facts = facts_of(insulated(0.13 / (1 - factor), f"{humidity} %"), steady_weather(-5.0))
        assert facts.value("wall.surface_rh") == pytest.approx(0.80, abs=0.02)


# Dew points of room air [°C]: our own matrix, in which three libraries agree to 0.01 K; anchors 20 °C/50 % -> 9.3 and
# 70 °F/50 % -> 50 °F read. Below zero the value is a frost point.
DEW_POINTS = [
    (18, 25, -2.04), (18, 60, 10.13), (20, 25, -0.53), (20, 30, 1.92), (20, 50, 9.27), (21, 25, 0.24), (21, 35, 4.97),
    (21, 40, 6.90), (22, 45.0, None), (24, 30, 5.38), (24, 60, 15.76),
]  # fmt: skip


@pytest.mark.parametrize(
    ("temperature", "humidity", "dew"), [row for row in DEW_POINTS if row[2] is not None]
)
def test_dew_point_of_the_room(facts_of, temperature, humidity, dew):
    facts = facts_of(f"""
speccheck: 1
project: {{indoor: {{temperature: {temperature} °C, humidity: {humidity} %}}}}
assemblies: {{wall: {{kind: wall, layers: [{{material: concrete, thickness: 200 mm}}]}}}}
""")
    assert facts.value("project.indoor_dew_point") == pytest.approx(dew, abs=0.02)


def test_warm_side_share_by_hand(facts_of):
    # Film 0.13, gypsum 0.05, service insulation 1.2 on the warm side of the film; 3.0 beyond it.
    facts = facts_of("""
speccheck: 1
assemblies:
  wall:
    kind: wall
    layers:
      - {id: lining, material: gypsum-board, thickness: 12.5 mm, thermal-resistance: 0.05 m²·K/W}
      - {id: service, material: mineral-wool-batt, thickness: 48 mm, thermal-resistance: 1.2 m²·K/W, permeance: {dry-cup: 30 perm}}
      - {id: control, material: polyethylene-film}
      - {id: fill, material: mineral-wool-batt, thickness: 120 mm, thermal-resistance: 3 m²·K/W, permeance: {dry-cup: 30 perm}}
""")
    whole = 0.13 + 0.05 + 1.2 + 3 + 0.04
    assert facts.value("wall.warm_side_share") == pytest.approx(1.38 / whole, rel=1e-9)
    assert facts.value("wall.interior_retarder") == "wall.control"
