"""Bad and strange input: a located error, or an honest unknown with its question; never a crash, a NaN or an endless loop."""

import math

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from speccheck.document import Unreadable
from speccheck.physics import wet_spell
from speccheck.survey.moisture import MOISTURE_FACTS

WALL = (
    ("lining", 0.05, 0.1, "gypsum-board"),
    ("retarder", 0.0, 2.0, "polyethylene-film"),
    ("wool", 4.0, 0.16, "mineral-wool-batt"),
    ("cladding", 0.06, 3.0, "fibre-cement-siding"),
)
SET_POINT = {"temperature": "20 °C", "humidity": "50 %"}
BEYOND_AIR = ("reserve_after_leakage",)
"""Asks for air between -50 and 60 °C, to know how heavy it is."""


def sound(facts, but=()):
    """Hold every moisture fact to a finite value, or to a reason why there is none."""
    for name, fact in facts.items():
        if name.rpartition(".")[2] not in MOISTURE_FACTS:
            continue
        if fact.known:
            assert not isinstance(fact.value, float) or math.isfinite(fact.value), (name, fact.value)
            assert all(edge is None or math.isfinite(edge) for edge in (fact.low, fact.high)), name
        elif fact.inapplicable:
            assert fact.method, name
        else:
            assert fact.missing, name
            assert all(gap.question.endswith("?") for gap in fact.missing), (name, fact.missing)
    unknown = {name for name in MOISTURE_FACTS if facts[f"wall.{name}"].missing}
    assert unknown <= set(but), unknown


def balanced(table):
    """Hold the year of moisture to what any year is: finite, not negative, twelve months."""
    assert len(table.months) == 12
    for row in table.months:
        assert all(map(math.isfinite, (*row.temperature, *row.humidity, *row.water)))
        assert min(row.water) >= 0.0
        assert 0.0 <= min(row.humidity) <= max(row.humidity) <= 1.0


class TestRefused:
    """What no layer can be is refused where it stands."""

    @pytest.mark.parametrize(
        ("key", "value", "words"),
        [
            ("thickness", "0 mm", "too small"),
            ("thickness", "-10 mm", "too small"),
            ("thermal-resistance", "-1 m²·K/W", "too small"),
            ("permeance", {"dry-cup": "sd 0 m"}, "resistance of zero"),
            ("permeance", {"dry-cup": "-1 perm"}, "too small"),
            ("permeance", {"dry-cup": "1 perm", "curve": {"120 %": "1 perm"}}, "120"),
            ("permeance", {"dry-cup": "1 perm", "curve": {"damp": "1 perm"}}, "damp"),
        ],
    )
    def test_at_its_place(self, loaded, section_document, key, value, words):
        document = section_document(WALL)
        document["assemblies"]["wall"]["layers"][3][key] = value
        with pytest.raises(Unreadable) as refused:
            loaded(document)
        assert "assemblies.wall.layers[3]." + key in str(refused.value)
        assert words in str(refused.value)

    @pytest.mark.parametrize("humidity", ["140 %", "-5 %"])
    def test_humidity_of_the_rooms(self, loaded, section_document, humidity):
        document = section_document(WALL, {"temperature": "20 °C", "humidity": humidity})
        with pytest.raises(Unreadable, match=r"project\.indoor\.humidity"):
            loaded(document)


class TestTightSections:
    """Layers that let nothing through."""

    def shut(self, section_document, *names):
        document = section_document(WALL, SET_POINT)
        for layer in document["assemblies"]["wall"]["layers"]:
            if layer["id"] in names:
                layer["permeance"] = {"dry-cup": "0 perm", "wet-cup": "0 perm"}
        return document

    def test_on_both_sides(self, moist, section_document, year_table):
        facts = moist(self.shut(section_document, "retarder", "cladding"))
        sound(facts)
        balanced(year_table(facts))
        assert facts.value("wall.moisture_verdict") == "none"  # nothing gets in worth the name
        assert facts.value("wall.drying_net") < 0.001  # and nothing gets out

    def test_outside_alone_it_dries_inward(self, moist, section_document):
        facts = moist(self.shut(section_document, "cladding"))
        sound(facts)
        assert facts.value("wall.moisture_verdict") == "dries"  # inward, since the retarder lets some through
        assert facts.value("wall.drying_outward") < 1e-4 < facts.value("wall.drying_inward")

    def test_everywhere(self, moist, section_document, year_table):
        facts = moist(self.shut(section_document, *(layer[0] for layer in WALL)))
        sound(facts)
        balanced(year_table(facts))


