"""The wheel carries rules and schemas, and works away from the checkout."""

import os
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
WALL = """\
speccheck: 1
project: {place: {zone: 6A}, adopted: [us/irc-2021]}
assemblies:
  wall:
    kind: wall
    framing: {spacing: 16 in}
    layers:
      - {material: gypsum-board, thickness: 1/2 in, finish: latex-paint}
      - {material: glass-fibre-batt, thickness: 5.5 in, thermal-resistance: R-21, framed: true}
      - {material: osb, thickness: 7/16 in}
"""


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    target = tmp_path_factory.mktemp("dist")
    command = [sys.executable, "-m", "build", "--wheel", "--no-isolation", "--outdir", str(target), str(ROOT)]
    subprocess.run(command, check=True, capture_output=True)
    (built,) = target.glob("*.whl")
    return built


def test_wheel_holds_the_data(wheel: Path) -> None:
    names = set(zipfile.ZipFile(wheel).namelist())
    assert "speccheck/shipped/rules/practice/vapour.yaml" in names
    assert "speccheck/shipped/schemas/document.schema.json" in names
    assert "speccheck/py.typed" in names
    templates = {
        path.name for path in (ROOT / "speccheck/report/templates").iterdir() if path.suffix == ".j2"
    }
    assert {name for name in names if name.endswith(".j2")} == {
        f"speccheck/report/templates/{t}" for t in templates
    }
    assert not [name for name in names if name.startswith(("tests/", "examples/"))]


def test_wheel_checks_a_wall_away_from_the_checkout(wheel: Path, tmp_path: Path) -> None:
    place = tmp_path / "site"
    zipfile.ZipFile(wheel).extractall(place)
    (tmp_path / "wall.yaml").write_text(WALL, "utf-8")
    code = "import speccheck.shelf as s, sys; from speccheck.cli import main; print(s.rules_folder()); main()"
    done = subprocess.run(
        [sys.executable, "-c", code, "check", "wall.yaml"],
        cwd=tmp_path,
        env={**os.environ, "PYTHONPATH": str(place)},
        capture_output=True,
        text=True,
        check=False,
    )
    assert str(place) in done.stdout.splitlines()[0]
    assert "Verdict:" in done.stdout
    assert done.returncode in (1, 3), done.stderr
    for form in ("html", "letter-html", "brief"):
        command = [sys.executable, "-m", "speccheck", "check", "wall.yaml", "--format", form, "--out", form]
        environment = {**os.environ, "PYTHONPATH": str(place)}
        told = subprocess.run(
            command, cwd=tmp_path, env=environment, capture_output=True, text=True, check=False
        )
        assert told.returncode in (1, 3), told.stderr
        assert (tmp_path / form).stat().st_size > 2000
