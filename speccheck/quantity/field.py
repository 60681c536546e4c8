"""Pydantic fields for quantities: what a model writes to have a text read, bounded and described."""

from typing import Annotated, Any

from pydantic_core import PydanticCustomError, core_schema

from speccheck.quantity.kind import KINDS, Kind
from speccheck.quantity.parse import parse
from speccheck.quantity.refusal import excerpt
from speccheck.quantity.show import show
from speccheck.quantity.value import Quantity, QuantityError

__all__ = [
    "AirChange",
    "AirPermeance",
    "Area",
    "AreaMass",
    "AreaPerLength",
    "Conductivity",
    "Days",
    "DegreeDays",
    "Density",
    "Fraction",
    "Length",
    "Permeability",
    "Permeance",
    "Pressure",
    "QuantityField",
    "Temperature",
    "TemperatureDifference",
    "ThermalResistance",
    "Transmittance",
    "Volume",
    "quantity",
]

_HOLDS_A_NUMBER = "[0-9¼½¾⅐-⅞]"
# A sign that stands in no number: of a unit, or of a label such as R. So `1/2` alone is caught, as it is when read.
_OF_NO_NUMBER = r"[^0-9¼½¾⅐-⅞\s.,+\-−/⁄eExX×*·^]"
_HOLDS_A_UNIT = rf"{_HOLDS_A_NUMBER}[\s\S]*{_OF_NO_NUMBER}|{_OF_NO_NUMBER}[\s\S]*{_HOLDS_A_NUMBER}"


class QuantityField:
    """What stands in `Annotated[Quantity, ...]` to make a field of one kind within a range."""

    __slots__ = ("exclusive_minimum", "kind", "maximum", "minimum")

    def __init__(
        self,
        kind: Kind,
        minimum: float | None = None,
        exclusive_minimum: float | None = None,
        maximum: float | None = None,
    ) -> None:
        self.kind = kind
        self.minimum = minimum
        self.exclusive_minimum = exclusive_minimum
        self.maximum = maximum

    def read(self, value: object) -> Quantity:
        """Return the quantity a value stands for; raises QuantityError when it is none or out of range."""
        if isinstance(value, Quantity):
            read = value
            if read.kind is not self.kind:
                raise QuantityError(
                    f"{excerpt(read.text)} is {KINDS[read.kind].words}",
                    self._expected(),
                    "give the kind wanted",
                )
        elif isinstance(value, (str, int, float)):
            read = parse(value, self.kind)
        else:
            raise QuantityError(f"{_a(value)} stands here", self._expected(), "write one value with its unit")
        self._check_range(read)
        return read

    def _check_range(self, read: Quantity) -> None:
        below = (self.minimum is not None and read.value < self.minimum) or (
            self.exclusive_minimum is not None and read.value <= self.exclusive_minimum
        )
        if below:
            raise QuantityError(
                f"{excerpt(read.text)} is too small", self._expected(), "check the sign and the unit"
            )
        if self.maximum is not None and read.value > self.maximum:
            hint = "check the number and the unit"
            if self.kind is Kind.FRACTION and read.unit == "1":
                hint = f"write {read.text} % if that is meant"
            raise QuantityError(f"{excerpt(read.text)} is too large", self._expected(), hint)

    def _expected(self) -> str:
        """Return the kind, its examples and its range in words."""
        parts = [KINDS[self.kind].expected]
        if self.exclusive_minimum is not None:
            parts.append(f"above {self._bound(self.exclusive_minimum)}")
        if self.minimum is not None and self.maximum is not None:
            return f"{parts[0]}, from {self._bound(self.minimum)} to {self._bound(self.maximum)}"
        if self.minimum is not None:
            parts.append(f"not below {self._bound(self.minimum)}")
        if self.maximum is not None:
            parts.append(f"not above {self._bound(self.maximum)}")
        return ", ".join(parts)

    def _bound(self, value: float) -> str:
        return "zero" if value == 0 and self.kind is not Kind.TEMPERATURE else show(value, self.kind)

    def _validate(self, value: object) -> Quantity:
        try:
            return self.read(value)
        except QuantityError as error:
            raise PydanticCustomError(
                "quantity",
                "{message}",
                {"message": str(error), "what": error.what, "expected": error.expected, "do": error.do},
            ) from None

    def __get_pydantic_core_schema__(self, source: Any, handler: Any) -> core_schema.CoreSchema:
        """Validate by `read`; write a quantity back as the text it was read from."""
        return core_schema.no_info_plain_validator_function(
            self._validate,
            serialization=core_schema.plain_serializer_function_ser_schema(
                str, return_schema=core_schema.str_schema()
            ),
        )

    def __get_pydantic_json_schema__(self, schema: core_schema.CoreSchema, handler: Any) -> dict[str, Any]:
        """Describe the field: a text that holds a number and its unit; for a fraction also a plain number."""
        words = KINDS[self.kind]
        pattern = _HOLDS_A_NUMBER if self.kind is Kind.FRACTION else _HOLDS_A_UNIT
        text: dict[str, Any] = {"type": "string", "pattern": pattern}
        described: dict[str, Any] = text
        if self.kind is Kind.FRACTION:
            number: dict[str, Any] = {"type": "number"}
            number |= {"minimum": self.minimum} if self.minimum is not None else {}
            number |= (
                {"exclusiveMinimum": self.exclusive_minimum} if self.exclusive_minimum is not None else {}
            )
            number |= {"maximum": self.maximum} if self.maximum is not None else {}
            described = {"anyOf": [text, number]}
        sentence = self._expected()
        return described | {
            "description": f"{sentence[0].upper()}{sentence[1:]}. Kept in {words.si}.",
            "examples": list(words.examples),
        }


