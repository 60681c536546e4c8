"""Effective resistance of declared assemblies against printed examples; every document goes the whole way.

``us`` takes the films 0.68/0.17 h·ft²·°F/Btu, ``ca`` 0.12/0.03 and elsewhere ISO 6946 0.13/0.04 m²·K/W, so the place is
chosen by the films of the example. Layers whose resistance is printed carry it as declared.
"""

import pytest

US_R = 0.1761102
"""One h·ft²·°F/Btu in m²·K/W (ASTM E96 and NIST SP 811, exact by definition of the units)."""

TEXTBOOK = """
speccheck: 1
project: {{place: {{town: Ottawa, state: "ON"}}}}
assemblies:
  wall:
    kind: wall
    framing: {{fraction: 0.25, conductivity: 0.142857 W/(m·K)}}
    layers:
      - {{id: gypsum, material: gypsum-board, thickness: 13 mm, thermal-resistance: 0.079 m²·K/W}}
      - {{id: fill, material: glass-fibre-batt, thickness: 90 mm, thermal-resistance: {batt} m²·K/W, framed: true}}
      - {{id: board, material: fibreboard-sheathing, thickness: 13 mm, thermal-resistance: 0.23 m²·K/W}}
      - {{id: siding, material: wood-bevel-siding, thickness: 13 mm, thermal-resistance: 0.14 m²·K/W}}
"""


class TestTextbookWall:
    """Heat Transfer: A Practical Approach, ch. 3, wood frame wall: inputs read, printed answers from memory."""

    def test_parallel_paths(self, facts_of):
        facts = facts_of(TEXTBOOK.format(batt=2.45))
        assert facts.value("wall.r_series") == pytest.approx(3.05, abs=0.01)
        assert facts.value("wall.r_parallel") == pytest.approx(2.23, abs=0.01)
        assert 1 / facts.value("wall.r_parallel") == pytest.approx(0.449, abs=0.001)
        # 100 m² net wall, 22 °C inside and -2 °C outside
        assert 100 * 24 / facts.value("wall.r_parallel") == pytest.approx(1078, abs=2)

    def test_isothermal_planes_of_the_same_wall(self, facts_of):
        facts = facts_of(TEXTBOOK.format(batt=2.45))
        assert facts.value("wall.r_isothermal") == pytest.approx(
            2.02, abs=0.005
        )  # recomputed from the read inputs

    def test_the_copies_with_another_batt_do_not_give_the_printed_answer(self, facts_of):
        # Negative control: some circulating copies carry 2.52 for the batt, which gives 2.253.
        found = facts_of(TEXTBOOK.format(batt=2.52)).value("wall.r_parallel")
        assert found == pytest.approx(2.253, abs=0.002)
        assert found != pytest.approx(2.23, abs=0.01)


HANDBOOK = """
speccheck: 1
project: {place: {zone: 5A}}
assemblies:
  wall:
    kind: wall
    framing: {fraction: 0.25, conductivity: 0.115246 W/(m·K)}   # 3.5 in at R-4.38
    layers:
      - {id: gypsum, material: gypsum-board, thickness: 0.5 in, thermal-resistance: R-0.45}
      - {id: fill, material: glass-fibre-batt, thickness: 3.5 in, thermal-resistance: R-13, framed: true}
      - {id: foam, material: xps, thickness: 0.8 in, thermal-resistance: R-4}
      - {id: siding, material: wood-bevel-siding, thickness: 0.5 in, thermal-resistance: R-0.81}
"""


class TestHandbookWall:
    """ASHRAE Fundamentals ch. 25 (2005), 2x4 wall with R-13 batt and R-4 sheathing: from memory."""

    def test_paths_and_both_averages(self, facts_of):
        facts = facts_of(HANDBOOK)
        assert facts.value("wall.r_series") / US_R == pytest.approx(19.1, abs=0.05)
        assert facts.value("wall.r_parallel") / US_R == pytest.approx(15.9, abs=0.1)
        assert facts.value("wall.r_isothermal") / US_R == pytest.approx(14.8, abs=0.1)
        assert US_R / facts.value("wall.r_parallel") == pytest.approx(0.063, abs=0.0005)

    def test_united_states_take_the_parallel_path(self, facts_of):
        facts = facts_of(HANDBOOK)
        assert facts["wall.effective_r"].value == facts["wall.r_parallel"].value
        assert facts["wall.effective_r"].inputs == (("wall", "assembly.r_parallel"),)
        assert "parallel path" in facts.value("wall.effective_r_method")

    def test_continuous_insulation_stands_inside_each_path(self, facts_of):
        # Negative control: averaging the wall without foam and adding R-4 afterwards gives another, lower number.
        facts = facts_of(HANDBOOK)
        paths = [(0.75, 0.68 + 0.45 + 13 + 0.81 + 0.17), (0.25, 0.68 + 0.45 + 4.38 + 0.81 + 0.17)]
        inside = 1 / sum(share / (r + 4) for share, r in paths)
        after = 1 / sum(share / r for share, r in paths) + 4
        found = facts.value("wall.r_parallel") / US_R
        assert found == pytest.approx(inside, abs=0.01)
        assert inside - after > 0.3
        assert found != pytest.approx(after, abs=0.2)


