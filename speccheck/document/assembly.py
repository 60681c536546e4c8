"""Assemblies: framing, and layers from the inside to the outside."""

from collections.abc import Iterable
from typing import Annotated, Literal

from pydantic import Field, StrictBool

from speccheck.document.entry import Entry, Identifier, Words
from speccheck.document.product import Stated
from speccheck.quantity.field import (
    AirPermeance,
    Area,
    AreaPerLength,
    Conductivity,
    Days,
    Fraction,
    Length,
    ThermalResistance,
    Transmittance,
)

__all__ = [
    "CONTROLS", "KINDS", "Assembly", "Control", "Framing", "Layer", "SlabEdge", "StatedResult", "name_layers",
]  # fmt: skip

Control = Literal["water", "air", "vapour", "thermal"]
CONTROLS: tuple[str, ...] = Control.__args__  # type: ignore[attr-defined]
Kind = Literal["wall", "roof", "ceiling", "floor", "slab", "below-grade-wall"]
KINDS: tuple[str, ...] = Kind.__args__  # type: ignore[attr-defined]


class Framing(Entry):
    """Members that cross a layer: studs, rafters, joists, battens."""

    material: Literal["softwood", "hardwood", "engineered-wood", "steel"] = Field(
        "softwood", description="What the members are made of; softwood when absent."
    )
    width: Length | None = Field(None, description="Face width of one member; of a steel stud, its flange.")
    depth: Length | None = Field(None, description="Depth of the member; the layer's thickness when absent.")
    spacing: Length | None = Field(None, description="Centre to centre.", examples=["16 in"])
    fraction: Fraction | None = Field(
        None, description="Share of the area that is framing.", examples=["0.23"]
    )
    steel_thickness: Length | None = Field(None, description="Thickness of the steel of one member.")
    conductivity: Conductivity | None = Field(
        None,
        description="Conductivity of the members across the grain; that of the material when absent.",
        examples=["0.12 W/(m·K)"],
    )
    zone_factor: Annotated[float, Field(strict=True, allow_inf_nan=False, ge=-5, le=10)] | None = Field(
        None,
        description="Zone factor of the modified zone method, for steel, read from the handbook's chart.",
    )
    crosses: StrictBool = Field(
        True,
        description="Does it run across the framing of the other framed layers (true) or in line with it?",
    )


class Layer(Stated):
    """One layer; the list runs from inside to outside."""

    id: Identifier | None = Field(None, description="Name of the layer; its material or product when absent.")
    material: Words | None = Field(None, description="Generic material, by id of the material table.")
    product: Identifier | None = Field(None, description="A product declared in this document.")
    finish: Words | None = Field(None, description="Coating or covering on its inside face, a material id.")
    facing: Words | None = Field(None, description="Facing on its inside face, a material id.")
    framed: StrictBool = Field(False, description="Is it cut by the framing of the assembly?")
    framing: Framing | None = Field(None, description="Framing of its own that cuts this layer.")
    controls: tuple[Control, ...] = Field((), description="What this layer is meant to control.")
    ventilation: Literal["none", "drained", "vented", "ventilated"] | None = Field(
        None,
        description="Of an air layer: none (closed); drained at the base only; vented (open at the base); "
        "ventilated (open at base and top).",
    )
    vent_area: AreaPerLength | None = Field(
        None, description="Opening area of an air layer per metre of its length."
    )
    sealed: tuple[Literal["laps", "edges", "penetrations"], ...] = Field(
        (), description="Where this layer is sealed to be air-tight."
    )
    surface: Literal["smooth", "rough", "damp"] | None = Field(
        None,
        description="Face to which tapes, gaskets and sealants are applied: smooth and dry, rough (struck off, "
        "sawn, the textured side of a panel), or damp (wet, or concrete younger than four weeks).",
    )
    interrupted_by: tuple[
        Literal["fasteners", "girts", "ledgers", "shelf-angles", "furring", "framing"], ...
    ] = Field((), description="What passes through this insulation.")
    moisture_content: Fraction | None = Field(None, description="By mass, when it is closed in.")
    exposure: Days | None = Field(None, description="Days planned in the weather before cover.")
    note: Words | None = Field(
        None, description="For people who read the document; nothing is worked out from it."
    )


