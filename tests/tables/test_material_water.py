"""Which materials take up water, and which wood is a panel, for the limits of DIN 4108-3 (read in textbook notes).

The standard names metal, foil, normal concrete, foam plastic and mineral wool as taking up none. Here that is written
down once more by group and name, apart from the entries of the tables, and held against every one of them.
"""

import pytest

from speccheck.tables.materials import material, material_ids

DRY_GROUPS = ("insulation", "membranes", "metal-glass-plastic", "roof-covering")
FIBRES = ("cellulose", "wood-fibre", "hemp", "straw", "sheep-wool", "cotton")
SHELLS = ("vinyl-siding", "metal-", "insulated-metal-panel", "glass-spandrel")
DENSE = ("concrete", "concrete-reinforced")
PANELS = ("osb", "plywood", "particleboard", "fibreboard", "mdf", "hardboard")
MATERIALS = [material(name) for name in material_ids()]


@pytest.mark.parametrize("one", MATERIALS, ids=lambda one: one.id)
def test_it_takes_up_water_or_not(one):
    dry = one.group in DRY_GROUPS or one.id.startswith(SHELLS) or one.id in DENSE
    if one.group == "air":
        assert one.takes_up_water is None
    else:
        assert one.takes_up_water.value is (not dry or one.id.startswith(FIBRES))
        assert one.takes_up_water.source


@pytest.mark.parametrize("one", MATERIALS, ids=lambda one: one.id)
def test_wood_is_solid_or_a_panel(one):
    if one.group == "wood":
        assert one.wood_kind.value == ("panel" if one.id.startswith(PANELS) else "wood")
        assert one.wood_kind.source
    else:
        assert one.wood_kind is None


def test_what_the_standard_names_was_read():
    for name in ("mineral-wool-batt", "eps", "xps", "aluminium-foil", "steel", "concrete"):
        stated = material(name).takes_up_water
        assert (stated.value, stated.how) == (False, "read")
