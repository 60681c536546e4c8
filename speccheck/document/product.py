"""Products: what a data sheet states, with the test behind each value."""

from typing import Annotated, Literal

from pydantic import AfterValidator, Field, StrictBool

from speccheck.document.entry import Day, Entry, Words, fault
from speccheck.quantity.field import (
    AirPermeance,
    Conductivity,
    Days,
    Density,
    Fraction,
    Length,
    Permeability,
    Permeance,
    Temperature,
    ThermalResistance,
    quantity,
)
from speccheck.quantity.kind import Kind
from speccheck.quantity.value import Quantity, QuantityError

__all__ = ["CupValues", "Evidence", "Product", "Stated"]


_SHARE = quantity(Kind.FRACTION, minimum=0.0, maximum=1.0)


def _humidity(text: str) -> str:
    """Hold the text of a key against what a relative humidity may be."""
    try:
        _SHARE.read(text)
    except QuantityError as error:
        raise fault(error.what, error.expected, error.do) from None
    return text


Humidity = Annotated[str, AfterValidator(_humidity)]
"""A relative humidity as a key: ``25 %`` or ``0.25``, kept as it is written."""

PointOfCurve = Annotated[Quantity, quantity(Kind.PERMEANCE, exclusive_minimum=0.0)]
"""A permeance of a curve: a layer that opens with humidity lets some vapour through at every humidity."""


class CupValues(Entry):
    """Vapour permeance by the cup it was tested in; what is not stated stays unknown."""

    dry_cup: Permeance | None = Field(
        None, description="Dry cup: ASTM E96 procedure A, ISO 12572 condition A.", examples=["0.8 perm"]
    )
    wet_cup: Permeance | None = Field(
        None, description="Wet cup: ASTM E96 procedure B, ISO 12572 condition C.", examples=["11 perm"]
    )
    cup_not_stated: Permeance | None = Field(
        None, description="A permeance whose cup the data sheet does not name.", examples=["5 perm"]
    )
    curve: dict[Humidity, PointOfCurve] | None = Field(
        None,
        json_schema_extra={"minProperties": 2},
        description="Permeance against the layer's mean relative humidity.",
        examples=[{"25 %": "0.9 perm", "80 %": "8 perm"}],
    )
    tested: Literal["core", "faced", "as-installed"] | None = Field(
        None,
        description="What was in the cup: the core alone, the board with its facer, or the layer as installed.",
    )


class Stated(Entry):
    """The properties a layer or a product may state; each absent one is *not shown*."""

    thickness: Length | None = Field(
        None, description="Thickness as installed.", examples=["12.7 mm", "1/2 in"]
    )
    thermal_resistance: ThermalResistance | None = Field(
        None, description="Resistance at this thickness, without films.", examples=["R-23", "4.05 m²·K/W"]
    )
    conductivity: Conductivity | None = Field(
        None,
        description="Conductivity at mean service temperature; give this or the resistance.",
        examples=["0.035 W/(m·K)", "R-4 per inch"],
    )
    permeance: CupValues | None = Field(
        None, description="Vapour permeance at this thickness, by the cup it was tested in."
    )
    permeability: Permeability | None = Field(
        None,
        description="Vapour permeability of the material; permeance follows from the thickness.",
        examples=["2.1 perm-in", "mu 50"],
    )
    air_permeance: AirPermeance | None = Field(
        None,
        description="Air that passes the material itself, as by ASTM E2178.",
        examples=["0.005 L/(s·m²) at 75 Pa"],
    )
    density: Density | None = Field(None, description="Bulk density, dry.", examples=["32 kg/m³", "2 lb/ft³"])
    emissivity: Fraction | None = Field(
        None, description="Long-wave emissivity of the face toward an air layer."
    )


class Evidence(Entry):
    """The document behind a stated value."""

    property: Literal[
        "permeance",
        "air-permeance",
        "thermal-resistance",
        "conductivity",
        "water-resistance",
        "adhesion",
        "fire",
        "other",
    ] = Field(description="The stated property this document stands behind.")
    method: Words = Field(description="Test method with procedure.", examples=["ASTM E96 procedure A"])
    document: Words | None = Field(None, description="Report or data sheet and its number.")
    date: Day | None = Field(None, description="Day of the report.", examples=["2024-05-31"])


class Product(Stated):
    """One product as its data sheet states it."""

    name: Words | None = Field(None, description="A generic description; no trade name is needed.")
    family: Words | None = Field(
        None, description="Generic material it belongs to, by id of the material table.", examples=["osb"]
    )
    system: Words | None = Field(
        None, description="Tested system it belongs to, in any words; its tapes and sealants name the same."
    )
    exposure_limit: Days | None = Field(None, description="Longest stay in the weather before cover.")
    application_temperature: Temperature | None = Field(
        None, description="Lowest temperature for application."
    )
    responsive: StrictBool | None = Field(
        None, description="Does its permeance rise with humidity by design?"
    )
    evidence: tuple[Evidence, ...] = Field(
        (), description="The test report or data sheet behind each stated value."
    )
