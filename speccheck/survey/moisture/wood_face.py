"""The faces of wood that face the cold: the sheathing's and the framing's, month by month, with what they bear."""

from collections.abc import Sequence
from typing import Literal, NamedTuple

from speccheck.physics.wood import equilibrium_moisture_content
from speccheck.survey.build_up import Slice
from speccheck.survey.moisture.balance import Balance
from speccheck.survey.moisture.path import MoisturePath
from speccheck.survey.section import Section
from speccheck.tables.material import MoistureLimit, RowAt
from speccheck.tables.materials import row_at

__all__ = ["WoodFace", "WoodPlace", "content_of", "limit_of", "wood_faces", "wood_places"]

_MEMBERS = {"engineered-wood": "laminated-veneer-lumber"}


class WoodFace(NamedTuple):
    """One face of wood, January first.

    ``role`` is ``sheathing`` or ``framing``; ``words`` says where it lies. ``limit`` is the moisture the material
    bears by its table, or None. ``temperature`` [°C] and ``humidity`` [-] by month.
    """

    role: Literal["sheathing", "framing"]
    words: str
    limit: MoistureLimit | None
    temperature: tuple[float, ...]
    humidity: tuple[float, ...]

    @property
    def moisture(self) -> tuple[float | None, ...]:
        """Moisture content in balance with the air there by month [kg/kg]; None where the equation does not reach."""
        return tuple([content_of(t, rh) for t, rh in zip(self.temperature, self.humidity, strict=True)])


class WoodPlace(NamedTuple):
    """Where a face of wood lies: in which path, of which layer in it, on which side (0 inner, 1 outer)."""

    role: Literal["sheathing", "framing"]
    words: str
    limit: MoistureLimit | None
    path: int
    layer: int
    side: int


def wood_faces(section: Section, balances: Sequence[Balance]) -> tuple[WoodFace, ...]:
    """Return the inner face of the wooden sheathing away from framing, and the outer face of wooden members.

    Args:
        section: the section.
        balances: its paths through the year, that through the insulation first.
    """
    places = wood_places(section, [balance.path for balance in balances])
    return tuple([_face(place, balances[place.path]) for place in places])


def wood_places(section: Section, paths: Sequence[MoisturePath]) -> tuple[WoodPlace, ...]:
    """Return where the inner face of the wooden sheathing lies, and the outer face of wooden members.

    Args:
        section: the section.
        paths: its paths, that through the insulation first.
    """
    framing = (_framing(number, path) for number, path in enumerate(paths) if number)
    return tuple(place for place in (_sheathing(section, paths[0]), *framing) if place is not None)


def limit_of(row: RowAt | None) -> MoistureLimit | None:
    """Return the moisture a table row bears; None where the table names no figure."""
    limit = row.row.moisture_limit if row is not None else None
    return limit if limit is not None and limit.limit is not None else None


def _sheathing(section: Section, path: MoisturePath) -> WoodPlace | None:
    index = section.wooden_sheathing
    if index is None:
        return None
    piece = path.slices[index]
    return WoodPlace("sheathing", f"inner face of {piece.words}", limit_of(piece.row), 0, index, 0)


def _framing(number: int, path: MoisturePath) -> WoodPlace | None:
    """Return the outer face of the member, where something lies outboard of it."""
    index = path.main if path.main in path.member_sd else max(path.member_sd)
    while index + 1 in path.member_sd:
        index += 1
    if index + 1 >= len(path.slices):
        return None
    piece = path.slices[index]
    words = f"outer face of the framing in {piece.words}"
    return WoodPlace("framing", words, limit_of(_member_row(piece)), number, index, 1)


def _member_row(piece: Slice) -> RowAt | None:
    framing = piece.framing
    return row_at(_MEMBERS.get(framing.material, framing.material)) if framing is not None else None


def _face(place: WoodPlace, balance: Balance) -> WoodFace:
    months = sorted(balance.year.months, key=lambda month: month.month)
    number = balance.strips.faces(place.layer)[place.side]
    return WoodFace(
        place.role,
        place.words,
        place.limit,
        tuple([month.temperatures[number] for month in months]),
        tuple([min(month.pressures[number] / month.saturation[number], 1.0) for month in months]),
    )


def content_of(temperature: float, humidity: float) -> float | None:
    """Return the moisture content of wood in balance with air [°C], [-]; None where the equation does not reach."""
    try:
        return equilibrium_moisture_content(temperature, humidity)
    except ValueError:
        return None
