"""Finding a material by name, and the row and the values that fit a layer."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from speccheck.shelf import rules_folder
from speccheck.tables.material_record import material_from
from speccheck.tables.materials import _index_content, material, material_ids, near, source_title
from speccheck.tables.record_value import PERM, R_US

SCALING = ("osb", "plywood", "gypsum-board", "xps", "spray-foam-closed-cell", "concrete", "wood-fibre-board")
KEPT = ("polyiso-foil-faced", "polyiso-coated-glass-faced", "housewrap-spunbonded", "brick-veneer")


def test_names_of_the_trade_are_known():
    names = """gypsum-board osb plywood mineral-wool-batt glass-fibre-batt polyethylene-film variable-permeance-membrane
        kraft-facing latex-paint spray-foam-closed-cell spray-foam-open-cell xps eps polyiso-foil-faced wood-fibre-board
        polyiso-coated-glass-faced housewrap-microporous brick-veneer softwood-board softwood fibre-cement-siding
        concrete air-cavity gypsum-sheathing-glass-mat steel aluminium mineral-wool-board cellulose-dense-pack"""
    assert [name for name in names.split() if material(name) is None] == []


@pytest.mark.parametrize(
    ("written", "family"),
    [
        ("drywall", "gypsum-board"),
        ("stone-wool-batt", "mineral-wool-batt"),
        ("fiberglass-batt", "glass-fibre-batt"),
        ("expanded-polystyrene", "eps"),
        ("clt", "cross-laminated-timber"),
        ("air-layer", "air-cavity"),
        ("fiber-cement-siding", "fibre-cement-siding"),
        ("vapor-retarder-primer", "vapour-retarder-primer"),
        ("aluminum-foil", "aluminium-foil"),
    ],
)
def test_other_names_mean_the_family(written, family):
    assert material(written).id == family


def test_an_unknown_name_is_none_and_near_names_help():
    assert material("unobtainium") is None
    assert near("zzzz") == []
    assert near("plywod")[0] == "plywood"
    assert near("Gypsum Board")[0] == "gypsum-board"
    assert near("housewrap") == [
        "housewrap-drainable",
        "perforated-housewrap",
        "housewrap-spunbonded",
        "housewrap-microporous",
    ]
    assert near("") == []


def test_near_names_are_known_names():
    for wrong in ("gypsum", "polyethelene-film", "mineralwool", "xpss", "osb-board", "wood"):
        assert all(material(name) is not None for name in near(wrong))


def test_no_name_is_used_twice():
    record = {"id": "a", "also": ["b"]}
    with pytest.raises(ValueError, match="the name b is used by a and c"):
        _index_content({"x.yaml": {"group": "x", "materials": [record, {"id": "c", "also": ["b"]}]}})


def test_ids_are_sorted_and_their_sources_are_titled():
    ids = material_ids()
    assert list(ids) == sorted(set(ids))
    assert len(ids) == 168
    assert source_title("astm-c578").startswith("ASTM C578")
    assert source_title("nobody") is None


def test_a_row_id_leaves_that_row_alone():
    whole, one = material("eps"), material("eps-type-ix")
    assert len(whole.rows) == 4
    assert [row.id for row in one.rows] == ["eps-type-ix"]
    assert one.id == "eps"


def test_a_nominal_size_is_taken_as_it_is():
    # 7/16 in is 11.1 mm; a drawing says 11 mm.
    at = material("osb").row_for(0.011)
    assert (at.row.id, at.note, at.rivals) == ("osb-11mm", None, ())
    assert at.permeance("dry").value == pytest.approx(0.8 * PERM)
    assert at.thermal_resistance.value == pytest.approx(0.62 * R_US)


def test_another_size_is_scaled_and_says_so():
    at = material("osb").row_for(0.018)
    assert at.row.id == "osb-15mm"
    assert at.note == "the table row is for 15.9 mm; values scaled to 18 mm"
    assert at.permeance("dry").value == pytest.approx(0.6 * PERM * 15.9 / 18)
    assert at.permeance("wet").value == pytest.approx(1.6 * PERM * 15.9 / 18)
    assert at.rh_curve.points[-1][1] == pytest.approx(2.5 * PERM * 15.9 / 18)


def test_a_facer_does_not_scale_but_the_foam_does():
    one, two = (material("polyiso-foil-faced").row_for(size) for size in (0.0254, 0.0508))
    assert one.permeance("dry") == two.permeance("dry")
    assert two.thermal_resistance.value == pytest.approx(2 * one.thermal_resistance.value)
    assert (
        two.note
        == "the table row is for 25.4 mm; permeance kept at 50.8 mm, a facer, film or joints govern it"
    )


def test_a_hollow_siding_keeps_its_resistance():
    # ASHRAE 2013, read: hollow-backed siding RSI 0.11 whatever the sheet is thick.
    assert material("vinyl-siding").row_for(0.0015).thermal_resistance.value == pytest.approx(0.11, abs=0.002)


def test_a_label_finds_the_batt():
    batt = material("glass-fibre-batt")
    for label, inches, row in [
        (13, 3.5, "r13-3-5in"),
        (15, 3.5, "r15-3-5in"),
        (30, 8.25, "r30c-8-25in"),
        (38, 12, "r38-12in"),
    ]:
        at = batt.row_for(inches * 0.0254, label * R_US)
        assert (at.row.id, at.rivals, at.note) == (f"glass-fibre-batt-{row}", (), None)
        assert at.thermal_resistance.value == pytest.approx(label * R_US)


def test_r_19_in_a_five_and_a_half_inch_cavity_gives_r_18():
    # Trade table of batts, read; every US table that could be recomputed counts R-18.
    at = material("glass-fibre-batt").row_for(0.1397, 19 * R_US)
    assert at.row.id == "glass-fibre-batt-r19-in-5-5in"
    assert at.thermal_resistance.value == pytest.approx(18 * R_US)
    assert "r19-in-5-5in" not in material("glass-fibre-batt").row_for(0.1397).row.id


def test_a_type_that_is_not_shown_widens_the_range():
    at = material("eps").row_for(0.0254)
    assert at.row.id == "eps-type-ii"
    assert at.note == "type II is taken; the range takes in type I, type VIII, type IX"
    dry = at.permeance("dry")
    # ASTM C578: at most 5 perm for type I, 2.5 for type IX, memory.
    assert dry.high / PERM >= 4.5
    assert dry.low / PERM <= 1.3
    assert material("eps-type-ii").row_for(0.0254).permeance("dry").high < dry.high


def test_a_declared_resistance_tells_the_type():
    # ASTM C578, read for the R of each type: 3.6, 3.8, 4.0, 4.2 per inch.
    assert material("eps").row_for(0.0508, 8.4 * R_US).row.id == "eps-type-ix"
    assert material("eps").row_for(0.0508, 7.2 * R_US).row.id == "eps-type-i"


def test_without_a_thickness_the_nominal_one_is_taken_and_said():
    at = material("concrete").row_for()
    assert at.thickness == pytest.approx(0.1)
    assert at.note == "thickness not given: 100 mm is taken"
    assert material("vinyl-siding").row_for().note is None


def test_what_the_table_does_not_say_is_none():
    cavity = material("air-cavity").row_for(0.025)
    assert cavity.thermal_resistance is None
    assert cavity.air_impermeable is None
    assert material("latex-paint-flat").permeance(None, "wet") is None
    assert material("water-repellent").permeance(None, "dry") is None


def test_one_value_serves_for_both_cups_of_what_takes_up_no_moisture():
    # ISO 10456:2007 Table 4 gives expanded polystyrene 60/60 and polyethylene sheet 100000/100000 (memory).
    film = material("polyethylene-film").row_for(0.00015)
    assert film.permeance("wet").value == film.permeance("dry").value
    assert film.permeance("wet").how == "memory"
    osb = material("osb").row_for(0.011)
    assert osb.permeance("wet").value > osb.permeance("dry").value


def test_a_board_thinner_than_the_table_is_not_called_impermeable():
    # 10 mm is the least size the codes name for OSB and plywood (IgCC 2012 appendix B, read).
    osb = material("osb")
    assert osb.row_for(0.011).air_impermeable is True
    assert osb.row_for(0.010).air_impermeable is True
    assert osb.row_for(0.006).air_impermeable is None
    assert material("spray-foam-closed-cell").row_for(0.025).air_impermeable is None
    assert material("spray-foam-closed-cell").row_for(0.051).air_impermeable is True
    assert material("glass-fibre-batt").row_for(0.089).air_impermeable is False


@pytest.mark.parametrize("bad", [0.0, -0.01, float("nan")])
def test_a_size_that_cannot_be_is_refused(bad):
    with pytest.raises(ValueError, match="above 0"):
        material("osb").row_for(bad)
    with pytest.raises(ValueError, match="above 0"):
        material("osb").row_for(0.011, bad)


@given(st.sampled_from(SCALING), st.floats(0.03, 0.4), st.floats(1.11, 3.0))
def test_permeance_falls_as_resistance_rises_with_thickness(name, thickness, times):
    row = material(name).rows[0]
    thin, thick = row.permeance_at(thickness, "dry"), row.permeance_at(thickness * times, "dry")
    assert thick.value * times == pytest.approx(thin.value, rel=0.06)
    assert thick.high * times == pytest.approx(thin.high, rel=0.06)
    cold, warm = row.resistance_at(thickness), row.resistance_at(thickness * times)
    assert warm.value == pytest.approx(cold.value * times, rel=0.06)


@given(st.sampled_from(KEPT), st.floats(0.0001, 0.4))
def test_what_a_facer_governs_never_scales(name, thickness):
    row = material(name).rows[0]
    assert row.permeance_at(thickness, "dry") == row.vapour.dry_cup


@given(st.sampled_from(material_ids()), st.floats(0.0005, 0.5), st.none() | st.floats(0.02, 12.0))
def test_any_layer_gets_a_row_and_ranges_hold_their_value(name, thickness, resistance):
    at = material(name).row_for(thickness, resistance)
    for value in (at.thermal_resistance, at.permeance("dry"), at.permeance("wet")):
        if value is not None and value.low is not None:
            assert value.low <= value.value * (1 + 1e-9)
            assert value.value <= value.high * (1 + 1e-9)


def test_mu_becomes_a_permeance_by_the_convention():
    # 20 mm with mu 50: sd 1 m, and 1 m of still air is 200 ng/(Pa·s·m²) with 2.0e-10 (ISO 13788).
    provenance = {"source": ["computed"], "how": "derived", "confidence": "high"}
    record = {
        "id": "x",
        "title": "x",
        "vapour": {
            "basis": "mu",
            "at": 20,
            "dry-cup": 50,
            "low": 1,
            "high": 9,
            "scales-with-thickness": True,
            **provenance,
        },
    }
    assert material_from(record, "x").rows[0].vapour.dry_cup.value == pytest.approx(200e-12)


def test_the_rules_folder_can_be_named():
    assert material("osb", rules_folder()) == material("osb")
