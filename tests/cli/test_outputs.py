"""Where reports go and what they come back with: every format, files, folders, baselines, cores."""

import csv
import json
import os
import re
import stat
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from typer.testing import CliRunner

from speccheck.cli import progress
from speccheck.cli.app import CheckFormat, app
from speccheck.report.formats import FORMATS, format_named

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
ASKS = (
    "speccheck: 1\nproducts: {p: {name: to come}}\nassemblies: {wall: {kind: wall, layers: [{product: p}]}}\n"
)
BAD = "speccheck: 1\nassemblies:\n  wall: {kind: tower, layers: [{material: osb, thickness: 5}]}\n"
MILD = WALL.replace("latex-paint", "vapour-retarder-primer")  # a caution, and nothing outside
TEXTS = {"wall.yaml": WALL, "mild.yaml": MILD, "asks.yaml": ASKS, "bad.yaml": BAD}
DAY = ("--today", "2026-01-15")
ALONE = [name for name in FORMATS if getattr(format_named(name), "alone", False)]


@pytest.fixture
def run(tmp_path, monkeypatch):
    """Return what calls the program in a folder with four documents and gives status, output and errors."""
    monkeypatch.chdir(tmp_path)
    for name, text in TEXTS.items():
        (tmp_path / name).write_text(text, "utf-8")

    def call(*arguments: str) -> tuple[int, str, str]:
        found = CliRunner().invoke(app, list(arguments))
        if found.exception is not None and not isinstance(found.exception, SystemExit):
            raise found.exception
        return found.exit_code, found.stdout, found.stderr

    return call


def test_every_format_can_be_asked_for():
    assert {form.value for form in CheckFormat} == set(FORMATS)


class TestStatus:
    """The same exit status in every format."""

    @pytest.mark.parametrize("form", FORMATS)
    @pytest.mark.parametrize(
        ("documents", "fail_on", "status"),
        [
            (["wall.yaml"], "ask", 1),
            (["wall.yaml"], "outside", 1),
            (["mild.yaml"], "outside", 0),
            (["mild.yaml"], "caution", 1),
            (["wall.yaml"], "never", 0),
            (["asks.yaml"], "ask", 3),
            (["asks.yaml"], "refer", 0),
            (["bad.yaml"], "ask", 2),
            (["bad.yaml"], "never", 2),
        ],
    )
    def test_of_one_document(self, run, form, documents, fail_on, status):
        found = run("check", *documents, "--format", form, "--fail-on", fail_on, *DAY)
        assert found[0] == status, found[2]

    @pytest.mark.parametrize("form", [name for name in FORMATS if name not in ALONE])
    @pytest.mark.parametrize(
        ("documents", "fail_on", "status"),
        [
            (["wall.yaml", "asks.yaml"], "ask", 1),
            (["mild.yaml", "asks.yaml"], "outside", 0),
            (["asks.yaml", "bad.yaml", "wall.yaml"], "never", 2),
        ],
    )
    def test_of_several(self, run, form, documents, fail_on, status):
        assert run("check", *documents, "--format", form, "--fail-on", fail_on, *DAY)[0] == status

    def test_of_a_folder_with_a_report_for_each(self, run):
        assert run("check", "wall.yaml", "asks.yaml", "--out-dir", "out", *DAY)[0] == 1
        assert run("check", ".", "--out-dir", "out", *DAY)[0] == 2

    @pytest.mark.parametrize("form", [name for name in FORMATS if name not in ALONE])
    def test_held_against_a_baseline(self, run, form):
        run("check", "wall.yaml", "-f", "json", "-o", "old.json", *DAY)
        assert run("check", "wall.yaml", "-f", form, "--baseline", "old.json", *DAY)[0] == 0
        assert run("check", "asks.yaml", "-f", form, "--baseline", "old.json", "--units", "si", *DAY)[0] == 3


