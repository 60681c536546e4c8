"""Films, air layers, framing, metal studs, sealing and cavities: against second sources and against the physics."""

import pytest

from speccheck.physics.air_layer import air_layer_resistance
from speccheck.physics.metal_framing import correction_factor
from speccheck.shelf import rules_folder
from speccheck.tables.construction import (
    air_layer_limits,
    cavity_air_changes,
    equivalent_permeance,
    films,
    framing_fraction,
    metal_framing,
    minimum_lap,
    not_a_seal,
    sealing_means,
    sealing_means_ids,
    substrate_of,
    surface_check_film,
    tabulated_air_layer,
    uv_exposure,
)
from speccheck.tables.materials import material_ids, source_title
from speccheck.tables.readable import read_yaml
from speccheck.tables.record_value import PERM, R_US


def _file(name):
    return read_yaml((rules_folder() / "construction" / f"{name}.yaml").read_bytes(), name)


@pytest.mark.parametrize(
    ("convention", "direction", "interior", "exterior"),
    [
        # ISO 6946, read in study notes.
        ("iso-6946", "up", 0.10, 0.04),
        ("iso-6946", "horizontal", 0.13, 0.04),
        ("iso-6946", "down", 0.17, 0.04),
        # NBC table, read for the wall; memory for ceiling and floor.
        ("nbc", "horizontal", 0.12, 0.03),
        ("nbc", "up", 0.11, 0.03),
        ("nbc", "down", 0.16, 0.03),
        # ASHRAE by trade table, read: 0.68 and 0.17; 90.1 Appendix A, read: 0.61 up.
        ("ashrae-still-air", "horizontal", 0.68 * R_US, 0.17 * R_US),
        ("ashrae-still-air", "up", 0.61 * R_US, 0.17 * R_US),
        ("ashrae-still-air", "down", 0.92 * R_US, 0.17 * R_US),
    ],
)
def test_films(convention, direction, interior, exterior):
    found = films(convention, direction)
    assert found.interior.value == pytest.approx(interior, abs=1e-9)
    assert found.exterior.value == pytest.approx(exterior, abs=1e-9)
    assert found.sheltered == found.interior


def test_summer_wind_is_weaker_than_winter_wind():
    assert films("ashrae-still-air", "up", "summer").exterior.value == pytest.approx(0.25 * R_US)


def test_unknown_words_are_refused():
    with pytest.raises(ValueError, match="no surface films"):
        films("nbc", "sideways")
    with pytest.raises(ValueError, match="no air-layer table"):
        tabulated_air_layer("us", 0.025, "up")
    with pytest.raises(ValueError, match="no metal framing table"):
        metal_framing("nbc", 0.0889, 0.4)


def test_the_surface_check_has_films_of_its_own():
    # ISO 13788: 0.25 for walls (read in DIN use), 0.13 for glazing (memory).
    assert surface_check_film().value == 0.25
    assert surface_check_film(glazing=True).value == 0.13


def test_ventilation_limits_in_square_metres():
    limits = air_layer_limits()
    assert (limits.unventilated_up_to, limits.well_ventilated_from) == pytest.approx((500e-6, 1500e-6))


@pytest.mark.parametrize("direction", ["up", "horizontal", "down"])
@pytest.mark.parametrize("millimetres", [5, 7, 10, 15, 25, 50, 100, 300])
def test_the_iso_table_is_the_iso_formula(millimetres, direction):
    # The table rounds to 0.01 and is for 10 °C and ordinary faces.
    table = tabulated_air_layer("iso-6946", millimetres / 1000, direction).value
    assert air_layer_resistance(millimetres / 1000, direction) == pytest.approx(table, abs=0.011)


def test_an_air_layer_outside_the_table_is_unknown():
    # NBC: a space under 13 mm does not count, read.
    assert tabulated_air_layer("nbc", 0.012, "horizontal") is None
    assert tabulated_air_layer("nbc", 0.013, "horizontal").value == pytest.approx(0.16)
    assert tabulated_air_layer("iso-6946", 0.4, "up") is None
    assert tabulated_air_layer("iso-6946", 0.0375, "down").value == pytest.approx(0.20)


