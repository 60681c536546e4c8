"""The report for a terminal: verdict, findings by place, worst first, then the questions, then the small print."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from speccheck.judgement.finding import Finding, Level
from speccheck.quantity import CONVENTIONS
from speccheck.report.assembly_names import assembly_name
from speccheck.report.digest import Digest
from speccheck.report.formats import Format, Manner, Run
from speccheck.report.good_for import good_for, good_for_line
from speccheck.report.layout import Sheet
from speccheck.report.remedies import led
from speccheck.report.summary import Group, Question, Summary, summarise
from speccheck.report.wording import DEFERRAL, LABELS, limit_words, margin_words, verdict_words
from speccheck.survey.vocabulary import VOCABULARY
from speccheck.uses.check import Checked

if TYPE_CHECKING:
    from speccheck.uses.baseline import Against

__all__ = ["FORMAT", "text_report", "text_roll"]

_FEW = 8
_IN_FULL = (Level.WARN, Level.REFER)


def text_report(
    checked: Checked,
    width: int = 80,
    system: str = "both",
    *,
    full: bool = False,
    against: "Against | None" = None,
) -> str:
    """Return the report on one document.

    Args:
        checked: the document with its facts and findings.
        width: columns of the terminal.
        system: units to show: ``both``, ``us`` or ``si``.
        full: write out what holds, and every question and assumption.
        against: what a baseline makes of the findings, told before the verdict.
    """
    sheet = Sheet(width)
    summary = summarise(checked.findings)
    name = checked.loaded.document.project.name
    sheet.line(f"{checked.loaded.name}{f': {name}' if name else ''}")
    if against is not None:
        _outcome(sheet, against, checked.loaded.name)
    sheet.wrap(verdict_words(summary.verdict, summary.counts), lead="Verdict: ")
    sheet.wrap(DEFERRAL)
    told: set[str] = set()
    for group in summary.groups:
        _group(sheet, checked, group, system, told, full=full)
    _red_line(sheet, checked, full=full)
    _questions(sheet, summary.questions, full=full)
    _withheld(sheet, summary)
    if not full:
        _holds(sheet, summary)
    _assumed(sheet, summary, full=full)
    _small_print(sheet, checked, full=full)
    return sheet.text()


def _outcome(sheet: Sheet, against: "Against", name: str) -> None:
    """Write what a baseline makes of the document: it is what the exit status goes by."""
    from speccheck.report.baseline_text import held_against, outcome_words

    words = (
        outcome_words(against.trends)
        if against.older
        else "this document is new to it, so every finding counts"
    )
    which = held_against(against, name)
    sheet.wrap(f"{words}{f' ({which})' if which else ''}.", lead=f"Against the baseline {against.baseline}: ")


def _red_line(sheet: Sheet, checked: Checked, *, full: bool) -> None:
    """Write where the air barrier stops, once junctions are drawn; where it closes, only with --full."""
    if not checked.loaded.document.junctions:
        return
    from speccheck.report.red_line import red_line, write_red_line

    line = red_line(checked.surveyed)
    if full or not line.closed:
        write_red_line(sheet, line, full=full)


def _group(sheet: Sheet, checked: Checked, group: Group, system: str, told: set[str], *, full: bool) -> None:
    findings = list(group.of(*_IN_FULL))
    waived = group.of(Level.WAIVED)
    if full:
        findings += [f for f in group.of(Level.ASK) if not f.withheld] + list(group.of(Level.PASS))
    if not (findings or waived):
        return
    sheet.heading(_title(checked, group, system))
    for finding in findings:
        _finding(sheet, checked, finding, system, told)
    for finding in waived:
        sheet.wrap(f"{finding.title}. {finding.waiver}", 2, f"{LABELS['waived']}  ")
    _year(sheet, checked, group, system)


def _year(sheet: Sheet, checked: Checked, group: Group, system: str) -> None:
    """Write the year of an assembly where a rule has asked for its balance."""
    page = checked.surveyed.ledger.pages.get(("assembly", group.place))
    if page is not None and page.table is not None:
        from speccheck.report.year_text import write_year
        from speccheck.report.year_words import drying_years

        write_year(sheet, page.table, drying_years(checked.surveyed, group.place), system)


def _holds(sheet: Sheet, summary: Summary) -> None:
    """Say in one paragraph how much holds where; the titles are written out with --full."""
    counts = {group.place: len(group.of(Level.PASS)) for group in summary.groups}
    parts = [f"{place} {count}" for place, count in counts.items() if count]
    if parts:
        sheet.heading("Holds")
        sheet.wrap(f"{', '.join(parts)} (each by name with --full).", 2)


def _title(checked: Checked, group: Group, system: str) -> str:
    if group.subject != "assembly":
        return f"{group.place} ({group.subject})" if group.subject != group.place else group.place
    from speccheck.judgement.wording import word

    page = checked.surveyed.ledger.page("assembly", group.place)
    effective = page["effective_r"]
    kind = page["kind"].value
    r = f", effective {word(effective.value, 'thermal-resistance', system)}" if effective.known else ""
    name = assembly_name(checked, group.place)
    return f"{group.place} ({f'{name}; ' if name else ''}{kind}{r})"


def _finding(sheet: Sheet, checked: Checked, finding: Finding, system: str, told: set[str]) -> None:
    label = LABELS[finding.severity]
    at = "" if finding.place.partition(".")[0] == finding.place else f" [{finding.place}]"
    sheet.wrap(f"{finding.title}{at}", 2, f"{label:<8} ")
    inner = 4
    sheet.wrap(finding.reason, inner)
    if finding.measured is not None and finding.level is not Level.ASK:
        limit = limit_words(finding.measured, system)
        sheet.wrap(f"{limit[0].upper()}{limit[1:]}; {margin_words(finding, system)}.", inner)
    limits = good_for(checked.surveyed, finding)
    if limits is not None:
        sheet.wrap(f"{good_for_line(limits, system)}.", inner, "Good for: ")
    _advice(sheet, finding, told, inner)
    where = f"{finding.file}:{finding.line}:{finding.column}" if finding.line else finding.file
    stake = f"{finding.consequence}, {finding.confidence} confidence"
    sheet.wrap(f"{finding.rule} ({stake}) at {where}", inner, "Rule: ")
    sheet.blank()


def _advice(sheet: Sheet, finding: Finding, told: set[str], inner: int) -> None:
    """Write why, what to do and the source; of a rule told before in this report, only that it was."""
    if finding.rule in told:
        sheet.wrap("Why, what to do and source: as above.", inner)
        return
    told.add(finding.rule)
    if finding.level in _IN_FULL:
        sheet.wrap(finding.why, inner, "Why: ")
        for lead, remedy in led(finding.do, finding.do_is):
            sheet.wrap(remedy, inner, f"{lead} ")
        if finding.disputed:
            sheet.wrap(" Against it: ".join(finding.disputed), inner, "Disputed: ")
    sheet.wrap("; ".join(finding.sources), inner, "Source: ")


def _questions(sheet: Sheet, questions: Sequence[Question], *, full: bool) -> None:
    if not questions:
        return
    sheet.heading("Questions, the most telling first")
    shown = questions if full else questions[:_FEW]
    for number, question in enumerate(shown, 1):
        count = len(question.waiting)
        rules = ", ".join(dict.fromkeys(rule for rule, _ in question.waiting))
        more = rules if count <= 3 or full else f"{count} checks"
        sheet.wrap(f"{question.question} ({more})", 2, f"{number}. ")
    if len(shown) < len(questions):
        sheet.wrap(f"{len(questions) - len(shown)} more with --full.", 2)


def _withheld(sheet: Sheet, summary: Summary) -> None:
    held = [finding for finding in summary.findings if finding.withheld]
    if not held:
        return
    sheet.heading("Held back until the air line is shown closed")
    sheet.wrap(
        "These hold as far as vapour diffusion goes. Moist air that leaks carries far more, so no pass is given while "
        "the air barrier is not shown to be continuous.",
        2,
    )
    by_title: dict[str, list[str]] = {}
    for finding in held:
        by_title.setdefault(finding.title, []).append(finding.place)
    for title, places in by_title.items():
        sheet.wrap(f"{title} ({', '.join(places)})", 2, "- ")


def _assumed(sheet: Sheet, summary: Summary, *, full: bool) -> None:
    if not summary.assumed:
        return
    sheet.heading("Not declared, so taken from tables")
    shown = summary.assumed if full else summary.assumed[:_FEW]
    for line in shown:
        sheet.wrap(line, 2, "- ")
    if len(shown) < len(summary.assumed):
        sheet.wrap(
            f"{len(summary.assumed) - len(shown)} more with --full; `speccheck facts` shows each with its source.",
            2,
        )


def _small_print(sheet: Sheet, checked: Checked, *, full: bool) -> None:
    from speccheck.judgement.cautions import cautions_for

    sheet.heading("Limits and cautions")
    packs = ", ".join(f"{pack.id} (edition {pack.edition})" for pack in checked.packs)
    sheet.wrap(packs, 2, "Judged by: ")
    for line in cautions_for(checked.surveyed):
        sheet.wrap(line, 2, "- ")
    for line in CONVENTIONS if full else _conventions_used(checked):
        sheet.wrap(line, 2, "- ")


def _conventions_used(checked: Checked) -> Sequence[str]:
    """Return the two conventions of vapour units where a finding rests on a permeance."""
    kinds = {VOCABULARY[name].kind for f in checked.findings for name, _ in f.observed if name in VOCABULARY}
    ratios = {f.measured.fact for f in checked.findings if f.measured is not None}
    return CONVENTIONS[:2] if "permeance" in kinds or "assembly.sd_ratio" in ratios else ()


def text_roll(digests: Sequence[Digest], unread: Sequence[str], width: int = 80) -> str:
    """Return the roll of several documents: one line each, with its verdict and counts."""
    sheet = Sheet(width)
    count = len(digests) + len(unread)
    sheet.heading(f"{count} {'document' if count == 1 else 'documents'}")
    for digest in digests:
        sheet.wrap(f"{_held(digest)}{verdict_words(digest.verdict, digest.counts)}", 2, f"{digest.file}: ")
    for name in unread:
        sheet.wrap("could not be read; see the errors", 2, f"{name}: ")
    return sheet.text()


def _held(digest: Digest) -> str:
    """Return what a baseline makes of a document, to stand before its verdict; empty where there was none."""
    if digest.trends is None:
        return ""
    from speccheck.report.baseline_text import outcome_words

    return f"{outcome_words(digest.trends)}. Verdict: "


def _part(checked: Checked, manner: Manner, against: "Against | None") -> str:
    page = text_report(checked, manner.width, manner.units, full=manner.full, against=against)
    if against is None:
        return page
    from speccheck.report.baseline_text import baseline_section

    return f"{page}\n{baseline_section(against, manner.width, manner.units)}"


def _whole(run: Run) -> str:
    pages = "\n".join(one.part for one in run.told)
    if len(run.told) + len(run.unread) <= 1:
        return pages
    return f"{pages}\n{text_roll(run.digests, [name for name, _ in run.unread], run.manner.width)}"


FORMAT = Format(_part, _whole, ".txt")
"""To be read in a terminal."""
