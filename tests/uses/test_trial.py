"""The trial of a pack: what ships and was edited in place runs its examples before it may speak, and says where it errs.

The rules are those of the product ("a pack with a missing source, a failing example or an expression that does not
type-check does not load, and says where"); no outside source.
"""

import shutil
import subprocess
import sys
from datetime import date
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from typer.testing import CliRunner

from speccheck import shelf
from speccheck.cli.app import app
from speccheck.judgement import library
from speccheck.judgement.library import load_pack
from speccheck.judgement.pack import PackError
from speccheck.judgement.pack_place import placed_faults
from speccheck.tables.__main__ import main as compile_tables
from speccheck.uses import examples, trial
from speccheck.uses.__main__ import main as run_examples
from speccheck.uses.packs import read_packs

DAY = date(2026, 1, 15)
CELLAR = """
speccheck: 1
project: {place: {zone: 6A}, use: dwelling}
assemblies:
  foundation:
    kind: below-grade-wall
    layers:
      - {id: lining, material: gypsum-board, thickness: 12.7 mm, finish: latex-paint}
      - {id: foam, material: xps, thickness: 2 in}
      - {id: concrete, material: concrete, thickness: 8 in, controls: [air]}
"""
PACK = "practice/basement"


@pytest.fixture(scope="module")
def shipped(tmp_path_factory) -> Path:
    """Return a copy of what ships, with fresh compiled copies."""
    root = tmp_path_factory.mktemp("shipped")
    shutil.copytree(shelf.rules_folder(), root / "rules", ignore=shutil.ignore_patterns("climate"))
    (root / "rules" / "climate").symlink_to(shelf.rules_folder() / "climate")
    return root


@pytest.fixture
def rules(shipped, tmp_path, monkeypatch) -> Path:
    """Return a rules folder of one's own, which stands in for the one that ships."""
    root = tmp_path / "own"
    shutil.copytree(shipped, root, symlinks=True)
    monkeypatch.setattr(shelf, "_folder", lambda name: root / name)
    return root / "rules"


@pytest.fixture
def ran(monkeypatch) -> list[str]:
    """Return the list of examples run so far."""
    names: list[str] = []
    real = examples.run_example

    def counted(example):
        names.append(example.name)
        return real(example)

    monkeypatch.setattr(examples, "run_example", counted)
    return names