class StatedResult(Entry):
    """What the drawing or the compliance paper claims for the whole assembly."""

    effective_r: ThermalResistance | None = Field(
        None,
        description="Effective resistance of the whole assembly, framing and films included.",
        examples=["R-20", "3.5 m²·K/W"],
    )
    u_factor: Transmittance | None = Field(
        None,
        description="Transmittance of the whole assembly.",
        examples=["0.045 Btu/(h·ft²·°F)", "0.26 W/(m²·K)"],
    )
    permeance_inside: Words | None = Field(
        None,
        description="What is claimed of the vapour control inside, in the words of the drawing.",
        examples=["class II retarder"],
    )
    air_leakage: AirPermeance | None = Field(
        None,
        description="Leakage of the assembly tested with its joints and holes, as by ASTM E2357.",
        examples=["0.1 L/(s·m²) at 75 Pa"],
    )


class SlabEdge(Entry):
    """Insulation at the edge of a slab, which a section through its middle does not show."""

    insulation: ThermalResistance | None = Field(
        None, description="Resistance of the insulation at the edge; R-0 says: none.", examples=["R-10"]
    )
    depth: Length | None = Field(
        None,
        description="How far it runs from the top of the slab: down, or down and then in or out below it.",
        examples=["24 in"],
    )


class Assembly(Entry):
    """A wall, roof, ceiling, floor or slab."""

    kind: Kind = Field(
        description="What it is; with it go the films, the usual sides and the rules that apply."
    )
    name: Words | None = Field(
        None, description="What reports call it beside its key.", examples=["North and south wall"]
    )
    outside: Literal["outdoors", "ground", "garage", "attic", "crawlspace", "neighbour", "balcony"] | None = (
        Field(None, description="What it parts the rooms from; outdoors (or ground) when absent.")
    )
    framing: Framing | None = Field(
        None, description="Studs, rafters or joists that cross its framed layers."
    )
    layers: Annotated[
        tuple[Layer, ...], Field(min_length=1, max_length=80, description="The layers, inside first.")
    ]
    sides: tuple[Identifier, ...] | None = Field(
        None, description="Its edges, where the usual ones do not fit."
    )
    edge: SlabEdge | None = Field(None, description="Of a slab: the insulation at its edge.")
    area: Area | None = Field(
        None, description="Area of the assembly, openings left out.", examples=["42 m²", "450 ft²"]
    )
    space_ventilated: StrictBool | None = Field(
        None, description="Of an attic or crawlspace outside it: is that space open to outdoor air?"
    )
    drying: Literal["inward", "outward", "both"] | None = Field(
        None, description="Which way the designer means it to dry."
    )
    stated: StatedResult | None = Field(
        None,
        description="What the drawing or the compliance paper claims; it is held against what is worked out.",
    )
    note: Words | None = Field(
        None, description="For people who read the document; nothing is worked out from it."
    )

    @property
    def layer_ids(self) -> tuple[str, ...]:
        """Names of the layers: as given, else the material or product, with ``-2`` and so on where one repeats."""
        return name_layers((layer.id, layer.material or layer.product) for layer in self.layers)


def name_layers(layers: Iterable[tuple[str | None, str | None]]) -> tuple[str, ...]:
    """Return a name for each layer from its id and its substance, unique within the assembly."""
    given = list(layers)
    taken = {id_ for id_, _ in given if id_ is not None}
    names: list[str] = []
    for id_, substance in given:
        if id_ is not None:
            names.append(id_)
            continue
        name, count = substance or "layer", 1
        while name in taken:
            count += 1
            name = f"{substance or 'layer'}-{count}"
        taken.add(name)
        names.append(name)
    return tuple(names)
