"""The commands as a person calls them: help, exit status, errors, and what is written where."""

import json
import re
from pathlib import Path
from typing import Any

import pytest
import typer.main
from typer.testing import CliRunner

from speccheck.cli.app import app
from speccheck.judgement.library import load_pack, pack_ids
from speccheck.survey import VOCABULARY
from speccheck.tables.materials import material_ids

WALL = """
speccheck: 1
project: {place: {zone: 6A}, indoor: {humidity: 35 %}}
assemblies:
  wall:
    kind: wall
    framing: {spacing: 16 in}
    layers:
      - {id: lining, material: gypsum-board, thickness: 12.7 mm, finish: latex-paint}
      - {id: fill, material: mineral-wool-batt, thickness: 140 mm, thermal-resistance: R-23, framed: true}
      - {id: board, material: plywood, thickness: 11 mm, controls: [air]}
"""
BAD = "speccheck: 1\nassemblies:\n  wall: {kind: tower, layers: [{material: osb, thickness: 5}]}\n"
DAY = ("--today", "2026-01-15")


class Called:
    """What a call gave."""

    def __init__(self, result: Any) -> None:
        self.status: int = result.exit_code
        self.out: str = result.stdout
        self.err: str = result.stderr
        self.exception = result.exception


@pytest.fixture
def run(tmp_path, monkeypatch):
    """Return what calls a command in a folder of its own."""
    monkeypatch.chdir(tmp_path)

    def call(*arguments: str, **more: Any) -> Called:
        found = Called(CliRunner().invoke(app, list(arguments), **more))
        if found.exception is not None and not isinstance(found.exception, SystemExit):
            raise found.exception
        assert "Traceback" not in found.out + found.err
        return found

    return call


@pytest.fixture
def wall(tmp_path) -> str:
    (tmp_path / "wall.yaml").write_text(WALL, "utf-8")
    return "wall.yaml"


RULES = [(id_, rule.id) for id_ in pack_ids() for rule in load_pack(id_).rules]
COMMANDS = typer.main.get_command(app).commands  # type: ignore[attr-defined]


class TestHelp:
    """Every command explains itself."""

    def test_all_commands_are_listed(self, run):
        found = run("--help")
        assert found.status == 0
        assert all(name in found.out for name in COMMANDS)

    @pytest.mark.parametrize("name", COMMANDS)
    def test_every_option_is_listed_with_words(self, run, name):
        found = run(name, "--help")
        assert found.status == 0
        for parameter in COMMANDS[name].params:
            shown = [option for option in parameter.opts if option.startswith("--")] or [parameter.name]
            assert any(option in found.out for option in shown), parameter.name
            assert parameter.name == "help" or parameter.help, parameter.name
        assert COMMANDS[name].help

    def test_version(self, run):
        from speccheck import __version__

        assert run("--version").out == f"speccheck {__version__}\n"

    @pytest.mark.parametrize(
        "arguments",
        [
            ("check",),
            ("check", "--bogus"),
            ("bogus",),
            ("check", "x.yaml", "--format", "bogus"),
            ("check", "x.yaml", "--width", "3"),
            ("check", "x.yaml", "--today", "someday"),
        ],
    )
    def test_a_wrong_call_is_status_two_on_the_error_stream(self, run, arguments):
        found = run(*arguments)
        assert found.status == 2
        assert found.out == ""
        assert "Error" in found.err