class TestFile:
    """One file, whole or not at all."""

    @pytest.mark.parametrize("form", FORMATS)
    def test_it_holds_what_the_terminal_would_show(self, run, form):
        shown = run("check", "wall.yaml", "-f", form, "--width", "80", *DAY)
        status, out, _ = run("check", "wall.yaml", "-f", form, "--width", "80", "--out", "report", *DAY)
        assert (status, out) == (shown[0], "")
        # the runner of a test shows every end of a line alike
        assert Path("report").read_bytes().decode().replace("\r\n", "\n") == shown[1]

    def test_a_dash_is_the_terminal(self, run):
        assert run("check", "wall.yaml", "--out", "-", *DAY) == run("check", "wall.yaml", *DAY)

    def test_a_file_that_cannot_be_written_is_status_two_and_one_line(self, run):
        status, out, err = run("check", "wall.yaml", "--out", "none/report.txt", *DAY)
        assert (status, out) == (2, "")
        assert err == (
            "speccheck: none/report.txt cannot be written (No such file or directory); what stood there is untouched\n"
        )

    @pytest.mark.skipif(os.name != "posix" or os.getuid() == 0, reason="root may write everywhere")
    def test_a_folder_that_may_not_be_written(self, run, tmp_path):
        locked = tmp_path / "locked"
        locked.mkdir()
        (locked / "report.txt").write_text("old", "utf-8")
        locked.chmod(stat.S_IRUSR | stat.S_IXUSR)
        try:
            status, _, err = run("check", "wall.yaml", "--out", "locked/report.txt", *DAY)
        finally:
            locked.chmod(stat.S_IRWXU)
        assert status == 2
        assert "cannot be written (Permission denied)" in err
        assert (locked / "report.txt").read_text("utf-8") == "old"

    def test_a_full_disk_leaves_the_old_report(self, run, monkeypatch):
        from speccheck.cli import whole_file

        Path("report.txt").write_text("old", "utf-8")

        def full(_: int) -> None:
            raise OSError(28, "No space left on device")

        monkeypatch.setattr(whole_file.os, "fsync", full)
        status, _, err = run("check", "wall.yaml", "--out", "report.txt", *DAY)
        assert (status, Path("report.txt").read_text("utf-8")) == (2, "old")
        assert "No space left on device" in err
        assert not list(Path().glob(".report*"))


class TestFolder:
    """A report for each document, an index and a matrix."""

    def test_what_is_in_it(self, run):
        status, out, err = run("check", ".", "-f", "markdown", "--out-dir", "out/of/it", *DAY)
        assert status == 2
        assert out == f"3 reports, index.html and matrix.csv written to {Path('out/of/it')}\n"
        assert "bad.yaml:3:" in err
        names = sorted(path.name for path in Path("out/of/it").iterdir())
        assert names == ["asks.md", "index.html", "matrix.csv", "mild.md", "wall.md"]
        alone = run("check", "wall.yaml", "-f", "markdown", *DAY)[1]
        assert Path("out/of/it/wall.md").read_text("utf-8") == alone
        rows = list(csv.reader(Path("out/of/it/matrix.csv").read_text("utf-8").splitlines()))
        assert [row[0] for row in rows[1:]] == ["asks.yaml", "mild.yaml", "wall.yaml", "bad.yaml"]

    def test_every_link_of_the_index_leads_somewhere(self, run):
        run("check", "wall.yaml", "asks.yaml", "-f", "json", "--out-dir", "out", *DAY)
        page = Path("out/index.html").read_text("utf-8")
        links = re.findall(r'href="([^"#]+)"', page)
        assert {"wall.json", "asks.json"} <= set(links)
        assert all((Path("out") / link).is_file() for link in links)

    def test_names_that_would_meet_are_kept_apart(self, run, tmp_path):
        for name in ("a/lot.yaml", "a-lot.yaml", "A-LOT.yaml", "index.yaml"):
            (tmp_path / name).parent.mkdir(exist_ok=True)
            (tmp_path / name).write_text(ASKS, "utf-8")
        run("check", "a", "a-lot.yaml", "A-LOT.yaml", "index.yaml", "-f", "json", "--out-dir", "out", *DAY)
        written = {path.name for path in Path("out").glob("*.json")}
        assert written == {"a-lot.json", "a-lot-2.json", "A-LOT-3.json", "index.json"}
        files = [json.loads(Path("out", name).read_text("utf-8"))["documents"][0]["file"] for name in written]
        assert len(set(files)) == 4

    def test_a_folder_that_cannot_be_made(self, run):
        status, _, err = run("check", "wall.yaml", "--out-dir", "wall.yaml/out", *DAY)
        assert status == 2
        assert err.startswith("speccheck: the folder wall.yaml/out cannot be made or written to: ")

    def test_not_both(self, run):
        status, _, err = run("check", "wall.yaml", "--out-dir", "out", "--out", "file", *DAY)
        assert (status, err) == (2, "speccheck: name one of --out and --out-dir, not both\n")
        assert not Path("out").exists()

    def test_a_second_run_does_not_take_its_own_reports_for_documents(self, run):
        Path("bad.yaml").unlink()
        for _ in range(2):
            status, out, err = run("check", ".", "-f", "json", "--out-dir", ".", *DAY)
            assert (status, err) == (1, "")
            assert out.startswith("3 reports")


