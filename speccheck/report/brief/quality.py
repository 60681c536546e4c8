"""What a brief says: the declared quality of each assembly, air-tightness, seals, and what is tested on site."""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from speccheck.document import Document
from speccheck.document.junction import Connection
from speccheck.judgement.wording import word
from speccheck.survey import Fact
from speccheck.survey.ledger import Page
from speccheck.survey.profile import layer_pages
from speccheck.tables.construction import minimum_lap
from speccheck.tables.field_checks import STAGES, FieldCheck, field_checks
from speccheck.tables.materials import source_title
from speccheck.uses.check import Checked

__all__ = ["NOT_SHOWN", "WORDS", "AssemblyQuality", "Brief", "Exposed", "Lap", "Seal", "brief_of"]

NOT_SHOWN = "not shown"

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

_RATIO_EVEN = 1.0
_CLOSING = "wood-moisture"
_AGAINST = ("outside", "caution")
_STAGES = {
    "before-cover": "Before it is covered",
    "with-the-fan": "With the fan running",
    "at-the-end": "At the end",
}


class AssemblyQuality(NamedTuple):
    """What one assembly is to achieve, in words; the units of resistance and permeance stand in the head of a table."""

    name: str
    effective_r: str
    inside: str
    outside: str
    why: str
    air: str


class Seal(NamedTuple):
    """How the air and the water barrier are carried on at one place; ``who`` is the trade that seals it.

    It is ``open`` where a finding speaks against the place: what is declared there is then no instruction to build by.
    """

    place: str
    air: tuple[str, ...]
    water: tuple[str, ...]
    who: str
    open: bool = False


class Lap(NamedTuple):
    """The least lap of one kind of sheet or tape, with its source."""

    title: str
    length: str
    source: str
    how: str


class Exposed(NamedTuple):
    """How long a layer may stay in the weather, and how damp it may be when closed in."""

    place: str
    planned: str
    limit: str
    moisture: str


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
    closing: FieldCheck | None
    checks: tuple[tuple[str, tuple[FieldCheck, ...]], ...]
    open_points: int

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


def brief_of(checked: Checked) -> Brief:
    """Return the brief about a document."""
    document = checked.loaded.document
    project = checked.surveyed.ledger.page("project", "project")
    checks = list(_checks(checked))
    return Brief(
        project=document.project.name or "",
        file=checked.loaded.name,
        assemblies=tuple(_quality(checked, name) for name in document.assemblies),
        target=_target(project),
        lead=document.project.air_barrier_lead or NOT_SHOWN,
        seals=tuple(_marked(checked)),
        laps=tuple(_laps(document)),
        exposed=tuple(_exposed(checked)),
        closing=next((check for check in checks if check.id == _CLOSING), None),
        checks=tuple(_by_stage(checks)),
        open_points=sum(1 for f in checked.findings if f.severity in ("outside", "caution", "refer", "ask")),
    )


def _shown(fact: Fact, kind: str) -> str:
    if fact.value is None:
        return "does not apply" if fact.inapplicable else NOT_SHOWN
    return word(fact.value, kind)


def _figures(fact: Fact, kind: str) -> str:
    """Return a value without its units, US with SI behind it in brackets, such as ``R-11.3 (1.99)`` or ``1 (57)``."""
    if not isinstance(fact.value, float):
        return _shown(fact, kind)
    us, si = (word(fact.value, kind, system).partition(" ")[0] for system in ("us", "si"))
    return f"{us} ({si})"


def _target(project: Page) -> str:
    change, area = project["airtightness_target"], project["airtightness_target_area"]
    if change.known:
        return f"at most {_shown(change, 'air-change')}50"
    if area.known:
        return f"at most {_shown(area, 'air-permeance')} of enclosure"
    return NOT_SHOWN


def _quality(checked: Checked, name: str) -> AssemblyQuality:
    page = checked.surveyed.ledger.page("assembly", name)
    air = page["air_control_layers"].value
    return AssemblyQuality(
        name=name,
        effective_r=_figures(page["effective_r"], "thermal-resistance"),
        inside=_retarder(page, "interior_retarder", "retarder_permeance"),
        outside=_retarder(page, "exterior_retarder", "exterior_tightest"),
        why=_why(page),
        air=", ".join(air) if isinstance(air, tuple) and air else NOT_SHOWN,
    )


