"""What a document knows at a place: its keys and what may stand behind them, read off the models for messages."""

from collections.abc import Iterator, Sequence
from difflib import get_close_matches
from typing import Any, Literal, get_args, get_origin

from pydantic import BaseModel
from pydantic.fields import FieldInfo

__all__ = ["choices", "field_at", "known_keys", "nearest_key", "rooms_of"]

_SHORTEST_STEM = 3
_ALIKE = 0.65

# What people write for a key of ours; the spelling is folded as in `_folded`.
_OTHER_NAMES: dict[str, str | tuple[str, ...]] = {
    "r": ("thermal-resistance", "insulation"),
    "r-value": ("thermal-resistance", "insulation"),
    "rsi": ("thermal-resistance", "insulation"),
    "resistance": ("thermal-resistance", "insulation"),
    "u": "u-factor",
    "u-value": "u-factor",
    "k": "conductivity",
    "k-value": "conductivity",
    "lambda": "conductivity",
    "perm": "permeance",
    "perms": "permeance",
    "sd": "permeance",
    "mu": "permeability",
    "type": ("kind", "use"),
    "with": "by",
    "host": "in",
    "report": "document",
    "standard": "method",
    "name": "id",
    "location": "place",
    "city": "town",
    "county-fips": "fips",
    "occupancy": "use",
    "codes": "adopted",
    "code": "adopted",
    "studs": "framing",
    "rh": "humidity",
    "relative-humidity": "humidity",
    "vented": "ventilation",
    "ventilated": "ventilation",
    "windows": "openings",
    "doors": "openings",
    "walls": "assemblies",
    "roofs": "assemblies",
    "because": "reason",
    "expires": "until",
}


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


def _fields(model: type[BaseModel]) -> Iterator[tuple[str, FieldInfo]]:
    """Yield the fields of a model by the key a document writes."""
    return ((field.alias or name, field) for name, field in model.model_fields.items())


def _models_at(top: type[BaseModel], path: Sequence[str | int]) -> list[type[BaseModel]]:
    models, inside = [top], False
    for step in path:
        if inside:  # a name in a mapping, or a position in a list: the models stay
            inside = False
            continue
        fields = [field for model in models for key, field in _fields(model) if key == step]
        models = [model for field in fields for model in _models(field.annotation)]
        inside = any(_is_container(field.annotation) for field in fields)
    return [] if inside else models


def known_keys(top: type[BaseModel], path: Sequence[str | int]) -> tuple[str, ...]:
    """Return the keys known in the mapping at a document path, or nothing where the models know none.

    Args:
        top: the model of the whole document.
        path: keys and list positions from the top to the mapping.
    """
    return tuple(key for model in _models_at(top, path) for key, _ in _fields(model))


def field_at(top: type[BaseModel], path: Sequence[str | int]) -> FieldInfo | None:
    """Return the field behind the key at the end of a document path, or None where there is none."""
    *above, key = path
    fields = (field for model in _models_at(top, above) for name, field in _fields(model) if name == key)
    return next(fields, None)


def choices(annotation: Any) -> tuple[str, ...]:
    """Return the words an annotation leaves to choose from, or nothing where it is not a choice."""
    if get_origin(annotation) is Literal:
        return tuple(str(one) for one in get_args(annotation))
    return tuple(word for part in get_args(annotation) for word in choices(part))


def rooms_of(top: type[BaseModel], path: Sequence[str | int], key: str) -> tuple[str, ...]:
    """Return the keys at a document path under which a misplaced key is known, such as `place` for `zip`."""
    return tuple(
        room
        for model in _models_at(top, path)
        for room, field in _fields(model)
        if not _is_container(field.annotation)
        for inner in _models(field.annotation)
        if key in dict(_fields(inner))
    )


def _folded(key: str) -> str:
    return key.strip().lower().replace("_", "-").replace(" ", "-")


def nearest_key(key: str, known: Sequence[str]) -> str | None:
    """Return the known key a person most likely means, or None.

    Example:
        >>> nearest_key("Thicknes", ["id", "thickness"]), nearest_key("R-value", ["thermal-resistance"])
        ('thickness', 'thermal-resistance')
    """
    if len(key) > 100:
        return None
    folded = _folded(key)
    other = _OTHER_NAMES.get(folded, ())
    meant = [one for one in ((other,) if isinstance(other, str) else other) if one in known]
    if meant:
        return meant[0]
    longer = [
        one
        for one in known
        if min(len(one), len(folded)) >= _SHORTEST_STEM and (one.startswith(folded) or folded.startswith(one))
    ]
    near = longer or get_close_matches(folded, known, n=1, cutoff=_ALIKE)
    return near[0] if near else None
