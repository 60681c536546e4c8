"""Rooms declared month by month: the twelve months on the page of the project, and the winter they stand for."""

import pytest

from speccheck.document.load import load_bytes
from speccheck.survey import survey
from speccheck.survey.fact import Origin
from speccheck.survey.project import MonthlyRooms
from speccheck.uses.check import KNOWN

TEMPERATURE = (18.0, 19.0, 20.0, 21.0, 22.0, 24.0, 25.0, 25.0, 23.0, 21.0, 20.0, 17.0)
HUMIDITY = (0.30, 0.32, 0.35, 0.40, 0.45, 0.50, 0.55, 0.55, 0.50, 0.45, 0.40, 0.37)


def surveyed(more=""):
    rooms = f"{{temperature: [{', '.join(f'{t} °C' for t in TEMPERATURE)}], humidity: {list(HUMIDITY)}}}"
    text = f"""
speccheck: 1
project: {{place: {{zone: 6A}}, indoor: {{monthly: {rooms}{more}}}}}
assemblies: {{wall: {{kind: wall, layers: [{{material: osb, thickness: 11 mm}}]}}}}
"""
    text = text.replace(str(list(HUMIDITY)), str([f"{100 * h:.0f} %" for h in HUMIDITY]))
    return survey(load_bytes(text.encode(), "rooms.yaml", KNOWN).document)


def project(of):
    return next(page for page in of.ledger if page.subject == "project")


def test_the_months_stand_on_the_page_of_the_project():
    table = project(surveyed()).table
    assert isinstance(table, MonthlyRooms)
    assert table.temperature == pytest.approx(TEMPERATURE)
    assert table.humidity == pytest.approx(HUMIDITY)


def test_the_winter_is_the_mean_of_december_to_february():
    page = project(surveyed())
    # (17 + 18 + 19) / 3 and (0.37 + 0.30 + 0.32) / 3, by hand
    assert page["indoor_temperature"].value == pytest.approx(18.0)
    assert page["indoor_rh"].value == pytest.approx(0.33)
    for name in ("indoor_temperature", "indoor_rh"):
        assert page[name].origin is Origin.COMPUTED
        assert page[name].method.startswith("mean of December to February")
    assert page["indoor_humidity_by"].value == "monthly"
    assert page["indoor_dew_point"].known


def test_a_winter_that_is_declared_goes_before_the_months():
    page = project(surveyed(", temperature: 22 °C, humidity: 25 %"))
    assert page["indoor_temperature"].value == pytest.approx(22.0)
    assert page["indoor_rh"].value == pytest.approx(0.25)
    assert page["indoor_humidity_by"].value == "humidity"
    assert isinstance(page.table, MonthlyRooms)
