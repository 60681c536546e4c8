"""The year of moisture as plain data: each face month by month, wood, the inside surface, and what layers could dry."""

from collections.abc import Iterable
from typing import Any

from speccheck.physics.monthly_balance import MonthlyClimate
from speccheck.report.printed import printed
from speccheck.report.year_words import drying_years
from speccheck.survey import Surveyed
from speccheck.survey.ledger import Page
from speccheck.survey.moisture.drying_year import DryingYear
from speccheck.survey.moisture.table import YearTable
from speccheck.survey.moisture.wood_face import WoodFace

__all__ = ["plain_years"]


def plain_years(surveyed: Surveyed) -> list[dict[str, Any]]:
    """Return the year of each assembly whose balance has been asked for, in SI units."""
    return [
        _year(page, drying_years(surveyed, page.place))
        for page in surveyed.ledger
        if page.subject == "assembly" and page.table is not None
    ]


def _year(page: Page, drying: Iterable[DryingYear]) -> dict[str, Any]:
    table: YearTable = page.table
    own = page.fact("assembly.frsi")
    return {
        "assembly": table.assembly,
        "path": table.path,
        "indoors": table.method,
        "verdict": table.verdict,
        "settled": table.settled,
        "starting-month": table.start,
        "climate": _climate(table.climate),
        "faces": list(table.faces),
        "worst": table.worst,
        "months": [
            {
                "month": row.month,
                "temperature": _numbers(row.temperature),
                "humidity": _numbers(row.humidity),
                "water": _numbers(row.water),
            }
            for row in table.months
        ],
        "wood": [_wood(face) for face in table.wood],
        "surface-factor": printed(own.value) if own is not None and isinstance(own.value, float) else None,
        "surface-factors": _numbers(table.surface_factors),
        "drying": [_drying(one) for one in drying],
    }


def _climate(climate: MonthlyClimate | None) -> dict[str, Any] | None:
    if climate is None:
        return None
    return {
        "inside-temperature": _numbers(climate.inside_temperature),
        "inside-pressure": _numbers(climate.inside_pressure),
        "outside-temperature": _numbers(climate.outside_temperature),
        "outside-pressure": _numbers(climate.outside_pressure),
    }


def _wood(face: WoodFace) -> dict[str, Any]:
    limit = face.limit.limit if face.limit is not None else None
    return {
        "role": face.role,
        "face": face.words,
        "limit": None if limit is None else printed(limit),
        "temperature": _numbers(face.temperature),
        "humidity": _numbers(face.humidity),
        "moisture": _numbers(face.moisture),
    }


def _drying(table: DryingYear) -> dict[str, Any]:
    return {
        "layer": table.layer,
        "face": table.face,
        "is-plane": table.is_plane,
        "inward": _numbers(row.inward for row in table.months),
        "outward": _numbers(row.outward for row in table.months),
        "moved": _numbers(row.moved for row in table.months),
        "net": _numbers(row.net for row in table.months),
    }


def _numbers(values: Iterable[float | None]) -> list[float | None]:
    return [None if value is None else printed(value) for value in values]
