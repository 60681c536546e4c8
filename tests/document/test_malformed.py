"""Malformed documents: every message word for word, at its line and column, all faults of a document at once.

Each file of the folder `malformed` has a file `.expected` beside it with what is told of it. After a message
is changed on purpose, read the new ones as the person who receives them, and write them with

    python -m tests.document.test_malformed
"""

import os
from collections.abc import Callable
from pathlib import Path

import pytest
import yaml

from speccheck.document import Mark, Unreadable, nodes
from speccheck.document.nodes import MOST_PROBLEMS, MOST_VALUES
from speccheck.document.text import LARGEST
from speccheck.uses.check import load

FOLDER = Path(__file__).parent / "malformed"
SUFFIX = ".expected"
CASES = sorted(path.name for path in FOLDER.iterdir() if path.suffix != SUFFIX)

# Here the two YAML parsers differ in their own words or by one column.
BY_PARSER = {"escape-unknown.yaml", "key-among-items.yaml", "no-layers.yaml", "percent-line.yaml"}

HEAD = "speccheck: 1\nassemblies:\n  wall:\n    kind: wall\n    layers:\n"
LAYER = "      - {material: osb}\n"


def told(name: str) -> list[str]:
    """Return what is told of a document in the current folder, without the name of the file."""
    with pytest.raises(Unreadable) as caught:
        load(Path(name))
    return [problem.text().removeprefix(f"{name}:").lstrip() for problem in caught.value.problems]


def expected(name: str) -> list[str]:
    """Return what should be told."""
    return (FOLDER / f"{name}{SUFFIX}").read_text(encoding="utf-8").splitlines()


@pytest.mark.parametrize("name", CASES)
def test_every_fault_is_told_in_these_words(name: str, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.chdir(FOLDER)
    if not hasattr(yaml, "CSafeLoader") and name in BY_PARSER:
        pytest.skip("expected as the C parser tells it")
    assert told(name) == expected(name)


@pytest.mark.parametrize("name", [name for name in CASES if name not in BY_PARSER])
def test_the_plain_python_parser_leads_to_the_same_words(name: str, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr(nodes, "_LOADER", yaml.SafeLoader)
    monkeypatch.chdir(FOLDER)
    assert told(name) == expected(name)


def test_each_expectation_has_its_document():
    assert len(CASES) >= 60
    assert {path.name for path in FOLDER.glob(f"*{SUFFIX}")} == {f"{name}{SUFFIX}" for name in CASES}


@pytest.mark.parametrize("name", CASES)
def test_messages_are_fit_for_people_and_terminals(name: str, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.chdir(FOLDER)
    with pytest.raises(Unreadable) as caught:
        load(Path(name))
    for problem in caught.value.problems:
        text = problem.text()
        assert text.isprintable()
        assert not any(pair in text for pair in ("?.", "..", "…. ", "None", "  "))
        assert problem.do, "each message says what to do"
        assert len(text) < 1000


@pytest.mark.parametrize("name", CASES)
def test_messages_stand_in_the_order_of_the_file(name: str, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.chdir(FOLDER)
    with pytest.raises(Unreadable) as caught:
        load(Path(name))
    marks = [problem.mark or Mark(0, 0) for problem in caught.value.problems]
    assert marks == sorted(marks)


GROWN: list[tuple[str, Callable[[], str], str]] = [
    (
        "too-large.yaml",
        lambda: "speccheck: 1\n" + "#" * LARGEST,
        f"the file has {LARGEST + 13} bytes. Expected a document of at most {LARGEST} bytes. "
        "Do: split it, or check that it is the right file.",
    ),
    (
        "too-many-values.yaml",
        lambda: "speccheck: 1\nproject: [" + "1," * MOST_VALUES + "]\n",
        f"2:100001: the document has more than {MOST_VALUES} values. Expected a document a person can read. Do: split it.",
    ),
    (
        "deep-blocks.yaml",
        lambda: "speccheck: 1\n" + "".join(f"{'  ' * depth}k:\n" for depth in range(50)),
        "34:65: the nesting is deeper than 32 levels. Expected a flatter document. Do: flatten it.",
    ),
    (
        "deep.json",
        lambda: '{"a":' * 5000 + "1" + "}" * 5000,
        "1:161: the nesting is deeper than 32 levels. Expected a flatter document. Do: flatten it.",
    ),
]


@pytest.mark.parametrize(("name", "text", "message"), GROWN, ids=[case[0] for case in GROWN])
def test_documents_beyond_a_limit(
    name: str, text: Callable[[], str], message: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    (tmp_path / name).write_text(text(), encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    assert told(name) == [message]


def test_no_more_problems_are_told_than_a_person_reads(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    lines = "".join(f"      - {{material: no-such-{number}}}\n" for number in range(80))
    walls = "".join(f"  wall-{number}:\n    kind: wall\n    layers:\n{lines}" for number in range(20))
    (tmp_path / "many.yaml").write_text(f"speccheck: 1\nassemblies:\n{walls}", encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    lines_told = told("many.yaml")
    assert len(lines_told) == MOST_PROBLEMS + 1
    assert lines_told[-1].endswith("there are more problems than these. Do: mend those told and read again.")


def test_a_folder_and_a_missing_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "folder.yaml").mkdir()
    assert told("folder.yaml") == [
        "this is a folder. Expected a YAML or JSON document. Do: name a file in it."
    ]
    assert told("missing.yaml") == [
        "there is no such file. Expected a YAML or JSON document. Do: check the name and the folder."
    ]
    assert told("missing\x1b[31m.yaml") == [
        "missing\\x1b[31m.yaml: there is no such file. Expected a YAML or JSON document. "
        "Do: check the name and the folder."
    ]


def test_a_layer_may_go_on_in_itself_round_a_corner_or_out_of_the_document(tmp_path: Path):
    connection = "air: [{from: wall.osb, to: wall.osb, by: acrylic-tape}]"
    for joins in ("[wall.left, wall.right]", "[wall.base]"):
        path = tmp_path / "wall.yaml"
        path.write_text(
            f"{HEAD}{LAYER}junctions:\n  corner: {{kind: wall-wall, joins: {joins}, {connection}}}\n"
        )
        assert load(path).document.junctions["corner"].air


def rewrite() -> None:
    """Write the expectations anew from what is told now."""
    os.chdir(FOLDER)
    for late in FOLDER.glob(f"*{SUFFIX}"):
        late.unlink()
    for name in CASES:
        (FOLDER / f"{name}{SUFFIX}").write_text("\n".join(told(name)) + "\n", encoding="utf-8")


if __name__ == "__main__":
    rewrite()
