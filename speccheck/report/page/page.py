"""The page of one document, put together: what the template is given, and the page itself."""

from collections.abc import Sequence
from functools import lru_cache
from typing import Any, NamedTuple

from jinja2 import Template
from markupsafe import Markup

from speccheck import __version__
from speccheck.judgement.cautions import cautions_for
from speccheck.judgement.finding import Finding
from speccheck.judgement.wording import word
from speccheck.quantity import CONVENTIONS, System
from speccheck.report.drawing import hatch_patterns
from speccheck.report.good_for import good_for_assembly, good_for_words
from speccheck.report.page.environment import anchor, html_environment
from speccheck.report.page.figures import Figures, LayerRow, figures_of, layer_rows
from speccheck.report.page.given import inputs_of, methods
from speccheck.report.page.moisture import MoistureView, moisture_of
from speccheck.report.page.months import MonthsView, months_of
from speccheck.report.page.sorted_out import FindingView, GroupView, group_views, what_first
from speccheck.report.red_line import red_line_drawing
from speccheck.report.summary import Summary, summarise
from speccheck.report.water_amount import water_unit
from speccheck.report.wording import DEFERRAL, LABELS, limit_words, margin_words, verdict_words
from speccheck.uses.check import Checked

__all__ = ["html_page"]

_HEAT = {
    "assembly.effective_r": "Effective R",
    "assembly.u_factor": "U",
    "assembly.cavity_r": "R between the framing",
    "assembly.continuous_r": "Continuous R",
    "assembly.continuous_r_outboard": "Continuous R outboard",
    "assembly.insulation_r": "R of all insulation",
}
"""The facts whose limits stand beside the effective R, in words."""


class AssemblyView(NamedTuple):
    """An assembly on the page."""

    id: str
    name: str
    title: str
    kind: str
    effective_r: str
    u_factor: str
    method: str
    ends: str
    plane: bool
    heat_limits: tuple[str, ...]
    layers: Sequence[LayerRow]
    figures: Figures
    moisture: MoistureView
    by_month: MonthsView | None
    good_for: Sequence[tuple[str, str]]
    group: GroupView | None


def html_page(checked: Checked, system: System = "both") -> str:
    """Return the report on one document as an HTML page.

    Args:
        checked: the document with its facts and findings, whose sentences are in the same units.
        system: units to show.

    Returns:
        the page, complete in itself; the same report gives the same bytes.
    """
    return _template().render(_view(checked, system))


@lru_cache(maxsize=1)
def _template() -> Template:
    return html_environment().get_template("page.html.j2")


def _view(checked: Checked, system: System) -> dict[str, Any]:
    summary = summarise(checked.findings)
    groups = group_views(summary, checked.surveyed, system)
    project = checked.loaded.document.project
    by_place = {group.place: group for group in groups if group.subject == "assembly"}
    names = checked.loaded.document.assemblies
    assemblies = [_assembly(checked, name, by_place.get(name), system) for name in names]
    return {
        "file": checked.loaded.name,
        "name": project.name or checked.loaded.name,
        "description": project.description or "",
        "block": _title_block(checked, system),
        "verdict": summary.verdict,
        "verdict_words": verdict_words(summary.verdict, summary.counts),
        "counts": [(severity, LABELS[severity].capitalize(), n) for severity, n in summary.counts.items()],
        "deferral": DEFERRAL,
        "first": what_first(summary),
        "patterns": Markup(hatch_patterns()),
        "assemblies": assemblies,
        "others": [group for group in groups if group.subject != "assembly"],
        "questions": summary.questions,
        "withheld": _withheld(summary),
        "waived": [view for group in groups for view in group.waived],
        "assumed": summary.assumed,
        "cautions": cautions_for(checked.surveyed),
        "conventions": CONVENTIONS,
        "inputs": inputs_of(checked.surveyed, system),
        "methods": methods(checked.surveyed),
        "packs": checked.packs,
        "missing_editions": checked.missing_editions,
        "version": __version__,
        "months": max((len(a.figures.lines.says) for a in assemblies if a.figures.lines), default=0),
        "red_line": _red_line(checked),
        "holds": _holds(groups),
        "water_unit": water_unit(system),
        "month_names": next((a.moisture.months for a in assemblies if a.moisture.months), ()),
    }