NAMED = WALL.replace("project: {", "project: {name: LOT, ")


class TestBaseline:
    """Only what is new or worse counts."""

    @pytest.fixture
    def old(self, run) -> None:
        run("check", "wall.yaml", "-f", "json", "-o", "old.json", *DAY)

    def test_what_is_as_before_is_listed_and_does_not_count(self, run, old):
        status, out, _ = run("check", "wall.yaml", "--baseline", "old.json", *DAY)
        assert status == 0
        assert "Against the baseline old.json" in out
        assert re.search(r"\d+ as before", out)
        assert "CAUTION" in out

    def test_what_the_baseline_makes_of_it_is_told_before_the_verdict(self, run, old):
        lines = run("check", "wall.yaml", "--baseline", "old.json", *DAY)[1].splitlines()
        assert re.match(r"Against the baseline old\.json: nothing is new or worse: \d+ as before\.", lines[1])
        assert lines[2].startswith("Verdict: ")
        Path("wall.yaml").write_text(
            WALL + "junctions: {base: {kind: wall-slab, joins: [wall.base], air: []}}\n", "utf-8"
        )
        lines = run("check", "wall.yaml", "--baseline", "old.json", *DAY)[1].splitlines()
        assert re.match(r"Against the baseline old\.json: \d+ new, ", lines[1])

    def test_the_roll_of_several_tells_it_of_each(self, run, old):
        Path("other.yaml").write_text(WALL, "utf-8")
        out = run("check", "wall.yaml", "other.yaml", "--baseline", "old.json", *DAY, "--width", "120")[1]
        assert re.search(
            r"^  wall\.yaml: nothing is new or worse: \d+ as before\. Verdict: warn", out, re.MULTILINE
        )
        assert re.search(r"^  other\.yaml: \d+ new\. Verdict: warn", out, re.MULTILINE)

    def test_a_document_that_is_renamed_in_its_folder_is_known_by_what_it_holds(self, run):
        Path("lots").mkdir()
        for name in ("one", "two", "three"):
            Path(f"lots/{name}.yaml").write_text(NAMED.replace("LOT", name), "utf-8")
        run("check", "lots", "-f", "json", "-o", "old.json", *DAY)
        Path("lots/one.yaml").rename("lots/first.yaml")
        Path("lots/two.yaml").rename("lots/second.yaml")
        status, out, _ = run("check", "lots", "--baseline", "old.json", *DAY, "--width", "120")
        assert status == 0
        assert out.count("nothing is new or worse") == 6
        assert "(held against lots/one.yaml)" in out
        assert "(held against lots/two.yaml)" in out
        assert out.count("held against") == 2
        text = run("check", "lots", "-f", "markdown", "--baseline", "old.json", *DAY)[1]
        assert "held against lots/one.yaml" in text
        documents = json.loads(run("check", "lots", "-f", "json", "--baseline", "old.json", *DAY)[1])[
            "documents"
        ]
        older = {one["file"]: one["baseline"]["document"] for one in documents}
        assert older == {
            "lots/first.yaml": "lots/one.yaml",
            "lots/second.yaml": "lots/two.yaml",
            "lots/three.yaml": "lots/three.yaml",
        }

    def test_lines_may_move(self, run, old):
        Path("wall.yaml").write_text("# new\n" * 30 + WALL, "utf-8")
        assert run("check", "wall.yaml", "--baseline", "old.json", *DAY)[0] == 0

    def test_a_new_finding_counts(self, run, old):
        Path("wall.yaml").write_text(WALL.replace("finish: latex-paint", "finish: vinyl-wallpaper"), "utf-8")
        Path("wall.yaml").write_text(
            WALL + "junctions: {base: {kind: wall-slab, joins: [wall.base], air: []}}\n", "utf-8"
        )
        status, out, _ = run("check", "wall.yaml", "--baseline", "old.json", *DAY)
        assert status == 1
        assert re.search(r"^  (new|worse): .*$", out, re.MULTILINE)

    def test_a_margin_that_shrinks_counts_beyond_the_slack_only(self, run, old):
        report = json.loads(Path("old.json").read_text("utf-8"))
        warned = [
            f for f in report["documents"][0]["findings"] if f["measured"] and f["severity"] == "caution"
        ]
        assert warned
        limit = abs(warned[0]["measured"]["limit"])
        for share, status in ((0.019, 0), (0.021, 1)):
            warned[0]["measured"]["margin"] += share * limit
            Path("other.json").write_text(json.dumps(report), "utf-8")
            warned[0]["measured"]["margin"] -= share * limit
            assert run("check", "wall.yaml", "--baseline", "other.json", *DAY)[0] == status

    def test_an_answer_taken_away_is_no_way_out(self, run, old):
        Path("wall.yaml").write_text(
            WALL.replace("project: {place: {zone: 6A}, indoor", "project: {indoor"), "utf-8"
        )
        status, out, _ = run("check", "wall.yaml", "--baseline", "old.json", *DAY)
        assert status == 3
        assert "no longer answered: " in out

    def test_a_document_new_to_the_baseline_counts_in_full(self, run, old):
        Path("other.yaml").write_text(WALL, "utf-8")
        status, out, _ = run("check", "wall.yaml", "other.yaml", "--baseline", "old.json", *DAY)
        assert status == 1
        assert "This document is not in the baseline" in out

    def test_it_is_in_the_json_and_fits_the_schema(self, run, old):
        import jsonschema

        from speccheck.schemas import generated

        out = run("check", "wall.yaml", "-f", "json", "--baseline", "old.json", *DAY)[1]
        report = json.loads(out)
        jsonschema.validate(report, json.loads(generated()["report.schema.json"]))
        against = report["documents"][0]["baseline"]
        assert (against["file"], against["document"], against["slack"]) == ("old.json", "wall.yaml", 0.02)
        assert against["trends"]["same"] > 0
        assert against["moves"] == []

    def test_one_that_is_no_report_is_told_with_its_place(self, run):
        Path("old.json").write_text('{"speccheck-report": 1,\n "documents": oh}', "utf-8")
        status, out, err = run("check", "wall.yaml", "--baseline", "old.json", *DAY)
        assert (status, out) == (2, "")
        assert err.startswith("old.json:2:15: this is not JSON: Expecting value.")


