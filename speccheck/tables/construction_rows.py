"""What the construction tables give back: frozen rows in SI units."""

from collections.abc import Mapping
from typing import NamedTuple

from speccheck.tables.value import TableValue

__all__ = [
    "AirLayerLimits",
    "CavityRange",
    "Exposure",
    "Films",
    "JunctionKind",
    "Lap",
    "MetalFraming",
    "SealingMeans",
]


class Films(NamedTuple):
    """The surface films of one convention and direction of heat flow.

    Attributes:
        convention, direction: what they belong to.
        interior, exterior: surface resistance [m²·K/W].
        sheltered: surface resistance [m²·K/W] of the outer face behind a well ventilated layer.
    """

    convention: str
    direction: str
    interior: TableValue
    exterior: TableValue
    sheltered: TableValue


class AirLayerLimits(NamedTuple):
    """The opening areas [m² for each m of length, or each m² when horizontal] that part three kinds of layer.

    Attributes:
        unventilated_up_to: at most this: still air.
        well_ventilated_from: at least this: the layer and all outside it are left out.
        source, how, confidence, note: as for a table value.
    """

    unventilated_up_to: float
    well_ventilated_from: float
    source: tuple[str, ...]
    how: str
    confidence: str
    note: str | None = None


class MetalFraming(NamedTuple):
    """Rows of one code family for one stud depth and spacing.

    Attributes:
        family: the code family.
        depth, spacing: printed depth and spacing [m] of the rows.
        factors: nominal cavity resistance [m²·K/W] and correction factor [1]; empty where none are printed.
        effective: nominal cavity resistance [m²·K/W] and effective resistance [m²·K/W].
    """

    family: str
    depth: float
    spacing: float
    factors: tuple[tuple[float, TableValue], ...]
    effective: tuple[tuple[float, TableValue], ...]


class SealingMeans(NamedTuple):
    """A means of sealing and the substrates it suits.

    Attributes:
        id, title: name in documents, name for people.
        lowest_temperature: lowest usual temperature of application [°C].
        temperature_note: what to know of it.
        ratings: substrate to ``good``, ``primer``, ``clamp``, ``poor`` or ``incompatible``.
        note: what a reader should know, or None.
        source, how, confidence: as for a table value.
    """

    id: str
    title: str
    lowest_temperature: float
    temperature_note: str
    ratings: Mapping[str, str]
    note: str | None
    source: tuple[str, ...]
    how: str
    confidence: str


class JunctionKind(NamedTuple):
    """A kind of junction, and what has to be carried across it.

    Attributes:
        id, title: name in documents, name for people.
        also: other words for it.
        joins: the sides that meet, as ``kind.side``.
        expected: must an enclosure that has these sides have this junction?
        hollow: does a hollow run through here that wants blocking?
        over: of two sides, the one whose water barrier laps over the other; None where that is not settled.
        carries: control (air, water, vapour, thermal) to what carries it across; one left out has nothing to cross.
        usual, mistakes: usual connections, usual mistakes.
        question: what a reviewer asks.
        source, how, confidence: as for a table value.
    """

    id: str
    title: str
    also: tuple[str, ...]
    joins: tuple[str, ...]
    expected: bool
    hollow: bool
    over: tuple[str, str] | None
    carries: Mapping[str, str]
    usual: tuple[str, ...]
    mistakes: tuple[str, ...]
    question: str
    source: tuple[str, ...]
    how: str
    confidence: str


class Lap(NamedTuple):
    """A minimum lap: ``length`` [m], or None where the rule is about the position."""

    id: str
    title: str
    length: TableValue | None


class Exposure(NamedTuple):
    """How long a thing bears the weather before it is covered: ``days`` [d]."""

    id: str
    title: str
    days: TableValue


class CavityRange(NamedTuple):
    """Air changes behind a cladding, ``low`` to ``high`` [1/h]."""

    id: str
    title: str
    low: float
    high: float
    source: tuple[str, ...]
    how: str
    confidence: str
    note: str | None = None