class TestUnreadable:
    """What cannot be read: status 2, located messages, no traceback."""

    def test_a_file_that_is_not_there(self, run):
        found = run("check", "gone.yaml")
        assert found.status == 2
        assert found.err.startswith("gone.yaml: there is no such file.")

    def test_faults_are_told_with_line_and_column(self, run, tmp_path):
        (tmp_path / "bad.yaml").write_text(BAD, "utf-8")
        found = run("check", "bad.yaml")
        assert found.status == 2
        lines = found.err.splitlines()
        assert len(lines) == 2
        assert all(line.startswith("bad.yaml:3:") and "Expected" in line and "Do:" in line for line in lines)

    @pytest.mark.parametrize(
        "content", [b"", b"\xff\xfe\x00", b"[1, 2]", b"speccheck: 1", b"a: [", b"\x00\x01"]
    )
    @pytest.mark.parametrize("command", ["check", "facts"])
    def test_what_is_no_document(self, run, tmp_path, content, command):
        (tmp_path / "it.yaml").write_bytes(content)
        found = run(command, "it.yaml")
        assert found.status == 2
        assert found.err.startswith("it.yaml")

    def test_a_folder_with_one_bad_document_still_reports_the_others(self, run, tmp_path, wall):
        (tmp_path / "bad.yaml").write_text(BAD, "utf-8")
        (tmp_path / "notes.yaml").write_text("a: 1\n", "utf-8")
        (tmp_path / "notes.txt").write_text("speccheck: 1\nassemblies:\n", "utf-8")
        found = run("check", ".", *DAY)
        assert found.status == 2
        assert "bad.yaml:3:" in found.err
        assert "wall.yaml" in found.out
        assert "Verdict: " in found.out
        assert "notes" not in found.out
        assert found.err.startswith("speccheck: 1 file was left alone")
        assert "notes.txt" not in found.err
        report = json.loads(run("check", ".", "--format", "json", *DAY).out)
        assert [Path(one["file"]).name for one in report["documents"]] == ["wall.yaml"]
        assert [Path(one["file"]).name for one in report["unread"]] == ["bad.yaml"]
        assert report["verdict"] == "unread"

    def test_an_empty_folder(self, run, tmp_path):
        found = run("check", str(tmp_path))
        assert found.status == 2
        assert "no document found" in found.err

    def test_a_weather_file_that_is_not_there_is_told_at_its_place(self, run, tmp_path):
        (tmp_path / "wall.yaml").write_text(
            WALL.replace("zone: 6A", "zone: 6A, weather-file: gone.epw"), "utf-8"
        )
        for command in ("check", "facts"):
            found = run(command, "wall.yaml")
            assert found.status == 2
            assert found.err.startswith("wall.yaml:3:")
            assert "gone.epw" in found.err

    def test_a_pack_that_cannot_be_used(self, run, tmp_path, wall):
        (tmp_path / "pack.yaml").write_text("pack: local/x\n", "utf-8")
        for command in (("check", wall), ("explain", "rules")):
            found = run(*command, "--pack", "pack.yaml")
            assert found.status == 2
            assert "local/x" in found.err
            assert found.out == ""

    def test_a_folder_that_may_not_be_read_is_no_crash(self, run, tmp_path):
        (tmp_path / "loop.yaml").symlink_to(tmp_path / "loop.yaml")
        found = run("check", "loop.yaml")
        assert found.status == 2
        assert "loop.yaml" in found.err


class TestStatus:
    """Exit status by severity, the same in every format."""

    @pytest.mark.parametrize("form", ["text", "json"])
    @pytest.mark.parametrize("limit", ["outside", "caution", "refer", "ask", "never"])
    def test_of_a_document(self, run, wall, form, limit):
        report = json.loads(run("check", wall, "--format", "json", *DAY).out)
        present = {severity for severity, count in report["counts"].items() if count}
        order = ("outside", "caution", "refer", "ask")
        serious = set(order[: order.index(limit) + 1]) & present if limit != "never" else set()
        expected = 0 if not serious else 3 if serious == {"ask"} else 1
        assert run("check", wall, "--format", form, "--fail-on", limit, *DAY).status == expected

    def test_of_questions_alone(self, run, tmp_path):
        # nothing is declared that could warn: a partition whose data are all to come
        (tmp_path / "wall.yaml").write_text(
            "speccheck: 1\nproducts: {p: {name: to come}}\nassemblies: {wall: {kind: wall, outside: neighbour, layers: [{product: p}]}}\n",
            "utf-8",
        )
        report = json.loads(run("check", "wall.yaml", "--format", "json", *DAY).out)
        assert report["verdict"] == "ask"
        assert run("check", "wall.yaml", *DAY).status == 3
        assert run("check", "wall.yaml", "--fail-on", "refer", *DAY).status == 0