class TestCompare:
    """Two documents or two reports."""

    def test_a_document_with_itself(self, run):
        status, out, _ = run("compare", "wall.yaml", "wall.yaml", *DAY)
        assert status == 0
        assert "B against A: as before." in out
        assert "Facts that differ" not in out

    def test_better_one_way_is_worse_the_other(self, run):
        Path("better.yaml").write_text(WALL.replace("plywood", "fibreboard-sheathing"), "utf-8")
        there = json.loads(run("compare", "wall.yaml", "better.yaml", "-f", "json", *DAY)[1])
        back = json.loads(run("compare", "better.yaml", "wall.yaml", "-f", "json", *DAY)[1])
        trends = {"new": "gone", "gone": "new", "worse": "better", "better": "worse"}
        moves = {(m["rule"], m["place"]): m["trend"] for m in there["pairs"][0]["moves"]}
        other = {(m["rule"], m["place"]): m["trend"] for m in back["pairs"][0]["moves"]}
        assert moves
        assert {key: trends[trend] for key, trend in moves.items() if trend in trends} == {
            key: other[key] for key, trend in moves.items() if trend in trends
        }
        facts = {f["name"]: (f["before"], f["after"]) for f in there["pairs"][0]["facts"]}
        assert "assembly.effective_r" in facts
        assert {f["name"]: (f["after"], f["before"]) for f in back["pairs"][0]["facts"]} == facts

    @pytest.mark.parametrize("form", ["text", "json"])
    def test_status_is_the_same_in_both_formats(self, run, form):
        assert run("compare", "asks.yaml", "wall.yaml", "-f", form, *DAY)[0] == 1
        assert run("compare", "wall.yaml", "asks.yaml", "-f", form, *DAY)[0] == 3
        assert run("compare", "wall.yaml", "bad.yaml", "-f", form, *DAY)[0] == 2

    def test_a_report_stands_for_its_document(self, run):
        run("check", "wall.yaml", "-f", "json", "--facts", "-o", "old.json", *DAY)
        status, out, _ = run("compare", "old.json", "wall.yaml", *DAY)
        assert (status, "Facts that differ" in out) == (0, False)
        assert "B against A: as before." in out

    def test_two_reports_of_many_documents(self, run):
        Path("bad.yaml").unlink()
        run("check", ".", "-f", "json", "-o", "old.report", *DAY)
        Path("third.yaml").write_text(ASKS.replace("wall: {kind: wall", "roof: {kind: roof"), "utf-8")
        Path("asks.yaml").unlink()
        run("check", ".", "-f", "json", "-o", "new.report", *DAY)
        status, out, _ = run("compare", "old.report", "new.report", *DAY)
        assert status == 0
        assert "Only in A" in out
        assert "Only in B" in out
        assert "Facts are not compared" in out

    def test_reports_that_share_nothing(self, run):
        for name in ("asks", "wall"):
            Path("sub").mkdir(exist_ok=True)
            Path(f"sub/{name}.yaml").write_text(TEXTS[f"{name}.yaml"], "utf-8")
            Path(f"sub/{name}-2.yaml").write_text(TEXTS[f"{name}.yaml"], "utf-8")
        run("check", "sub/asks.yaml", "sub/asks-2.yaml", "-f", "json", "-o", "old.report", *DAY)
        run("check", "sub/wall.yaml", "sub/wall-2.yaml", "-f", "json", "-o", "new.report", *DAY)
        status, _, err = run("compare", "old.report", "new.report", *DAY)
        assert (status, err) == (
            2,
            "speccheck: no document is on both sides, so there is nothing to compare\n",
        )