class TestManyLayers:
    """Long assemblies: bounded by how often a month is run, not by the clock."""

    def counted(self, monkeypatch):
        from speccheck.physics import humidity_dependent, monthly_balance

        calls = []
        real = wet_spell.through_spell

        def counting(*given):
            calls.append(len(given[0]))
            return real(*given)

        for room in (monthly_balance, humidity_dependent):
            monkeypatch.setattr(room, "through_spell", counting)
        return calls

    def sixty(self):
        boards = [(f"b{i}", 0.05, 0.2, ("plywood", "gypsum-board", "osb")[i % 3]) for i in range(29)]
        wool = [(f"w{i}", 0.2, 0.01, "mineral-wool-batt") for i in range(30)]
        mixed = [layer for pair in zip(boards, wool, strict=False) for layer in pair]
        return [*mixed, wool[-1], ("skin", 0.0, 30.0, "epdm-membrane")]

    def test_sixty_layers(self, moist, section_document, year_table, monkeypatch):
        calls = self.counted(monkeypatch)
        facts = moist(section_document(self.sixty(), SET_POINT))
        assert len(facts.surveyed.ledger.page("assembly", "wall").table.faces) == 61
        sound(facts)
        balanced(year_table(facts))
        long = len(calls)
        calls.clear()
        moist(section_document(WALL, SET_POINT))
        # the number of months run hangs on the bisections, a little on where the year begins, not on the layers
        assert 100 < long < 2 * len(calls)

    def test_the_longest_assembly_that_may_be_declared(self, moist, section_document):
        layers = [(f"l{i}", 0.1, 0.1, ("mineral-wool-batt", "plywood")[i % 2]) for i in range(80)]
        sound(moist(section_document(layers, SET_POINT)))

    @pytest.mark.parametrize("parts", [2, 4, 16])
    def test_a_layer_cut_in_identical_parts_is_the_same_wall(self, moist, section_document, parts):
        # 16 strips of 0.25 m²·K/W and 0.01 m either way
        wool = [(f"wool{i}", 4.0 / parts, 0.16 / parts, "mineral-wool-batt") for i in range(parts)]
        facts = moist(section_document([*WALL[:2], *wool, WALL[3]]))
        assert 1000 * facts.value("wall.moisture_peak") == pytest.approx(361.21, rel=0.001)
        assert facts.value("wall.moisture_peak_place") == "inner face of wall.cladding"

    def test_identical_layers_all_through(self, moist, section_document, year_table):
        facts = moist(section_document([("board", 0.3, 0.5, "wood-fibre-board")] * 1, SET_POINT))
        sound(facts)
        many = [(f"board{i}", 0.3, 0.5, "wood-fibre-board") for i in range(20)]
        facts = moist(section_document(many, SET_POINT))
        sound(facts)
        balanced(year_table(facts))


