"""Table values held against a second source than the one they come from; each line names it."""

import pytest

from speccheck.tables.materials import material
from speccheck.tables.record_value import PERM, R_US

NG = 1e-12


def _dry(name, thickness=None):
    return material(name).row_for(thickness).permeance("dry")


def _r(name, thickness=None):
    return material(name).row_for(thickness).thermal_resistance.value


@pytest.mark.parametrize(
    ("name", "thickness", "second", "within"),
    [
        # ISO 10456 table of sd values, memory: 0.15 mm polyethylene sd 50 m.
        ("polyethylene-film-6mil", None, 2.0e-10 / 50, 0.25),
        # ISO 10456, memory: 0.25 mm polyethylene sd 100 m.
        ("polyethylene-film-10mil", None, 2.0e-10 / 100, 0.25),
        # NBC A-9.25.5.1, memory: 11 mm OSB 44 ng.
        ("osb-11mm", None, 44 * NG, 0.1),
        # NBC A-9.25.5.1, memory: 12.7 mm gypsum board 2600 ng; trade figure 50 perm, read.
        ("gypsum-board-12-7mm", None, 2600 * NG, 0.2),
        # Guide to insulating sheathing, read: XPS 0.55 perm at 2 in.
        ("xps-type-x", 0.0508, 0.55 * PERM, 0.02),
        # Trade article on foil-faced board, read: 0.05 perm; another, read: 0.03.
        ("polyiso-foil-faced", None, 0.03 * PERM, 0.7),
        # ISO 10456, memory: mu 60 for EPS, 25.4 mm.
        ("eps-type-ii", None, 2.0e-10 / (60 * 0.0254), 0.1),
        # Trade figure for two coats of latex on gypsum, read: about 6 perm.
        ("latex-paint", None, 6 * PERM, 0.25),
        # Polish lexicon, read: mu 5-10 for aerated concrete; Russian norm, read: 6. At 200 mm.
        ("autoclaved-aerated-concrete", None, 2.0e-10 / (8 * 0.2), 0.3),
        # Straw-bale plaster tests, read: lime-sand 9 perm at 51 mm.
        ("lime-render", 0.051, 9 * PERM, 0.3),
    ],
)
def test_permeance_against_a_second_source(name, thickness, second, within):
    assert _dry(name, thickness).value == pytest.approx(second, rel=within)


@pytest.mark.parametrize(
    ("name", "thickness", "second", "within"),
    [
        # NBC table as reprinted, read: 0.0061 m²·K/W for each mm of gypsum board.
        ("gypsum-board", 0.0127, 0.0061 * 12.7, 0.05),
        # Structural gypsum article, read: R 0.56 for 5/8 in.
        ("gypsum-board", 0.0159, 0.56 * R_US, 0.02),
        # NBC example, read: 0.0085 m²·K/W for each mm of spruce-pine-fir.
        ("softwood", 0.140, 0.0085 * 140, 0.05),
        # Wood Handbook eq. 4-15, read: 0.116 W/(m·K) at a gravity of 0.40 and 12 %.
        ("softwood", 0.038, 0.038 / 0.116, 0.05),
        # School chart from ASHRAE tables, read: vinyl or metal siding R 0.61.
        ("vinyl-siding", None, 0.61 * R_US, 0.05),
        ("metal-siding", None, 0.61 * R_US, 0.05),
        # School chart, read: bevel siding R 0.79; hardboard siding R 0.67.
        ("wood-bevel-siding", None, 0.79 * R_US, 0.05),
        ("engineered-wood-siding", None, 0.67 * R_US, 0.05),
        # Natural Resources Canada, read: XPS R 5.0 per inch.
        ("xps-type-iv", 0.0254, 5.0 * R_US, 0.02),
        # Spray foam trade FAQ, read: closed cell 5.8-6.9 per inch; middle of it.
        ("spray-foam-closed-cell", 0.0508, 2 * 6.35 * R_US, 0.1),
        # Spray foam trade FAQ, read: open cell 3.6-4.5 per inch.
        ("spray-foam-open-cell", 0.0889, 3.5 * 3.9 * R_US, 0.1),
        # School chart, read: common brick family 0.11 per inch.
        ("clay-brick", 0.102, 0.11 * 4 * R_US, 0.05),
        # Trade comparison, read: mineral wool board 4.2-4.4 per inch.
        ("mineral-wool-board-70kg", 0.038, 4.3 * 38 / 25.4 * R_US, 0.05),
        # AAC maker table, read: 0.14 W/(m·K) at 500 kg/m³, design.
        ("autoclaved-aerated-concrete", 0.2, 0.2 / 0.14, 0.02),
    ],
)
def test_resistance_against_a_second_source(name, thickness, second, within):
    assert _r(name, thickness) == pytest.approx(second, rel=within)