def test_recalled_air_spaces_agree_with_the_formula():
    # ASHRAE rows are memory; the formula of ISO 6946 is the second source. Horizontal flow within 12 %.
    spaces = _file("air-layers")["ashrae-air-spaces"]
    rows = [row for row in spaces["rows"] if row["heat-flow"] == "horizontal"]
    rows = [row for row in rows if (row["mean-temperature"], row["difference"]) == (50, 10)]
    assert len(rows) >= 4
    for row in rows:
        for emittance, printed in zip(spaces["emittances"], row["r-values"], strict=True):
            ours = air_layer_resistance(row["thickness"] / 1000, "horizontal", emittance, 10.0, 10 / 1.8)
            assert ours / R_US == pytest.approx(printed, rel=0.12)


def test_air_spaces_fall_with_emittance():
    for row in _file("air-layers")["ashrae-air-spaces"]["rows"]:
        assert row["r-values"] == sorted(row["r-values"], reverse=True)


@pytest.mark.parametrize(
    ("arguments", "fraction"),
    [
        # ASHRAE 90.1 appendix A: 0.75 and 0.78 cavity; with them 11 read U-factors come out.
        (("wall", 0.4064), 0.25),
        (("wall", 0.6096), 0.22),
        # NBC 2025 Table A-9.36.2.4.(1)-A, read.
        (("wall", 0.406, "nbc"), 0.23),
        (("wall", 0.610, "nbc"), 0.20),
        (("wall", 0.610, "nbc", "advanced"), 0.16),
        (("floor", 0.400, "nbc"), 0.13),
        (("roof", None, "nbc", "i-joists"), 0.09),
    ],
)
def test_framing_fractions(arguments, fraction):
    assert framing_fraction(*arguments).value == fraction


def test_a_framing_fraction_nobody_printed_is_none():
    assert framing_fraction("wall", 0.8) is None
    assert framing_fraction("roof", 0.4) is None


def test_effective_r_is_factor_times_nominal():
    # Two columns of the code table, one the product of the other to rounding.
    for depth, spacing in [
        (0.0889, 0.4),
        (0.0889, 0.6),
        (0.1524, 0.4),
        (0.1524, 0.6),
        (0.2032, 0.4),
        (0.2032, 0.6),
    ]:
        found = metal_framing("iecc", depth, spacing)
        for (nominal, factor), (_, effective) in zip(found.factors, found.effective, strict=True):
            assert effective.value / R_US == pytest.approx(factor.value * nominal / R_US, abs=0.006)


@pytest.mark.parametrize(
    ("nominal", "spacing", "printed"),
    # Thermal design guide for cold-formed steel, as quoted in a trade article, read: U of a wall with Rs 2.05.
    [(13, 0.4064, 0.124), (13, 0.6096, 0.108), (19, 0.4064, 0.109), (19, 0.6096, 0.094)],
)
def test_effective_r_gives_the_read_u_factors(nominal, spacing, printed):
    found = metal_framing("ashrae-90.1", 0.1524 if nominal == 19 else 0.0889, spacing)
    effective = {round(r / R_US): value.value for r, value in found.effective}[nominal]
    assert round(1 / (2.05 + effective / R_US), 3) == printed


def test_the_two_code_families_stay_apart():
    # 90.1 gives R-11 at 16 in 5.5; the factor table prints no R-11 row at all.
    ashrae, iecc = metal_framing("ashrae-90.1", 0.0889, 0.4064), metal_framing("iecc", 0.0889, 0.4064)
    assert [round(r / R_US) for r, _ in ashrae.effective] == [0, 11, 13, 15]
    assert [round(r / R_US) for r, _ in iecc.factors] == [13, 15]
    assert ashrae.factors == ()


def test_a_row_serves_its_spacing_and_less():
    assert metal_framing("iecc", 0.0921, 0.30).spacing == pytest.approx(0.4064)
    assert metal_framing("iecc", 0.0889, 0.50).spacing == pytest.approx(0.6096)
    assert metal_framing("iecc", 0.0889, 0.80) is None
    assert metal_framing("iecc", 0.120, 0.40) is None