# ANSI/ASHRAE/IES 90.1-2016 table A2.2.3, insulation above deck: U [Btu/(h·ft²·°F)] by rated R, read.
ABOVE_DECK = {
    5: 0.173, 6: 0.147, 7: 0.129, 8: 0.114, 9: 0.102, 10: 0.093, 15: 0.063, 20: 0.048, 25: 0.039, 30: 0.032,
    35: 0.028, 40: 0.025, 45: 0.022, 50: 0.020, 55: 0.018, 60: 0.016,
}  # fmt: skip


@pytest.mark.parametrize(("rated", "printed"), ABOVE_DECK.items())
def test_roof_insulated_above_deck(facts_of, rated, printed):
    # films 0.61 (heat flow up) and 0.17; a steel deck adds nothing
    facts = facts_of(f"""
speccheck: 1
project: {{place: {{zone: 5A}}}}
assemblies:
  roof:
    kind: roof
    layers:
      - {{material: steel, thickness: 0.9 mm}}
      - {{material: polyiso-felt-faced, thickness: {rated / 5.7} in, thermal-resistance: R-{rated}}}
      - {{material: epdm-membrane}}
""")
    assert facts.value("roof.u_factor") * US_R == pytest.approx(printed, abs=0.0005)
    assert round(facts.value("roof.u_factor") * US_R, 3) == printed


def canadian(batt: str, depth: str, lumber: float, layers: str) -> str:
    return f"""
speccheck: 1
project: {{place: {{town: Toronto, state: "ON"}}}}
assemblies:
  wall:
    kind: wall
    framing: {{spacing: 406 mm, conductivity: {lumber} W/(m·K)}}
    layers:
{layers}
      - {{id: fill, material: mineral-wool-batt, thickness: {depth}, thermal-resistance: {batt} m²·K/W, framed: true}}
"""


LUMBER = 0.001 / 0.0085
"""Conductivity behind RSI 0.0085 per mm of spruce (NBC note A-9.36.2.4.(1), memory)."""


def test_canadian_sheet_wall_w2(facts_of):
    # Compliance sheet of a Canadian builder, wall W2 (read; the stud's 0.0085 per mm from memory): 2.46 between 38 x 89
    # studs at 406 mm (23 %), RSI 0.38 in series, films included -> 1.62 and 2.00.
    series = "      - {id: rest, material: gypsum-board, thickness: 12.7 mm, thermal-resistance: 0.23 m²·K/W}"
    facts = facts_of(canadian("2.46", "89 mm", LUMBER, series))
    assert facts["wall.framing_fraction"].value == pytest.approx(0.23)
    assert facts["wall.framing_fraction"].assumed
    assert facts.value("wall.effective_r") == facts.value("wall.r_isothermal")
    assert facts.value("wall.effective_r") == pytest.approx(2.00, abs=0.01)
    assert facts.value("wall.effective_r") - 0.38 == pytest.approx(1.62, abs=0.01)
    assert (
        facts.value("wall.effective_r") < 2.78
    )  # the required RSI printed on the sheet: W2 does not reach it