def _retarder(page: Page, name: str, permeance: str) -> str:
    """Return the tightest layer of a side with its permeance in both cups."""
    layer = page[name]
    if layer.value is None:
        return "nothing" if layer.inapplicable else NOT_SHOWN
    dry, wet = (_figures(page[f"{permeance}_{cup}"], "permeance") for cup in ("dry", "wet"))
    cups = f"{dry}, either cup" if dry == wet else f"{dry} dry, {wet} wet"
    return f"{str(layer.value).partition('.')[2]}: {cups}"


def _why(page: Page) -> str:
    """Say how vapour moves, from the ratio of the two sides, and which way the designer means it to dry."""
    ratio, stated = page["sd_ratio"].value, page["drying_stated"].value
    parts = []
    if page["outside"].value == "ground":
        parts.append("Damp ground all year: its vapour is held off below.")
    elif isinstance(ratio, float) and ratio >= _RATIO_EVEN:
        parts.append(f"Inside {_times(ratio)} as tight: winter vapour leaves more easily than it enters.")
    elif isinstance(ratio, float):
        parts.append(f"Outside {_times(1 / ratio)} as tight: what gets in during winter leaves slowly.")
    if isinstance(stated, str):
        parts.append(f"Meant to dry {'both ways' if stated == 'both' else stated}.")
    return " ".join(parts) or "Nothing parts an inside from an outside."


def _times(ratio: float) -> str:
    return f"{word(float(f'{ratio:.2g}'), 'number')} times" if ratio < 1000 else "more than 1000 times"


def _marked(checked: Checked) -> Iterator[Seal]:
    """Yield the seals, those open where a finding passes a limit or a risky band at their place."""
    against = {(f.subject, f.place) for f in checked.findings if f.severity in _AGAINST}
    document = checked.loaded.document
    kinds = ("junction",) * len(document.junctions) + ("opening",) * len(document.openings)
    kinds += ("penetration",) * len(document.penetrations)
    for kind, seal in zip(kinds, _seals(document), strict=True):
        yield seal._replace(open=(kind, seal.place) in against)


def _seals(document: Document) -> Iterator[Seal]:
    for name, junction in document.junctions.items():
        yield Seal(name, _connections(junction.air), _connections(junction.water), "")
    for name, opening in document.openings.items():
        yield Seal(name, _connections(opening.air), _connections(opening.water), "")
    for name, penetration in document.penetrations.items():
        yield Seal(name, _connections(penetration.air), ("—",), penetration.sealed_by or "")


def _connections(connections: Sequence[Connection] | None) -> tuple[str, ...]:
    if not connections:
        return (NOT_SHOWN,) if connections is None else ("none",)
    return tuple(_connection(connection) for connection in connections)


def _connection(connection: Connection) -> str:
    by = (connection.by,) if isinstance(connection.by, str) else connection.by
    return f"{connection.from_} to {connection.to}: {' with '.join(map(_means, by))}"


def _means(name: str) -> str:
    return name.replace("-", " ")


def _laps(document: Document) -> Iterator[Lap]:
    wanted = ["interior-membrane-taped", "sealing-tape-width", "irc-wrb-horizontal", "irc-wrb-vertical"]
    if document.openings:
        wanted += ["flashing-tape", "sill-pan-turn-up"]
    if any(assembly.kind == "slab" for assembly in document.assemblies.values()):
        wanted.append("under-slab")
    for name in wanted:
        lap = minimum_lap(name)
        if lap is not None and lap.length is not None:
            titles = "; ".join(source_title(source) or source for source in lap.length.source)
            yield Lap(lap.title, word(lap.length.value, "length"), titles, lap.length.how)


def _exposed(checked: Checked) -> Iterator[Exposed]:
    for name in checked.loaded.document.assemblies:
        for page in layer_pages(checked.surveyed, name):
            facts = [page[key] for key in ("exposure", "exposure_limit", "moisture_content")]
            if any(fact.known for fact in facts):
                kinds = ("duration", "duration", "fraction")
                yield Exposed(page.place, *(_shown(f, k) for f, k in zip(facts, kinds, strict=True)))


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
        "adhesives": any(seal.air[0] not in ("none", NOT_SHOWN) for seal in _seals(document)),
        "slab": any(a.kind in ("slab", "below-grade-wall") for a in document.assemblies.values()),
        "natural-draught": document.project.combustion == "natural-draught",
    }
    return (check for check in field_checks() if held[check.where])