class TestCurves:
    """Curves no one should declare."""

    def over(self, section_document, curve, layer="retarder"):
        document = section_document(WALL)
        for one in document["assemblies"]["wall"]["layers"]:
            if one["id"] == layer:
                one["permeance"]["curve"] = curve
        return document

    @pytest.mark.parametrize("layer", ["retarder", "cladding"])
    @pytest.mark.parametrize(
        "curve",
        [
            {"20 %": "30 perm", "90 %": "0.05 perm"},
            {"90 %": "9 perm", "10 %": "1 perm"},
        ],
    )
    def test_one_that_does_not_rise_is_followed(self, moist, section_document, year_table, curve, layer):
        # The loader takes it: a hygroscopic facing may fall as well. Where no humidity agrees with its own line the
        # year says so by `moisture_settled`.
        facts = moist(self.over(section_document, curve, layer))
        sound(facts)
        balanced(year_table(facts))
        assert facts.value("wall.moisture_settled") in (True, False)

    def test_one_that_has_no_steady_state_says_so(self, moist, section_document):
        # It opens where it is damp and so dries, and shuts where it is dry and so dampens: within one percent.
        steep = {"25 %": "0.05 perm", "74.9 %": "0.05 perm", "75 %": "300 perm"}
        facts = moist(self.over(section_document, steep, "cladding"))
        sound(facts)
        assert facts["wall.moisture_settled"].known

    @pytest.mark.parametrize(
        "curve",
        [
            {"25 %": "1 perm", "0.25": "9 perm"},
            {"25 %": "0 perm", "80 %": "0 perm"},
            {"50 %": "2 perm"},
            {},
            {"25 %": "1 perm", "50 %": "8 perm", "75 %": "0.5 perm"},
            {"49 %": "0.01 perm", "51 %": "100 perm", "52 %": "0.01 perm", "100 %": "100 perm"},
            {"90 %": "5 perm", "20 %": "5 perm", "50 %": "0.1 perm"},
        ],
    )
    def test_what_is_no_curve_never_comes_here(self, moist, section_document, curve):
        with pytest.raises(Unreadable):
            moist(self.over(section_document, curve))


class TestAbsurdRooms:
    """Temperatures outside the range of the formulae."""

    FREE = (
        "frsi",
        "summer_plane",
        "summer_margin",
        *(name for name in MOISTURE_FACTS if name.startswith("period_")),
    )

    @pytest.mark.parametrize("temperature", ["5000 °C", "-200 °C", "101 °C"])
    @pytest.mark.parametrize("more", [{"humidity": "40 %"}, {"humidity-class": 3}])
    def test_the_year_is_asked_about(self, moist, section_document, temperature, more):
        facts = moist(section_document(WALL, {"temperature": temperature, **more}))
        sound(facts, but=set(MOISTURE_FACTS) - set(self.FREE))
        for name in (
            "moisture_verdict",
            "moisture_rests_on_cup",
            "frsi_required",
            "drying_net",
            "outboard_r_to_add",
        ):
            (gap,) = facts[f"wall.{name}"].missing
            assert "temperature must lie from -100 to 100 °C" in gap.question
        # the period balance has its own climate
        assert facts.value("wall.period_condensed") > 0.0
        assert facts.surveyed.ledger.page("assembly", "wall").table is None

    @pytest.mark.parametrize("temperature", ["100 °C", "60 °C", "-40 °C", "0 °C"])
    @pytest.mark.parametrize("humidity", ["0 %", "100 %"])
    def test_what_lies_within_is_reckoned(self, moist, section_document, year_table, temperature, humidity):
        facts = moist(section_document(WALL, {"temperature": temperature, "humidity": humidity}))
        # saturated at 100 °C no surface of up to 100 °C keeps below 80 %
        hot = temperature == "100 °C" and humidity == "100 %"
        surface = ("frsi_required", "frsi_required_month", "frsi_margin") if hot else ()
        sound(facts, but=(*surface, *(BEYOND_AIR if temperature == "100 °C" else ())))
        balanced(year_table(facts))

    def test_colder_than_wood_was_measured(self, moist, section_document, year_table):
        # -70 °C outdoors: the year is told, the moisture content of wood at the plane is not (handbook from -40 °C).
        layers = (*WALL[:3], ("board", 0.06, 0.5, "plywood"))
        facts = moist(section_document(layers, SET_POINT), -70.0, 0.2)
        sound(facts, but={"plane_wood_moisture", *BEYOND_AIR})
        assert "-40" in facts["wall.plane_wood_moisture"].missing[0].question
        balanced(year_table(facts))

    @pytest.mark.parametrize(
        ("outdoors", "pressure"), [(60.0, 15000.0), (-90.0, 0.01), (20.0, 0.01), (20.0, 2337.0)]
    )
    def test_strange_weather(self, moist, section_document, year_table, outdoors, pressure):
        facts = moist(section_document(WALL, SET_POINT), outdoors, pressure)
        sound(facts, but=BEYOND_AIR if outdoors < -50.0 else ())
        balanced(year_table(facts))

    def test_rooms_as_warm_as_outdoors_to_the_last_digit(self, moist, section_document):
        # the factor divides by the difference of the two
        for temperature in ("20 °C", "20.000000000000004 °C", "2e-309 °C"):
            facts = moist(section_document(WALL, {"temperature": temperature, "humidity": "0 %"}), 0.0, 1.0)
            sound(facts)
        assert facts["wall.frsi_required"].inapplicable


