"""The year of moisture on the page: what the monthly balance amounts to, drawn for the dampest faces, told for all."""

from collections.abc import Sequence
from typing import NamedTuple

from markupsafe import Markup

from speccheck.quantity import System, show
from speccheck.report.drawing import InterfaceYear, YearOfMoisture, draw_year
from speccheck.report.water_amount import water_number, water_unit
from speccheck.survey import Fact, Surveyed
from speccheck.survey.ledger import Page
from speccheck.survey.moisture.table import YearTable

__all__ = ["MoistureView", "moisture_of"]

_MOST_DRAWN = 3
_DAMP = 0.8


class MoistureView(NamedTuple):
    """The year of an assembly: its drawing with title and words, and a row of cells in words for each face.

    ``method`` says by what it was worked out. Where there is no balance, ``why`` says so and the rest is empty.
    """

    svg: Markup
    title: str
    outcome: str
    method: str
    months: tuple[str, ...]
    rows: tuple[tuple[str, tuple[str, ...]], ...]
    why: str = ""
    questions: tuple[str, ...] = ()


def moisture_of(surveyed: Surveyed, assembly: str, id_: str, system: System = "both") -> MoistureView:
    """Return the year of moisture of an assembly.

    Args:
        surveyed: the facts.
        assembly: its name in the document.
        id_: name of the drawing.
        system: units to show.
    """
    page = surveyed.ledger.page("assembly", assembly)
    verdict = page.fact("assembly.moisture_verdict")
    if verdict is None or not verdict.known or page.table is None:
        return _none(verdict)
    table: YearTable = page.table
    year = _year(page, table, system)
    drawing = draw_year(year, assembly, id_, system)
    return MoistureView(
        svg=Markup(drawing.svg),
        title=drawing.title,
        outcome=year.outcome,
        method=year.method,
        months=year.months,
        rows=tuple(_rows(table, system)),
    )


def _none(verdict: Fact | None) -> MoistureView:
    questions = tuple(dict.fromkeys(gap.question for gap in verdict.missing)) if verdict else ()
    reason = verdict.method if verdict and not questions else ""
    why = f"{reason[0].upper()}{reason[1:]}." if reason else "Something that it rests on is not shown."
    return MoistureView(Markup(), "", "", "", (), (), why, questions)


def _year(page: Page, table: YearTable, system: System) -> YearOfMoisture:
    shown = sorted(_dampest(table))
    faces = tuple(
        InterfaceYear(
            table.faces[n],
            tuple(month.temperature[n] for month in table.months),
            tuple(month.humidity[n] for month in table.months),
            tuple(month.water[n] for month in table.months),
        )
        for n in shown
    )
    method = f"monthly balance of ISO 13788:2012 through the {table.path}; indoors by {table.method}"
    return YearOfMoisture(tuple(month.month for month in table.months), faces, method, _outcome(page, system))


def _dampest(table: YearTable) -> Sequence[int]:
    """Return the faces to draw: the one to look at first, then the wettest and the dampest."""

    def rank(face: int) -> tuple[bool, float, float]:
        water = max(month.water[face] for month in table.months)
        return (face == table.worst, water, max(month.humidity[face] for month in table.months))

    order = sorted(range(len(table.faces)), key=rank, reverse=True)
    outer = len(table.faces) - 1  # it has the humidity of the open air
    order = [order[0], *(face for face in order[1:] if face != outer or rank(face)[1] > 0.0)]
    told = [order[0], *(face for face in order[1:_MOST_DRAWN] if rank(face)[2] >= _DAMP)]
    return told[:_MOST_DRAWN]


def _outcome(page: Page, system: System) -> str:
    """Say in a sentence or two what the year amounts to."""
    verdict, peak = page["moisture_verdict"].value, page["moisture_peak"].value
    if verdict == "none" or not isinstance(peak, float):
        return "Nothing condenses in any month."
    most = (
        f"At most {show(peak, 'area-mass', system)} of water gathers at the {page['moisture_peak_place'].value} "
        f"in {page['moisture_peak_month'].value}."
    )
    if verdict == "dries":
        return f"{most} It is gone in {page['moisture_dry_month'].value}."
    residual = page["moisture_residual"].value
    left = f", {show(residual, 'area-mass', system)}" if isinstance(residual, float) else ""
    return f"{most} Some is left after twelve months{left}."


def _rows(table: YearTable, system: System) -> list[tuple[str, tuple[str, ...]]]:
    return [
        (face, tuple(_cell(month.humidity[n], month.water[n], system) for month in table.months))
        for n, face in enumerate(table.faces)
    ]


def _cell(humidity: float, water: float, system: System) -> str:
    amount = water_number(water, system)
    held = f", {amount} {water_unit(system)}" if amount != "0" else ""
    return f"{humidity * 100:.0f}\N{NO-BREAK SPACE}%{held}"
