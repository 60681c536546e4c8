"""The conversion of conductivity for moisture, against a worked example."""

import pytest

from speccheck.physics.moisture_conductivity import volume_moisture, wet_conductivity


def test_condensate_in_four_centimetres_of_insulation():
    # Public lecture notes of a technical university on simplified moisture methods (read): 0.44 kg/m² in 0.04 m, factor
    # 4, 0.040 W/(m·K). They print 0.042 and from it 0.048 m²·K/W less; unrounded it is 0.043.
    moisture = volume_moisture(0.44, 0.04)
    assert moisture == pytest.approx(0.011, abs=1e-6)
    wet = wet_conductivity(0.04, 4.0, moisture)
    assert wet == pytest.approx(0.041799, abs=1e-6)
    lost = 0.04 / 0.04 - 0.04 / wet
    assert lost == pytest.approx(0.0430, abs=0.0001)
    assert lost < 0.5  # a tenth of the section's 5.0 m²·K/W


def test_there_and_back():
    wet = wet_conductivity(0.04, 4.0, 0.02, 0.005)
    assert wet > 0.04
    assert wet_conductivity(wet, 4.0, 0.005, 0.02) == pytest.approx(0.04)


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: volume_moisture(-0.1, 0.04), "mass of water"),
        (lambda: volume_moisture(0.1, 0.0), "thickness"),
        (lambda: wet_conductivity(0.0, 4.0, 0.1), "conductivity"),
        (lambda: wet_conductivity(0.04, -4.0, 0.1), "factor"),
        (lambda: wet_conductivity(0.04, 4.0, 1.1), "must not exceed 1"),
    ],
)
def test_what_cannot_be_is_refused(call, words):
    with pytest.raises(ValueError, match=words):
        call()
