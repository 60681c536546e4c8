"""The faces of wood that face the cold: the sheathing's and the framing's, month by month, with what they bear."""

from collections.abc import Sequence
from typing import Literal, NamedTuple

from speccheck.physics.wood import equilibrium_moisture_content
from speccheck.survey.build_up import Slice
from speccheck.survey.moisture.balance import Balance
from speccheck.survey.section import Section
from speccheck.tables.material import MoistureLimit, RowAt
from speccheck.tables.materials import row_at

__all__ = ["WoodFace", "limit_of", "wood_faces"]

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
        return tuple([_content(t, rh) for t, rh in zip(self.temperature, self.humidity, strict=True)])


def wood_faces(section: Section, balances: Sequence[Balance]) -> tuple[WoodFace, ...]:
    """Return the inner face of the wooden sheathing away from framing, and the outer face of wooden members.

    Args:
        section: the section.
        balances: its paths through the year, that through the insulation first.
    """
    faces = (_sheathing(section, balances[0]), *(_framing(balance) for balance in balances[1:]))
    return tuple(face for face in faces if face is not None)


def limit_of(row: RowAt | None) -> MoistureLimit | None:
    """Return the moisture a table row bears; None where the table names no figure."""
    limit = row.row.moisture_limit if row is not None else None
    return limit if limit is not None and limit.limit is not None else None


def _sheathing(section: Section, balance: Balance) -> WoodFace | None:
    slices = balance.path.slices
    index = next((n for n in range(balance.path.main + 1, len(slices)) if slices[n].group == "wood"), None)
    if index is None:
        return None
    piece = slices[index]
    words = f"inner face of {piece.words}"
    return _face("sheathing", words, limit_of(piece.row), balance, balance.strips.faces(index)[0])


def _framing(balance: Balance) -> WoodFace | None:
    """Return the outer face of the member, where something lies outboard of it."""
    path = balance.path
    index = path.main if path.main in path.member_sd else max(path.member_sd)
    while index + 1 in path.member_sd:
        index += 1
    if index + 1 >= len(path.slices):
        return None
    piece = path.slices[index]
    words = f"outer face of the framing in {piece.words}"
    return _face("framing", words, limit_of(_member_row(piece)), balance, balance.strips.faces(index)[1])


def _member_row(piece: Slice) -> RowAt | None:
    framing = piece.framing
    return row_at(_MEMBERS.get(framing.material, framing.material)) if framing is not None else None


def _face(
    role: Literal["sheathing", "framing"],
    words: str,
    limit: MoistureLimit | None,
    balance: Balance,
    number: int,
) -> WoodFace:
    months = sorted(balance.year.months, key=lambda month: month.month)
    return WoodFace(
        role,
        words,
        limit,
        tuple([month.temperatures[number] for month in months]),
        tuple([min(month.pressures[number] / month.saturation[number], 1.0) for month in months]),
    )


def _content(temperature: float, humidity: float) -> float | None:
    try:
        return equilibrium_moisture_content(temperature, humidity)
    except ValueError:
        return None
