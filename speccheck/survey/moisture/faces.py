"""Entering how damp the wooden faces toward the cold get, and how far below what their material bears they stay."""

from speccheck.survey.fact import Fact, Gap
from speccheck.survey.ledger import Page
from speccheck.survey.moisture.balance import MONTHS
from speccheck.survey.moisture.case import MONTHLY_BALANCE, Case
from speccheck.survey.moisture.table import YearTable
from speccheck.survey.moisture.wood_face import WoodFace
from speccheck.survey.table_words import confidence_words, source_words
from speccheck.tables.material import MoistureLimit

__all__ = ["WOOD_HANDBOOK", "enter_faces", "enter_limit"]

WOOD_HANDBOOK = "Wood Handbook, FPL-GTR-190, equation 4-5 (read)"
"""The source of moisture contents."""


def enter_faces(case: Case) -> tuple[Gap, ...] | None:
    """Enter the dampest months of the wooden faces that the year of moisture holds."""
    verdict = case.page.fact("assembly.moisture_verdict")
    if verdict is None or not verdict.known:
        return verdict.missing if verdict is not None else None
    table: YearTable = case.page.table
    for face in table.wood:
        _enter_face(case, face, verdict)
    return None


def _enter_face(case: Case, face: WoodFace, verdict: Fact) -> None:
    page, role = case.page, face.role
    dampest = max(range(12), key=face.humidity.__getitem__)
    moisture = max((content for content in face.moisture if content is not None), default=None)
    facts, method = (verdict,), f"{face.words}, by the monthly balance"
    case.enter(f"{role}_rh_max", face.humidity[dampest], facts, method, MONTHLY_BALANCE)
    case.enter(f"{role}_rh_month", MONTHS[dampest], facts, method, MONTHLY_BALANCE)
    content = f"{face.words}, in balance with the air of the month in which it takes on most"
    case.enter(f"{role}_wood_moisture", moisture, facts, content, WOOD_HANDBOOK)
    enter_limit(page, f"{role}_moisture_limit", face.limit)
    page.compute(
        f"{role}_moisture_margin",
        lambda most, found: most - found,
        [page[f"{role}_moisture_limit"], page[f"{role}_wood_moisture"]],
        method="what the material bears less the most it takes on",
    )


def enter_limit(page: Page, name: str, limit: MoistureLimit | None) -> None:
    """Enter the moisture that a material bears, by the material table."""
    if limit is None or limit.limit is None:
        page.inapplicable(name, "no wood, or the material table names no moisture content for it")
        return
    method = f"material table{confidence_words(limit)}: {limit.criterion}"
    page.from_table(name, limit.limit, source=source_words(limit), stands_for="", method=method)
