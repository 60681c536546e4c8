"""Every area that is compiled, asked of the modules that own one.

A module that keeps readable tables or rule packs offers ``areas(rules) -> list[Area]`` and is named here. It
is named as text because rule packs lie further up the street than tables do: nothing here imports upwards.
"""

from importlib import import_module
from pathlib import Path

from speccheck.tables.compiled import Area

__all__ = ["OWNERS", "all_areas", "faults_of_area"]

OWNERS = (
    "speccheck.tables.materials",
    "speccheck.tables.construction",
    "speccheck.tables.field_checks",
    "speccheck.tables.junction_kinds",
    "speccheck.judgement.library",
    "speccheck.judgement.cautions",
)


_PACKS = "packs/"


def faults_of_area(area: Area) -> tuple[str, ...]:
    """Return what keeps an area from being compiled: examples of a rule pack that come out otherwise than they say.

    A compiled copy is trusted as it stands, so a pack runs its examples before it gets one.
    """
    if not area.name.startswith(_PACKS):
        return ()
    pack = import_module("speccheck.judgement.library").read_pack(area.sources[0])
    found: tuple[str, ...] = import_module("speccheck.uses.trial").faults_of(pack)
    return found


def all_areas(rules: Path | None = None) -> list[Area]:
    """Return the areas of every owner, in a fixed order."""
    return [area for owner in OWNERS for area in import_module(owner).areas(rules)]
