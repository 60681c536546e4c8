"""Many documents: which are found, in which order they come, and that none stops the others."""

import gc
import os
import sys
from functools import partial
from pathlib import Path

import pytest

from speccheck.uses import folder
from speccheck.uses.check import Checked
from speccheck.uses.folder import documents_in, each_document, look_in, workers_for

SLAB = "speccheck: 1\nassemblies: {slab: {kind: slab, layers: [{material: concrete, thickness: 100 mm}]}}\n"
ROOF = """
speccheck: 1
project: {place: {zone: 6A}, indoor: {temperature: 21 °C, humidity: 40 %}}
assemblies:
  roof:
    kind: roof
    layers:
      - {material: gypsum-board, thickness: 12.7 mm}
      - {material: cellulose-dense-pack, thickness: 300 mm}
      - {material: osb, thickness: 15 mm}
      - {material: epdm-membrane}
"""


def name_of(checked: Checked) -> str:
    """Return what a test asks of a document; a plain function, so that it can go to another process."""
    return f"{checked.loaded.name}: {len(checked.findings)}"


def stumble(bad: str, checked: Checked) -> str:
    if checked.loaded.name.endswith(bad):
        raise RuntimeError("no such thing")
    return checked.loaded.name


def leave(parent: int, bad: str, checked: Checked) -> str:
    """End the process without a word, as the kernel does where memory is out; not in the process of the test."""
    if checked.loaded.name.endswith(bad) and os.getpid() != parent:
        os._exit(9)
    return checked.loaded.name


@pytest.fixture(autouse=True)
def _copies(monkeypatch) -> None:
    """Let workers begin as copies, since a process begun anew could not import the functions of a test."""
    monkeypatch.setattr(folder, "_start_method", lambda: "fork" if sys.platform == "linux" else "spawn")


pytestmark = [
    # under a runner with threads of its own, from Python 3.12 on
    pytest.mark.filterwarnings("ignore:This process .* is multi-threaded:DeprecationWarning"),
    pytest.mark.skipif(sys.platform != "linux", reason="workers cannot begin as copies here"),
]


@pytest.fixture
def lots(tmp_path) -> list[Path]:
    paths = [tmp_path / f"lot-{number:02}.yaml" for number in range(12)]
    for path in paths:
        path.write_text(SLAB, "utf-8")
    return paths


class TestFound:
    """The files of a folder that say they are documents."""

    def test_documents_and_nothing_else(self, tmp_path):
        (tmp_path / "sub").mkdir()
        for name, text in {
            "b.yaml": SLAB,
            "a.yml": SLAB,
            "sub/c.json": '{"speccheck":1,"assemblies":{}}',
            "other.yaml": "a: 1\n",
            "notes.txt": SLAB,
            "word.yaml": "about: speccheck and assemblies\n",
            "report.json": '{\n "speccheck-report": 1, "documents": [{"path": ["assemblies", "wall"]}]}',
            "log.json": '{"name": "speccheck", "text": "assemblies: none"}',
            "pack.yaml": "id: local/mine\nrules: []\n",
        }.items():
            (tmp_path / name).write_text(text, "utf-8")
        found = [str(path.relative_to(tmp_path)) for path in documents_in([tmp_path])]
        assert found == ["a.yml", "b.yaml", "sub/c.json"]

    def test_files_of_a_folder_left_alone_are_told_those_nearest_to_a_document_first(self, tmp_path, lots):
        (tmp_path / "a.yaml").write_text("a: 1\n", "utf-8")
        (tmp_path / "notes.txt").write_text("spekcheck: 1\n", "utf-8")
        (tmp_path / "typo.yaml").write_text(SLAB.replace("speccheck", "spekcheck"), "utf-8")
        found, left = look_in([tmp_path, lots[0]])
        assert found == lots
        assert [path.name for path in left] == ["typo.yaml", "a.yaml"]

    def test_a_file_that_is_named_beside_its_folder_is_not_left_alone(self, tmp_path):
        (tmp_path / "typo.yaml").write_text("spekcheck: 1\n", "utf-8")
        assert look_in([tmp_path, tmp_path / "typo.yaml"]) == ([tmp_path / "typo.yaml"], [])

    def test_a_file_that_is_named_is_taken_whatever_it_says_and_each_once(self, tmp_path, lots):
        other = tmp_path / "other.txt"
        other.write_text("hello", "utf-8")
        found = documents_in([other, lots[3], tmp_path, lots[0]])
        assert found == [other, lots[3], *lots[:3], *lots[4:]]

    @pytest.mark.parametrize("encoding", ["utf-8-sig", "utf-16", "utf-16-le", "utf-16-be", "utf-32"])
    @pytest.mark.parametrize("text", [SLAB, '{"speccheck": 1, "assemblies": {}}'])
    def test_whatever_encoding_it_is_saved_in(self, tmp_path, encoding, text):
        # a byte order mark comes from many an editor; the reader says what it does not take
        path = tmp_path / "saved.yaml"
        path.write_bytes(text.encode(encoding))
        assert documents_in([tmp_path]) == [path]
        assert documents_in([path], documents_only=True) == [path]
        path.write_bytes("a: 1\n".encode(encoding))
        assert documents_in([tmp_path]) == []

    def test_utf_16_and_a_link_that_leads_nowhere_are_told_of(self, tmp_path):
        (tmp_path / "a.yaml").write_bytes(SLAB.encode("utf-8-sig"))
        (tmp_path / "b.yaml").write_bytes(SLAB.encode("utf-16"))
        (tmp_path / "c.yaml").symlink_to("nowhere.yaml")
        good, wide, lost = each_document(documents_in([tmp_path]), name_of)
        assert not good.problems
        assert "UTF-16" in wide.problems[0].text()
        assert "there is no such file" in lost.problems[0].text()

    def test_keys_in_quotes(self, tmp_path):
        (tmp_path / "quoted.yaml").write_text("\"speccheck\": 1\n'assemblies': {}\n", "utf-8")
        assert len(documents_in([tmp_path])) == 1


