"""The packs on moisture through the year against second sources, where examples cannot reach."""

from typing import Any, ClassVar

import pytest

from speccheck.judgement.finding import Finding
from speccheck.judgement.library import load_pack
from speccheck.judgement.pack import Rule, Table
from speccheck.uses.change import changed
from speccheck.uses.check import check_data

NG = 1e-12
"""One ng in kg: a permeance of 60 ng/(Pa·s·m²) is 60e-12 in SI."""


def _rule(pack: str, id_: str) -> Rule:
    return next(rule for rule in load_pack(pack).rules if rule.id == id_)


def _table(pack: str, id_: str, name: str) -> Table:
    return next(table for table in _rule(pack, id_).tables if table.name == name)


def _parameter(pack: str, id_: str, name: str) -> float:
    return next(one.value for one in _rule(pack, id_).parameters if one.name == name)


def _finding(pack: str, start: str, rule: str, change: dict[str, Any] | None = None) -> Finding:
    loaded = load_pack(pack)
    data = changed(loaded.starts[start], change or {})
    if loaded.adopt:
        data.setdefault("project", {})["adopted"] = [loaded.adopt]
    return next(finding for finding in check_data(data, "test").findings if finding.rule == rule)


GERMAN = "codes/de/din-4108-3"
CANADIAN = "codes/ca/nbc-2020-9.25"
BRITISH = "codes/uk/practice"


class TestTextbookWall:
    """A building-physics textbook, section 13.2.5 example a, two particleboards (read in study notes), as a document."""

    @pytest.mark.parametrize(
        ("rule", "observed", "limit"),
        [
            ("din-4108-3.condensate-within-the-limit", 0.27, 0.5),
            ("din-4108-3.condensate-dries", 0.659, 0.27),
            ("din-68800-2.drying-reserve", 0.389, 0.1),
        ],
    )
    def test_through_document_and_rule(self, rule: str, observed: float, limit: float) -> None:
        finding = _finding(GERMAN, "textbook_wall", rule)
        assert finding.level.value == "pass"
        assert finding.measured is not None
        assert finding.measured.observed == pytest.approx(observed, abs=0.003)
        assert finding.measured.limit == pytest.approx(limit, abs=0.003)

    def test_gain_of_the_board(self) -> None:
        # The book has 2.0 % by 700 kg/m³ of its board; the material table has another density.
        finding = _finding(GERMAN, "textbook_wall", "din-4108-3.wood-gain-within-the-limit")
        assert finding.measured is not None
        assert finding.measured.limit == 0.03
        assert 0.02 <= finding.measured.observed <= 0.024


def test_german_limits() -> None:
    """Two trade-school texts agree with the textbook: 1.0 and 0.5 kg/m², 5 % and 3 % by mass (read)."""
    rule = "din-4108-3.condensate-within-the-limit"
    assert (_parameter(GERMAN, rule, "most"), _parameter(GERMAN, rule, "beside")) == (1.0, 0.5)
    gain = _table(GERMAN, "din-4108-3.wood-gain-within-the-limit", "gain")
    assert gain.rows == {"wood": 0.05, "panel": 0.03}


def test_reserve_is_the_one_held_against_the_monthly_balance() -> None:
    """250 g/m² for roofs (textbook, read) and 100 g/m² for walls (memory), one figure in both packs."""
    german = _table(GERMAN, "din-68800-2.drying-reserve", "reserve").rows
    practice = _table("practice/drying", "drying.open-side-carries-enough", "reserve").rows
    assert german["roof"] == practice["roof"] == 0.25
    assert german["wall"] == practice["wall"] == german["floor"] == german["ceiling"] == 0.1


def test_breather_membrane_by_either_unit() -> None:
    """A UK housing warranty standard prints 0.6 MN·s/g beside 0.12 m (read): δ of air 2.0e-10 over the permeance."""
    least = _parameter(BRITISH, "uk.breather-membrane-open", "least")
    assert 2.0e-10 / least == pytest.approx(0.12, rel=1e-9)


def test_british_factors_stand_between_the_neighbours() -> None:
    """0.75 of dwellings lies above 0.70 of DIN 4108-2 and 0.71 of OENORM B 8110-2 (both read); uses run by humidity."""
    rows = _table(BRITISH, "uk.surface-factor", "least").rows
    assert rows["dwelling"] == rows["school"] == 0.75 > 0.71
    assert rows["office"] < rows["dwelling"] < rows["commercial-kitchen"] < rows["pool"] == rows["laundry"]