def process(folder: Path, *arguments: str, **more: Any) -> subprocess.CompletedProcess[bytes]:
    return subprocess.run(
        [sys.executable, "-m", "speccheck", *arguments], cwd=folder, capture_output=True, check=False, **more
    )


@pytest.mark.parametrize("form", ["json", "sarif", "csv", "text"])
def test_the_same_bytes_with_one_process_and_with_two(tmp_path, form):
    for number in range(8):
        text = (WALL, ASKS, BAD)[number % 3]
        (tmp_path / f"lot-{number}.yaml").write_text(text, "utf-8")
    one, two = (process(tmp_path, "check", ".", "-f", form, "-j", jobs, *DAY) for jobs in ("1", "2"))
    assert (one.returncode, two.returncode) == (2, 2)
    assert one.stdout == two.stdout
    assert one.stderr == two.stderr
    assert b"Traceback" not in one.stderr


class TestProgress:
    """One line on the error stream, where a person watches."""

    class Stream:
        """An error stream that says what it is and keeps what it is given."""

        def __init__(self, terminal: bool) -> None:
            self.terminal = terminal
            self.text = ""

        def isatty(self) -> bool:
            return self.terminal

        def write(self, text: str) -> None:
            self.text += text

        def flush(self) -> None:
            pass

    @pytest.mark.parametrize(
        ("terminal", "term", "count", "watched"),
        [
            (True, "xterm", 50, True),
            (False, "xterm", 50, False),
            (True, "dumb", 50, False),
            (True, "xterm", 5, False),
        ],
    )
    def test_where_it_shows(self, monkeypatch, terminal, term, count, watched):
        stream = self.Stream(terminal)
        monkeypatch.setattr(progress.sys, "stderr", stream)
        monkeypatch.setenv("TERM", term)
        assert list(progress.watched(range(count), count)) == list(range(count))
        assert bool(stream.text) is watched
        if watched:
            assert f"1 of {count} documents" in stream.text
            # nothing is left of it at the end
            assert stream.text.endswith("\r\x1b[K")

    def test_nothing_of_it_in_a_pipe(self, tmp_path):
        for number in range(25):
            (tmp_path / f"lot-{number}.yaml").write_text(ASKS, "utf-8")
        done = process(tmp_path, "check", ".", "-f", "matrix", *DAY)
        assert done.stderr == b""
        assert b"\x1b" not in done.stdout
