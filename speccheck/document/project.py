"""The project: where it stands, what it is used for, which codes it follows, how it is kept inside."""

from typing import Annotated, Literal

from pydantic import Field, StrictBool, StringConstraints

from speccheck.document.entry import Entry, Words
from speccheck.quantity.field import (
    AirChange,
    AirPermeance,
    Area,
    DegreeDays,
    Fraction,
    Length,
    Temperature,
    Volume,
)

__all__ = ["USES", "Airtightness", "Indoor", "Location", "MonthlyIndoor", "Project", "Use"]

Use = Literal[
    "dwelling",
    "residential-group",
    "office",
    "school",
    "retail",
    "assembly-hall",
    "hotel",
    "hospital",
    "museum",
    "commercial-kitchen",
    "laundry",
    "pool",
    "greenhouse",
    "cold-store",
    "workshop",
    "garage",
]
USES: tuple[str, ...] = Use.__args__  # type: ignore[attr-defined]


class Location(Entry):
    """Where the building stands: one main statement, and what makes it unambiguous."""

    zip: Annotated[str, StringConstraints(pattern=r"^[0-9]{5}$")] | None = Field(
        None, description="US ZIP code, five digits, in quotes.", examples=["04101"]
    )
    county: Words | None = Field(None, description="US county name; give `state` with it.")
    state: Annotated[str, StringConstraints(pattern=r"^[A-Z]{2}$")] | None = Field(
        None, description="Two-letter state or province code.", examples=["ME"]
    )
    fips: Annotated[str, StringConstraints(pattern=r"^[0-9]{5}$")] | None = Field(
        None, description="US county FIPS code, five digits, in quotes.", examples=["23005"]
    )
    station: Words | None = Field(
        None, description="Number or name of a weather station of the shipped table."
    )
    zone: (
        Annotated[str, StringConstraints(pattern=r"^([0-3][AB]?|3C|4[ABC]?|5[ABC]?|6[AB]?|7[AB]?|8)$")] | None
    ) = Field(None, description="Climate zone with its moisture letter.", examples=["6A", "4C"])
    town: Words | None = Field(None, description="Town of the Canadian climate table; give `state` with it.")
    latitude: Annotated[float, Field(strict=True, allow_inf_nan=False, ge=-90, le=90)] | None = Field(
        None, description="Degrees north, south negative.", examples=[43.66]
    )
    longitude: Annotated[float, Field(strict=True, allow_inf_nan=False, ge=-180, le=180)] | None = Field(
        None, description="Degrees east, west negative.", examples=[-70.26]
    )
    degree_days: DegreeDays | None = Field(
        None, description="Heating degree days below 18 °C.", examples=["4200 K·d"]
    )
    weather_file: Words | None = Field(
        None, description="Path of a TMY3 or EPW file, relative to this document."
    )


class MonthlyIndoor(Entry):
    """The rooms month by month, as measured or designed: twelve means of each, January first."""

    temperature: Annotated[tuple[Temperature, ...], Field(min_length=12, max_length=12)] = Field(
        description="Twelve mean temperatures of the rooms, January first."
    )
    humidity: Annotated[tuple[Fraction, ...], Field(min_length=12, max_length=12)] = Field(
        description="Twelve mean relative humidities of the rooms, January first."
    )


class Indoor(Entry):
    """How the rooms are kept: set-points in winter, humidity, cooling."""

    temperature: Temperature | None = Field(None, description="Winter set-point.", examples=["21 °C"])
    humidity: Fraction | None = Field(None, description="Relative humidity in winter.", examples=["35 %"])
    humidity_class: Annotated[int, Field(strict=True, ge=1, le=5)] | None = Field(
        None, description="Internal humidity class of ISO 13788, 1 to 5."
    )
    monthly: MonthlyIndoor | None = Field(
        None, description="The rooms month by month, as measured or designed; without `humidity-class`."
    )
    cooled: StrictBool | None = Field(None, description="Are the rooms cooled in summer?")
    humidified: StrictBool | None = Field(None, description="Is moisture added on purpose?")


class Airtightness(Entry):
    """The air-tightness the building is meant to reach."""

    target: AirChange | AirPermeance | None = Field(
        None,
        union_mode="left_to_right",
        description="Target.",
        examples=["1.5 ACH50", "0.25 cfm/ft2 at 50 Pa"],
    )


class Project(Entry):
    """What holds for the whole building."""

    name: Words | None = Field(
        None, description="What reports call the building.", examples=["Garden studio"]
    )
    description: Words | None = Field(
        None, description="A sentence on the building, for the head of the report."
    )
    place: Location | None = Field(None, description="Where it stands; climate and zone follow from it.")
    use: Use | None = Field(
        None, description="What it is used for; the indoor climate and some rules follow from it."
    )
    adopted: tuple[str, ...] = Field(
        (), description="Code editions that apply, by pack id.", examples=[["us/irc-2021"]]
    )
    indoor: Indoor = Field(Indoor.model_construct(), description="How the rooms are kept.")
    volume: Volume | None = Field(None, description="Volume inside the air barrier.")
    floor_area: Area | None = Field(
        None, description="Conditioned floor area.", examples=["120 m²", "1300 ft²"]
    )
    enclosure_area: Area | None = Field(None, description="Area of the air barrier, all sides and the floor.")
    storeys: Annotated[int, Field(strict=True, ge=1, le=200)] | None = Field(
        None, description="Storeys above ground.", examples=[2]
    )
    airtightness: Airtightness = Field(
        Airtightness.model_construct(), description="How air-tight it is meant to be."
    )
    ventilation: Literal["mechanical", "none"] | None = Field(
        None, description="Is there whole-building mechanical ventilation?"
    )
    combustion: Literal["none", "sealed", "natural-draught"] | None = Field(
        None, description="How combustion appliances take their air."
    )
    built: Annotated[int, Field(strict=True, ge=1000, le=2100)] | None = Field(
        None, description="Year of construction of an existing building."
    )
    snow_depth: Length | None = Field(
        None, description="Usual depth of snow against the walls in winter.", examples=["300 mm", "12 in"]
    )
    annual_rain: Length | None = Field(None, description="Rain in a year.", examples=["900 mm"])
    sealing_months: tuple[Annotated[int, Field(strict=True, ge=1, le=12)], ...] | None = Field(
        None,
        description="Months in which tapes, sealants and sheets of the air barrier are applied.",
        examples=[[9, 10, 11]],
    )
    air_barrier_lead: Words | None = Field(
        None, description="Role of the one person who answers for the air barrier on site."
    )
