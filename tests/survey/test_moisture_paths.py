"""Paths, cups and curves: which path governs, which permeance a layer is reckoned by, and what is asked where none is."""

import copy

import pytest

from speccheck.physics.psychrometrics import saturation_pressure
from speccheck.quantity import Kind, parse
from speccheck.survey.moisture import MOISTURE_FACTS
from speccheck.tables.materials import material

SET_POINT = {"temperature": "20 °C", "humidity": "50 %"}
STUDS = {"material": "softwood", "fraction": 0.15, "conductivity": "0.12 W/(m·K)"}

# Insulation on the warm side of a tight film: behind the studs, which insulate less, the film lies colder.
FRAMED = (
    ("lining", 0.05, 0.1, "gypsum-board"),
    ("service", 1.6, 0.05, "mineral-wool-batt"),
    ("film", 0.0, 50.0, "polyethylene-film"),
    ("wool", 3.0, 0.14, "mineral-wool-batt", {"framed": True, "thickness": "140 mm"}),
    ("sheathing", 0.08, 0.3, "plywood"),
)
WALL = (
    ("lining", 0.05, 0.1, "gypsum-board"),
    ("retarder", 0.0, 2.0, "polyethylene-film"),
    ("wool", 4.0, 0.16, "mineral-wool-batt"),
    ("cladding", 0.06, 3.0, "fibre-cement-siding"),
)
ROOF = (
    ("lining", 0.05, 0.1, "gypsum-board"),
    ("retarder", 0.0, 20.0, "variable-permeance-membrane", {"thickness": "0.3 mm"}),
    ("wool", 4.0, 0.2, "mineral-wool-batt"),
    ("membrane", 0.03, 100.0, "epdm-membrane"),
)
CURVE = {"25 %": "sd 20 m", "55 %": "sd 10 m", "65 %": "sd 1 m", "80 %": "sd 0.3 m"}


def with_permeance(document, layer, permeance):
    changed = copy.deepcopy(document)
    for one in changed["assemblies"]["wall"]["layers"]:
        if one["id"] == layer:
            one["permeance"] = permeance
    return changed


def roof_over(section_document, number):
    return section_document(ROOF, {"temperature": "20 °C", "humidity-class": number}, kind="roof")


