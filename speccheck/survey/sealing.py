"""What means of sealing and sheets ask of the weather and of each other: lowest temperature, tested systems."""

from collections.abc import Iterator, Mapping

from speccheck.document import Document
from speccheck.document.junction import Connection, Junction, Opening, Penetration
from speccheck.document.product import Product
from speccheck.survey.fact import Origin
from speccheck.survey.joints import means_of
from speccheck.survey.ledger import Ledger, Page
from speccheck.survey.seals import means_known
from speccheck.survey.table_words import source_words

__all__ = ["survey_sealing"]


def survey_sealing(ledger: Ledger, document: Document) -> None:
    """Enter the warmest of the lowest temperatures of all means, and where systems are mixed."""
    layers = dict(_layers(document))
    for subject, part in (
        ("junction", "junctions"),
        ("opening", "openings"),
        ("penetration", "penetrations"),
    ):
        for name, thing in getattr(document, part).items():
            _enter_systems(ledger.page(subject, name), thing.air or (), layers)
    _enter_limit(ledger.page("project", "project"), document)


def _layers(document: Document) -> Iterator[tuple[str, Product]]:
    """Yield each layer that is a declared product, by its node."""
    for name, assembly in document.assemblies.items():
        for id_, layer in zip(assembly.layer_ids, assembly.layers, strict=True):
            product = document.products.get(layer.product) if layer.product else None
            if product is not None:
                yield f"{name}.{id_}", product


def _enter_systems(page: Page, links: tuple[Connection, ...], layers: Mapping[str, Product]) -> None:
    mixed: list[str] = []
    unsaid: list[str] = []
    for link in links:
        for end in dict.fromkeys((link.from_, link.to)):
            system = layers[end].system if end in layers else None
            if system is None:
                continue
            words = f"{' and '.join(means_of(link))} on {end}"
            if link.system is None:
                unsaid.append(words)
            elif link.system.casefold() != system.casefold():
                mixed.append(words)
    page.declare(
        "air_systems_mixed", tuple(mixed), origin=Origin.COMPUTED, method="systems that differ by name"
    )
    page.declare("air_systems_unsaid", tuple(unsaid), origin=Origin.COMPUTED)


def _enter_limit(page: Page, document: Document) -> None:
    """Enter the warmest of the lowest temperatures, of the means by their table and of sheets by their data sheet."""
    limits = {**_of_sheets(document), **_of_means(document)}
    if not limits:
        for name in ("sealing_limit", "sealing_limit_means"):
            page.inapplicable(
                name, "no means of the sealing table is named, and no sheet states its temperature"
            )
        return
    limit = max(limits.values())
    coldest = tuple(word for word, lowest in limits.items() if lowest == limit)
    page.declare("sealing_limit_means", coldest, origin=Origin.COMPUTED)
    method = "the warmest of the lowest temperatures of all means named and of the sheets that state theirs"
    means = next((found for word in coldest if (found := means_known(word)) is not None), None)
    if means is None:
        page.declare("sealing_limit", limit, origin=Origin.PRODUCT, method=method)
        return
    page.from_table(
        "sealing_limit",
        limit,
        source=source_words(means),
        stands_for=f"lowest temperature for {means.title.lower()} from the sealing table",
        method=method,
    )


def _of_means(document: Document) -> dict[str, float]:
    """Return the lowest temperature [°C] of each means of the sealing table that the air barrier names."""
    things: list[Junction | Opening | Penetration] = [
        *document.junctions.values(),
        *document.openings.values(),
        *document.penetrations.values(),
    ]
    words = dict.fromkeys(word for thing in things for link in thing.air or () for word in means_of(link))
    known = [means for word in words if (means := means_known(word)) is not None]
    return {means.id: float(means.lowest_temperature) for means in known}


def _of_sheets(document: Document) -> dict[str, float]:
    """Return the lowest temperature [°C] that the data sheet of each layer of the air barrier states."""
    named = dict.fromkeys(
        layer.product
        for assembly in document.assemblies.values()
        for layer in assembly.layers
        if layer.product is not None and "air" in layer.controls
    )
    sheets = {name: document.products[name].application_temperature for name in named if name}
    return {name: stated.value for name, stated in sheets.items() if stated is not None}