@pytest.mark.parametrize(
    ("name", "limit", "least_r"),
    [
        # ASTM C578 table 1: greatest permeance and least R of 25.4 mm (XPS read, EPS permeance memory).
        ("eps-type-i", 5.0, 3.6),
        ("eps-type-viii", 3.5, 3.8),
        ("eps-type-ii", 3.5, 4.0),
        ("eps-type-ix", 2.5, 4.2),
        ("xps-type-x", 1.5, 5.0),
        ("xps-type-iv", 1.5, 5.0),
        ("xps-type-vi", 1.1, 5.0),
    ],
)
def test_foam_meets_the_limits_of_its_standard(name, limit, least_r):
    assert _dry(name, 0.0254).value <= limit * PERM
    assert _r(name, 0.0254) == pytest.approx(least_r * R_US)


def test_plywood_opens_tenfold():
    # Plywood permeability note citing national laboratory work, read: about 1 perm at 50 %, ten times that at 90 %.
    points = dict(material("plywood-12-5mm").rows[0].vapour.rh_curve.points)
    assert points[0.5] == pytest.approx(1.0 * PERM)
    assert points[0.9] / points[0.5] == pytest.approx(10, rel=0.05)


def test_concrete_follows_the_catalogue_point_by_point():
    # IEA Annex 14 volume 3, read: 1.26e-12 kg/(m·s·Pa) at 25 % and 6.3e-12 at 95 %.
    points = dict(material("concrete").rows[0].vapour.rh_curve.points)
    assert points[0.25] * 0.1 == pytest.approx(1.26e-12, rel=0.02)
    assert points[0.95] * 0.1 == pytest.approx(6.3e-12, rel=0.02)


def test_variable_films_reach_the_read_ends():
    # Trade notices, read: under 1 perm when dry and over 20 perm when humid.
    points = material("polyamide-film").rows[0].vapour.rh_curve.points
    assert points[0][1] < 1 * PERM
    assert points[-1][1] > 20 * PERM


@pytest.mark.parametrize(
    ("name", "least", "most"),
    [
        # Vapour retarder classes by dry cup, code lists of example materials, read.
        ("polyethylene-film-6mil", 0.0, 0.1),
        ("polyiso-foil-faced", 0.0, 0.1),
        ("kraft-facing", 0.1, 1.0),
        ("latex-paint", 1.0, 10.0),
        ("vapour-retarder-primer", 0.1, 1.0),
        ("gypsum-board-12-7mm", 10.0, 100.0),
        ("housewrap-spunbonded", 10.0, 100.0),
    ],
)
def test_vapour_class_of_the_code_examples(name, least, most):
    assert least * PERM <= _dry(name).value <= most * PERM


def test_wood_moisture_follows_the_handbook():
    # Moisture examples at 70 °F, read: 84 % gives 17.6 %; a meter manual, read: 15-18 % at 80 %.
    points = dict(material("softwood").rows[0].sorption.points)
    assert points[0.8] == pytest.approx(0.16, abs=0.015)
    assert points[0.85] == pytest.approx(0.18, abs=0.01)


@pytest.mark.parametrize(
    ("name", "second"),
    [
        ("steel", 50),
        ("stainless-steel", 17),
        ("aluminium", 160),
        ("copper", 380),
        ("glass", 1.0),
        ("pvc-rigid", 0.17),
    ],
)
def test_metals_glass_and_plastic_against_the_window_standard(name, second):
    # EN ISO 10077-2:2003 annex A, read.
    assert material(name).rows[0].conductivity.value == pytest.approx(second, rel=0.05)