class TestFramePath:
    """The path through wooden members."""

    def test_the_worse_path_is_named(self, moist, section_document, year_table):
        facts = moist(section_document(FRAMED, SET_POINT, framing=STUDS))
        assert facts.value("wall.moisture_path") == "framing"
        assert "through the framing" in facts["wall.moisture_verdict"].method
        assert facts.value("wall.moisture_peak_place") == "inner face of wall.film"
        assert facts.value("wall.moisture_verdict") == "dries"
        assert facts["wall.wool.member_resistance"].key in facts["wall.moisture_verdict"].inputs
        # January at the film by hand: the member has 0.14/0.12, and the film's face is saturated
        table = year_table(facts)
        before, whole = 0.13 + 0.05 + 1.6, 0.13 + 0.05 + 1.6 + 0.14 / 0.12 + 0.08 + 0.04
        film = table.faces.index("inner face of wall.film")
        assert table.months[0].temperature[film] == pytest.approx(20 - 21 * before / whole, abs=1e-9)
        assert saturation_pressure(20 - 21 * before / whole) < 0.50 * saturation_pressure(20.0)
        assert table.months[0].water[film] > 0.0

    def test_condensation_through_the_members_by_hand(self, moist, section_document, year_table):
        # December begins dry: what reaches the film over 0.15 m less what leaves it over film, wood and sheathing, for
        # 31 days. The sd of the member is that of softwood by dry cup in the material table.
        table = year_table(moist(section_document(FRAMED, SET_POINT, framing=STUDS)))
        film = table.faces.index("inner face of wall.film")
        wet = [row.month for row in table.months if row.water[film] > 0.0]
        assert wet == ["January", "February", "March", "December"]
        december = table.months[11]
        plane = saturation_pressure(december.temperature[film])
        wood = material("softwood").row_for(0.14).permeance("dry").value
        inward = 2e-10 * (0.50 * saturation_pressure(20.0) - plane) / 0.15
        outside = 0.88 * saturation_pressure(1.0)
        outward = 2e-10 * (plane - outside) / (50.0 + 2e-10 / wood + 0.3)
        assert december.water[film] == pytest.approx((inward - outward) * 31 * 86400, rel=1e-6)

    def test_through_the_insulation_alone_nothing_condenses(self, moist, section_document):
        bare = section_document(FRAMED, SET_POINT)
        del bare["assemblies"]["wall"]["layers"][3]["framed"]
        facts = moist(bare)
        assert facts.value("wall.moisture_verdict") == "none"
        assert facts.value("wall.moisture_path") == "insulation"

    def test_steel_has_no_path_of_its_own(self, moist, section_document):
        steel = {"material": "steel", "fraction": 0.15}
        facts = moist(section_document(FRAMED, SET_POINT, framing=steel))
        assert facts.value("wall.moisture_path") == "insulation"
        assert facts.value("wall.moisture_verdict") == "none"

    def test_what_is_said_beside_the_verdict_looks_at_both_paths(self, moist, section_document):
        # A wall that condenses at 50 % by its framing has a limit below that, and both cups agree with the verdict.
        facts = moist(section_document(FRAMED, SET_POINT, framing=STUDS))
        assert facts.value("wall.humidity_without_condensation") < 0.50
        assert facts.value("wall.humidity_drying_in_year") >= 0.50
        assert facts.value("wall.outboard_r_to_add") > 0.0
        assert facts.value("wall.moisture_by_dry_cup") == facts.value("wall.moisture_verdict")
        assert facts.value("wall.moisture_rests_on_cup") is False
        assert facts.value("wall.moisture_rests_on_variable_layer") is False

    def test_the_dampest_of_two_wet_paths_governs(self, moist, section_document):
        # The wall of one plane with members that insulate less: its plane behind the wool is the wetter one.
        framed = [*WALL[:2], (*WALL[2], {"framed": True, "thickness": "140 mm"}), WALL[3]]
        facts = moist(section_document(framed, framing=STUDS))
        assert facts.value("wall.moisture_path") == "insulation"
        assert 1000 * facts.value("wall.moisture_peak") == pytest.approx(361.21, rel=0.001)


