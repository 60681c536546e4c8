"""The facts of a junction that are not those of a line: its kind, what meets, hollows, drainage, thermal continuity."""

from collections.abc import Mapping
from functools import lru_cache

from speccheck.document import Document
from speccheck.document.junction import Junction
from speccheck.survey.fact import Gap, Origin
from speccheck.survey.ledger import Ledger, Page
from speccheck.tables.construction_rows import JunctionKind
from speccheck.tables.junction_kinds import junction_kind, near_junction_kinds

__all__ = ["kind_of", "survey_junctions"]

_ONE_END = ("left", "right", "start", "end")
_OF_ASSEMBLIES = (("kind", "assembly_kinds"), ("outside", "outsides"), ("framing_family", "framing_families"))


def survey_junctions(ledger: Ledger, document: Document) -> None:
    """Enter the facts of all junctions, and of the project how the insulation crosses them."""
    claims = _claims(document)
    for name, junction in document.junctions.items():
        page = ledger.page("junction", name)
        _enter_kind(page, junction.kind)
        _enter_meeting(page, ledger, junction, claims)
        _enter_thermal(page, name, junction)
        _enter_stated(page, name, junction)
    _enter_project(ledger.page("project", "project"), document)


def _claims(document: Document) -> dict[str, list[str]]:
    """Return for each side that can meet one thing only the junctions that name it.

    An edge all round, or the base of a wall that stands for several, may meet one thing here and another there. A side
    the assembly itself lists and one end of a wall may not, nor may two junctions join the very same sides.
    """
    found: dict[str, list[str]] = {}
    for name, junction in document.junctions.items():
        single = [side for side in junction.joins if _meets_once(document, side)]
        for claim in (*single, " and ".join(sorted(junction.joins))):
            found.setdefault(claim, []).append(name)
    return found


def _meets_once(document: Document, place: str) -> bool:
    name, _, side = place.partition(".")
    assembly = document.assemblies[name]
    return assembly.sides is not None or side in _ONE_END


@lru_cache(maxsize=512)
def kind_of(word: str) -> JunctionKind | None:
    """Return the kind of junction that a word means, or None for words of the document's own."""
    return junction_kind(word)


@lru_cache(maxsize=512)
def _near(word: str) -> tuple[str, ...]:
    return near_junction_kinds(word)


def _enter_kind(page: Page, word: str) -> None:
    kind = kind_of(word)
    page.declare("kind", word)
    page.declare("kind_known", kind is not None, origin=Origin.TABLE)
    page.declare("near_kinds", () if kind else _near(word), origin=Origin.TABLE)
    page.declare(
        "hollow", kind is not None and kind.hollow, origin=Origin.TABLE, method="by the kind of junction"
    )
    if kind is None:
        for name in ("kind_id", "reviewer_question"):
            page.inapplicable(name, "a kind that the junction table does not hold")
        return
    page.declare("kind_id", kind.id, origin=Origin.TABLE)
    page.declare("reviewer_question", kind.question, origin=Origin.TABLE)


def _enter_meeting(page: Page, ledger: Ledger, junction: Junction, claims: Mapping[str, list[str]]) -> None:
    assemblies = tuple(dict.fromkeys(side.partition(".")[0] for side in junction.joins))
    page.declare("sides", junction.joins)
    page.declare("joined_count", float(len(junction.joins)))
    for name, plural in _OF_ASSEMBLIES:
        values = [str(ledger.page("assembly", one)[name].value) for one in assemblies]
        page.declare(plural, tuple(dict.fromkeys(values)), origin=Origin.COMPUTED)
    mine = (*junction.joins, " and ".join(sorted(junction.joins)))
    others = [f"{claim} by {one}" for claim in mine for one in claims.get(claim, ()) if one != page.place]
    page.declare(
        "sides_shared",
        tuple(dict.fromkeys(others)),
        origin=Origin.COMPUTED,
        method="sides that another junction names",
    )


def _enter_thermal(page: Page, name: str, junction: Junction) -> None:
    page.declare("thermal_shown", junction.thermal is not None)
    if junction.thermal is not None:
        page.declare("thermal", junction.thermal)
    else:
        gap = Gap(name, "thermal continuity", f"Is the insulation continuous at {name}?", ("junctions", name))
        page.unknown("thermal", gap)


_STATED = {
    "blocked": (
        "blocking of hollows",
        "Are the hollows that run through {name} blocked and sealed in the line?",
    ),
    "drained": ("drainage", "Does water behind the cladding find its way out at {name}?"),
    "kick_out": ("kick-out flashing", "Is there a kick-out flashing at {name}?"),
}


def _enter_stated(page: Page, name: str, junction: Junction) -> None:
    for key, (wanted, question) in _STATED.items():
        value = getattr(junction, key)
        if value is None:
            page.unknown(key, Gap(name, wanted, question.format(name=name), ("junctions", name)))
        else:
            page.declare(key, value)
        page.declare(f"{key}_shown", value is not None)


def _enter_project(page: Page, document: Document) -> None:
    stated = [junction.thermal for junction in document.junctions.values()]
    page.declare("thermal_gap_count", float(stated.count("interrupted")), origin=Origin.COMPUTED)
    page.declare("thermal_unshown_count", float(stated.count(None)), origin=Origin.COMPUTED)
