"""Many years at once against the year for one."""

import numpy as np
import pytest

from speccheck.physics.moisture_section import MoistureLayer, MoistureSection
from speccheck.physics.monthly_balance import MonthlyClimate, monthly_balance
from speccheck.physics.psychrometrics import saturation_pressure
from speccheck.physics.year_batch import year_batch

MEAN = np.array([-1.0, 0.0, 4.0, 9.0, 14.0, 17.0, 18.0, 18.0, 14.0, 9.0, 4.0, 1.0])
HUMIDITY = np.array([0.85, 0.84, 0.78, 0.72, 0.70, 0.70, 0.72, 0.74, 0.78, 0.83, 0.88, 0.88])


def drawn(seed, cases):
    """Draw eight-layer walls and years around a mean."""
    random = np.random.default_rng(seed)
    resistances = np.array([0.05, 0.0, 0.1, 3.0, 0.1, 1.0, 0.02, 0.05]) * random.uniform(0.7, 1.3, (cases, 8))
    sd = np.array([0.1, 2.0, 0.05, 0.16, 1.5, 0.5, 0.2, 2.0]) * 10.0 ** random.uniform(-0.7, 0.7, (cases, 8))
    sd[random.uniform(size=sd.shape) < 0.04] = 0.0
    sd[random.uniform(size=sd.shape) < 0.02] = np.inf
    outside = MEAN + random.normal(0.0, 4.0, (cases, 1))
    air = HUMIDITY * np.vectorize(saturation_pressure)(outside)
    room = air + random.uniform(200.0, 1000.0, (cases, 1)) * np.clip((20.0 - outside) / 20.0, 0.0, 1.0)
    return resistances, sd, room, outside, air


@pytest.mark.parametrize("trial", [1, 6, 10])
def test_each_case_is_the_year_for_one(trial):
    resistances, sd, room, outside, air = drawn(trial, 90)
    batch = year_batch(resistances, sd, 0.13, 0.04, [20.0] * 12, room, outside, air, trial_month=trial)
    for case in range(len(sd)):
        layers = tuple(
            MoistureLayer(float(r), float(s)) for r, s in zip(resistances[case], sd[case], strict=True)
        )
        climate = MonthlyClimate((20.0,) * 12, tuple(room[case]), tuple(outside[case]), tuple(air[case]))
        year = monthly_balance(MoistureSection(layers, 0.13, 0.04), climate, trial, counts=batch.counts)
        verdict = "accumulates" if batch.accumulates[case] else "dries" if batch.condenses[case] else "none"
        assert verdict == year.verdict
        assert batch.starting_month[case] == year.starting_month
        assert batch.dry_month[case] == (year.dry_month or 0)
        assert batch.residual[case] == pytest.approx(year.water, rel=1e-6, abs=1e-9)
        if year.peak:
            assert batch.peak[case] == pytest.approx(year.peak.peak, rel=1e-6)
            assert batch.peak_interface[case] == year.peak.interface
            assert batch.peak_month[case] == year.peak.peak_month
        else:
            assert batch.peak[case] == 0.0


def test_the_reference_wall_and_the_month_cut_in_two(reference_year):
    # Reference case C3 (worked out beside this code): the outer plane holds 90.01 g/m² at the end of May.
    climate = reference_year(2)
    batch = year_batch(
        [0.05, 3.0, 0.1, 1.0, 0.05],
        [0.5, 0.1, 3.0, 0.1, 5.0],
        0.13,
        0.04,
        climate.inside_temperature,
        climate.inside_pressure,
        climate.outside_temperature,
        climate.outside_pressure,
    )
    assert batch.counts == (1, 12, 1, 4, 1)
    assert 1000 * batch.peak[0] == pytest.approx(434.65, rel=0.001)
    assert (batch.starting_month[0], batch.peak_month[0], batch.dry_month[0]) == (11, 2, 6)


def test_one_wall_in_many_climates_and_many_walls_in_one():
    resistances, sd, room, outside, air = drawn(3, 700)  # more than one chunk
    one_wall = year_batch(resistances[0], sd[0], 0.13, 0.04, [20.0] * 12, room, outside, air)
    assert len(one_wall.peak) == 700
    one_climate = year_batch(resistances, sd, 0.13, 0.04, [20.0] * 12, room[0], outside[0], air[0])
    assert len(one_climate.peak) == 700
    assert one_wall.peak[0] == pytest.approx(one_climate.peak[0], rel=1e-6, abs=1e-9)


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"resistances": [[0.1, -1.0]]}, "resistances must be finite"),
        ({"sd": [[np.nan, 1.0]]}, "sd not negative"),
        ({"sd": [[1.0, 1.0, 1.0]]}, "cases do not match"),
        ({"sd": [[1.0, 1.0]] * 2, "resistances": [[1.0, 1.0]] * 3}, "cases do not match"),
        ({"outside_temperature": [0.0] * 11}, "outdoor temperature has the shape"),
        ({"outside_temperature": [np.nan] * 12}, "temperatures must lie"),
        ({"inside_pressure": [-1.0] * 12}, "vapour pressures must be finite"),
        ({"outside_film": -0.04}, "films must be finite"),
        ({"trial_month": 0}, "outside its range"),
        ({"resistances": [[0.0, 0.0]], "inside_film": 0.0, "outside_film": 0.0}, "no temperatures"),
    ],
)
def test_what_cannot_be_is_refused(changes, words):
    given = {
        "resistances": [[0.1, 1.0]],
        "sd": [[1.0, 1.0]],
        "inside_film": 0.13,
        "outside_film": 0.04,
        "inside_temperature": [20.0] * 12,
        "inside_pressure": [1000.0] * 12,
        "outside_temperature": [0.0] * 12,
        "outside_pressure": [500.0] * 12,
    }
    with pytest.raises(ValueError, match=words):
        year_batch(**(given | changes))