@pytest.mark.parametrize(
    ("thousands", "share"),
    [
        (4, 0.167),
        (5, 0.231),
        (6, 0.259),
        (7, 0.286),
        (8, 0.333),
        (9, 0.355),
        (10, 0.375),
        (11, 0.394),
        (12, 0.429),
    ],
)
def test_canadian_ratio_as_a_share_of_the_whole(thousands: int, share: float) -> None:
    """r/(1 + r) of Table 9.25.5.2 in five editions (read), the share worked out apart from the table."""
    ratio = _table(CANADIAN, "nbc-2020-9.25.tight-layer-kept-warm", "ratio").find(
        {"climate.degree_day_thousands": float(thousands)}
    )
    assert isinstance(ratio, float)
    assert ratio / (1.0 + ratio) == pytest.approx(share, abs=0.0005)


def test_canadian_trigger_is_an_and_of_both() -> None:
    """Ontario Building Code 9.25.5.1.(1): below 0.1 L/(s·m²) at 75 Pa and below 60 ng/(Pa·s·m²), dry cup (read)."""
    rule = "nbc-2020-9.25.tight-layer-kept-warm"
    assert _parameter(CANADIAN, rule, "air") == pytest.approx(0.1e-3)
    assert _parameter(CANADIAN, rule, "vapour") == pytest.approx(60 * NG, rel=1e-9, abs=0.0)
    thin = {"assemblies.wall.layers.foam.thermal-resistance": "0.88 m²·K/W"}
    tight = _finding(CANADIAN, "house_wall", rule, thin)
    # the first finding of the rule is that of the sheathing, which is free; the foam comes after it
    assert tight.place == "wall.sheathing"
    assert tight.level.value == "pass"


@pytest.mark.parametrize(
    ("cavity", "foam", "ratio"),
    [(2.11, 0.88, 0.422), (3.34, 0.88, 0.280), (3.34, 1.32, 0.400), (3.87, 1.76, 0.455)],
)
def test_ratio_about_the_inner_face_of_the_foam(cavity: float, foam: float, ratio: float) -> None:
    """Cases worked out by hand: inboard 0.12 + 0.08 + cavity + 0.108, outboard foam + 0.11 + 0.03 (computed)."""
    data = changed(
        load_pack(CANADIAN).starts["house_wall"],
        {
            "assemblies.wall.layers.lining.thermal-resistance": "0.08 m²·K/W",
            "assemblies.wall.layers.fill.thermal-resistance": f"{cavity} m²·K/W",
            "assemblies.wall.layers.sheathing.thermal-resistance": "0.108 m²·K/W",
            "assemblies.wall.layers.foam.thermal-resistance": f"{foam} m²·K/W",
            "assemblies.wall.layers.cavity": None,
            "assemblies.wall.layers.cladding.thermal-resistance": "0.11 m²·K/W",
        },
    )
    surveyed = check_data(data, "test").surveyed
    subject = next(one for one in surveyed.subjects if one.place == "wall.foam")
    found = subject.fact("layer.outboard_ratio")
    assert found is not None
    assert found.value == pytest.approx(ratio, abs=0.001)


def test_canadian_wall_values_are_the_four_of_the_note() -> None:
    """Note table A-9.36.2.6.(1)-A heads its columns 2.78, 2.97, 3.08 and 3.85 in three editions (read)."""
    id_ = "nbc-2020-9.36.effective-resistance"
    plain, recovery = _table(CANADIAN, id_, "min_r").rows, _table(CANADIAN, id_, "recovery").rows
    assert set(plain) == set(recovery)
    walls = {rows[key] for rows in (plain, recovery) for key in rows if key.startswith("wall/")}
    assert walls == {2.78, 2.97, 3.08, 3.85}
    for key, with_recovery in recovery.items():
        assert with_recovery <= plain[key], key


def test_values_grow_with_the_zone() -> None:
    """A colder zone never asks for less."""
    rows = _table(CANADIAN, "nbc-2020-9.36.effective-resistance", "min_r").rows
    for kind in ("wall", "ceiling", "roof", "floor"):
        column = [rows[f"{kind}/{zone}"] for zone in ("4", "5", "6", "7A", "7B", "8")]
        assert column == sorted(column), kind


