"""Junctions, openings and penetrations: where control layers of different things meet."""

from typing import Annotated, Literal

from pydantic import Field, StrictBool

from speccheck.document.entry import Entry, Identifier, Place, Words
from speccheck.quantity.field import Transmittance

__all__ = ["Connection", "Junction", "Opening", "Penetration"]

Means = Annotated[tuple[Words, ...], Field(max_length=6)]


class Connection(Entry):
    """Two control layers joined by a stated means."""

    from_: Place = Field(
        alias="from", description="assembly.layer on one side.", examples=["north-wall.control"]
    )
    to: Place = Field(
        description="assembly.layer, or opening.frame, on the other side.", examples=["slab.concrete"]
    )
    by: Words | Means = Field(
        description="Sealing means, by id of the sealing table.",
        examples=["acrylic-tape", "preformed-adhesive-bead"],
    )


class Junction(Entry):
    """The line where assemblies meet, and how each control layer is carried across it."""

    kind: Words = Field(description="Kind of junction.", examples=["wall-slab", "wall-roof", "wall-wall"])
    joins: Annotated[
        tuple[Place, ...], Field(min_length=1, max_length=12, description="The sides that meet here.")
    ]
    air: tuple[Connection, ...] | None = Field(
        None, description="Connections of the air barrier; [] says: none."
    )
    water: tuple[Connection, ...] | None = None
    vapour: tuple[Connection, ...] | None = None
    thermal: Literal["continuous", "reduced", "interrupted"] | None = None
    note: Words | None = None


class Opening(Entry):
    """A window, door, hatch or skylight."""

    kind: Literal["window", "door", "hatch", "skylight", "overhead-door"]
    within: Identifier = Field(alias="in", description="The assembly it sits in.")
    air: tuple[Connection, ...] | None = Field(
        None, description="How its frame meets the air barrier; [] says: not."
    )
    water: tuple[Connection, ...] | None = None
    sill_pan: StrictBool | None = None
    u_factor: Transmittance | None = None
    drained: StrictBool | None = Field(
        None, description="Is the gap below the frame open to drain to the outside?"
    )
    note: Words | None = None


class Penetration(Entry):
    """A pipe, duct, cable, box, flue or structural member that crosses the enclosure."""

    kind: Literal["pipe", "duct", "cable", "electrical-box", "flue", "recessed-light", "beam", "other"]
    within: Identifier = Field(alias="in", description="The assembly it crosses.")
    air: tuple[Connection, ...] | None = Field(
        None, description="How it is sealed to the air barrier; [] says: not."
    )
    hot: StrictBool | None = Field(None, description="Does its surface get hot (a flue)?")
    sealed_by: Words | None = Field(None, description="Trade that seals it.")
    note: Words | None = None
