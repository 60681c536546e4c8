"""Rooms declared month by month, as they were measured: the balance takes them as they are."""

import pytest

WALL = (
    ("lining", 0.05, 0.1, "gypsum-board"),
    ("retarder", 0.0, 2.0, "polyethylene-film"),
    ("wool", 4.0, 0.16, "mineral-wool-batt"),
    ("cladding", 0.06, 3.0, "fibre-cement-siding"),
)


def months(temperature, humidity):
    return {
        "monthly": {
            "temperature": [f"{value} °C" for value in temperature],
            "humidity": [f"{value} %" for value in humidity],
        }
    }


def test_twelve_months_alike_are_the_set_point(moist, section_document):
    # rooms cooled, and so dried, hold their set-point through the year
    measured = moist(section_document(WALL, months([20] * 12, [50] * 12)))
    set_point = moist(section_document(WALL, {"temperature": "20 °C", "humidity": "50 %", "cooled": True}))
    assert measured.value("wall.moisture_verdict") == set_point.value("wall.moisture_verdict")
    for name in ("moisture_peak", "plane_rh_max", "frsi_required"):
        assert measured.value(f"wall.{name}") == pytest.approx(set_point.value(f"wall.{name}"), rel=1e-9)


def test_damp_winter_months_wet_it_more(moist, section_document):
    even = moist(section_document(WALL, months([20] * 12, [45] * 12)))
    damp = moist(section_document(WALL, months([20] * 12, [60, 60, 45, 45, 45, 45, 45, 45, 45, 45, 45, 60])))
    assert damp.value("wall.moisture_peak") > even.value("wall.moisture_peak")
    assert "the months declared" in damp["wall.moisture_peak"].method


def test_the_table_shows_them(moist, section_document):
    temperature = [18, 18, 19, 20, 21, 23, 25, 25, 22, 20, 19, 18]
    facts = moist(section_document(WALL, months(temperature, [40] * 12)))
    facts.value("wall.moisture_verdict")
    assert facts.surveyed.ledger.page("assembly", "wall").table.climate.inside_temperature == tuple(
        temperature
    )
