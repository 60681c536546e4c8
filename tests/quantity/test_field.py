"""Quantity fields in models: what is read, what is refused with which words, what the schema says."""

import re
from typing import Annotated

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pydantic import BaseModel, ConfigDict, ValidationError

from speccheck.quantity import (
    AirChange,
    AirPermeance,
    Fraction,
    Kind,
    Length,
    Permeance,
    Quantity,
    QuantityError,
    Temperature,
    parse,
    quantity,
)
from speccheck.quantity.kind import KINDS
from speccheck.quantity.units import UNITS


class Layer(BaseModel):
    model_config = ConfigDict(extra="forbid", strict=True, frozen=True)

    thickness: Length | None = None
    humidity: Fraction | None = None
    curve: dict[str, Permeance] = {}
    cold: Annotated[Quantity, quantity(Kind.TEMPERATURE, minimum=-60.0, maximum=60.0)] | None = None
    result: AirChange | AirPermeance | Temperature | None = None


def refusal(**fields: object) -> dict[str, str]:
    with pytest.raises(ValidationError) as caught:
        Layer(**fields)  # type: ignore[arg-type]
    (error,) = caught.value.errors()
    assert error["type"] == "quantity"
    assert error["msg"] == error["ctx"]["message"]
    return error["ctx"]


def test_texts_become_quantities():
    layer = Layer.model_validate({"thickness": "5 1/2 in", "humidity": 0.35, "curve": {"25 %": "1 perm"}})
    assert layer.thickness is not None
    assert layer.thickness.value == pytest.approx(0.1397)
    assert layer.humidity == parse(0.35, Kind.FRACTION)
    assert layer.curve["25 %"].unit == "perm"


def test_quantities_pass_through():
    assert Layer(thickness=parse("12 mm", Kind.LENGTH)).thickness == parse("12 mm", Kind.LENGTH)
    assert refusal(thickness=parse("12 °C", Kind.TEMPERATURE))["what"] == "'12 °C' is a temperature"


def test_written_back_as_read():
    assert Layer.model_validate({"thickness": "1/2 in"}).model_dump(exclude_defaults=True, mode="json") == {
        "thickness": "1/2 in"
    }


@pytest.mark.parametrize(
    ("field", "value", "what", "expected", "do"),
    [
        ("thickness", "-5 mm", "'-5 mm' is too small", "above zero", "check the sign and the unit"),
        ("thickness", "0 mm", "'0 mm' is too small", "above zero", "check the sign and the unit"),
        ("thickness", 5, "'5' has no unit", "12.7 mm", "write the unit after the number"),
        ("thickness", ["5 mm"], "a list stands here", "a length", "write one value"),
        ("thickness", {"value": 5}, "a mapping stands here", "a length", "write one value"),
        ("humidity", "140 %", "'140 %' is too large", "from zero to 100 %", "check the number"),
        ("humidity", 1.3, "'1.3' is too large", "from zero to 100 %", "write 1.3 % if that is meant"),
        ("humidity", 35, "'35' is too large", "from zero to 100 %", "write 35 % if that is meant"),
        ("humidity", "-1 %", "'-1 %' is too small", "from zero", "check the sign"),
        ("humidity", True, "'true' is a yes or no", "35 %", "write a number"),
        (
            "cold",
            "80 °C",
            "'80 °C' is too large",
            "from -60 °C (-76 °F) to 60 °C (140 °F)",
            "check the number",
        ),
        ("cold", "-300 F", "'-300 F' is too small", "from -60 °C", "check the sign"),
        (
            "curve",
            {"25 %": "2 m {x}"},
            "'m {x}' in '2 m {x}' is not a unit known here",
            "perm",
            "one of these units",
        ),
    ],
)
def test_refusals(field: str, value: object, what: str, expected: str, do: str):
    words = refusal(**{field: value})
    assert words["what"] == what
    assert expected in words["expected"]
    assert do in words["do"]


def test_null_is_allowed_only_where_the_model_says_so():
    assert Layer.model_validate({"thickness": None}).thickness is None

    class Needs(BaseModel):
        thickness: Length

    with pytest.raises(ValidationError, match="nothing stands here"):
        Needs.model_validate({"thickness": None})


def test_a_union_takes_the_kind_that_fits():
    assert Layer.model_validate({"result": "1.5 ACH50"}).result.kind is Kind.AIR_CHANGE  # type: ignore[union-attr]
    assert Layer.model_validate({"result": "3 m³/(h·m²) at 50 Pa"}).result.kind is Kind.AIR_PERMEANCE  # type: ignore[union-attr]


def test_schema_describes_the_field_and_accepts_what_is_read():
    import jsonschema

    schema = Layer.model_json_schema()
    thickness = schema["properties"]["thickness"]["anyOf"][0]
    assert thickness["type"] == "string"
    assert thickness["examples"] == ["12.7 mm", "1/2 in", "0.15 m"]
    assert "above zero" in thickness["description"]
    for document in (
        {"thickness": "½ in"},
        {"humidity": 0.35},
        {"humidity": "35 %"},
        {"curve": {"25 %": "sd 2 m"}},
    ):
        jsonschema.validate(document, schema)
        Layer.model_validate(document)
    for document in ({"thickness": 5}, {"humidity": 1.3}, {"thickness": "thick"}):
        with pytest.raises(jsonschema.ValidationError):
            jsonschema.validate(document, schema)


def pattern_of(kind: Kind) -> re.Pattern[str]:
    schema = quantity(kind).__get_pydantic_json_schema__({}, None)  # type: ignore[typeddict-item]
    return re.compile(
        next(form for form in (schema, *schema.get("anyOf", ())) if "pattern" in form)["pattern"]
    )


NUMBERS = ("5", "0.35", ".5", "1/2", "5 1/2", "5-1/2", "½", "5½", "1e3", "2 x 10^3", "-3", "+ 3", "1,5", "⅞")
SPELLINGS = [
    spelling
    for kind in Kind
    for unit in UNITS
    if unit.kind is kind
    for spelling in (unit.name, unit.name.replace("·", "*"), unit.name.replace("²", "^2"), unit.name.lower())
]
LABELS = (
    "{} {}",
    "{}{}",
    "R-{}",
    "RSI {} {}",
    "sd {} {}",
    "mu {}",
    "U-{} {}",
    "ACH50 = {}",
    "{} {} at 75 Pa",
    "6 ft {} {}",
)


@given(st.sampled_from(Kind), st.sampled_from(NUMBERS), st.sampled_from(SPELLINGS), st.sampled_from(LABELS))
@settings(max_examples=1500, deadline=None)
def test_what_is_read_fits_the_pattern_of_the_schema(kind: Kind, number: str, unit: str, label: str):
    text = label.format(number, unit)
    try:
        parse(text, kind)
    except QuantityError:
        return
    assert pattern_of(kind).search(text), text


@pytest.mark.parametrize("kind", Kind)
def test_every_example_fits_the_pattern_of_the_schema(kind: Kind):
    assert [text for text in KINDS[kind].examples if not pattern_of(kind).search(text)] == []


@pytest.mark.parametrize("kind", [kind for kind in Kind if kind is not Kind.FRACTION])
@pytest.mark.parametrize("text", NUMBERS)
def test_a_number_without_a_unit_is_refused_by_reader_and_schema(kind: Kind, text: str):
    with pytest.raises(QuantityError):
        parse(text, kind)
    assert not pattern_of(kind).search(text)
