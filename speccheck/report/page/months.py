"""Drying, damp wood and the inside surface month by month on the page: drawn for what matters most, told for all."""

from collections.abc import Callable, Sequence
from typing import NamedTuple

from markupsafe import Markup

from speccheck.judgement.wording import word
from speccheck.report.drawing import Strip, StripRow, draw_strips
from speccheck.report.water_amount import water_number, water_unit
from speccheck.report.year_words import drying_words, drying_years, wood_words_of
from speccheck.survey import Surveyed
from speccheck.survey.moisture.drying_year import DryingYear
from speccheck.survey.moisture.table import YearTable
from speccheck.survey.moisture.wood_face import WoodFace

__all__ = ["MonthsView", "months_of"]

_MOST_DRAWN = 3
_Months = tuple[float | None, ...]


class MonthsView(NamedTuple):
    """Two drawings, where there is something to draw, each with its caption, and a row of cells for every quantity.

    ``outcome`` says in a sentence or two what they amount to.
    """

    drying: tuple[Markup, str] | None
    damp: tuple[Markup, str] | None
    outcome: tuple[str, ...]
    months: tuple[str, ...]
    rows: tuple[tuple[str, tuple[str, ...]], ...]


def months_of(surveyed: Surveyed, assembly: str, id_: str, system: str = "both") -> MonthsView | None:
    """Return drying, wood and surface of an assembly month by month; None where there is no balance.

    Args:
        surveyed: the facts.
        assembly: its name in the document.
        id_: anchor from which the drawings take their names.
        system: units to show: ``both``, ``us`` or ``si``.
    """
    page = surveyed.ledger.page("assembly", assembly)
    table: YearTable | None = page.table
    if table is None:
        return None
    own = page.fact("assembly.frsi")
    factor = own.value if own is not None and isinstance(own.value, float) else None
    drying = drying_years(surveyed, assembly)
    names = tuple(month.month for month in table.months)
    outcome = [f"{drying_words(one, system)}." for one in drying if one.is_plane]
    outcome += [f"{face.role.capitalize()} takes on {wood_words_of(face, table)}." for face in _told(table)]
    return MonthsView(
        drying=_drying(assembly, drying, names, f"{id_}-drying", system),
        damp=_damp(assembly, table, factor, names, f"{id_}-damp"),
        outcome=tuple(outcome),
        months=names,
        rows=tuple(_rows(table, factor, drying, system)),
    )


def _told(table: YearTable) -> list[WoodFace]:
    """Return the faces of wood of whose moisture something can be told."""
    return [face for face in table.wood if any(m is not None for m in face.moisture)]


def _drying(
    assembly: str, drying: Sequence[DryingYear], months: Sequence[str], id_: str, system: str
) -> tuple[Markup, str] | None:
    """Draw what the condensing plane could dry, and the layers beside it that dry least."""
    if not drying:
        return None
    order = sorted(drying, key=lambda one: (not one.is_plane, sum(row.net for row in one.months)))
    drawn = [one for one in drying if one in order[:_MOST_DRAWN]]
    title = f"{assembly}: what would dry in each month, were it wet"
    words = " ".join(f"{drying_words(one, system)}." for one in drawn)
    drawing = draw_strips([_drying_strip(one, system) for one in drawn], months, title, words, id_)
    back = any(amount < 0.0 for one in drawn for row in one.months for amount in (row.inward, row.outward))
    open_bars = " Open bars below the line: vapour that comes from that side instead." if back else ""
    told = f"{title} at its inner face: to the inside and to the outside, each to its own scale.{open_bars}"
    return Markup(drawing.svg), told


