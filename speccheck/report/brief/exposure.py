"""Days in the weather of a brief: how long a layer may stay open, and how damp it may be when closed in."""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from speccheck.report.brief.assemblies import shown
from speccheck.survey.profile import layer_pages
from speccheck.uses.check import Checked

__all__ = ["Exposed", "ExposedRow", "exposed", "exposed_rows"]


class Exposed(NamedTuple):
    """How long one layer may stay in the weather, and how damp it may be when closed in."""

    place: str
    planned: str
    limit: str
    moisture: str


class ExposedRow(NamedTuple):
    """Layers with the same days and the same moisture."""

    places: tuple[str, ...]
    planned: str
    limit: str
    moisture: str

    @property
    def named(self) -> str:
        """The layers, those of one name together: ``weather of long-wall and roof; long-wall.board``."""
        by_layer: dict[str, list[str]] = {}
        for place in self.places:
            assembly, _, layer = place.partition(".")
            by_layer.setdefault(layer, []).append(assembly)
        return "; ".join(
            f"{layer} of {', '.join(of)}" if len(of) > 1 else f"{of[0]}.{layer}"
            for layer, of in by_layer.items()
        )


def exposed(checked: Checked) -> Iterator[Exposed]:
    """Yield every layer of which days in the weather or moisture are known, in the order of the document."""
    for name in checked.loaded.document.assemblies:
        for page in layer_pages(checked.surveyed, name):
            facts = [page[key] for key in ("exposure", "exposure_limit", "moisture_content")]
            if any(fact.known for fact in facts):
                kinds = ("duration", "duration", "fraction")
                yield Exposed(page.place, *(shown(f, k) for f, k in zip(facts, kinds, strict=True)))


def exposed_rows(found: Sequence[Exposed]) -> tuple[ExposedRow, ...]:
    """Return the same with layers that share every value in one row, in the order of each row's first."""
    shared: dict[tuple[str, str, str], list[str]] = {}
    for one in found:
        shared.setdefault((one.planned, one.limit, one.moisture), []).append(one.place)
    return tuple(ExposedRow(tuple(places), *values) for values, places in shared.items())
