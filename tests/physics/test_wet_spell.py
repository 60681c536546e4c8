"""Water through a spell: the cut where an interface dries, and the account that must close."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from speccheck.physics.taut_string import line_under, positions_of
from speccheck.physics.wet_spell import through_spell


@st.composite
def wet_profiles(draw):
    count = draw(st.integers(2, 12))
    sd = draw(st.lists(st.floats(-2.0, 2.0).map(lambda x: 10.0**x), min_size=count, max_size=count))
    ceiling = draw(st.lists(st.floats(50.0, 4000.0), min_size=count + 1, max_size=count + 1))
    masses = st.one_of(st.just(0.0), st.floats(1e-9, 1.0))
    inner = draw(st.lists(masses, min_size=count - 1, max_size=count - 1))
    return positions_of(sd), ceiling, [0.0, *inner, 0.0], draw(st.floats(1.0, 1e8))


@given(wet_profiles())
def test_what_flows_in_less_what_flows_out_is_stored(spell):
    positions, ceiling, water, seconds = spell
    after = through_spell(positions, ceiling, water, seconds)
    stored = math.fsum(after.water) - math.fsum(water)
    scale = abs(after.inflow) + abs(after.outflow) + sum(water)
    assert after.inflow - after.outflow == pytest.approx(stored, abs=1e-11 * scale, rel=0.0)


@given(wet_profiles())
def test_water_is_never_negative_and_peaks_hold_it(spell):
    positions, ceiling, water, seconds = spell
    after = through_spell(positions, ceiling, water, seconds)
    assert min(after.water) >= 0.0
    for before, end, peak in zip(water, after.water, after.peak, strict=True):
        assert peak >= max(before, end)
    assert len(set(after.dried)) == len(after.dried)
    assert list(after.moments) == sorted(after.moments)
    assert all(0.0 < moment <= seconds * (1.0 + 1e-9) for moment in after.moments)


@given(wet_profiles(), st.floats(0.05, 0.95))
def test_two_spells_are_one(spell, share):
    positions, ceiling, water, seconds = spell
    whole = through_spell(positions, ceiling, water, seconds)
    first = through_spell(positions, ceiling, water, share * seconds)
    second = through_spell(positions, ceiling, first.water, (1.0 - share) * seconds)
    assert second.water == pytest.approx(whole.water, rel=1e-6, abs=1e-9 * (1.0 + sum(whole.peak)))


def test_the_neighbour_sees_the_moment_another_dries():
    # By hand: wet planes at 1 and 2 between air without vapour; the first holds 500 Pa, the second 1000 Pa, so that
    # the second feeds the first: 2e-10·(1000-500) = 1e-7 in, 1e-7 out, nothing changes there. The second loses
    # 1e-7 + 2e-7. With 3 g it is dry after 10,000 s, and the first then loses 1e-7 inward and 0.5e-7 outward.
    spell = through_spell([0.0, 1.0, 2.0, 3.0], [0.0, 500.0, 1000.0, 0.0], [0.0, 1e-3, 3e-3, 0.0], 12_000.0)
    assert spell.dried == (2,)
    assert spell.moments == pytest.approx((10_000.0,))
    assert spell.water[1] == pytest.approx(1e-3 - 2_000.0 * 1.5e-7)
    # Mean pressure at the second plane: 10,000 s at 1000 Pa, then 2,000 s halfway down to the air.
    assert spell.pressures[2] == pytest.approx((10_000 * 1000 + 2_000 * 250) / 12_000)


def test_an_interface_that_keeps_water_is_held_at_saturation():
    spell = through_spell([0.0, 1.0, 2.0], [100.0, 600.0, 100.0], [0.0, 1.0, 0.0], 1000.0)
    assert spell.pressures == (100.0, 600.0, 100.0)
    assert spell.dried == ()


def test_a_dry_spell_is_one_line():
    positions, ceiling = (0.0, 1.0, 3.0), (1000.0, 400.0, 300.0)
    spell = through_spell(positions, ceiling, (0.0,) * 3, 100.0)
    line = line_under(positions, ceiling)
    assert spell.pressures == line.pressures
    assert spell.water[1] == line.rates[0] * 100.0


def test_what_does_not_fit_is_refused():
    with pytest.raises(ValueError, match="same interfaces"):
        through_spell([0.0, 1.0], [1.0, 1.0], [0.0], 1.0)
    with pytest.raises(ValueError, match="length above zero"):
        through_spell([0.0, 1.0], [1.0, 1.0], [0.0, 0.0], 0.0)
