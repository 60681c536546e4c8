"""Golden copies of each machine format; ``pytest tests/report/machine --update-snapshots`` rewrites them."""

from pathlib import Path

import pytest

from speccheck import __version__
from speccheck.report.formats import format_named

SNAPSHOTS = Path(__file__).parent / "snapshots"
FORMS = ("matrix", "csv", "markdown", "sarif", "junit", "github")
ONE = (
    *((form, name) for form in ("markdown", "junit", "github") for name in ("wall", "bare", "pool")),
    ("sarif", "bare"),  # it holds the help of every rule, so one is enough
)


def steady(text: str) -> str:
    """Return a text without the version, which changes with every release; lines end as in all files kept here."""
    return text.replace(f'"{__version__}"', '"0.0.0"').replace("\r\n", "\n")


def name_of(form: str, name: str) -> str:
    return f"{form}-{name}{format_named(form).ending}"


@pytest.mark.parametrize(("form", "name"), ONE)
def test_one_document(documents, written, snapshot, form, name):
    snapshot(name_of(form, name), steady(written(form, documents[f"lots/{name}.yaml"])))


@pytest.mark.parametrize("form", FORMS)
def test_all_documents_held_against_a_baseline(documents, written, changed, snapshot, form):
    newer = changed(lambda data: data["assemblies"]["wall"]["layers"].pop(0))
    older = documents["lots/wall.yaml"]
    snapshot(name_of(form, "baseline"), steady(written(form, newer, older=older)))


@pytest.mark.parametrize("form", ["matrix", "csv"])
def test_all_documents(documents, written, snapshot, form):
    snapshot(name_of(form, "all"), steady(written(form, *documents.values())))


def test_golden_files_are_all_used():
    wanted = {name_of(form, name) for form, name in ONE}
    wanted |= {name_of(form, "baseline") for form in FORMS} | {name_of(form, "all") for form in FORMS[:2]}
    assert {path.name for path in SNAPSHOTS.iterdir()} == wanted
