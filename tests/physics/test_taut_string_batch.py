"""Many lines at once against the line for one."""

import math
from random import Random

import numpy as np
import pytest

from speccheck.physics.taut_string import line_under, positions_of
from speccheck.physics.taut_string_batch import taut_strings


def some_profiles(seed, count, layers):
    """Random positions, ceilings and wet interfaces, some unbounded, some resisting nothing or everything."""
    random = Random(seed)
    positions, ceilings, wet = [], [], []
    for _ in range(count):
        sd = [random.choice((0.0, math.inf, *(10.0 ** random.uniform(-3, 3),) * 8)) for _ in range(layers)]
        pinned = [0 < j < layers and random.random() < 0.15 for j in range(layers + 1)]
        ceiling = [random.uniform(50.0, 4000.0) for _ in range(layers + 1)]
        for j in range(1, layers):
            if not pinned[j] and random.random() < 0.05:
                ceiling[j] = math.inf
        positions.append(positions_of(sd))
        ceilings.append(ceiling)
        wet.append(pinned)
    return positions, ceilings, wet


@pytest.mark.parametrize("layers", [1, 2, 5, 24, 60])
def test_each_row_is_the_line_for_one(layers):
    positions, ceilings, wet = some_profiles(layers, 200, layers)
    lines = taut_strings(positions, ceilings, wet)
    for row, (x, ceiling, pinned) in enumerate(zip(positions, ceilings, wet, strict=True)):
        one = line_under(x, ceiling, [j for j, held in enumerate(pinned) if held])
        largest = max(map(abs, (one.inflow, one.outflow, *one.rates)))
        assert lines.pressures[row] == pytest.approx(one.pressures, rel=1e-9, abs=1e-9)
        assert lines.inflow[row] == pytest.approx(one.inflow, rel=1e-9, abs=1e-12 * largest)
        assert lines.outflow[row] == pytest.approx(one.outflow, rel=1e-9, abs=1e-12 * largest)
        rates = dict(zip(one.contacts, one.rates, strict=True))
        expected = [rates.get(j, 0.0) for j in range(layers + 1)]
        assert lines.rates[row] == pytest.approx(expected, rel=1e-9, abs=1e-12 * largest)


def test_contacts_are_the_same():
    positions, ceilings, wet = some_profiles(7, 300, 12)
    lines = taut_strings(positions, ceilings, wet)
    for row, (x, ceiling, pinned) in enumerate(zip(positions, ceilings, wet, strict=True)):
        one = line_under(x, ceiling, [j for j, held in enumerate(pinned) if held])
        assert tuple(np.flatnonzero(lines.contacts[row])) == one.contacts


def test_one_row_of_positions_serves_all():
    lines = taut_strings([0.0, 1.0, 2.0], [[1000.0, 400.0, 300.0], [1000.0, 900.0, 300.0]])
    assert lines.contacts[:, 1].tolist() == [True, False]
    assert lines.pressures[1, 1] == 650.0


def test_shapes_that_do_not_fit_are_refused():
    with pytest.raises(ValueError, match="must fit each other"):
        taut_strings([0.0], [[1000.0]])
    with pytest.raises(ValueError, match="must fit each other"):
        taut_strings([0.0, 1.0, 2.0], [[1000.0, 400.0, 300.0]], [[False, False]])
