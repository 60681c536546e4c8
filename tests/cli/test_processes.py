"""The program as a process of its own: pipes that close, disks that are full, environments that say nothing of use."""

import os
import signal
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from time import sleep

import pytest

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
CHECK = (sys.executable, "-m", "speccheck", "check", "wall.yaml", "--today", "2026-01-15")


@pytest.fixture
def folder(tmp_path) -> Path:
    (tmp_path / "wall.yaml").write_text(WALL, "utf-8")
    return tmp_path


def run(folder: Path, *more: str, **environment: str) -> subprocess.CompletedProcess[bytes]:
    return subprocess.run(
        [*CHECK, *more], cwd=folder, env={**os.environ, **environment}, capture_output=True, check=False
    )


def test_as_module_and_as_script(folder):
    script = Path(sys.executable).with_name("speccheck")
    if not script.exists():
        pytest.skip("the script is not installed beside this interpreter")
    as_script = subprocess.run([script, *CHECK[3:]], cwd=folder, capture_output=True, check=False)
    as_module = run(folder)
    assert (as_script.returncode, as_script.stdout) == (as_module.returncode, as_module.stdout)
    assert as_module.returncode == 1
    assert as_module.stderr == b""


@pytest.mark.parametrize(
    "environment",
    [
        {"NO_COLOR": "1"},
        {"FORCE_COLOR": "1"},
        {"CLICOLOR_FORCE": "1"},
        {"TERM": "dumb"},
        {"TERM": "xterm-256color"},
    ],
)
def test_colour_switches_change_nothing(folder, environment):
    plain = run(folder)
    found = run(folder, **environment)
    assert found.stdout == plain.stdout
    assert b"\x1b" not in found.stdout


@pytest.mark.parametrize(
    "environment", [{"LC_ALL": "C"}, {"PYTHONIOENCODING": "ascii"}, {"LC_ALL": "C", "PYTHONUTF8": "0"}]
)
def test_utf_8_whatever_the_locale_says(folder, environment):
    found = run(folder, **environment)
    assert "m²·K/W" in found.stdout.decode("utf-8")
    assert found.returncode == 1


def test_output_that_is_no_terminal_is_eighty_columns_wide(folder):
    environment = {key: value for key, value in os.environ.items() if key != "COLUMNS"}
    found = subprocess.run([*CHECK], cwd=folder, env=environment, capture_output=True, check=False)
    widest = max(len(line) for line in found.stdout.decode().split("\n"))
    assert 70 < widest <= 80


def test_a_reader_that_goes_is_no_error(folder):
    reader = subprocess.Popen(
        [sys.executable, "-c", "import sys; sys.stdin.readline()"], stdin=subprocess.PIPE
    )
    assert reader.stdin is not None
    reader.kill()
    reader.wait()
    writer = subprocess.run(
        [*CHECK, "--format", "json", "--facts"],
        cwd=folder,
        stdout=reader.stdin,
        stderr=subprocess.PIPE,
        check=False,
    )
    reader.stdin.close()
    assert writer.stderr == b""


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="there is no device that is always full")
def test_a_full_disk_is_told_in_one_line(folder):
    with Path("/dev/full").open("wb") as full:
        found = subprocess.run([*CHECK], cwd=folder, stdout=full, stderr=subprocess.PIPE, check=False)
    assert found.returncode == 2
    assert found.stderr.decode().splitlines() == [
        "speccheck: the output cannot be written: No space left on device"
    ]


def test_errors_go_to_the_error_stream_and_reports_do_not(folder):
    (folder / "bad.yaml").write_text(
        "speccheck: 1\nassemblies: {wall: {kind: tower, layers: [{material: osb}]}}\n", "utf-8"
    )
    found = subprocess.run([*CHECK[:3], "check", "bad.yaml"], cwd=folder, capture_output=True, check=False)
    assert found.returncode == 2
    assert found.stderr.startswith(b"bad.yaml:2:")
    assert b"Traceback" not in found.stderr


