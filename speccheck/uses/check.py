"""The check: the street from a document to a verdict."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path
from typing import Any

from speccheck.document import Loaded, Problem, Unreadable, load_file
from speccheck.document.load import load_data
from speccheck.document.references import Known
from speccheck.judgement.finding import Finding
from speccheck.judgement.judge import judge
from speccheck.judgement.library import in_force
from speccheck.judgement.pack import Pack
from speccheck.judgement.placing import placed
from speccheck.judgement.waivers import waive
from speccheck.survey import Surveyed, survey
from speccheck.tables.climate.weather_file_error import WeatherFileError
from speccheck.tables.materials import material, near
from speccheck.uses.named_place import apart, named_place
from speccheck.uses.trial import admit

__all__ = ["KNOWN", "Checked", "check", "check_data", "check_file", "load", "survey_of"]


def _near_material(name: str) -> Sequence[str] | None:
    return None if material(name) is not None else near(name)


KNOWN = Known(material=_near_material, place=named_place, distance=apart)
"""What a document may name that lies outside it."""


@dataclass(frozen=True, slots=True)
class Checked:
    """A document with its facts and its findings."""

    loaded: Loaded
    surveyed: Surveyed
    findings: tuple[Finding, ...]
    packs: tuple[Pack, ...]
    missing_editions: tuple[str, ...] = ()
    today: date | None = field(default=None, compare=False)


def load(path: Path) -> Loaded:
    """Return the document in a file; raises Unreadable with every problem."""
    return load_file(path, KNOWN)


def check(
    loaded: Loaded, extra: Sequence[Pack] = (), today: date | None = None, system: str = "both"
) -> Checked:
    """Return facts and findings of a loaded document.

    Args:
        loaded: the document.
        extra: packs in force besides practice and the editions adopted; one stands in for what ships under its id.
        today: the day waivers are held against; the current day when not given.
        system: units the sentences show: ``both``, ``us`` or ``si``.

    Raises:
        PackError: when a pack in force cannot be used.
    """
    document = loaded.document
    surveyed = survey_of(loaded)
    shipped, missing = in_force(document.project.adopted)
    packs = _together(shipped, extra)
    admit(packs)
    today = today or date.today()
    findings = judge(surveyed, packs, system=system)
    findings = waive(findings, surveyed, document.waivers, packs, missing, today)
    return Checked(
        loaded, surveyed, tuple(placed(f, loaded) for f in findings), tuple(packs), tuple(missing), today
    )


def _together(shipped: Sequence[Pack], extra: Sequence[Pack]) -> list[Pack]:
    ships, given = {pack.id for pack in shipped}, {pack.id: pack for pack in extra}
    return [
        *(given.get(pack.id, pack) for pack in shipped),
        *(pack for pack in extra if pack.id not in ships),
    ]


def survey_of(loaded: Loaded) -> Surveyed:
    """Survey a document; a weather file that cannot be used is a problem of the document, at its place."""
    try:
        return survey(loaded.document, loaded.folder)
    except WeatherFileError as error:
        path = ("project", "place", "weather-file")
        expected, do = (
            "a TMY3 or EPW file of a whole year",
            "correct the path, or name the place in another way",
        )
        problem = Problem(str(error), expected, do, path, loaded.mark(path), loaded.name)
        raise Unreadable(problem) from None


def check_file(
    path: Path, extra: Sequence[Pack] = (), today: date | None = None, system: str = "both"
) -> Checked:
    """Return facts and findings of the document in a file; raises Unreadable with every problem."""
    return check(load(path), extra, today, system)


def check_data(
    data: dict[str, Any], name: str, extra: Sequence[Pack] = (), today: date | None = None
) -> Checked:
    """Return facts and findings of a document given as plain data."""
    return check(load_data(data, name, KNOWN), extra, today)