class TestCups:
    """Dry cup inboard of the insulation, wet cup from there outward; one stands in for the other and says so."""

    def test_each_side_by_its_cup(self, moist, section_document):
        # The reference wall again, by cups that differ on the side that is not asked.
        document = section_document(WALL)
        document = with_permeance(document, "retarder", {"dry-cup": "sd 2 m", "wet-cup": "sd 0.2 m"})
        document = with_permeance(document, "cladding", {"dry-cup": "sd 30 m", "wet-cup": "sd 3 m"})
        facts = moist(document)
        assert 1000 * facts.value("wall.moisture_peak") == pytest.approx(361.21, rel=0.001)
        assert not any("stands in" in words for words in facts["wall.moisture_peak"].assumed)

    @pytest.mark.parametrize(
        ("layer", "cup", "words"),
        [
            ("cladding", "dry-cup", "dry cup of wall.cladding stands in for its wet cup"),
            ("retarder", "wet-cup", "wet cup of wall.retarder stands in for its dry cup"),
        ],
    )
    def test_one_cup_stands_in(self, moist, section_document, layer, cup, words):
        sd = {"cladding": "sd 3 m", "retarder": "sd 2 m"}[layer]
        facts = moist(with_permeance(section_document(WALL), layer, {cup: sd}))
        assert 1000 * facts.value("wall.moisture_peak") == pytest.approx(361.21, rel=0.001)
        assert any(words in assumed for assumed in facts["wall.moisture_peak"].assumed)

    @pytest.mark.parametrize(
        ("sd", "asked"),
        # five times as open the cladding of 1 m lets all through that reaches it; the one of 30 m still does not
        [("sd 1 m", True), ("sd 30 m", False)],
    )
    def test_a_cup_not_shown_that_may_decide_is_asked_for(self, moist, section_document, sd, asked):
        facts = moist(with_permeance(section_document(WALL), "cladding", {"dry-cup": sd}))
        assert facts.value("wall.moisture_by_dry_cup") == facts.value("wall.moisture_by_wet_cup") == "dries"
        rests = facts["wall.moisture_rests_on_cup"]
        assert rests.value is (None if asked else False)
        assert ["wet" in gap.question for gap in rests.missing] == [True] * asked

    def test_the_cup_that_is_asked_for_is_no_assumption(self, moist, section_document):
        facts = moist(with_permeance(section_document(WALL), "cladding", {"wet-cup": "sd 3 m"}))
        assert not any("stands in" in words for words in facts["wall.moisture_peak"].assumed)

    @pytest.mark.parametrize(
        ("dry", "wet", "verdicts"),
        [
            ("sd 30 m", "sd 0.3 m", ("dries", "none", True)),
            ("sd 30 m", "sd 1 m", ("dries", "dries", False)),
        ],
    )
    def test_verdict_by_either_cup(self, moist, section_document, dry, wet, verdicts):
        facts = moist(with_permeance(section_document(WALL), "cladding", {"dry-cup": dry, "wet-cup": wet}))
        found = [
            facts.value(f"wall.moisture_{name}") for name in ("by_dry_cup", "by_wet_cup", "rests_on_cup")
        ]
        assert tuple(found) == verdicts

    def test_a_product_counts_as_a_layer_does(self, moist, section_document):
        document = section_document(WALL)
        retarder = document["assemblies"]["wall"]["layers"][1]
        document["products"] = {"sheet": {"family": "polyethylene-film", "permeance": retarder["permeance"]}}
        document["assemblies"]["wall"]["layers"][1] = {"id": "retarder", "product": "sheet"}
        assert 1000 * moist(document).value("wall.moisture_peak") == pytest.approx(361.21, rel=0.001)


class TestCurves:
    """Layers that follow their own humidity."""

    def test_a_declared_curve_turns_the_verdict(self, moist, section_document):
        document = with_permeance(
            roof_over(section_document, 3),
            "retarder",
            {"dry-cup": "sd 20 m", "wet-cup": "sd 0.3 m", "curve": CURVE},
        )
        facts = moist(document)
        assert facts.value("wall.moisture_verdict") == "dries"
        assert facts.value("wall.moisture_by_dry_cup") == "accumulates"
        assert facts.value("wall.moisture_rests_on_variable_layer") is True
        assert facts.value("wall.moisture_settled") is True

    def test_without_the_curve_it_does_not(self, moist, section_document):
        document = with_permeance(
            roof_over(section_document, 3), "retarder", {"dry-cup": "sd 20 m", "wet-cup": "sd 0.3 m"}
        )
        facts = moist(document)
        assert facts.value("wall.moisture_verdict") == "accumulates"
        assert facts.value("wall.moisture_rests_on_variable_layer") is False

    def test_over_a_drier_room_nothing_rests_on_it(self, moist, section_document):
        document = with_permeance(
            roof_over(section_document, 2),
            "retarder",
            {"dry-cup": "sd 20 m", "wet-cup": "sd 0.3 m", "curve": CURVE},
        )
        facts = moist(document)
        assert facts.value("wall.moisture_verdict") == "dries"
        assert facts.value("wall.moisture_rests_on_variable_layer") is False
        assert facts.value("wall.moisture_rests_on_cup") is True  # by wet cup throughout it would gather

    def test_a_flat_curve_is_the_cup(self, moist, section_document):
        flat = {"dry-cup": "sd 2 m", "wet-cup": "sd 2 m", "curve": {"20 %": "sd 2 m", "90 %": "sd 2 m"}}
        facts = moist(with_permeance(section_document(WALL), "retarder", flat))
        assert 1000 * facts.value("wall.moisture_peak") == pytest.approx(361.21, rel=0.001)

    def test_the_curve_of_a_product_is_followed(self, moist, section_document):
        document = roof_over(section_document, 3)
        document["products"] = {
            "sheet": {
                "family": "variable-permeance-membrane",
                "permeance": {"dry-cup": "sd 20 m", "wet-cup": "sd 0.3 m", "curve": CURVE},
            }
        }
        document["assemblies"]["wall"]["layers"][1] = {"id": "retarder", "product": "sheet"}
        assert moist(document).value("wall.moisture_rests_on_variable_layer") is True
        # what the layer states goes before its product, curve and all
        stated = {"dry-cup": "sd 20 m", "wet-cup": "sd 20 m"}
        document["assemblies"]["wall"]["layers"][1]["permeance"] = stated
        facts = moist(document)
        assert facts.value("wall.moisture_rests_on_variable_layer") is False
        assert facts.value("wall.moisture_verdict") == "accumulates"

    def test_the_curve_of_the_table_serves_where_nothing_is_declared(self, moist, section_document):
        document = roof_over(section_document, 3)
        del document["assemblies"]["wall"]["layers"][1]["permeance"]
        facts = moist(document)
        points = material("variable-permeance-membrane").row_for().rh_curve.points
        assert points[-1][1] > 10 * points[0][1]
        dry = parse("sd 20 m", Kind.PERMEANCE).value
        assert facts.value("wall.retarder.permeance_dry") != pytest.approx(dry, rel=0.01, abs=0.0)
        # it opens in summer and lets out what its dry cup would keep
        assert facts.value("wall.moisture_verdict") == "dries"
        assert any("material table" in words for words in facts["wall.moisture_verdict"].assumed)