class TestFacts:
    """Numbers with their trace."""

    def test_a_trace_reaches_what_is_declared(self, run, wall):
        found = run("facts", wall, "wall.effective_r", "--format", "json")
        facts = {(fact["place"], fact["name"]): fact for fact in json.loads(found.out)["facts"]}
        reached = {("wall", "assembly.effective_r")}
        queue = list(reached)
        while queue:
            for one in facts[queue.pop()]["inputs"]:
                key = (one["place"], one["name"])
                assert key in facts, key
                if key not in reached:
                    reached.add(key)
                    queue.append(key)
        leaves = {key: facts[key]["origin"] for key in reached if not facts[key]["inputs"]}
        assert leaves[("wall.fill", "layer.resistance")] == "declared"
        constants = {key for key, origin in leaves.items() if origin == "computed"}
        assert all(facts[key]["value"] == 0 for key in constants)  # a coating adds no resistance
        assert set(leaves.values()) <= {"declared", "table", "assumed", "product", "computed"}
        assert reached == set(facts)

    def test_the_text_of_a_trace_names_every_step(self, run, wall):
        text = run("facts", wall, "wall.effective_r").out
        for step in (
            "wall.effective_r",
            "wall.r_parallel",
            "wall.fill.resistance",
            "wall.film_inside",
            "[declared]",
            "source: ",
        ):
            assert step in text
        assert "Stands in for what is not declared" in text

    def test_all_facts_and_those_of_a_place(self, run, wall):
        everything = json.loads(run("facts", wall, "--format", "json").out)["facts"]
        here = json.loads(run("facts", wall, "wall.fill", "--format", "json").out)["facts"]
        assert here == [fact for fact in everything if fact["place"] == "wall.fill"]
        assert {fact["name"] for fact in everything} <= set(VOCABULARY)
        assert "not shown" in run("facts", wall).out

    def test_a_name_near_another(self, run, wall):
        found = run("facts", wall, "wall.efective_r")
        assert found.status == 2
        assert "wall.effective_r" in found.err

    @pytest.mark.parametrize(
        ("units", "kept", "gone"),
        [("us", "R-23", "m²·K/W"), ("si", "m²·K/W", "R-23"), ("both", "R-23", None)],
    )
    def test_units(self, run, wall, units, kept, gone):
        text = run("facts", wall, "wall.fill.resistance", "--units", units).out
        assert kept in text
        assert gone is None or gone not in text


