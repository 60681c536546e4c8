"""The project as facts: use, set-points, humidity, air-tightness target, codes adopted."""

from speccheck.document import Document
from speccheck.document.project import Indoor, Project
from speccheck.physics.psychrometrics import dew_point, vapour_pressure
from speccheck.survey.airtightness import enter_airtightness
from speccheck.survey.fact import Gap, Origin
from speccheck.survey.ledger import Page

__all__ = ["DEFAULT_INDOOR_TEMPERATURE", "enter_cooling", "survey_project"]

DEFAULT_INDOOR_TEMPERATURE = 21.0
"""Winter set-point taken where none is declared [°C]: common practice, no source."""

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
    if indoor.temperature is not None:
        inside = page.declare("indoor_temperature", indoor.temperature.value)
    else:
        inside = page.from_table(
            "indoor_temperature",
            DEFAULT_INDOOR_TEMPERATURE,
            source="common practice, no source",
            stands_for="indoor temperature of 21 °C in winter, since none is declared",
            origin=Origin.ASSUMED,
        )
    if indoor.humidity is not None:
        humidity = page.declare("indoor_rh", indoor.humidity.value)
    else:
        humidity = page.unknown(
            "indoor_rh",
            Gap(
                "project",
                "indoor humidity",
                "Which relative humidity is kept indoors in winter?",
                ("project", "indoor"),
            ),
        )
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


def _humidity_by(indoor: Indoor) -> str:
    """Say what tells the humidity of the rooms; the fifth class has no upper bound and tells nothing."""
    if indoor.humidity_class is not None and indoor.humidity_class < 5:
        return "class"
    return "none" if indoor.humidity is None else "humidity"


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