def _a(value: object) -> str:
    """Name what stands where a quantity is wanted."""
    if value is None:
        return "nothing"
    return (
        "a mapping" if isinstance(value, dict) else "a list" if isinstance(value, list) else "another thing"
    )


def quantity(
    kind: Kind,
    minimum: float | None = None,
    exclusive_minimum: float | None = None,
    maximum: float | None = None,
) -> QuantityField:
    """Return what makes `Annotated[Quantity, ...]` a field of one kind within a range.

    Args:
        kind: the kind wanted.
        minimum: smallest value allowed [SI unit of the kind], None for no bound.
        exclusive_minimum: value that must be exceeded [SI unit of the kind], None for no bound.
        maximum: largest value allowed [SI unit of the kind], None for no bound.
    """
    return QuantityField(kind, minimum, exclusive_minimum, maximum)


Length = Annotated[Quantity, quantity(Kind.LENGTH, exclusive_minimum=0.0)]
Area = Annotated[Quantity, quantity(Kind.AREA, minimum=0.0)]
AreaPerLength = Annotated[Quantity, quantity(Kind.AREA_PER_LENGTH, minimum=0.0)]
Volume = Annotated[Quantity, quantity(Kind.VOLUME, exclusive_minimum=0.0)]
ThermalResistance = Annotated[Quantity, quantity(Kind.THERMAL_RESISTANCE, minimum=0.0)]
Transmittance = Annotated[Quantity, quantity(Kind.TRANSMITTANCE, exclusive_minimum=0.0)]
Conductivity = Annotated[Quantity, quantity(Kind.CONDUCTIVITY, exclusive_minimum=0.0)]
Permeance = Annotated[Quantity, quantity(Kind.PERMEANCE, minimum=0.0)]
Permeability = Annotated[Quantity, quantity(Kind.PERMEABILITY, minimum=0.0)]
Temperature = Annotated[Quantity, quantity(Kind.TEMPERATURE)]
TemperatureDifference = Annotated[Quantity, quantity(Kind.TEMPERATURE_DIFFERENCE)]
Pressure = Annotated[Quantity, quantity(Kind.PRESSURE)]
AirPermeance = Annotated[Quantity, quantity(Kind.AIR_PERMEANCE, minimum=0.0)]
AirChange = Annotated[Quantity, quantity(Kind.AIR_CHANGE, minimum=0.0)]
Fraction = Annotated[Quantity, quantity(Kind.FRACTION, minimum=0.0, maximum=1.0)]
Density = Annotated[Quantity, quantity(Kind.DENSITY, exclusive_minimum=0.0)]
AreaMass = Annotated[Quantity, quantity(Kind.AREA_MASS, minimum=0.0)]
Days = Annotated[Quantity, quantity(Kind.DURATION, minimum=0.0)]
DegreeDays = Annotated[Quantity, quantity(Kind.DEGREE_DAYS, minimum=0.0)]