class TestExplain:
    """A page for everything that has a name."""

    def test_every_rule(self, run):
        for _, rule in RULES:
            found = run("explain", rule)
            assert found.status == 0, rule
            for heading in (
                "Why",
                "What it looks at",
                "What should hold",
                "When it does not hold",
                "What to do",
                "Source",
                "Examples",
            ):
                # what stands after a colon says whether the remedies are choices or steps
                assert re.search(rf"^{heading}(:.*)?$", found.out, re.MULTILINE), (rule, heading)

    def test_every_fact(self, run):
        for name in VOCABULARY:
            found = run("explain", name)
            assert found.status == 0, name
            assert "Type: " in found.out
            assert "Read by: " in found.out

    def test_every_material(self, run):
        for name in material_ids():
            found = run("explain", name)
            assert found.status == 0, name
            assert "Group " in found.out

    def test_every_pack_by_either_name(self, run):
        for id_ in pack_ids():
            pack = load_pack(id_)
            assert all(rule.id in run("explain", pack.id).out for rule in pack.rules)
            if pack.adopt:
                assert run("explain", pack.adopt).out == run("explain", pack.id).out

    @pytest.mark.parametrize("name", ["rules", "facts", "materials", "packs"])
    def test_lists(self, run, name):
        found = run("explain", name, "--width", "100")
        assert found.status == 0
        listed = {
            "rules": [r for _, r in RULES],
            "facts": list(VOCABULARY),
            "materials": list(material_ids()),
            "packs": list(pack_ids()),
        }
        text = "".join(found.out.split())
        assert all(one in text for one in listed[name])

    @pytest.mark.parametrize("width", ["40", "80", "120"])
    def test_pages_keep_the_width(self, run, width):
        for name in ("rules", "facts", "packs", "osb", "assembly.effective_r", RULES[0][1]):
            assert all(
                len(line) <= int(width) and line == line.rstrip()
                for line in run("explain", name, "--width", width).out.split("\n")
            )

    def test_nothing_of_that_name(self, run):
        found = run("explain", "vapour.falls-outwards")
        assert found.status == 2
        assert "vapour.falls-outward" in found.err


class TestNew:
    """Documents to start from."""

    def test_every_kind_loads_and_is_checked(self, run, tmp_path):
        from speccheck.cli.new import start_kinds

        assert {"wall", "roof", "floor", "house", "product"} <= set(start_kinds())
        for kind in start_kinds():
            written = run("new", kind)
            assert written.status == 0
            path = tmp_path / f"{kind}.yaml"
            path.write_text(written.out, "utf-8")
            if kind != "product":
                assert run("check", path.name, *DAY).status in (0, 1, 3)

    def test_the_product_can_be_swapped_in(self, run, tmp_path, wall):
        (tmp_path / "product.yaml").write_text(run("new", "product").out, "utf-8")
        assert run("swap", wall, "wall.board", "--with", "product.yaml", *DAY).status in (0, 1, 3)

    def test_an_unknown_kind_names_those_there_are(self, run):
        found = run("new", "tower")
        assert found.status == 2
        assert "wall" in found.err


def test_files_of_a_folder_that_are_no_documents_are_told_apart_from_the_report(run, tmp_path):
    folder = tmp_path / "lot"
    folder.mkdir()
    (folder / "wall.yaml").write_text(WALL, "utf-8")
    alone = run("check", str(folder), "--format", "json", *DAY)
    assert "left alone" not in alone.err
    (folder / "typo.yaml").write_text(WALL.replace("speccheck:", "spekcheck:"), "utf-8")
    for number in range(3):
        (folder / f"note-{number}.yml").write_text("a: 1\n", "utf-8")
    told = run("check", str(folder), "--format", "json", *DAY)
    assert told.status == alone.status
    assert json.loads(told.out) == json.loads(alone.out)
    assert "4 files were left alone" in told.err
    assert "typo.yaml" in told.err
    assert told.err.rstrip().endswith("and 1 more")
    assert "left alone" not in run("check", str(folder), "--documents-only", *DAY).err


def test_a_document_with_a_fault_in_its_keys_is_told_wherever_it_is_met(run, tmp_path):
    folder = tmp_path / "lot"
    folder.mkdir()
    mistyped, broken = folder / "a.yaml", folder / "b.yaml"
    mistyped.write_text(WALL.replace("assemblies:", "assembly:"), "utf-8")
    broken.write_text("speccheck: 1\nproject: {name: [\n", "utf-8")
    for path, line in ((mistyped, "4"), (broken, "")):
        for words in ((str(path), "--documents-only"), (str(folder),), (str(folder), "--documents-only")):
            found = run("check", *words, *DAY)
            assert found.status == 2
            assert f"{path}:{line}" in found.err
            assert "left alone" not in found.err
    assert "did you mean `assemblies`" in run("check", str(mistyped), "--documents-only", *DAY).err