def test_canadian_code_wall(facts_of):
    # NBC 2010-2020 note A-9.36.2.4.(1) style example (memory): RSI 2.36 between framing, 2.78 in all.
    series = """\
      - {id: gypsum, material: gypsum-board, thickness: 12.7 mm, thermal-resistance: 0.08 m²·K/W}
      - {id: sheathing, material: gypsum-sheathing-paper-faced, thickness: 12.7 mm, thermal-resistance: 0.08 m²·K/W}
      - {id: siding, material: metal-siding, thickness: 1 mm, thermal-resistance: 0.11 m²·K/W}"""
    facts = facts_of(canadian("3.34", "140 mm", LUMBER, series))
    assert facts.value("wall.effective_r") == pytest.approx(2.78, abs=0.005)
    assert (
        facts.value("wall.r_parallel") > facts.value("wall.r_isothermal") + 0.05
    )  # the method tells, not the data


COMBINED = """
speccheck: 1
assemblies:
  wall:
    kind: wall
    framing: {{fraction: 0.125, conductivity: 0.13 W/(m·K)}}
    layers:
      - {{id: inner, material: particleboard, thickness: {board}, conductivity: 0.13 W/(m·K)}}
      - {{id: fill, material: mineral-wool-batt, thickness: 180 mm, conductivity: 0.04 W/(m·K), framed: true}}
      - {{id: outer, material: particleboard, thickness: {board}, conductivity: 0.13 W/(m·K)}}
"""


class TestCombinedMethod:
    """Lehrbuch der Bauphysik, sect. 2.3.4.2, ISO 6946 combined method: read in study notes."""

    def test_printed_limits_and_mean(self, facts_of):
        facts = facts_of(COMBINED.format(board="20 mm"))
        assert facts.value("wall.r_series") == pytest.approx(4.978, abs=0.001)
        assert facts.value("wall.r_parallel") == pytest.approx(4.12, abs=0.005)
        assert facts.value("wall.r_isothermal") == pytest.approx(3.99, abs=0.005)
        assert facts.value("wall.effective_r") == pytest.approx(4.06, abs=0.01)
        assert facts.value("wall.u_factor") == pytest.approx(0.25, abs=0.005)

    def test_boards_as_the_notes_print_them_do_not_give_the_printed_answer(self, facts_of):
        # Negative control: the notes list the boards as 10 mm, which gives 3.88.
        found = facts_of(COMBINED.format(board="10 mm")).value("wall.effective_r")
        assert found == pytest.approx(3.882, abs=0.002)
        assert found != pytest.approx(4.06, abs=0.05)


def test_masonry_wall_of_the_textbook_temperature_profile(facts_of):
    # Lehrbuch der Bauphysik, sect. 2.4, fig. 2.18 (read in study notes): U 0.212, brick side of the insulation -8.67 °C.
    facts = facts_of("""
speccheck: 1
assemblies:
  wall:
    kind: wall
    layers:
      - {id: plaster, material: gypsum-plaster, thickness: 15 mm, conductivity: 0.51 W/(m·K)}
      - {id: masonry, material: clay-block, thickness: 240 mm, conductivity: 0.16 W/(m·K)}
      - {id: insulation, material: mineral-wool-board, thickness: 100 mm, conductivity: 0.035 W/(m·K)}
      - {id: leaf, material: clay-brick, thickness: 115 mm, conductivity: 0.68 W/(m·K)}
""")
    assert facts.value("wall.u_factor") == pytest.approx(0.212, abs=0.0005)
    assert facts.value("wall.plane_group") == "masonry"
    share = facts.value("wall.outboard_share")
    assert -10 + 30 * share == pytest.approx(-8.67, abs=0.02)


def test_rendered_concrete_wall(facts_of):
    # University of Iceland course notes, table 2.7 (read): R 3.08 and 3.07 in its two tables, U 0.33.
    facts = facts_of("""
speccheck: 1
assemblies:
  wall:
    kind: wall
    layers:
      - {id: inside, material: mortar, thickness: 25 mm, conductivity: 1.20 W/(m·K)}
      - {id: foam, material: eps, thickness: 100 mm, conductivity: 0.036 W/(m·K)}
      - {id: wall, material: concrete, thickness: 180 mm, conductivity: 1.95 W/(m·K)}
      - {id: outside, material: mortar, thickness: 20 mm, conductivity: 1.40 W/(m·K)}
""")
    assert facts.value("wall.effective_r") == pytest.approx(3.075, abs=0.01)
    assert facts.value("wall.u_factor") == pytest.approx(0.33, abs=0.005)