class TestWorkers:
    """As many processes as pay."""

    def test_few_documents_take_one(self):
        assert workers_for(5, None) == 1

    def test_many_take_what_cores_there_are(self, monkeypatch):
        monkeypatch.setattr(folder, "_cores", lambda: 4)
        assert [workers_for(n, None) for n in (59, 60, 120, 180, 5000)] == [1, 2, 3, 4, 4]

    def test_a_wish_is_followed_but_not_beyond_the_documents(self):
        assert (workers_for(5, 3), workers_for(2, 8), workers_for(0, 8)) == (3, 2, 1)


@pytest.mark.parametrize("workers", [1, 2])
class TestEach:
    """The same outcomes with one process and with two."""

    def test_in_the_order_of_the_paths(self, lots, workers):
        outcomes = list(each_document(lots, name_of, workers=workers))
        assert [outcome.name for outcome in outcomes] == list(map(str, lots))
        assert [outcome.made for outcome in outcomes] == [
            f"{path}: {outcomes[0].made.rpartition(' ')[2]}" for path in lots
        ]

    def test_one_that_cannot_be_read_does_not_stop_the_others(self, lots, workers):
        lots[2].write_text("speccheck: 1\nassemblies: {slab: {kind: tower}}\n", "utf-8")
        lots[5].unlink()
        outcomes = list(each_document(lots, name_of, workers=workers))
        assert [index for index, outcome in enumerate(outcomes) if outcome.problems] == [2, 5]
        assert any("tower" in problem.text() for problem in outcomes[2].problems)
        assert "there is no such file" in outcomes[5].problems[0].text()
        assert all(outcome.made for index, outcome in enumerate(outcomes) if index not in (2, 5))

    def test_one_at_which_the_program_stumbles_does_not_stop_the_others(self, lots, workers):
        outcomes = list(each_document(lots, partial(stumble, "lot-03.yaml"), workers=workers))
        (problem,) = outcomes[3].problems
        assert "checking it stopped on RuntimeError: no such thing" in problem.text()
        assert "a fault of speccheck" in problem.text()
        assert sum(bool(outcome.made) for outcome in outcomes) == 11


def test_a_process_that_is_ended_from_outside_loses_no_document(lots):
    make = partial(leave, os.getpid(), "lot-07.yaml")
    outcomes = list(each_document(lots, make, workers=2))
    assert [outcome.made for outcome in outcomes] == list(map(str, lots))


def test_it_can_be_left_early(lots):
    outcomes = each_document(lots, name_of, workers=2)
    assert next(outcomes).name == str(lots[0])
    outcomes.close()


def test_a_document_is_freed_when_it_is_done_with(tmp_path):
    # the collector is seldom run; what holds itself in a ring would stay for long
    (tmp_path / "roof.yaml").write_text(ROOF, "utf-8")
    paths = [tmp_path / "roof.yaml"] * 3
    assert len(list(each_document(paths, name_of))) == 3  # what is read once for all is there now
    gc.collect()
    gc.disable()
    try:
        assert [outcome.problems for outcome in each_document(paths, name_of)] == [(), (), ()]
        assert gc.collect() == 0
    finally:
        gc.enable()
