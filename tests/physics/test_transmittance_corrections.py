"""Corrections of ISO 6946 annex F (memory): values computed apart from this code, a regression and no evidence."""

import pytest

from speccheck.physics.transmittance_corrections import (
    NEGLIGIBLE_SHARE,
    air_gap_correction,
    fastener_correction,
    inverted_roof_correction,
)


def test_flat_roof_with_fasteners():
    transmittance = 1 / 4.27
    added = fastener_correction(50.0, 0.0048, 5.0, 0.14, 4.0, 4.27)
    assert added == pytest.approx(0.022685, rel=1e-3)
    assert transmittance + added == pytest.approx(0.25688, rel=1e-3)
    assert added / transmittance > NEGLIGIBLE_SHARE


def test_recessed_fasteners():
    recessed = fastener_correction(50.0, 0.0048, 5.0, 0.14, 0.1 / 0.035, 4.27, penetrated_thickness=0.1)
    assert recessed == pytest.approx(0.008267, rel=1e-3)
    assert recessed < fastener_correction(50.0, 0.0048, 5.0, 0.14, 4.0, 4.27)


def test_full_length_is_not_recessed():
    plain = fastener_correction(50.0, 0.0048, 5.0, 0.14, 4.0, 4.27)
    assert fastener_correction(
        50.0, 0.0048, 5.0, 0.14, 4.0, 4.27, penetrated_thickness=0.14
    ) == pytest.approx(plain)


@pytest.mark.parametrize(("level", "added"), [(0, 0.0), (1, 0.008775), (2, 0.035101)])
def test_air_gaps(level, added):
    assert air_gap_correction(level, 4.0, 4.27) == pytest.approx(added, abs=1e-6)


def test_rain_on_inverted_roof():
    # Hand arithmetic: 2 mm/day · 0.04 · (3/3.5)².
    assert inverted_roof_correction(2.0, 0.04, 3.0, 3.5) == pytest.approx(0.08 * 36 / 49)


@pytest.mark.parametrize(
    ("function", "arguments"),
    [
        (air_gap_correction, (3, 4.0, 4.27)),
        (air_gap_correction, (1, 5.0, 4.27)),
        (fastener_correction, (50.0, 0.0048, 5.0, 0.14, 4.0, 4.27, 0.2)),
        (fastener_correction, (50.0, 0.0, 5.0, 0.14, 4.0, 4.27)),
        (inverted_roof_correction, (-1.0, 0.04, 4.0, 4.27)),
    ],
)
def test_impossible_corrections_are_refused(function, arguments):
    with pytest.raises(ValueError, match=r"must|cannot"):
        function(*arguments)
