"""The kinds of quantity a specification states, with the words for each and examples of its form."""

from enum import StrEnum
from typing import NamedTuple

__all__ = ["KINDS", "Kind", "KindWords"]


class Kind(StrEnum):
    """A kind of physical quantity; two values of one kind can be compared, two of different kinds cannot."""

    LENGTH = "length"
    AREA = "area"
    VOLUME = "volume"
    AREA_PER_LENGTH = "area-per-length"
    THERMAL_RESISTANCE = "thermal-resistance"
    TRANSMITTANCE = "transmittance"
    CONDUCTIVITY = "conductivity"
    PERMEANCE = "permeance"
    PERMEABILITY = "permeability"
    TEMPERATURE = "temperature"
    TEMPERATURE_DIFFERENCE = "temperature-difference"
    PRESSURE = "pressure"
    VAPOUR_PRESSURE = "vapour-pressure"
    AIR_PERMEANCE = "air-permeance"
    AIR_CHANGE = "air-change"
    FRACTION = "fraction"
    DENSITY = "density"
    AREA_MASS = "area-mass"
    DURATION = "duration"
    DEGREE_DAYS = "degree-days"


class KindWords(NamedTuple):
    """What a message says of a kind: its words with an article, its SI unit, and forms that are read."""

    words: str
    si: str
    examples: tuple[str, ...]

    @property
    def expected(self) -> str:
        """Return one phrase that names the kind and shows how it is written."""
        *most, last = self.examples
        return f"{self.words}, such as {', '.join(most)} or {last}"


KINDS: dict[Kind, KindWords] = {
    Kind.LENGTH: KindWords("a length", "m", ("12.7 mm", "1/2 in", "0.15 m")),
    Kind.AREA: KindWords("an area", "m²", ("120 m²", "1300 ft²")),
    Kind.VOLUME: KindWords("a volume", "m³", ("450 m³", "16000 ft³")),
    Kind.AREA_PER_LENGTH: KindWords("an opening area per length", "m²/m", ("1500 mm²/m", "0.7 in²/ft")),
    Kind.THERMAL_RESISTANCE: KindWords(
        "a thermal resistance", "m²·K/W", ("R-23", "RSI 4.05", "4.05 m²·K/W", "23 h·ft²·°F/Btu")
    ),
    Kind.TRANSMITTANCE: KindWords(
        "a thermal transmittance (U)", "W/(m²·K)", ("0.35 W/(m²·K)", "0.06 Btu/(h·ft²·°F)")
    ),
    Kind.CONDUCTIVITY: KindWords(
        "a thermal conductivity", "W/(m·K)", ("0.038 W/(m·K)", "0.26 Btu·in/(h·ft²·°F)", "R-3.8 per inch")
    ),
    Kind.PERMEANCE: KindWords(
        "a vapour permeance", "kg/(m²·s·Pa)", ("0.9 perm", "60 ng/(Pa·s·m²)", "sd 2 m", "5 MN·s/g")
    ),
    Kind.PERMEABILITY: KindWords(
        "a vapour permeability", "kg/(m·s·Pa)", ("1.2 perm-in", "2 ng/(Pa·s·m)", "mu 50")
    ),
    Kind.TEMPERATURE: KindWords("a temperature", "°C", ("21 °C", "70 °F", "294 K")),
    Kind.TEMPERATURE_DIFFERENCE: KindWords("a temperature difference", "K", ("10 K", "18 °F")),
    Kind.PRESSURE: KindWords("a pressure", "Pa", ("75 Pa", "0.3 in w.g.", "1.57 psf")),
    Kind.VAPOUR_PRESSURE: KindWords("a vapour pressure", "Pa", ("1250 Pa", "0.37 inHg")),
    Kind.AIR_PERMEANCE: KindWords(
        "an air permeance",
        "m³/(s·m²)",
        ("0.02 L/(s·m²) at 75 Pa", "0.004 cfm/ft² at 75 Pa", "3 m³/(h·m²) at 50 Pa"),
    ),
    Kind.AIR_CHANGE: KindWords("an air change rate", "1/h", ("1.5 ACH50", "0.6 1/h at 50 Pa")),
    Kind.FRACTION: KindWords("a fraction", "1", ("35 %", "0.35")),
    Kind.DENSITY: KindWords("a density", "kg/m³", ("32 kg/m³", "2 lb/ft³")),
    Kind.AREA_MASS: KindWords("a mass per area", "kg/m²", ("200 g/m²", "8.2 kg/m²", "6 oz/yd²")),
    Kind.DURATION: KindWords("a duration", "day", ("120 days", "4 weeks")),
    Kind.DEGREE_DAYS: KindWords("a degree-day sum", "K·day", ("3000 K·day", "5400 °F·day")),
}