def test_the_factor_table_feeds_the_physics():
    table = [(r, factor.value) for r, factor in metal_framing("iecc", 0.0889, 0.4064).factors]
    assert correction_factor(14 * R_US, table) == pytest.approx(0.445)


def test_sealing_means_and_substrates():
    assert len(sealing_means_ids()) == 20
    tape = sealing_means("acrylic-tape")
    assert tape.ratings["osb"] == "good"
    assert tape.lowest_temperature == -10
    assert sealing_means("chewing-gum") is None
    # Military guide specification and a flashing deck, read: no curing sealant against bitumen.
    for name in ("polyurethane-or-hybrid-sealant-bead", "silicone-sealant-bead"):
        assert sealing_means(name).ratings["bituminous"] == "incompatible"
    # common practice, no source: nothing but acoustical sealant or adhesive holds polyethylene.
    assert sealing_means("acoustical-sealant-bead").ratings["polyethylene-film"] == "good"
    assert sealing_means("silicone-sealant-bead").ratings["polyethylene-film"] == "incompatible"
    # Trade pages on sealing sill plates, read: a gasket wants trowelled concrete; on rough concrete it leaks.
    assert sealing_means("epdm-gasket").ratings["concrete"] == "good"
    assert sealing_means("epdm-gasket").ratings["concrete-rough"] == "poor"
    # NBC 9.25.3.3, read: a flexible sheet is sealed, or lapped 100 mm and clamped.
    assert sealing_means("clamped-lap").ratings["polyethylene-film"] == "good"


def test_words_that_name_no_seal():
    # NBC 9.25.3.3, read: joints are sealed or lapped and clamped, so staples and a lap alone are neither;
    # WAC Table R402.4.1.1, read: air-permeable insulation is not used as a sealing material.
    for word in ("staples", "batt", "mineral-wool-batt", "loose-fill", "lap", "by-others"):
        assert not_a_seal(word)
    for name in sealing_means_ids():
        assert not_a_seal(name) is None


def test_ratings_name_known_substrates_and_substrates_known_materials():
    sealing = _file("sealing")
    counted = [name for entry in sealing["substrates"].values() for name in entry["materials"]]
    assert set(counted) <= set(material_ids())
    assert len(counted) == len(set(counted))
    for name in sealing_means_ids():
        assert set(sealing_means(name).ratings) <= set(sealing["substrates"])
    assert substrate_of("osb") == "osb"
    assert substrate_of("latex-paint") is None


def test_laps_and_exposure():
    # IRC R703, read: 2 in horizontally; NBC 9.25.3.3, read: 100 mm.
    assert minimum_lap("irc-wrb-horizontal").length.value == pytest.approx(0.0508, abs=0.0005)
    assert minimum_lap("nbc-air-barrier-sheet").length.value == pytest.approx(0.100)
    assert minimum_lap("tape-position").length is None
    assert minimum_lap("nobody") is None
    # Chapter note on gypsum sheathing, read: 30 days for paper faces.
    assert uv_exposure("gypsum-sheathing-paper-faced").days.value == 30
    assert uv_exposure("nobody") is None


def test_cavities_are_ranges_of_low_confidence():
    rate = cavity_air_changes("brick-veneer-ventilated")
    assert rate.low < rate.high
    assert rate.confidence == "low"
    assert cavity_air_changes("nobody") is None
    vinyl = equivalent_permeance("vinyl-siding")
    assert vinyl.value == pytest.approx(40 * PERM)
    assert vinyl.low < vinyl.value < vinyl.high
    assert equivalent_permeance("nobody") is None


def test_ids_in_a_list_are_unique_and_sources_exist():
    for name in ("sealing", "ventilated-cavities"):
        for part in _file(name).values():
            if isinstance(part, list) and part and "id" in part[0]:
                ids = [entry["id"] for entry in part]
                assert len(ids) == len(set(ids))
    assert source_title("nbc-framing-table")