def _drying_strip(one: DryingYear, system: str) -> Strip:
    inward = tuple(row.inward for row in one.months)
    outward = tuple(row.outward for row in one.months)
    heavy = system != "us" and any(abs(amount) >= 0.9995 for amount in (*inward, *outward))
    unit = "kg/m²" if heavy else water_unit(system)

    def row(label: str, amounts: tuple[float, ...]) -> StripRow:
        return StripRow(label, amounts, tuple(map(tell, amounts)), solid=True)

    def tell(water: float) -> str:
        return _signed(water, 1) if heavy else water_number(water, system)

    name = f"{one.layer}, {unit}{'; the condensing plane' if one.is_plane else ''}"
    return Strip(name, (row("in", inward), row("out", outward)))


def _signed(amount: float, digits: int) -> str:
    text = f"{amount:.{digits}f}"
    return text.removeprefix("-") if float(text) == 0.0 else text


def _damp(
    assembly: str, table: YearTable, factor: float | None, months: Sequence[str], id_: str
) -> tuple[Markup, str] | None:
    """Draw the moisture of wood against what it bears, and the factor asked of the surface against its own."""
    wood = _told(table)
    strips = [_wood_strip(face) for face in wood]
    words = [f"{face.role.capitalize()} takes on {wood_words_of(face, table)}." for face in wood]
    told = ["moisture of wood in % of its dry mass, against what it bears"] if wood else []
    asked = _asked(table)
    if factor is not None and any(asked):
        strips.append(_surface_strip(asked, factor))
        words.append(_surface_words(asked, factor, months))
        told.append(
            "temperature factor in % asked of the inside surface for 80 % humidity there, against its own"
        )
    if not strips:
        return None
    drawing = draw_strips(strips, months, f"{assembly}: damp in each month", " ".join(words), id_)
    return Markup(drawing.svg), f"{drawing.title}: {'; '.join(told)}. Dotted: the limit; hatched: past it."


def _wood_strip(face: WoodFace) -> Strip:
    limit = face.limit.limit if face.limit is not None else None
    bears = "" if limit is None else f"bears {word(limit, 'fraction')}: "
    return Strip(f"{bears}{face.words}", (StripRow("%", face.moisture, _percent(face.moisture), limit),))


def _surface_strip(asked: _Months, factor: float) -> Strip:
    name = f"factor {word(factor, 'fraction')}: inside surface"
    return Strip(name, (StripRow("fRsi", asked, _percent(asked), factor),))


def _percent(values: _Months) -> tuple[str, ...]:
    return _cells(values, lambda value: f"{value * 100.0:.0f}")


def _asked(table: YearTable) -> _Months:
    """Return the factor each month asks for; None where it asks for none, or for less than none."""
    return tuple(one if one is not None and one > 0.0 else None for one in table.surface_factors)


def _surface_words(asked: _Months, factor: float, months: Sequence[str]) -> str:
    most, month = max((one, n) for n, one in enumerate(asked) if one is not None)
    return (
        f"The inside surface has a temperature factor of {word(factor, 'fraction')}; most is asked in "
        f"{months[month]}, {word(most, 'fraction')}."
    )


def _rows(
    table: YearTable, factor: float | None, drying: Sequence[DryingYear], system: str
) -> list[tuple[str, tuple[str, ...]]]:
    rows = []
    for one in drying:
        told = [
            ("to the inside", [row.inward for row in one.months]),
            ("to the outside", [row.outward for row in one.months]),
        ]
        moved = [row.moved for row in one.months]
        if any(amount >= 0.0005 for amount in moved):
            told.append(("condensing elsewhere", moved))
        rows += [
            (
                f"{one.face}, {way}, {water_unit(system)}",
                _cells(amounts, lambda water: water_number(water, system)),
            )
            for way, amounts in told
        ]
    rows += [(f"{face.words}, moisture, %", _percent(face.moisture)) for face in _told(table)]
    asked = _asked(table)
    if factor is not None and any(asked):
        rows.append(("inside surface, fRsi asked, %", _percent(asked)))
    return rows


def _cells(values: Sequence[float | None], word: Callable[[float], str]) -> tuple[str, ...]:
    return tuple("·" if value is None else word(value) for value in values)
