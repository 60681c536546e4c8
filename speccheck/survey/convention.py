"""Which convention of films, framing fractions and averaging serves a place."""

from typing import Literal, NamedTuple

from speccheck.tables.construction import Convention, HeatFlow

__all__ = ["Practice", "heat_flow", "practice_of"]


class Practice(NamedTuple):
    """How a country reckons: its films, its framing fractions, and the averaging behind effective R of wood framing."""

    films: Convention
    fractions: Literal["us", "nbc"]
    averaging: Literal["parallel", "isothermal", "iso-6946"]


_PRACTICE: dict[str, Practice] = {
    "us": Practice("ashrae-still-air", "us", "parallel"),
    "ca": Practice("nbc", "nbc", "isothermal"),
}
_ELSEWHERE = Practice("iso-6946", "us", "iso-6946")

_DIRECTION: dict[str, HeatFlow] = {
    "wall": "horizontal",
    "below-grade-wall": "horizontal",
    "roof": "up",
    "ceiling": "up",
    "floor": "down",
    "slab": "down",
}


def practice_of(country: str) -> Practice:
    """Return the practice of a country: United States, Canada, else ISO 6946."""
    return _PRACTICE.get(country, _ELSEWHERE)


def heat_flow(kind: str) -> HeatFlow:
    """Return the direction of winter heat flow through an assembly of a kind."""
    return _DIRECTION[kind]
