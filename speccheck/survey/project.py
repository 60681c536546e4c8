"""The project as facts: use, set-points, humidity, air-tightness target, codes adopted."""

from typing import NamedTuple

from speccheck.document import Document
from speccheck.document.project import Indoor, Project
from speccheck.physics.psychrometrics import dew_point, vapour_pressure
from speccheck.survey.airtightness import enter_airtightness
from speccheck.survey.fact import Fact, Gap, Origin
from speccheck.survey.ledger import Page

__all__ = ["DEFAULT_INDOOR_TEMPERATURE", "MonthlyRooms", "enter_cooling", "survey_project"]

DEFAULT_INDOOR_TEMPERATURE = 21.0
"""Winter set-point taken where none is declared [°C]: common practice, no source."""

_WINTER = (11, 0, 1)
"""December, January and February in a year that begins with January."""
_BY_MONTHS = "mean of December to February, of the twelve months declared"


class MonthlyRooms(NamedTuple):
    """The rooms month by month as declared, January first: temperature [°C] and relative humidity [-]."""

    temperature: tuple[float, ...]
    humidity: tuple[float, ...]


_QUESTIONS = {
    "use": ("use of the building", "What is the building used for?", ("project",)),
    "ventilation": ("ventilation", "Is there whole-building mechanical ventilation?", ("project",)),
    "combustion": (
        "combustion appliances",
        "Are there combustion appliances, and how do they take their air?",
        ("project",),
    ),
    "volume": ("volume", "What is the volume inside the air barrier?", ("project",)),
    "floor_area": ("floor area", "What is the conditioned floor area?", ("project",)),
    "enclosure_area": ("enclosure area", "What is the area of the air barrier?", ("project",)),
    "storeys": ("storeys", "How many storeys stand above ground?", ("project",)),
    "built": ("year of construction", "Is it an existing building, and from which year?", ("project",)),
    "annual_rain": ("annual rain", "How much rain falls in a year?", ("project",)),
    "humidified": ("humidification", "Is moisture added to the rooms on purpose?", ("project", "indoor")),
    "humidity_class": ("humidity class", "Which internal humidity class applies?", ("project", "indoor")),
    "cooled": ("cooling", "Are the rooms cooled in summer?", ("project", "indoor")),
}


def survey_project(page: Page, document: Document) -> None:
    """Enter the facts of the project, all but those of the air line."""
    project = document.project
    page.declare("adopted", project.adopted)
    page.declare("adopted_count", float(len(project.adopted)))
    page.declare("assembly_count", float(len(document.assemblies)))
    page.declare("junction_count", float(len(document.junctions)))
    page.declare(
        "country", _country(project), origin=Origin.COMPUTED, method="by the place, else by the codes adopted"
    )
    page.declare("built_shown", project.built is not None)
    page.declare("air_lead_named", bool(project.air_barrier_lead))
    for name in ("use", "ventilation", "combustion"):
        _enter(page, name, getattr(project, name))
    for name in ("volume", "floor_area", "enclosure_area", "annual_rain"):
        quantity = getattr(project, name)
        _enter(page, name, None if quantity is None else quantity.value)
    for name in ("storeys", "built"):
        count = getattr(project, name)
        _enter(page, name, None if count is None else float(count))
    _enter_indoor(page, project.indoor)
    enter_airtightness(page, project.airtightness.target)


def _enter(page: Page, name: str, value: float | str | bool | None) -> None:
    if value is not None:
        page.declare(name, value)
    else:
        wanted, question, path = _QUESTIONS[name]
        page.unknown(name, Gap("project", wanted, question, path))


def _country(project: Project) -> str:
    place = project.place
    codes = {code.partition("/")[0] for code in project.adopted}
    if place is not None and (place.town is not None):
        return "ca"
    if place is not None and (place.zip or place.fips or place.county or place.station or place.zone):
        return "us"
    return codes.pop() if len(codes) == 1 else ""


def _enter_indoor(page: Page, indoor: Indoor) -> None:
    _enter(page, "humidified", indoor.humidified)
    _enter(page, "humidity_class", None if indoor.humidity_class is None else float(indoor.humidity_class))
    _enter(page, "cooled", indoor.cooled)
    page.declare("indoor_humidity_by", _humidity_by(indoor), origin=Origin.COMPUTED)
    rooms = page.table = _monthly_rooms(indoor)
    inside = _inside_temperature(page, indoor, rooms)
    humidity = _inside_humidity(page, indoor, rooms)
    pressure = page.compute(
        "indoor_vapour_pressure",
        vapour_pressure,
        [inside, humidity],
        method="humidity times saturation pressure",
        source="ISO 13788:2012, annex E",
    )
    page.compute(
        "indoor_dew_point",
        dew_point,
        [pressure],
        method="temperature at which the vapour pressure is saturation",
        source="ISO 13788:2012, annex E",
    )


def _monthly_rooms(indoor: Indoor) -> MonthlyRooms | None:
    months = indoor.monthly
    if months is None:
        return None
    return MonthlyRooms(
        tuple(one.value for one in months.temperature), tuple(one.value for one in months.humidity)
    )


def _winter(months: tuple[float, ...]) -> float:
    return sum(months[month] for month in _WINTER) / len(_WINTER)


def _inside_temperature(page: Page, indoor: Indoor, rooms: MonthlyRooms | None) -> Fact:
    name = "indoor_temperature"
    if indoor.temperature is not None:
        return page.declare(name, indoor.temperature.value)
    if rooms is not None:
        return page.declare(name, _winter(rooms.temperature), origin=Origin.COMPUTED, method=_BY_MONTHS)
    return page.from_table(
        name,
        DEFAULT_INDOOR_TEMPERATURE,
        source="common practice, no source",
        stands_for="indoor temperature of 21 °C (70 °F) in winter, since none is declared",
        origin=Origin.ASSUMED,
    )


def _inside_humidity(page: Page, indoor: Indoor, rooms: MonthlyRooms | None) -> Fact:
    name = "indoor_rh"
    if indoor.humidity is not None:
        return page.declare(name, indoor.humidity.value)
    if rooms is not None:
        return page.declare(name, _winter(rooms.humidity), origin=Origin.COMPUTED, method=_BY_MONTHS)
    question = "Which relative humidity is kept indoors in winter?"
    return page.unknown(name, Gap("project", "indoor humidity", question, ("project", "indoor")))


def _humidity_by(indoor: Indoor) -> str:
    """Say what tells the humidity of the rooms; the fifth class has no upper bound and tells nothing."""
    if indoor.humidity_class is not None and indoor.humidity_class < 5:
        return "class"
    if indoor.humidity is not None:
        return "humidity"
    return "none" if indoor.monthly is None else "monthly"


def enter_cooling(page: Page, zone_number: float | None) -> None:
    """Enter whether cooling is likely, from the declaration or, failing that, from the zone."""
    cooled = page["cooled"]
    if cooled.known:
        page.copy("cooling_likely", cooled, method="as declared")
    elif zone_number is not None:
        page.from_table(
            "cooling_likely",
            zone_number <= 3,
            source="common practice, no source",
            stands_for="cooling taken as likely in zones 0 to 3 and not elsewhere, since it is not declared",
            origin=Origin.ASSUMED,
        )
    else:
        page.unknown("cooling_likely", *cooled.missing)
