"""The resistance on either side of a layer's inner face, left for later: codes that judge a tight layer by it ask."""

from collections.abc import Callable
from functools import partial

from speccheck.survey.fact import Fact
from speccheck.survey.section import Section

__all__ = ["survey_layer_ratio"]

_NAME = "outboard_ratio"


def survey_layer_ratio(section: Section, films: tuple[Fact, Fact]) -> None:
    """Leave ``layer.outboard_ratio`` of every layer for when it is asked for.

    Args:
        section: the parts of the assembly; layers beyond a ventilated cavity take no part.
        films: inside and outside surface resistance.
    """
    for index, piece in enumerate(section.slices):
        piece.page.defer((_NAME,), _entering(section, films, index))


def _entering(section: Section, films: tuple[Fact, Fact], index: int) -> Callable[[], None]:
    return partial(_enter, section, films, index)


def _enter(section: Section, films: tuple[Fact, Fact], index: int) -> None:
    page = section.slices[index].page
    if index >= section.beyond:
        page.inapplicable(_NAME, "it lies beyond a ventilated cavity")
        return
    resistances = [piece.page["resistance"] for piece in section.slices[: section.beyond]]
    inboard = 1 + index

    def ratio(*values: float) -> float:
        return sum(values[inboard:]) / sum(values[:inboard])

    page.compute(
        _NAME,
        ratio,
        [films[0], *resistances, films[1]],
        method="resistance from its inner face outward over that inboard of it, away from framing, films included",
        source="National Building Code of Canada, 9.25.5.2 (read); the films by its printed example (computed)",
    )
