"""What a brief says: the declared quality of each assembly, air-tightness, seals, and what is tested on site."""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from speccheck.document import Document
from speccheck.judgement.wording import word
from speccheck.report.brief.assemblies import (
    AGAINST,
    AssemblyQuality,
    AssemblyRow,
    Reason,
    assembly_rows,
    qualities,
    reasons,
    shown,
)
from speccheck.report.brief.exposure import Exposed, ExposedRow, exposed, exposed_rows
from speccheck.report.brief.seals import NOT_SHOWN, Row, Seal, gathered, seals
from speccheck.survey.ledger import Page
from speccheck.tables.construction import minimum_lap
from speccheck.tables.field_checks import STAGES, FieldCheck, field_checks
from speccheck.tables.materials import source_title
from speccheck.uses.check import Checked

__all__ = ["WORDS", "Brief", "Lap", "brief_of"]

WORDS = (
    ("Air barrier", "the layers and seals that stop air, one surface without a gap."),
    ("Effective R", "resistance to heat of the whole assembly, framing included."),
    ("Perm", "how readily vapour passes a layer: 0.1 nearly none, 1 little, 10 freely."),
    (
        "Dry cup, wet cup",
        "in dry and in damp air; with a higher wet cup a layer opens when damp.",
    ),
    ("ACH50", "air changes an hour while a fan holds the building at 50 Pa."),
)
"""The trade's words in a line each."""

_UNITS = {
    "both": ("with m²·K/W", "perm with ng/(Pa·s·m²)"),
    "us": ("in h·ft²·°F/Btu", "perm"),
    "si": ("in m²·K/W", "ng/(Pa·s·m²)"),
}
_CLOSING = "wood-moisture"
_STAGES = {
    "before-cover": "Before it is covered",
    "with-the-fan": "With the fan running",
    "at-the-end": "At the end",
}


class Lap(NamedTuple):
    """The least lap of one kind of sheet or tape, with its source."""

    title: str
    length: str
    source: str
    how: str


class Brief(NamedTuple):
    """A brief about one building."""

    project: str
    file: str
    assemblies: tuple[AssemblyQuality, ...]
    target: str
    lead: str
    seals: tuple[Seal, ...]
    laps: tuple[Lap, ...]
    exposed: tuple[Exposed, ...]
    rows: tuple[Row, ...]
    closing: FieldCheck | None
    checks: tuple[tuple[str, tuple[FieldCheck, ...]], ...]
    open_points: int
    r_unit: str
    vapour_unit: str

    @property
    def assembly_rows(self) -> tuple[AssemblyRow, ...]:
        """The assemblies, those that share every value in one row."""
        return assembly_rows(self.assemblies)

    @property
    def reasons(self) -> tuple[Reason, ...]:
        """Why vapour is held as it is, each reason once."""
        return reasons(self.assemblies)

    @property
    def exposed_rows(self) -> tuple[ExposedRow, ...]:
        """The layers in the weather, those with equal days in one row."""
        return exposed_rows(self.exposed)

    @property
    def names_beside(self) -> bool:
        """Whether a row names the assembly beside its places."""
        return any(group.within for row in self.rows for group in row.groups)

    @property
    def laps_by_origin(self) -> tuple[tuple[str, tuple[Lap, ...]], ...]:
        """The laps by how they are known."""
        origins = dict.fromkeys(lap.how for lap in self.laps)
        return tuple((how, tuple(lap for lap in self.laps if lap.how == how)) for how in origins)

    @property
    def sources(self) -> tuple[str, ...]:
        """What the figures are taken from, each once."""
        checks = [check for _, found in self.checks for check in found]
        checks += [self.closing] if self.closing else []
        return tuple(
            dict.fromkeys(
                [lap.source for lap in self.laps] + [one for check in checks for one in check.source]
            )
        )


def brief_of(checked: Checked, system: str = "both") -> Brief:
    """Return the brief about a document, in the units of a system: ``both``, ``us`` or ``si``."""
    document = checked.loaded.document
    project = checked.surveyed.ledger.page("project", "project")
    checks = list(_checks(checked))
    against = frozenset((f.subject, f.place) for f in checked.findings if f.severity in AGAINST)
    return Brief(
        project=document.project.name or "",
        file=checked.loaded.name,
        assemblies=qualities(checked, system),
        target=_target(project, system),
        lead=document.project.air_barrier_lead or NOT_SHOWN,
        seals=seals(document, against),
        rows=gathered(document, against),
        laps=tuple(_laps(document, system)),
        exposed=tuple(exposed(checked)),
        closing=next((check for check in checks if check.id == _CLOSING), None),
        checks=tuple(_by_stage(checks)),
        r_unit=_UNITS[system][0],
        vapour_unit=_UNITS[system][1],
        open_points=sum(1 for f in checked.findings if f.severity in ("outside", "caution", "refer", "ask")),
    )


def _target(project: Page, system: str) -> str:
    change, area = project["airtightness_target"], project["airtightness_target_area"]
    if change.known:
        return f"at most {shown(change, 'air-change')}50"
    if area.known:
        return f"at most {shown(area, 'air-permeance', system)} of enclosure"
    return NOT_SHOWN


def _laps(document: Document, system: str) -> Iterator[Lap]:
    wanted = ["interior-membrane-taped", "sealing-tape-width", "irc-wrb-horizontal", "irc-wrb-vertical"]
    if document.openings:
        wanted += ["flashing-tape", "sill-pan-turn-up"]
    if any(assembly.kind == "slab" for assembly in document.assemblies.values()):
        wanted.append("under-slab")
    for name in wanted:
        lap = minimum_lap(name)
        if lap is not None and lap.length is not None:
            titles = "; ".join(source_title(source) or source for source in lap.length.source)
            yield Lap(lap.title, word(lap.length.value, "length", system), titles, lap.length.how)


def _by_stage(checks: Sequence[FieldCheck]) -> Iterator[tuple[str, tuple[FieldCheck, ...]]]:
    for stage in STAGES:
        found = tuple(check for check in checks if check.stage == stage and check.id != _CLOSING)
        if found:
            yield _STAGES[stage], found


def _checks(checked: Checked) -> Iterator[FieldCheck]:
    document = checked.loaded.document
    ledger = checked.surveyed.ledger
    held = {
        "always": True,
        "timber": any(ledger.page("assembly", n)["encloses_wood"].value is True for n in document.assemblies),
        "openings": bool(document.openings),
        "adhesives": any(seal.air[0] not in ("none", NOT_SHOWN) for seal in seals(document)),
        "slab": any(a.kind in ("slab", "below-grade-wall") for a in document.assemblies.values()),
        "natural-draught": document.project.combustion == "natural-draught",
    }
    return (check for check in field_checks() if held[check.where])