def _holds(groups: Sequence[GroupView]) -> list[tuple[str, tuple[FindingView, ...]]]:
    return [(group.place, group.holds) for group in groups if group.holds]


def _title_block(checked: Checked, system: System) -> list[tuple[str, str]]:
    project, climate = (checked.surveyed.ledger.page(name, name) for name in ("project", "climate"))
    zone = climate["zone"].value if "zone" in climate else None
    return [
        ("Document", checked.loaded.name),
        ("Use", _or_not_shown(project, "use")),
        ("Codes adopted", ", ".join(_adopted(checked)) or "none named"),
        ("Climate zone", str(zone) if zone else "not shown"),
        ("Winter mean outdoors", _or_not_shown(climate, "winter_mean_temperature", "temperature", system)),
        (
            "Rooms in winter",
            f"{_or_not_shown(project, 'indoor_temperature', 'temperature', system)}, "
            f"{_or_not_shown(project, 'indoor_rh', 'fraction')}",
        ),
        ("Waivers held against", checked.today.isoformat() if checked.today else "no day given"),
    ]


def _adopted(checked: Checked) -> list[str]:
    """Return the codes a project adopts by their titles, those for which no pack is held as they are written."""
    titles = {pack.adopt: f"{pack.title} ({pack.adopt})" for pack in checked.packs if pack.adopt}
    return [titles.get(edition, edition) for edition in checked.loaded.document.project.adopted]


def _or_not_shown(page: Any, name: str, kind: str = "text", system: System = "both") -> str:
    if name not in page or page[name].value is None:
        return "not shown"
    return word(page[name].value, kind, system)


def _assembly(checked: Checked, name: str, group: GroupView | None, system: System) -> AssemblyView:
    page = checked.surveyed.ledger.page("assembly", name)
    declared = checked.loaded.document.assemblies[name]
    id_ = f"a-{anchor(name)}"
    turns = good_for_assembly(checked.surveyed, name)
    return AssemblyView(
        id=id_,
        name=name,
        title=declared.name or "",
        kind=str(page["kind"].value),
        effective_r=_or_not_shown(page, "effective_r", "thermal-resistance", system),
        u_factor=_or_not_shown(page, "u_factor", "transmittance", system),
        method=_or_not_shown(page, "effective_r_method"),
        ends="from the air of the rooms to the ground" if page["outside"].value == "ground" else "air to air",
        plane=isinstance(page["condensing_plane"].value, str),
        heat_limits=tuple(_heat_limits(checked.findings, name, system)),
        layers=layer_rows(checked.surveyed, name, system),
        figures=figures_of(checked, name, id_, system),
        moisture=moisture_of(checked.surveyed, name, f"{id_}-year", system),
        by_month=months_of(checked.surveyed, name, id_, system),
        good_for=() if turns is None else good_for_words(turns, system),
        group=group,
    )


def _heat_limits(findings: Sequence[Finding], assembly: str, system: System) -> list[str]:
    """Return each limit a resistance or transmittance of an assembly was held against, with margin and rule."""
    found = []
    for finding in findings:
        limit = finding.measured
        if limit is None or finding.place != assembly or limit.fact not in _HEAT:
            continue
        found.append(
            f"{_HEAT[limit.fact]}: {limit_words(limit, system)}; {margin_words(finding, system)} ({finding.rule})"
        )
    return found


def _red_line(checked: Checked) -> tuple[Markup, str]:
    """Return the drawing of the air barrier's line and the words that say what it shows."""
    drawing = red_line_drawing(checked.surveyed)
    return Markup(drawing.svg), drawing.description


def _withheld(summary: Summary) -> list[tuple[str, list[str]]]:
    by_title: dict[str, list[str]] = {}
    for finding in summary.findings:
        if finding.withheld:
            by_title.setdefault(finding.title, []).append(finding.place)
    return list(by_title.items())
