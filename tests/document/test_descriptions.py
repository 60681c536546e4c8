"""Each key of the published schemas that people write by hand says what it means, so that an editor can help."""

import json
from collections.abc import Iterator
from typing import Any, get_args

import pytest
from pydantic import BaseModel, TypeAdapter, ValidationError

from speccheck.document import Document
from speccheck.schemas import generated

WRITTEN_BY_HAND = ("document.schema.json", "product.schema.json")


def keys(name: str) -> Iterator[tuple[str, dict[str, Any]]]:
    schema = json.loads(generated()[name])
    for form, body in {"": schema, **schema["$defs"]}.items():
        for key, value in body.get("properties", {}).items():
            yield f"{form}.{key}", value


@pytest.mark.parametrize("name", WRITTEN_BY_HAND)
def test_every_key_has_a_description(name: str) -> None:
    found = dict(keys(name))
    assert len(found) > 20
    assert [key for key, value in found.items() if "description" not in value] == []


@pytest.mark.parametrize("name", WRITTEN_BY_HAND)
def test_a_description_is_a_sentence_or_two(name: str) -> None:
    for key, value in keys(name):
        words = value["description"]
        assert words[0].isupper() or words.startswith("assembly."), key
        assert words.endswith((".", "?", ").")), key
        assert 5 <= len(words) <= 200, key


def models(model: type[BaseModel], seen: set[type[BaseModel]]) -> set[type[BaseModel]]:
    """Return a model and all that may stand in it."""
    if model not in seen:
        seen.add(model)
        for field in model.model_fields.values():
            for inner in within(field.annotation):
                models(inner, seen)
    return seen


def within(annotation: Any) -> Iterator[type[BaseModel]]:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        yield annotation
    for part in get_args(annotation):
        yield from within(part)


def test_examples_are_read_as_they_stand() -> None:
    """Each example is read by the model of its key, with its unit."""
    told = 0
    for model in models(Document, set()):
        for field in model.model_fields.values():
            for example in field.examples or ():
                TypeAdapter(field.rebuild_annotation()).validate_python(example)
                told += 1
                if isinstance(example, str) and " " in example and example[0].isdigit():
                    with pytest.raises(ValidationError):  # the same without its unit is refused
                        TypeAdapter(field.rebuild_annotation()).validate_python(example.partition(" ")[0])
    assert told > 40
