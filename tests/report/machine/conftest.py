"""What tests of the machine formats share: runs over documents, told in a format."""

from collections.abc import Callable, Mapping
from datetime import date
from pathlib import Path
from typing import Any

import pytest
import yaml

from speccheck.report.counting import exit_status
from speccheck.report.formats import Manner, Run, format_named, tell
from speccheck.uses.baseline import Baseline
from speccheck.uses.check import Checked, check_data
from speccheck.uses.compare import record_of

DAY = date(2026, 1, 15)
ROOT = Path(__file__).resolve().parents[3]

WALL = """
speccheck: 1
project: {name: Lot 7, place: {zone: 6A}, indoor: {humidity: 35 %}, adopted: [us/irc-2021]}
assemblies:
  wall:
    kind: wall
    framing: {spacing: 16 in}
    layers:
      - {id: lining, material: gypsum-board, thickness: 1/2 in, finish: latex-paint}
      - {id: fill, material: mineral-wool-batt, thickness: 5.5 in, thermal-resistance: R-23, framed: true}
      - {id: board, material: osb, thickness: 7/16 in, controls: [air]}
junctions:
  base: {kind: wall-slab, joins: [wall.base], air: []}
waivers:
  - rule: paperwork.use-stated
    place: project
    reason: Settled at the first review.
    agreed-by: plan reviewer
    until: 2026-06-30
"""
BARE = """
speccheck: 1
assemblies:
  slab: {kind: slab, layers: [{material: concrete, thickness: 100 mm}]}
"""
POOL = """
speccheck: 1
project: {place: {zone: 5A}, use: pool, indoor: {humidity: 60 %, temperature: 28 °C}}
assemblies:
  roof:
    kind: roof
    framing: {spacing: 24 in}
    layers:
      - {id: lining, material: gypsum-board, thickness: 1/2 in}
      - {id: film, material: polyethylene-film, thickness: 6 mil, controls: [vapour, air]}
      - {id: fill, material: glass-fibre-batt, thickness: 9.25 in, framed: true}
      - {id: deck, material: plywood, thickness: 5/8 in}
      - {id: cover, material: epdm-membrane}
"""
DOCUMENTS: Mapping[str, str] = {"lots/wall.yaml": WALL, "lots/bare.yaml": BARE, "lots/pool.yaml": POOL}


@pytest.fixture(scope="session")
def texts() -> Mapping[str, str]:
    """Return the text of each document by its name."""
    return DOCUMENTS


@pytest.fixture(scope="session")
def documents() -> dict[str, Checked]:
    """Return the documents checked, with line and column of every value, as the command reads them."""
    from speccheck.document import load_bytes
    from speccheck.uses.check import KNOWN, check

    return {name: check(load_bytes(text.encode(), name, KNOWN), (), DAY) for name, text in DOCUMENTS.items()}


@pytest.fixture(scope="session")
def changed() -> Callable[..., Checked]:
    """Return what checks the wall after a change of its plain data."""

    def check(change: Callable[[dict[str, Any]], None], name: str = "lots/wall.yaml") -> Checked:
        data = yaml.safe_load(WALL)
        change(data)
        return check_data(data, name, (), DAY)

    return check


@pytest.fixture(scope="session")
def run_of() -> Callable[..., Run]:
    """Return what makes a run of documents in a format."""

    def make(
        name: str, *checked: Checked, unread: Any = (), older: Checked | None = None, **manner: Any
    ) -> Run:
        how = Manner(**manner)
        told = []
        for one in checked:
            against = None
            if older is not None:
                records = {older.loaded.name: tuple(map(record_of, older.findings))}
                against = Baseline("old.json", records).against(older.loaded.name, one.findings)
            told.append(tell(one, name, how, against))
        severities = {severity for one in told for severity in one.digest.counting}
        return Run(told, unread, how, exit_status(severities, unread=bool(unread)))

    return make


@pytest.fixture(scope="session")
def written(run_of: Callable[..., Run]) -> Callable[..., str]:
    """Return what writes documents in a format."""

    def write(name: str, *checked: Checked, **more: Any) -> str:
        return format_named(name).whole(run_of(name, *checked, **more))

    return write