class TestNotShown:
    """One permeance that is not shown."""

    FREE = ("frsi", "frsi_required", "frsi_required_month", "frsi_margin", "humidity_surface_bears")

    def bare(self, section_document, layer):
        # a board of no family the tables know, without a permeance
        document = section_document(WALL, SET_POINT)
        number = [one[0] for one in WALL].index(layer)
        document["assemblies"]["wall"]["layers"][number] = {
            "id": layer,
            "product": "board",
            "thermal-resistance": "0.06 m²·K/W",
            "thickness": "20 mm",
        }
        document["products"] = {"board": {"name": "a board", "air-permeance": "0.001 L/(s·m²) at 75 Pa"}}
        return document

    def test_outboard_it_leaves_the_moisture_facts_unknown_with_one_question(self, moist, section_document):
        facts = moist(self.bare(section_document, "cladding"))
        question = "What is the wet-cup permeance of board?"
        for name in MOISTURE_FACTS:
            fact = facts[f"wall.{name}"]
            if name in (*self.FREE, "summer_plane", "summer_margin"):
                assert fact.known, name
            else:
                assert fact.value is None, name
                assert [gap.question for gap in fact.missing] == [question], name
        for layer in ("retarder", "wool"):
            assert [gap.question for gap in facts[f"wall.{layer}.drying_inward"].missing] == [question]

    def test_inboard_it_is_the_dry_cup_that_is_asked(self, moist, section_document):
        facts = moist(self.bare(section_document, "retarder"))
        for name in MOISTURE_FACTS:
            if name not in self.FREE:
                asked = {gap.question for gap in facts[f"wall.{name}"].missing}
                assert asked == {"What is the dry-cup permeance of board?"}, name

    def test_heat_and_the_plane_do_not_move(self, moist, section_document):
        full, bare = (
            moist(section_document(WALL, SET_POINT)),
            moist(self.bare(section_document, "cladding")),
        )
        for name in ("r_series", "plane_temperature", "outboard_share", "frsi", "frsi_margin"):
            assert bare.value(f"wall.{name}") == pytest.approx(full.value(f"wall.{name}"), rel=1e-12)
