"""Junctions, openings and penetrations: where control layers of different things meet."""

from typing import Annotated, Literal

from pydantic import Field, StrictBool

from speccheck.document.entry import Entry, Identifier, Place, Words
from speccheck.quantity.field import Transmittance

__all__ = ["Connection", "Junction", "Opening", "Penetration", "RingConnection"]

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
    over: Literal["from", "to"] | None = Field(
        None, description="Of a water barrier: which of the two laps over the other."
    )
    system: Words | None = Field(
        None, description="Tested system the means belongs to, in any words; see `system` of a product."
    )


class RingConnection(Connection):
    """A connection at the frame of an opening: all round, or at the parts named."""

    at: tuple[Literal["head", "jambs", "sill"], ...] | None = Field(
        None, description="Parts of the frame it runs along; all round when absent."
    )


class Junction(Entry):
    """The line where assemblies meet, and how each control layer is carried across it."""

    kind: Words = Field(
        description="Kind of junction: an id of the junction table, another word for it, or words of your own.",
        examples=["wall-to-slab", "wall-to-eave", "rim-joist"],
    )
    joins: Annotated[
        tuple[Place, ...], Field(min_length=1, max_length=12, description="The sides that meet here.")
    ]
    air: tuple[Connection, ...] | None = Field(
        None, description="Connections of the air barrier; [] says: none."
    )
    water: tuple[Connection, ...] | None = Field(
        None, description="Connections of the water barrier; [] says: none."
    )
    vapour: tuple[Connection, ...] | None = Field(
        None, description="Connections of the vapour control; [] says: none."
    )
    thermal: Literal["continuous", "reduced", "interrupted"] | None = Field(
        None, description="Does insulation run through here in full, thinner, or not?"
    )
    blocked: StrictBool | None = Field(
        None,
        description="Are hollows that run through (joist bays, webs, chases) blocked and sealed in the line?",
    )
    drained: StrictBool | None = Field(
        None, description="Does water behind the cladding find its way out here?"
    )
    kick_out: StrictBool | None = Field(
        None, description="Is there a kick-out flashing at the foot of a roof edge that dies into the wall?"
    )
    note: Words | None = Field(
        None, description="For people who read the document; nothing is worked out from it."
    )


class Opening(Entry):
    """A window, door, hatch or skylight."""

    kind: Literal["window", "door", "hatch", "skylight", "overhead-door"] = Field(description="What it is.")
    within: Identifier = Field(alias="in", description="The assembly it sits in.")
    frame: Words | None = Field(
        None, description="What the frame is made of, by id of the material table.", examples=["pvc-rigid"]
    )
    air: tuple[RingConnection, ...] | None = Field(
        None, description="How its frame meets the air barrier; [] says: not."
    )
    water: tuple[RingConnection, ...] | None = Field(
        None, description="How its frame meets the water barrier; [] says: not."
    )
    sill_pan: StrictBool | None = Field(
        None, description="Is there a pan below its sill that drains outward?"
    )
    u_factor: Transmittance | None = Field(
        None,
        description="Transmittance of the whole unit, frame included.",
        examples=["1.6 W/(m²·K)", "0.28 Btu/(h·ft²·°F)"],
    )
    drained: StrictBool | None = Field(
        None, description="Is the gap below the frame open to drain to the outside?"
    )
    note: Words | None = Field(
        None, description="For people who read the document; nothing is worked out from it."
    )


class Penetration(Entry):
    """A pipe, duct, cable, box, flue or structural member that crosses the enclosure."""

    kind: Literal["pipe", "duct", "cable", "electrical-box", "flue", "recessed-light", "beam", "other"] = (
        Field(description="What crosses.")
    )
    within: Identifier = Field(alias="in", description="The assembly it crosses.")
    material: Words | None = Field(
        None, description="What it is made of, by id of the material table.", examples=["steel"]
    )
    air: tuple[Connection, ...] | None = Field(
        None, description="How it is sealed to the air barrier; [] says: not."
    )
    hot: StrictBool | None = Field(None, description="Does its surface get hot (a flue)?")
    sealed_by: Words | None = Field(None, description="Trade that seals it.")
    note: Words | None = Field(
        None, description="For people who read the document; nothing is worked out from it."
    )