COMPOSITE = """
speccheck: 1
assemblies:
  roof:          # films 0.10 and 0.04, as in the problem: the ISO films of upward heat flow
    kind: roof
    framing: {fraction: 0.12, conductivity: 0.22 W/(m·K)}
    layers:
      - {id: foam, material: eps, thickness: 30 mm, conductivity: 0.026 W/(m·K)}
      - {id: plaster, material: gypsum-plaster, thickness: 20 mm, conductivity: 0.22 W/(m·K)}
      - {id: brick, material: clay-brick, thickness: 160 mm, conductivity: 0.72 W/(m·K), framed: true}
      - {id: face, material: gypsum-plaster, thickness: 20 mm, conductivity: 0.22 W/(m·K)}
"""


class TestCompositeWall:
    """Heat Transfer: A Practical Approach, ch. 3, brick with mortar joints: inputs read, answers from memory."""

    def test_thermal_network(self, facts_of):
        facts = facts_of(COMPOSITE)
        # printed for 0.25 m² of wall: 6.85 K/W, 4.38 W at 30 K
        per_unit = facts.value("roof.r_isothermal") / 0.25
        assert per_unit == pytest.approx(6.85, abs=0.03)
        assert 30 / per_unit == pytest.approx(4.38, abs=0.02)
        assert 60 * 30 / per_unit == pytest.approx(263, abs=1.5)

    def test_the_course_solution_that_adds_a_conductance(self, facts_of):
        # Negative control: one circulating solution drops the outside film and adds the joint group as a conductance.
        found = facts_of(COMPOSITE).value("roof.r_isothermal") / 0.25
        group = 0.12 * 0.22 / 0.16 + 0.88 * 0.72 / 0.16
        wrong = (0.1 + 0.03 / 0.026 + 2 * 0.02 / 0.22 + group) / 0.25
        assert found != pytest.approx(wrong, rel=0.05)


def cavity_against_continuous(cavity: str, depth: str, stud: float, foam: str, framing: str) -> str:
    board = (
        f"      - {{id: foam, material: eps, thickness: 2 in, thermal-resistance: {foam}}}\n" if foam else ""
    )
    return f"""
speccheck: 1
project: {{place: {{zone: 5A}}}}
assemblies:
  wall:
    kind: wall
    framing: {{{framing}}}
    layers:
      - {{id: base, material: gypsum-board, thickness: 0.5 in, thermal-resistance: R-1.2}}   # 2.05 with both films
      - {{id: fill, material: glass-fibre-batt, thickness: {depth}, thermal-resistance: {cavity}, framed: true}}
{board}"""


@pytest.mark.parametrize(
    ("kind", "printed"),
    [("wood", 16.0), ("steel", 40.0)],
)
def test_cavity_insulation_is_not_continuous_insulation(facts_of, kind, printed):
    # "Continuous insulation solves energy code math problem" (trade article, read): in the cavity loses 16 % (wood)
    # and 40 % (steel) against R-13 with continuous; base layers, 25 % wood, steel at 16 in.
    def u(cavity, depth, stud, foam):
        inch = float(depth.split()[0]) * 0.0254
        framing = (
            "material: steel, spacing: 16 in"
            if kind == "steel"
            else f"fraction: 0.25, conductivity: {inch / (stud * US_R)} W/(m·K)"
        )
        return facts_of(cavity_against_continuous(cavity, depth, stud, foam, framing)).value("wall.u_factor")

    deep = "6 in" if kind == "steel" else "5.5 in"
    lost = 1 - u("R-13", "3.5 in", 4.38, "R-7.5") / u("R-20.5", deep, 6.88, "")
    assert 100 * lost == pytest.approx(printed, abs=1)


STEEL = """
speccheck: 1
project: {{place: {{zone: 5A}}}}
assemblies:
  wall:
    kind: wall
    framing: {{material: steel, spacing: {spacing}{more}}}
    layers:
      - {{id: lining, material: gypsum-board, thickness: 0.5 in, thermal-resistance: R-0.45}}
      - {{id: fill, material: glass-fibre-batt, thickness: {depth}{cavity}, framed: true}}
      - {{id: sheathing, material: gypsum-sheathing-glass-mat, thickness: 0.5 in, thermal-resistance: R-0.45}}
"""