def test_a_document_with_many_layers_is_no_trouble(folder):
    layers = "".join(f"      - {{id: l{i}, material: osb, thickness: 11 mm}}\n" for i in range(80))
    (folder / "wall.yaml").write_text(
        f"speccheck: 1\nassemblies:\n  wall:\n    kind: wall\n    layers:\n{layers}", "utf-8"
    )
    assert run(folder).returncode in (0, 1, 3)


def children(pid: int) -> list[int]:
    """Return the processes that a process has begun, as Linux tells them."""
    return [int(word) for word in Path(f"/proc/{pid}/task/{pid}/children").read_text("ascii").split()]


def running(pid: int) -> bool:
    try:
        state = Path(f"/proc/{pid}/stat").read_text("ascii", "replace").rpartition(")")[2].split()[0]
    except OSError:
        return False
    return state != "Z"  # an ended process that nobody has asked after yet


def until(done: Callable[[], bool]) -> bool:
    """Wait for something, long enough for a machine with much to do."""
    for _ in range(600):
        if done():
            return True
        sleep(0.05)
    return False


@pytest.mark.skipif(
    sys.platform != "linux" or not Path(f"/proc/self/task/{os.getpid()}/children").exists(),
    reason="this system does not tell which processes a process has begun",
)
@pytest.mark.parametrize("end", [signal.SIGTERM, signal.SIGKILL])
def test_no_worker_outlives_the_run(folder, end):
    for number in range(400):
        (folder / f"lot-{number}.yaml").write_text(WALL, "utf-8")
    command = [*CHECK[:3], "check", ".", "-f", "html", "--jobs", "3", "--out-dir", "out"]
    with subprocess.Popen(command, cwd=folder, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL) as whole:
        assert until(lambda: len(children(whole.pid)) == 3)
        workers = children(whole.pid)
        whole.send_signal(end)
        assert whole.wait(60) == -end
    assert until(lambda: not any(map(running, workers)))


@pytest.mark.skipif(
    sys.platform != "linux", reason="this is how Linux sends an interruption to a group of processes"
)
@pytest.mark.parametrize("jobs", ["1", "3"])
@pytest.mark.parametrize("to", [("--out", "report.html"), ("--out-dir", "out"), ()])
def test_an_interruption_is_told_in_one_line_and_leaves_nothing(folder, jobs, to):
    for number in range(400):
        (folder / f"lot-{number}.yaml").write_text(WALL, "utf-8")
    before = sorted(path.name for path in folder.iterdir())
    form = "text" if "--out-dir" not in to else "html"
    command = [*CHECK[:3], "check", ".", "-f", form, "--jobs", jobs, *to]
    with subprocess.Popen(
        command, cwd=folder, stdout=subprocess.PIPE, stderr=subprocess.PIPE, start_new_session=True
    ) as whole:
        workers = int(jobs) if jobs != "1" else 0
        assert until(lambda: len(children(whole.pid)) == workers)
        sleep(
            1.5 if workers == 0 else 0.5
        )  # well into the documents, or their imports: either is to be told alike
        os.killpg(whole.pid, signal.SIGINT)
        out, err = whole.communicate(timeout=60)
    assert whole.returncode == 130
    assert (out, err) == (b"", b"speccheck: interrupted; nothing was written\n")
    assert sorted(path.name for path in folder.iterdir()) == before


def test_an_interruption_while_it_is_written_says_so():
    code = (
        "import sys\n"
        "from speccheck.cli import output, start\n"
        "def stopped(*_): raise KeyboardInterrupt\n"
        "output._write = lambda stream, text: stopped() if stream is sys.stdout else sys.stderr.write(text)\n"
        "sys.argv = ['speccheck', 'explain', 'rules']\n"
        "start.main()\n"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)
    assert done.returncode == 130
    assert done.stderr == "speccheck: interrupted while the report was being written; it may not be whole\n"
