"""Waivers: one rule at one place set aside, with a reason, a name and an end; what is wrong with one is a finding.

A waiver is judged like anything else: its facts are entered on a page of its own and the pack ``practice/waivers``
speaks about them. The same room enters what only the judgement knows of the project: adopted editions for which no
pack is held.
"""

from collections.abc import Sequence
from datetime import date

from speccheck.document.site import Waiver
from speccheck.judgement.finding import Finding, Level
from speccheck.judgement.judge import judge
from speccheck.judgement.pack import Pack
from speccheck.survey.ledger import Ledger, Page
from speccheck.survey.subject import Subject, Surveyed

__all__ = ["waive"]

_WAIVABLE = (Level.WARN, Level.ASK, Level.REFER)


def waive(
    findings: Sequence[Finding],
    surveyed: Surveyed,
    waivers: Sequence[Waiver],
    packs: Sequence[Pack],
    missing: Sequence[str],
    today: date,
) -> list[Finding]:
    """Return the findings with those waived marked so, and a finding for each waiver that does not hold.

    Args:
        findings: what the rules said.
        surveyed: the facts; an adopted edition without a pack is entered among those of the project.
        waivers: as declared.
        packs: the packs in force.
        missing: adopted editions for which no pack is held.
        today: the day the waivers are held against.
    """
    result = [_waived(finding, waivers, today) for finding in findings]
    project = surveyed.ledger.page("project", "project")
    project.declare("adopted_not_held", tuple(missing), method="no pack is held for these editions")
    pages = [_page(surveyed.ledger, i, waiver, findings, packs, today) for i, waiver in enumerate(waivers)]
    everywhere = (project, surveyed.ledger.page("climate", "climate"))
    subjects = [Subject("edition", "project", ("project", "adopted"), everywhere)]
    subjects += [
        Subject("waiver", page.place, ("waivers", i), (page, *everywhere)) for i, page in enumerate(pages)
    ]
    return result + judge(Surveyed(surveyed.ledger, subjects), packs, ("waiver", "edition"))


def _waived(finding: Finding, waivers: Sequence[Waiver], today: date) -> Finding:
    for waiver in waivers:
        matches = (waiver.rule, waiver.place) == finding.key
        if matches and finding.level in _WAIVABLE and not finding.withheld and today <= waiver.until:
            words = f"{waiver.reason} (agreed by {waiver.agreed_by}, until {waiver.until.isoformat()})"
            return finding._replace(level=Level.WAIVED, waiver=words)
    return finding


def _page(
    ledger: Ledger,
    index: int,
    waiver: Waiver,
    findings: Sequence[Finding],
    packs: Sequence[Pack],
    today: date,
) -> Page:
    page = ledger.page("waiver", f"waivers.{index + 1}")
    rules = {rule.id for pack in packs for rule in pack.rules}
    places = {finding.place for finding in findings}
    hit = any(
        f.key == (waiver.rule, waiver.place) and f.level in _WAIVABLE and not f.withheld for f in findings
    )
    page.declare("rule", waiver.rule)
    page.declare("place", waiver.place)
    page.declare("rule_known", waiver.rule in rules)
    page.declare("place_known", waiver.place in places or waiver.place in {p.place for p in ledger})
    page.declare("needed", hit)
    page.declare("days_left", float((waiver.until - today).days))
    return page