MATERIALS = (
    "mineral-wool-batt", "xps", "cellulose-dense-pack", "plywood", "gypsum-board", "clay-brick", "polyethylene-film",
    "epdm-membrane", "softwood",
)  # fmt: skip
RESISTANCES = st.sampled_from([0.0, 1e-9, 0.05, 0.25, 1.0, 4.0, 30.0, 500.0])
DIFFUSION = st.sampled_from([1e-9, 1e-4, 0.02, 0.5, 2.0, 50.0, 1e5, 1e8])


@st.composite
def stacks(draw):
    """Draw the layers of an assembly: some framed, some ventilated, one perhaps with a curve."""
    layers = []
    for number in range(draw(st.integers(1, 9))):
        material = draw(st.sampled_from(MATERIALS))
        more = {}
        if draw(st.integers(0, 5)) == 0:
            more = {"permeance": {"dry-cup": f"{draw(st.floats(0, 50))!r} perm", "wet-cup": "0 perm"}}
            if draw(st.booleans()):
                rising = sorted(draw(st.lists(st.floats(1e-9, 90), min_size=4, max_size=4)))
                falling = draw(st.booleans())
                more["permeance"]["curve"] = {
                    f"{humidity} %": f"{permeance!r} perm"
                    for humidity, permeance in zip(
                        (5, 40, 60, 95), rising[:: -1 if falling else 1], strict=True
                    )
                }
        elif material in MATERIALS[:3] and draw(st.booleans()):
            more = {"framed": True, "thickness": "90 mm"}
        layers.append((f"l{number}", draw(RESISTANCES), draw(DIFFUSION), material, more))
    if draw(st.booleans()):
        layers[draw(st.integers(0, len(layers))) : 0] = ["cavity"]
    return layers


ROOMS = st.one_of(
    st.builds(lambda n: {"humidity-class": n, "temperature": "20 °C"}, st.integers(1, 5)),
    st.builds(
        lambda t, h: {"temperature": f"{t!r} °C", "humidity": f"{100 * h!r} %"},
        st.floats(-60, 90),
        st.floats(0, 1),
    ),
    st.just({}),
)
FRAMINGS = st.sampled_from(
    [
        {"material": "softwood", "fraction": 0.2},
        {"material": "hardwood", "fraction": 0.1},
        {"material": "steel"},
    ]
)
WEATHER = st.tuples(
    st.lists(st.floats(-60, 45), min_size=12, max_size=12),
    st.lists(st.floats(0.01, 6000), min_size=12, max_size=12),
)


class TestAnySection:
    """Whatever is declared, each moisture fact is a finite value, or says why there is none."""

    @settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.too_slow])
    @given(stacks(), ROOMS, WEATHER, FRAMINGS, st.sampled_from(["wall", "roof", "ceiling", "floor"]))
    def test_each_fact_is_finite_or_says_why_not(
        self, moist, section_document, year_table, layers, rooms, weather, framing, kind
    ):
        framed = (
            {"framing": framing} if any(one != "cavity" and one[4].get("framed") for one in layers) else {}
        )
        facts = moist(section_document(layers, rooms, kind=kind, **framed), *weather)
        sound(facts, but=MOISTURE_FACTS)
        table = year_table(facts)
        if facts["wall.moisture_verdict"].known:
            balanced(table)
            assert facts.value("wall.moisture_peak") >= 0.0
            assert facts.value("wall.moisture_residual") >= -1e-12
            least, most = (
                facts.value(f"wall.humidity_{n}") for n in ("without_condensation", "drying_in_year")
            )
            assert 0.0 <= least <= most <= 1.0
