"""A large house, and that house several times over in one document."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
import yaml

from speccheck.uses.check import Checked

LARGE = Path(__file__).parent / "large_house.yaml"
PARTS = ("assemblies", "junctions", "openings", "penetrations")


@pytest.fixture
def large_house() -> dict[str, Any]:
    document: dict[str, Any] = yaml.safe_load(LARGE.read_text("utf-8"))
    return document


@pytest.fixture
def larger(large_house: dict[str, Any], checked: Callable[..., Checked]) -> Callable[[int], Checked]:
    """Return what checks so many wings of the large house, each with assemblies, places and layers of its own."""
    names = {name for part in PARTS for name in large_house[part]}

    def renamed(value: Any, wing: int) -> Any:
        if isinstance(value, dict):
            return {
                renamed(key, wing): f"{entry}-{wing}"
                if key == "id"
                else (entry if key in ("kind", "sealed-by") else renamed(entry, wing))
                for key, entry in value.items()
            }
        if isinstance(value, list):
            return [renamed(entry, wing) for entry in value]
        head, _, rest = str(value).partition(".")
        if not isinstance(value, str) or head not in names:
            return value
        own = rest in ("frame", "ring") or rest not in _layers(large_house, head)
        return f"wing-{wing}-{head}" + (f".{rest}{'' if own else f'-{wing}'}" if rest else "")

    def build(wings: int) -> Checked:
        document = {**large_house, **{part: dict(large_house[part]) for part in PARTS}}
        for wing in range(2, wings + 1):
            for part in PARTS:
                document[part] |= renamed(large_house[part], wing)
        return checked(document)

    return build


def _layers(document: dict[str, Any], assembly: str) -> set[str]:
    return {layer["id"] for layer in document["assemblies"].get(assembly, {"layers": []})["layers"]}