class TestSteelStuds:
    """Steel framing: correction factors of the code, and the modified zone method with its own example."""

    @pytest.mark.parametrize(
        ("depth", "spacing", "cavity", "effective"),
        [("3.5 in", "16 in", 13, 5.98), ("3.5 in", "24 in", 15, 7.80), ("6 in", "16 in", 19, 7.03)],
    )
    def test_correction_factor_of_the_code_table(self, facts_of, depth, spacing, cavity, effective):
        # IECC table C402.1.4.1 (0.46 for R-13 read in a trade article, the others from memory)
        text = STEEL.format(spacing=spacing, more="", depth=depth, cavity=f", thermal-resistance: R-{cavity}")
        facts = facts_of(text)
        series = 0.68 + 0.45 + 0.45 + 0.17
        assert facts.value("wall.r_correction_factor") / US_R == pytest.approx(series + effective, abs=0.02)
        assert facts["wall.effective_r"].value == facts["wall.r_correction_factor"].value
        assert ("wall", "assembly.framing_spacing") in facts["wall.r_correction_factor"].inputs

    @pytest.mark.parametrize("name", ["r_parallel", "r_isothermal", "r_iso_6946"])
    def test_simple_averaging_does_not_apply(self, facts_of, name):
        text = STEEL.format(spacing="16 in", more="", depth="3.5 in", cavity=", thermal-resistance: R-13")
        assert facts_of(text)[f"wall.{name}"].inapplicable

    def test_cavity_not_known_is_asked_for(self, facts_of):
        facts = facts_of("""
speccheck: 1
project: {place: {zone: 5A}}
products: {batt: {name: a batt}}
assemblies:
  wall:
    kind: wall
    framing: {material: steel, spacing: 16 in}
    layers:
      - {id: lining, material: gypsum-board, thickness: 0.5 in}
      - {id: fill, product: batt, thickness: 3.5 in, framed: true}
""")
        assert [gap.key for gap in facts["wall.effective_r"].missing] == [("batt", "thermal resistance")]

    def test_spacing_not_known_is_the_only_question(self, facts_of):
        text = STEEL.format(spacing="16 in", more="", depth="3.5 in", cavity=", thermal-resistance: R-13")
        facts = facts_of(text.replace("spacing: 16 in", "width: 41 mm, steel-thickness: 0.9 mm"))
        assert [gap.wanted for gap in facts["wall.effective_r"].missing] == ["framing spacing"]

    def test_no_row_falls_back_to_the_zone_method(self, facts_of):
        text = STEEL.format(
            spacing="16 in",
            more=", width: 41 mm, steel-thickness: 1.1 mm",
            depth="3.5 in",
            cavity=", thermal-resistance: R-8",
        )
        facts = facts_of(text)
        assert facts["wall.r_correction_factor"].inapplicable
        assert facts["wall.effective_r"].value == facts["wall.r_modified_zone"].value
        assert "zone factor 2" in facts.value("wall.effective_r_method")

    def test_a_range_past_the_last_row_does_not_lose_the_cavity(self, facts_of):
        # The table R of a batt has a range that reaches past the rows of the factor table: the low end stays sensible.
        facts = facts_of(STEEL.format(spacing="16 in", more="", depth="3.5 in", cavity=""))
        fact = facts["wall.r_correction_factor"]
        if fact.known and fact.low is not None:
            assert 0.8 * fact.value < fact.low <= fact.value

    def test_modified_zone_of_the_handbook(self, facts_of):
        # ASHRAE Fundamentals 2021 ch. 27, example 5 (read): studs 38 x 89 mm, 1 mm steel, 406 mm apart; 51 mm of sheathing;
        # cavity 23.92 m·K/W; 1.47 outside (film included) and 0.043 inside; zone factor 1.71 -> 2.71.
        facts = facts_of("""
speccheck: 1
project: {place: {zone: 5A}}
assemblies:
  wall:
    kind: wall
    framing: {material: steel, spacing: 406 mm, width: 38 mm, steel-thickness: 1 mm, zone-factor: 1.71}
    layers:
      - {id: fill, material: glass-fibre-batt, thickness: 89 mm, thermal-resistance: 2.129 m²·K/W, framed: true}
      - {id: sheathing, material: eps, thickness: 51 mm, thermal-resistance: 1.44 m²·K/W}
""")
        inside = 0.68 * US_R - 0.043  # our still-air film against the example's inside resistance
        assert facts.value("wall.r_modified_zone") - inside == pytest.approx(2.71, abs=0.02)
        assert "zone factor 1.71 as declared" in facts["wall.r_modified_zone"].method

    def test_zone_method_by_hand(self, facts_of):
        # Zone width of the energy management handbook, 9.3.3 (read): 1.25 in flange, half an inch of board: 2.25 in. The
        # resistance is our own sum by the method's steps; no published total could be read for this wall.
        text = STEEL.format(
            spacing="16 in",
            more=", width: 1.25 in, steel-thickness: 0.04 in",
            depth="3.5 in",
            cavity=", thermal-resistance: R-11",
        )
        inch, k = 0.0254, 48.0
        zone, stud, metal = 2.25 * inch, 1.25 * inch, 0.04 * inch
        side = {"in": (0.68 + 0.45) * US_R, "out": (0.17 + 0.45) * US_R}
        per_metre = 11 * US_R / (3.5 * inch)

        def beside(width, depth):
            return depth / ((width / zone) * k + (1 - width / zone) / per_metre)

        in_zone = sum(side.values()) + 2 * beside(stud, metal) + beside(metal, 3.5 * inch - 2 * metal)
        clear = sum(side.values()) + 11 * US_R
        share = zone / (16 * inch)
        expected = 1 / (share / in_zone + (1 - share) / clear)
        assert facts_of(text).value("wall.r_modified_zone") == pytest.approx(expected, rel=1e-6, abs=0)