def edit(rules: Path, pack: str, old: str, new: str) -> Path:
    path = rules / f"{pack}.yaml"
    text = path.read_text("utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), "utf-8")
    return path


def place(path: Path, *words: str) -> str:
    """Return file, line and column of the last of some words, each looked for after the one before."""
    text, at = path.read_text("utf-8"), 0
    for word in words:
        at = text.index(word, at)
    return f"{path}:{text.count(chr(10), 0, at) + 1}:{at - text.rfind(chr(10), 0, at)}"


def refusal(checked, document: str = CELLAR) -> str:
    with pytest.raises(PackError) as caught:
        checked(document)
    return str(caught.value)


class TestWhatMaySpeak:
    """Packs that are as they were written, and edits that leave their examples as they are."""

    def test_what_ships_unedited_runs_no_example(self, rules, ran, checked):
        assert any(finding.pack == PACK for finding in checked(CELLAR).findings)
        assert ran == []

    def test_an_edit_that_changes_no_outcome_runs_the_examples_of_that_pack_once(self, rules, ran, checked):
        before = checked(CELLAR).findings
        edit(rules, PACK, "title: Basement walls,", "title: Walls of basements,")
        library._load.cache_clear()
        assert checked(CELLAR).findings == before
        own = [example.name for example in examples.examples_of(load_pack(PACK))]
        assert len(own) > 5
        assert ran == own
        checked(CELLAR)
        assert ran == own

    def test_without_a_compiled_copy_the_examples_run_too(self, rules, ran, checked):
        (rules / "compiled" / "packs" / f"{PACK}.json").unlink()
        checked(CELLAR)
        assert len(ran) == len(list(examples.examples_of(load_pack(PACK))))

    def test_a_pack_that_is_not_in_force_is_not_tried(self, rules, ran, checked):
        edit(rules, "codes/uk/practice", "level: pass", "level: warn")
        checked(CELLAR)
        assert ran == []
        adopting = CELLAR.replace("use: dwelling", "use: dwelling, adopted: [uk/practice]")
        assert "expected warn" in refusal(checked, adopting)

    def test_a_new_file_in_the_folder_of_practice_is_tried(self, rules, ran, checked):
        text = (rules / f"{PACK}.yaml").read_text("utf-8").replace(f"pack: {PACK}", "pack: practice/cellars")
        text = text.replace("id: basement.", "id: cellars.")
        (rules / "practice" / "cellars.yaml").write_text(text, "utf-8")
        assert any(finding.pack == "practice/cellars" for finding in checked(CELLAR).findings)
        assert ran
        assert all(name.startswith("cellars.") for name in ran)


class TestRefused:
    """Edits in place that keep a pack from speaking, each told with file, line and column."""

    def test_an_example_that_comes_out_otherwise_than_it_says(self, rules, checked):
        path = edit(rules, PACK, "expect: {level: pass, place: foundation}", "expect: {level: ask, place: foundation}")  # fmt: skip
        told = refusal(checked)
        where = place(path, "examples:", "name: fibre behind paint")
        assert told.startswith(
            f"{PACK}: {where}: basement.no-film-over-fibre: fibre behind paint: expected ask at foundation, got pass: "
        )

    def test_a_condition_against_its_own_examples_names_each(self, rules, checked):
        path = edit(
            rules, PACK, 'holds: assembly.interior_class != "I"', 'holds: assembly.interior_class == "I"'
        )
        told = refusal(checked)
        for name, words in (("fibre behind paint", "expected pass at foundation, got"), ("polyethylene over batts", "got pass")):  # fmt: skip
            where = place(path, "examples:", f"name: {name}")
            (line,) = [line for line in told.split("\n  ") if f": {name}: " in line]
            assert where in line
            assert words in line

    @pytest.mark.parametrize(
        ("old", "new", "at", "words"),
        [
            ("source: water_checklist", "source: nobody", "id: basement.no-film", "no source 'nobody'"),
            ('holds: assembly.interior_class != "I"', "holds: assembly.interior_class != 1.0", "holds:", "a text"),
            ("holds: assembly.interior_class", "holds: assembly.interior_clas", "holds:", "assembly.interior_clas"),
            ("when-not: caution", "when-not: fail", "when-not:", "Input should be"),
            ("title: Basement walls", "title: 'a\n  title: Basement walls", "", ""),
        ],
    )  # fmt: skip
    def test_form_sources_and_types(self, rules, ran, checked, old, new, at, words):
        path = edit(rules, PACK, old, new)
        told = refusal(checked)
        assert told.startswith(f"{PACK}: ")
        assert words in told
        if at:
            assert place(path, "rules:", at) in told
        else:
            assert f"{PACK}.yaml:" in told  # no longer YAML: the parser says where
        assert ran == []

    def test_two_edited_packs_are_told_of_together(self, rules, checked):
        one = edit(rules, PACK, "level: pass", "level: warn")
        two = edit(rules, "practice/crawlspace", "level: pass", "level: warn")
        told = refusal(checked)
        assert told.startswith(f"{PACK}, practice/crawlspace: ")
        assert str(one) in told
        assert str(two) in told

    @pytest.mark.parametrize("command", ["check", "compare", "swap"])
    def test_the_commands_end_with_status_two_and_no_traceback(self, rules, tmp_path, monkeypatch, command):
        monkeypatch.chdir(tmp_path)
        Path("cellar.yaml").write_text(CELLAR, "utf-8")
        Path("board.yaml").write_text("family: eps\n", "utf-8")
        path = edit(rules, PACK, "level: pass", "level: warn")
        more = {"check": [], "compare": ["cellar.yaml"], "swap": ["foundation.foam", "--with", "board.yaml"]}
        found = CliRunner().invoke(app, [command, "cellar.yaml", *more[command]])
        assert found.exit_code == 2, found.output
        assert found.stdout == ""
        assert isinstance(found.exception, SystemExit)
        assert f"{place(path, 'examples:', 'name: fibre')}: basement.no-film-over-fibre: " in found.stderr

    def test_a_folder_on_two_processes_is_refused_once(self, rules, tmp_path):
        folder = tmp_path / "documents"
        folder.mkdir()
        for number in range(4):
            (folder / f"{number}.yaml").write_text(CELLAR, "utf-8")
        edit(rules, PACK, "level: pass", "level: warn")
        found = CliRunner().invoke(app, ["check", str(folder), "--jobs", "2"])
        assert found.exit_code == 2
        assert found.stderr.count("expected warn at foundation") == 1

    def test_a_fresh_process_ends_the_same_way(self, rules, tmp_path):
        (tmp_path / "cellar.yaml").write_text(CELLAR, "utf-8")
        edit(rules, PACK, "level: pass", "level: warn")
        code = (
            "import sys; from pathlib import Path; import speccheck.shelf as shelf\n"
            f"shelf._folder = lambda name: Path({str(rules.parent)!r}) / name\n"
            "from speccheck.cli import main; main()"
        )
        done = subprocess.run(
            [sys.executable, "-c", code, "check", "cellar.yaml"], cwd=tmp_path, capture_output=True, text=True, check=False
        )  # fmt: skip
        assert done.returncode == 2
        assert done.stdout == ""
        assert done.stderr.startswith(f"speccheck: {PACK}: ")
        assert "Traceback" not in done.stderr


class TestStandIns:
    """A pack handed in under the id of one that ships takes its place."""

    def test_its_own_conditions_are_tried_and_not_those_that_ship(self, rules, tmp_path):
        own = tmp_path / "own.yaml"
        shutil.copy(rules / f"{PACK}.yaml", own)
        (pack,) = read_packs([own])
        assert pack.id == PACK
        text = own.read_text("utf-8")
        own.write_text(text.replace('interior_class != "I"', 'interior_class == "I"', 1), "utf-8")
        with pytest.raises(PackError, match=r"own\.yaml:\d+:\d+: basement\.no-film-over-fibre: fibre behind"):
            read_packs([own])

    def test_it_speaks_once(self, rules, tmp_path, checked):
        own = tmp_path / "own.yaml"
        shutil.copy(rules / f"{PACK}.yaml", own)
        assert checked(CELLAR, read_packs([own])).findings == checked(CELLAR).findings


class TestWorkshop:
    """What a person uses who mends a pack is not kept from it."""

    def test_running_the_examples_names_those_that_are_wrong(self, rules, capsys):
        path = edit(rules, PACK, "level: pass", "level: warn")
        assert run_examples([str(path)]) == 1
        told = capsys.readouterr().out
        assert place(path, "examples:", "name: fibre behind paint") in told
        assert "12 examples: 1 wrong" in told

    def test_running_the_examples_beside_a_pack_that_does_not_load(self, rules, capsys):
        edit(rules, "practice/crawlspace", "when-not: caution", "when-not: fail")
        assert run_examples([str(rules / f"{PACK}.yaml")]) == 1
        assert capsys.readouterr().out.startswith("practice/crawlspace: ")

    def test_a_pack_with_a_wrong_example_gets_no_compiled_copy(self, rules, capsys):
        # a copy would let it speak without its examples being run
        path = edit(rules, PACK, "level: pass", "level: warn")
        before = (rules / "compiled" / "packs" / f"{PACK}.json").read_bytes()
        assert compile_tables(["--rules", str(rules), "--check"]) == 1
        assert compile_tables(["--rules", str(rules)]) == 1
        told = capsys.readouterr().out
        assert f"{path}:" in told
        assert "wrote" not in told
        assert (rules / "compiled" / "packs" / f"{PACK}.json").read_bytes() == before

    def test_a_wrong_example_keeps_no_other_pack_from_its_copy(self, rules, capsys):
        edit(rules, PACK, "level: pass", "level: warn")
        other = rules / "practice" / "air.yaml"
        other.write_text(f"# looked over\n{other.read_text('utf-8')}", "utf-8")
        assert compile_tables(["--rules", str(rules)]) == 1
        assert "practice/air.json" in capsys.readouterr().out
        assert compile_tables(["--rules", str(rules), "--check"]) == 1
        assert capsys.readouterr().out == f"stale: packs/{PACK}\n"

    def test_a_pack_that_cannot_be_used_is_named_and_not_compiled(self, rules, capsys):
        path = edit(rules, PACK, "when-not: caution", "when-not: fail")
        before = (rules / "compiled" / "packs" / f"{PACK}.json").read_bytes()
        assert compile_tables(["--rules", str(rules)]) == 1
        assert place(path, "rules:", "when-not:") in capsys.readouterr().out
        assert (rules / "compiled" / "packs" / f"{PACK}.json").read_bytes() == before


def test_an_example_tries_no_pack(rules, checked):
    path = edit(rules, PACK, "level: pass", "level: warn")
    with trial.within_an_example():
        assert checked(CELLAR).findings
    assert str(path) in refusal(checked)


def test_every_address_in_a_pack_that_ships_leads_to_what_it_names(rules):
    path = rules / "practice" / "vapour.yaml"
    lines = path.read_text("utf-8").splitlines()
    pack = load_pack("practice/vapour")
    addressed = [(example.address, example.plain["name"]) for example in examples.examples_of(pack)]
    assert len(addressed) > 50
    for told, (_, name) in zip(placed_faults(path, addressed), addressed, strict=True):
        line, _, words = told.removeprefix(f"{path}:").partition(":")
        assert words.endswith(name)
        assert name.split("'")[0][:40] in lines[int(line) - 1]


@given(
    st.text(max_size=40),
    st.sampled_from(["", "rules", "rules.0", "basement.no-film-over-fibre", "starts.cellar"]),
)
def test_an_address_that_leads_nowhere_still_has_a_place(address, before):
    path = shelf.rules_folder() / f"{PACK}.yaml"
    (told,) = placed_faults(path, [(before + address, "words")])
    line, column, words = told.removeprefix(f"{path}:").split(":", 2)
    assert int(line) >= 1
    assert int(column) >= 1
    assert words == " words"
