"""The build-up: an assembly's layers as they are built, finishes and facings as slices of their own."""

from collections.abc import Mapping
from dataclasses import dataclass

from speccheck.document.assembly import Assembly, Framing, Layer
from speccheck.document.product import Product
from speccheck.survey.ledger import Ledger, Page
from speccheck.tables.material import Material, RowAt
from speccheck.tables.materials import material, row_at

__all__ = ["Path", "Slice", "build_up"]

Path = tuple[str | int, ...]


@dataclass(slots=True)
class Slice:
    """One slice of the section, inside first.

    ``layer`` is the declared layer, or None for a finish or facing, which is a material alone. ``row`` is the table
    row that fits, where the tables know the material.
    """

    id: str
    path: Path
    page: Page
    material_id: str
    layer: Layer | None
    product: Product | None
    material: Material | None
    row: RowAt | None
    framing: Framing | None = None

    @property
    def group(self) -> str:
        """Material group, or nothing where the tables do not know the material."""
        return self.material.group if self.material else ""

    @property
    def is_air(self) -> bool:
        """Is it an air layer?"""
        return self.group == "air"

    @property
    def is_insulation(self) -> bool:
        """Is it an insulation?"""
        return self.group == "insulation"

    @property
    def is_skin(self) -> bool:
        """Is it so thin that its thermal resistance is left out (a sheet, a coating, a facing)?"""
        return self.group in ("membranes", "coatings")

    @property
    def words(self) -> str:
        """How reports call it."""
        return self.page.place


def build_up(
    ledger: Ledger, name: str, assembly: Assembly, products: Mapping[str, Product]
) -> tuple[Slice, ...]:
    """Return the slices of an assembly, inside first, each with a page of its own."""
    slices: list[Slice] = []
    for index, (id_, layer) in enumerate(zip(assembly.layer_ids, assembly.layers, strict=True)):
        path: Path = ("assemblies", name, "layers", index)
        for skin in ("finish", "facing"):
            substance = getattr(layer, skin)
            if substance is not None:
                slices.append(_skin(ledger, name, f"{id_}.{skin}", (*path, skin), substance))
        slices.append(_slice(ledger, name, id_, path, layer, assembly.framing, products))
    return tuple(slices)


def _skin(ledger: Ledger, assembly: str, id_: str, path: Path, substance: str) -> Slice:
    found = material(substance)
    page = ledger.page("layer", f"{assembly}.{id_}")
    return Slice(id_, path, page, substance, None, None, found, row_at(substance))


def _slice(
    ledger: Ledger,
    assembly: str,
    id_: str,
    path: Path,
    layer: Layer,
    framing: Framing | None,
    products: Mapping[str, Product],
) -> Slice:
    product = products.get(layer.product) if layer.product is not None else None
    substance = layer.material or (product.family if product else None) or ""
    found = material(substance) if substance else None
    thickness = layer.thickness or (product.thickness if product else None)
    resistance = layer.thermal_resistance or (product.thermal_resistance if product else None)
    row = row_at(
        substance,
        thickness.value if thickness else None,
        resistance.value if resistance and resistance.value > 0 else None,
    )
    return Slice(
        id_,
        path,
        ledger.page("layer", f"{assembly}.{id_}"),
        substance or (layer.product or ""),
        layer,
        product,
        found,
        row,
        layer.framing or (framing if layer.framed else None),
    )