def test_monthly_limit_of_the_practice_rule_is_the_austrian_one() -> None:
    """OENORM B 8110-2:2020, section 11: 0.5 kg/m² (read in lecture notes); half the German 1.0 of ordinary layers."""
    most = _parameter("practice/condensation", "condensation.winter-water-dries-by-autumn", "most")
    assert most == 0.5 == _parameter(GERMAN, "din-4108-3.condensate-within-the-limit", "most") / 2


def test_factor_of_the_mould_check_uses_its_own_film() -> None:
    """U of 1.0 by a film of 0.13 gives 1 - 0.25/1.12 = 0.777, not 0.75 (worked out in textbook notes; computed)."""
    data: dict[str, Any] = {
        "speccheck": 1,
        "project": {"use": "dwelling", "adopted": ["uk/practice"]},
        "assemblies": {
            "wall": {
                "kind": "wall",
                "layers": [
                    {"material": "clay-brick", "thickness": "200 mm", "thermal-resistance": "0.83 m²·K/W"}
                ],
            }
        },
    }
    finding = next(one for one in check_data(data, "test").findings if one.rule == "uk.surface-factor")
    assert finding.measured is not None
    assert finding.measured.observed == pytest.approx(0.777, abs=0.0005)


def test_an_unknown_permeance_keeps_nothing_from_the_surface() -> None:
    """The temperature factor knows no vapour: common sense, no source."""
    change = {
        "products": {"board": {"name": "a board", "thickness": "12.7 mm", "thermal-resistance": "R-0.5"}},
        "assemblies.wall.layers.lining": {"id": "lining", "product": "board"},
    }
    iso = "codes/int/iso-13788"
    assert _finding(iso, "open_wall", "iso-13788.surface-factor", change).level.value == "pass"
    assert _finding(iso, "open_wall", "iso-13788.dries-within-the-year", change).level.value == "ask"


def test_the_practice_rules_stay_quiet_where_no_humidity_is_stated() -> None:
    """A wall without a room humidity gets no verdict on the year: the model behind it would be a guess."""
    start = load_pack("practice/condensation").starts["cavity_wall"]
    data = changed(start, {"project.indoor": None})
    said = {finding.rule for finding in check_data(data, "test").findings}
    assert "condensation.winter-water-dries-by-autumn" not in said
    assert "moisture-storage.sheathing-below-decay" not in said


class TestWoodWhateverTheVerdict:
    """Wood in saturated air is near fibre saturation, 28 to 30 % (Wood Handbook, chapter 4, memory)."""

    STORAGE = "practice/moisture-storage"
    WET: ClassVar[dict[str, Any]] = {
        "project.indoor.humidity": "45 %",
        "assemblies.wall.layers.lining.finish": "vapour-retarder-primer",
        "assemblies.wall.layers.sheathing.material": "osb",
    }

    def test_a_few_grams_do_not_silence_the_rule_on_wet_wood(self) -> None:
        finding = _finding(self.STORAGE, "cold_wall", "moisture-storage.sheathing-below-decay", self.WET)
        assert finding.level.value == "warn"
        assert finding.place == "wall"
        assert finding.measured is not None
        assert finding.measured.observed == pytest.approx(0.285, abs=0.01)
        assert finding.measured.limit == pytest.approx(0.18)
        assert "what condenses dries within the year" in finding.reason
        assert "In the dampest month, January" in finding.reason

    def test_the_framing_is_told_with_its_month_where_no_wood_sheathes_it(self) -> None:
        change = {
            "project.place.zone": "4A",
            "project.indoor.humidity": "50 %",
            "assemblies.wall.layers.sheathing": {
                "id": "sheathing", "material": "gypsum-sheathing-glass-mat", "thickness": "12.7 mm", "controls": ["air"],
            },
            "assemblies.wall.layers.weather": {
                "id": "weather", "material": "bituminous-membrane", "controls": ["water"],
                "permeance": {"dry-cup": "sd 10 m", "wet-cup": "sd 10 m"},
            },
        }  # fmt: skip
        finding = _finding(self.STORAGE, "cold_wall", "moisture-storage.framing-below-decay", change)
        assert finding.level.value == "warn"
        assert finding.measured is not None
        assert finding.measured.limit == pytest.approx(0.19)
        assert finding.measured.observed > 0.19
        assert "dampest in January" in finding.reason
