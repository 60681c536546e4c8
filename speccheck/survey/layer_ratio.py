"""How the resistance of an assembly lies about a layer, left for later: codes that judge a layer by its place ask."""

from collections.abc import Callable
from functools import partial

from speccheck.survey.fact import Fact
from speccheck.survey.section import Section

__all__ = ["survey_layer_ratio"]

_RATIO, _SHARE = "outboard_ratio", "inner_share"


def survey_layer_ratio(section: Section, films: tuple[Fact, Fact]) -> None:
    """Leave ``layer.outboard_ratio`` and ``layer.inner_share`` of every layer for when one of them is asked for.

    Args:
        section: the parts of the assembly; layers beyond a ventilated cavity take no part.
        films: inside and outside surface resistance.
    """
    for index, piece in enumerate(section.slices):
        piece.page.defer((_RATIO, _SHARE), _entering(section, films, index))


def _entering(section: Section, films: tuple[Fact, Fact], index: int) -> Callable[[], None]:
    return partial(_enter, section, films, index)


def _enter(section: Section, films: tuple[Fact, Fact], index: int) -> None:
    page = section.slices[index].page
    if index >= section.beyond:
        for name in (_RATIO, _SHARE):
            page.inapplicable(name, "it lies beyond a ventilated cavity")
        return
    resistances = [piece.page["resistance"] for piece in section.slices[: section.beyond]]
    inboard = 1 + index
    facts = [films[0], *resistances, films[1]]

    def ratio(*values: float) -> float:
        return sum(values[inboard:]) / sum(values[:inboard])

    def share(*values: float) -> float:
        return sum(values[:inboard]) / (sum(values) - values[inboard])

    page.compute(
        _RATIO,
        ratio,
        facts,
        method="resistance from its inner face outward over that inboard of it, away from framing, films included",
        source="National Building Code of Canada, 9.25.5.2 (read); the films by its printed example (computed)",
    )
    page.compute(
        _SHARE,
        share,
        facts,
        method="resistance inboard of it over all but its own, away from framing, films included",
        source="International Residential Code, note on mass walls insulated inside (memory); films are ours",
    )