def crossing(crosses: str, battens: str = "fraction: 0.10, conductivity: 0.12 W/(m·K)") -> str:
    return f"""
speccheck: 1
assemblies:
  wall:
    kind: wall
    framing: {{fraction: 0.20, conductivity: 0.12 W/(m·K)}}
    layers:
      - {{id: lining, material: gypsum-board, thickness: 12.5 mm, thermal-resistance: 0.05 m²·K/W}}
      - id: service
        material: mineral-wool-batt
        thickness: 48 mm
        thermal-resistance: 1.2 m²·K/W
        framing: {{{battens}{crosses}}}
      - {{id: fill, material: mineral-wool-batt, thickness: 144 mm, thermal-resistance: 4.0 m²·K/W, framed: true}}
      - {{id: sheathing, material: osb, thickness: 12 mm, thermal-resistance: 0.10 m²·K/W}}
"""


class TestTwoFramedLayers:
    """Studs, and the battens of a service cavity: hand computation by ISO 6946:2017, 6.7.2 (areas multiply or align)."""

    PLAIN = 0.13 + 0.05 + 0.10 + 0.04
    BATTEN, STUD = 0.048 / 0.12, 0.144 / 0.12

    def layers(self):
        return 1 / (0.9 / 1.2 + 0.1 / self.BATTEN), 1 / (0.8 / 4.0 + 0.2 / self.STUD)

    def test_crossing(self, facts_of):
        facts = facts_of(crossing(""))
        upper = 1 / sum(
            a * b / (self.PLAIN + r + s)
            for a, r in ((0.9, 1.2), (0.1, self.BATTEN))
            for b, s in ((0.8, 4.0), (0.2, self.STUD))
        )
        assert facts.value("wall.r_parallel") == pytest.approx(upper, rel=1e-9)
        assert facts.value("wall.r_isothermal") == pytest.approx(self.PLAIN + sum(self.layers()), rel=1e-9)
        assert facts.value("wall.service.framing_fraction") == pytest.approx(0.10)
        assert facts.value("wall.fill.framing_fraction") == pytest.approx(0.20)

    def test_in_line(self, facts_of):
        facts = facts_of(crossing(", crosses: false"))
        upper = 1 / (
            0.8 / (self.PLAIN + 1.2 + 4.0)
            + 0.1 / (self.PLAIN + 1.2 + self.STUD)
            + 0.1 / (self.PLAIN + self.BATTEN + self.STUD)
        )
        assert facts.value("wall.r_parallel") == pytest.approx(upper, rel=1e-9)
        assert facts.value("wall.r_isothermal") == pytest.approx(self.PLAIN + sum(self.layers()), rel=1e-9)

    def test_crossing_is_better_than_in_line(self, facts_of):
        crossed, aligned = (
            facts_of(crossing(words)).value("wall.r_parallel") for words in ("", ", crosses: false")
        )
        assert crossed > aligned + 0.02

    def test_a_share_of_its_own_is_not_the_share_of_the_studs(self, facts_of):
        # Negative control: battens counted with the studs' share give another number.
        own, as_studs = (
            facts_of(crossing("", f"fraction: {share}, conductivity: 0.12 W/(m·K)")).value("wall.r_parallel")
            for share in (0.10, 0.20)
        )
        assert own > as_studs + 0.05

    def test_battens_share_from_width_and_spacing(self, facts_of):
        facts = facts_of(crossing("", "width: 40 mm, spacing: 400 mm, conductivity: 0.12 W/(m·K)"))
        assert facts.value("wall.service.framing_fraction") == pytest.approx(0.10)
        assert facts["wall.service.framing_fraction"].method == "width of a member over the spacing"
        assert facts.value("wall.r_parallel") == pytest.approx(
            facts_of(crossing("")).value("wall.r_parallel"), rel=1e-9
        )

    def test_battens_without_a_share_are_asked_for(self, facts_of):
        facts = facts_of(crossing("", "spacing: 400 mm"))
        assert [gap.key for gap in facts["wall.effective_r"].missing] == [
            ("wall.service", "framing fraction")
        ]
        assert facts["wall.r_series"].known

    def test_first_layer_framed_by_itself_still_crosses(self, facts_of):
        # The place of a layer in the list must not decide whether its members cross the studs.
        text = crossing("")
        without_lining = "\n".join(line for line in text.splitlines() if "id: lining" not in line)
        first = facts_of(without_lining).value("wall.r_parallel")
        plain = self.PLAIN - 0.05
        upper = 1 / sum(
            a * b / (plain + r + s)
            for a, r in ((0.9, 1.2), (0.1, self.BATTEN))
            for b, s in ((0.8, 4.0), (0.2, self.STUD))
        )
        assert first == pytest.approx(upper, rel=1e-9)


