"""Which keys a document knows at a place: read off the models, for messages about unknown keys."""

from collections.abc import Iterator, Sequence
from typing import Any, get_args, get_origin

from pydantic import BaseModel

__all__ = ["known_keys"]


def _models(annotation: Any) -> Iterator[type[BaseModel]]:
    """Yield the models an annotation may hold, looking through unions, tuples and mappings."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        yield annotation
        return
    for part in get_args(annotation):
        yield from _models(part)


def _is_container(annotation: Any) -> bool:
    origin = get_origin(annotation)
    return origin in (tuple, list, dict) or any(_is_container(part) for part in get_args(annotation))


def known_keys(top: type[BaseModel], path: Sequence[str | int]) -> tuple[str, ...]:
    """Return the keys known in the mapping at a document path, or nothing where the models know none.

    Parameters
    ----------
    top: the model of the whole document.
    path: keys and list positions from the top to the mapping.
    """
    models, inside = [top], False
    for step in path:
        if inside:  # a name in a mapping, or a position in a list: the models stay
            inside = False
            continue
        found: list[type[BaseModel]] = []
        for model in models:
            for name, field in model.model_fields.items():
                if (field.alias or name) == step:
                    found.extend(_models(field.annotation))
                    inside = _is_container(field.annotation)
        models = found
    return tuple(field.alias or name for model in models for name, field in model.model_fields.items())
