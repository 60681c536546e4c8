"""The facts of openings and penetrations that are not those of a line: kind, host, pan, drainage, who seals."""

from speccheck.document import Document
from speccheck.document.junction import Opening, Penetration
from speccheck.survey.fact import Gap
from speccheck.survey.ledger import Ledger, Page

__all__ = ["survey_openings", "survey_penetrations"]


def survey_openings(ledger: Ledger, document: Document) -> None:
    """Enter the facts of all openings."""
    for name, opening in document.openings.items():
        _enter_opening(ledger.page("opening", name), name, opening)


def survey_penetrations(ledger: Ledger, document: Document) -> None:
    """Enter the facts of all penetrations."""
    for name, penetration in document.penetrations.items():
        _enter_penetration(ledger.page("penetration", name), name, penetration)


def _enter_opening(page: Page, name: str, opening: Opening) -> None:
    path = ("openings", name)
    page.declare("kind", opening.kind)
    page.declare("assembly", opening.within)
    page.declare("sill_pan_shown", opening.sill_pan is not None)
    pan = Gap(name, "sill pan", f"Is there a pan under {name}?", path)
    _enter(page, "sill_pan", opening.sill_pan, pan)
    drained = Gap(name, "drained sill gap", f"Is the gap below {name} open to drain?", path)
    _enter(page, "drained", opening.drained, drained)
    u_factor = opening.u_factor.value if opening.u_factor is not None else None
    _enter(page, "u_factor", u_factor, Gap(name, "U-factor", f"What is the U-factor of {name}?", path))


def _enter_penetration(page: Page, name: str, penetration: Penetration) -> None:
    path = ("penetrations", name)
    page.declare("kind", penetration.kind)
    page.declare("assembly", penetration.within)
    page.declare("sealer_named", penetration.sealed_by is not None)
    trade = Gap(name, "trade that seals it", f"Which trade seals {name}?", path)
    _enter(page, "sealed_by", penetration.sealed_by, trade)
    hot = True if penetration.hot is None and penetration.kind == "flue" else penetration.hot
    page.declare("hot", bool(hot), method="as declared; a flue is hot, anything else is not unless declared")


def _enter(page: Page, name: str, value: bool | float | str | None, gap: Gap) -> None:
    if value is None:
        page.unknown(name, gap)
    else:
        page.declare(name, value)