def test_two_batts_between_the_same_studs_are_one_framed_section(facts_of):
    # Members run through both: two paths, not four.
    facts = facts_of("""
speccheck: 1
assemblies:
  wall:
    kind: wall
    framing: {fraction: 0.2, conductivity: 0.12 W/(m·K)}
    layers:
      - {id: one, material: mineral-wool-batt, thickness: 60 mm, thermal-resistance: 1.6 m²·K/W, framed: true}
      - {id: two, material: mineral-wool-batt, thickness: 60 mm, thermal-resistance: 1.6 m²·K/W, framed: true}
""")
    assert facts.value("wall.r_parallel") == pytest.approx(1 / (0.8 / 3.37 + 0.2 / 1.17), rel=1e-9)


def films(
    kind: str, place: str, outside: str = "", layers: str = "{material: concrete, thickness: 200 mm}"
) -> str:
    return f"""
speccheck: 1
project: {place}
assemblies:
  thing: {{kind: {kind}{outside}, layers: [{layers}]}}
"""


# ASHRAE Fundamentals ch. 26 (memory; the wall values read in trade pages), NBC A-9.36.2.4 (wall read, else memory),
# ISO 6946:2017 table 7 (read): inside film by kind.
INSIDE = {
    ("wall", "us"): 0.68 * US_R, ("roof", "us"): 0.61 * US_R, ("floor", "us"): 0.92 * US_R,
    ("wall", "ca"): 0.12, ("ceiling", "ca"): 0.11, ("floor", "ca"): 0.16,
    ("wall", ""): 0.13, ("roof", ""): 0.10, ("floor", ""): 0.17,
}  # fmt: skip
PLACES = {"us": "{place: {zone: 5A}}", "ca": '{place: {town: Toronto, state: "ON"}}', "": "{}"}
OUTSIDE = {"us": 0.17 * US_R, "ca": 0.03, "": 0.04}


class TestFilms:
    """Surface films by heat-flow direction and country."""

    @pytest.mark.parametrize(("kind", "country"), INSIDE)
    def test_by_direction_and_country(self, facts_of, kind, country):
        facts = facts_of(films(kind, PLACES[country]))
        assert facts.value("project.country") == country
        assert facts.value("thing.film_inside") == pytest.approx(INSIDE[kind, country], rel=1e-3)
        assert facts.value("thing.film_outside") == pytest.approx(OUTSIDE[country], rel=1e-3)

    def test_ground_has_no_film(self, facts_of):
        facts = facts_of(films("slab", "{}"))
        assert facts.value("thing.film_outside") == 0.0
        assert facts.value("thing.outside") == "ground"

    @pytest.mark.parametrize("toward", ["garage", "attic", "crawlspace", "neighbour"])
    def test_still_air_toward_a_sheltered_space(self, facts_of, toward):
        facts = facts_of(films("ceiling", "{}", f", outside: {toward}"))
        assert facts.value("thing.film_outside") == facts.value("thing.film_inside") == 0.10

    def test_country_by_the_codes_adopted_where_there_is_no_place(self, facts_of):
        assert facts_of(films("wall", "{adopted: [us/irc-2021]}")).value(
            "thing.film_inside"
        ) == pytest.approx(0.68 * US_R)


CAVITY = """
speccheck: 1
assemblies:
  wall:
    kind: wall
    layers:
      - {{id: lining, material: gypsum-board, thickness: 12.5 mm}}
      - {{id: fill, material: wood-fibre-board, thickness: 120 mm, thermal-resistance: 3 m²·K/W}}
      - {{id: cavity, material: air-cavity, thickness: 25 mm{ventilation}}}
      - {{id: cladding, material: clay-brick, thickness: 100 mm, thermal-resistance: 0.5 m²·K/W}}
"""


class TestCavity:
    """Air layers by ventilation: ISO 6946:2017, 6.9 (memory)."""

    def test_well_ventilated_drops_what_lies_outside(self, facts_of):
        facts = facts_of(CAVITY.format(ventilation=", ventilation: ventilated"))
        inner = facts.value("wall.lining.resistance") + 3 + 0.13 + 0.13
        assert facts.value("wall.effective_r") == pytest.approx(inner, rel=1e-9)
        assert facts["wall.effective_r"].assumed == facts["wall.lining.resistance"].assumed
        assert facts.value("wall.cladding.side") == "beyond"

    def test_closed_counts_in_full(self, facts_of):
        facts = facts_of(CAVITY.format(ventilation=", ventilation: none"))
        # ISO 6946 annex D still air, 25 mm, horizontal: 0.18 (table 8, read)
        assert facts.value("wall.cavity.resistance") == pytest.approx(0.18, abs=0.005)
        outer = (
            0.13
            + facts.value("wall.lining.resistance")
            + 3
            + facts.value("wall.cavity.resistance")
            + 0.5
            + 0.04
        )
        assert facts.value("wall.effective_r") == pytest.approx(outer, rel=1e-9)

    def test_vented_at_the_base_counts_half_the_layer(self, facts_of):
        closed, vented = (
            facts_of(CAVITY.format(ventilation=f", ventilation: {words}")).value("wall.cavity.resistance")
            for words in ("none", "vented")
        )
        assert vented == pytest.approx(closed / 2, rel=1e-9)

    def test_opening_area_decides_where_declared(self, facts_of):
        # 500 mm² per metre and less: unventilated; 1500 and more: well ventilated (ISO 6946:2017, 6.9, memory)
        for area, dropped in ((300, False), (1500, True)):
            facts = facts_of(CAVITY.format(ventilation=f", vent-area: {area} mm²/m"))
            assert (facts.value("wall.effective_r") < 3.5) is dropped
            assert not any("well ventilated" in line for line in facts["wall.effective_r"].assumed)

    def test_ventilation_not_shown_is_assumed_for_heat_and_said(self, facts_of):
        facts = facts_of(CAVITY.format(ventilation=""))
        open_ = facts_of(CAVITY.format(ventilation=", ventilation: ventilated"))
        assert facts.value("wall.effective_r") == open_.value("wall.effective_r")
        assert any(
            "wall.cavity counted as well ventilated" in line for line in facts["wall.effective_r"].assumed
        )
        assert facts["wall.cavity.ventilation"].missing


def test_ranges_of_table_values_are_carried_to_the_effective_resistance(facts_of):
    facts = facts_of("""
speccheck: 1
assemblies:
  wall:
    kind: wall
    framing: {fraction: 0.2}
    layers:
      - {id: fill, material: cellulose-dense-pack, thickness: 140 mm, framed: true}
      - {id: sheathing, material: osb, thickness: 12 mm}
""")
    fill = facts["wall.fill.resistance"]
    assert fill.low < fill.value < fill.high
    for name in ("r_series", "r_parallel", "r_isothermal", "r_iso_6946", "effective_r", "u_factor"):
        fact = facts[f"wall.{name}"]
        assert fact.low < fact.value < fact.high, name
    # the low end is the section computed with every low end: by hand for the series
    low = 0.13 + 0.04 + fill.low + facts["wall.sheathing.resistance"].low
    assert facts["wall.r_series"].low == pytest.approx(low, rel=1e-9)
