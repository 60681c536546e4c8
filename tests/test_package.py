"""The package as a whole: what each module hands out, what a start imports, what is generated and must be fresh."""

import ast
import json
import re
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest
import yaml

import speccheck
from speccheck.schemas import generated
from speccheck.shelf import schemas_folder

PACKAGE = Path(speccheck.__file__).parent
ROOT = PACKAGE.parent
MODULES = sorted(path for path in PACKAGE.rglob("*.py") if "shipped" not in path.parts)

WALL = """
speccheck: 1
project: {place: {zone: 6A}, indoor: {humidity: 35 %}, adopted: [us/irc-2021]}
assemblies:
  wall:
    kind: wall
    framing: {spacing: 16 in}
    layers:
      - {id: lining, material: gypsum-board, thickness: 12.7 mm, finish: latex-paint}
      - {id: fill, material: mineral-wool-batt, thickness: 140 mm, thermal-resistance: R-23, framed: true}
      - {id: board, material: plywood, thickness: 11 mm, controls: [air]}
"""


def name(path: Path) -> str:
    return path.relative_to(ROOT).as_posix()


def defined(tree: ast.Module) -> tuple[set[str], list[str] | None]:
    """Return the public names a module defines, and what its ``__all__`` lists."""
    names: set[str] = set()
    listed: list[str] | None = None
    for node in tree.body:
        if isinstance(node, ast.FunctionDef | ast.ClassDef | ast.AsyncFunctionDef):
            names.add(node.name)
        elif isinstance(node, ast.Assign | ast.AnnAssign):
            targets = node.targets if isinstance(node, ast.Assign) else [node.target]
            for target in targets:
                if isinstance(target, ast.Name):
                    if target.id == "__all__" and node.value is not None:
                        listed = ast.literal_eval(node.value)
                    names.add(target.id)
    return {one for one in names if not one.startswith("_")}, listed


@pytest.mark.parametrize("path", MODULES, ids=name)
def test_all_lists_nothing_that_is_not_there(path):
    tree = ast.parse(path.read_text("utf-8"))
    names, listed = defined(tree)
    if listed is None:
        assert path.stem == "__main__" or not names, "public names and no __all__"
        return
    imported = {
        alias.asname or alias.name
        for node in ast.walk(tree)
        if isinstance(node, ast.ImportFrom | ast.Import)
        for alias in node.names
    }
    own = {node.id for node in ast.walk(tree) if isinstance(node, ast.Name)} | {"__version__"}
    assert len(listed) == len(set(listed))
    assert set(listed) <= names | imported | own


def test_what_other_modules_use_is_handed_out():
    # a public class or function is listed where another module takes it; otherwise it serves its own module alone
    trees = {path: ast.parse(path.read_text("utf-8")) for path in MODULES if path.exists()}
    taken: dict[str, set[str]] = {}
    for tree in trees.values():
        for node in ast.walk(tree):
            if isinstance(node, ast.ImportFrom) and node.module and node.module.startswith("speccheck"):
                taken.setdefault(node.module, set()).update(alias.name for alias in node.names)
    missing = {}
    for path, tree in trees.items():
        names, listed = defined(tree)
        module = ".".join(path.relative_to(ROOT).with_suffix("").parts)
        lost = (names & taken.get(module, set())) - set(listed or ())
        if lost and path.stem != "__init__":
            missing[name(path)] = lost
    assert missing == {}


@pytest.mark.parametrize("path", [p for p in MODULES if p.stem == "__init__"], ids=name)
def test_an_init_hands_names_on_and_does_nothing_else(path):
    # a package may hand its names on late: imports for the type checker, and a `__getattr__` that fetches them
    for node in ast.parse(path.read_text("utf-8")).body:
        text = ast.unparse(node)
        late = text.startswith(
            ("if TYPE_CHECKING:", "def __getattr__(", "def __dir__(", "_ROOM", "import importlib")
        )
        names = text.startswith(("__all__ =", "__version__ =")) or isinstance(node, ast.ImportFrom)
        assert names or late or isinstance(node, ast.Expr), text


@pytest.mark.parametrize("path", MODULES, ids=name)
def test_every_module_says_what_lives_there(path):
    words = ast.get_docstring(ast.parse(path.read_text("utf-8")))
    assert words
    assert not re.search(r"\b(utils?|helpers?|misc|common)\b", path.stem)


def test_version_is_the_same_everywhere():
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
    assert project["version"] == speccheck.__version__


def imported_by(code: str, folder: Path) -> set[str]:
    """Return the modules a fresh interpreter holds after running some code."""
    script = f"{code}\nimport json, sys\nsys.stderr.write(json.dumps(sorted(sys.modules)))"
    done = subprocess.run(
        [sys.executable, "-c", script], cwd=folder, capture_output=True, text=True, check=True
    )
    return set(json.loads(done.stderr))


def heavy(modules: set[str], *names: str) -> set[str]:
    return {one for one in names if one in modules}


class TestImportBudget:
    """A start loads what it needs and no more."""

    def test_the_command_line(self, tmp_path):
        modules = imported_by("import speccheck.cli.app", tmp_path)
        assert (
            heavy(
                modules,
                "numpy",
                "pvlib",
                "jinja2",
                "jsonschema",
                "cel",
                "scipy",
                "pint",
                "rich",
                "pydantic",
                "yaml",
            )
            == set()
        )

    @pytest.mark.parametrize(
        "arguments",
        [["check", "wall.yaml"], ["check", "wall.yaml", "--format", "json"], ["facts", "wall.yaml"]],
    )
    def test_a_normal_run(self, tmp_path, arguments):
        (tmp_path / "wall.yaml").write_text(WALL, "utf-8")
        code = f"import sys\nfrom typer.testing import CliRunner\nfrom speccheck.cli.app import app\nr = CliRunner().invoke(app, {arguments!r})\nassert r.exit_code in (0, 1, 3), r.output"
        modules = imported_by(code, tmp_path)
        found = heavy(
            modules,
            "numpy",
            "pvlib",
            "jinja2",
            "jsonschema",
            "cel",
            "scipy",
            "pint",
            "speccheck.judgement.pack_schema",
        )
        stale = _stale()
        if stale:
            # a table or pack that is newer than its compiled form is verified again, which needs the pack's form
            found -= {"speccheck.judgement.pack_schema", "jinja2"}
        assert found == set()

    def test_no_part_of_the_street_pulls_in_the_command_line(self, tmp_path):
        modules = imported_by(
            "import speccheck.uses.check, speccheck.report.text, speccheck.report.plain", tmp_path
        )
        assert heavy(modules, "typer", "click", "speccheck.cli", "speccheck.cli.app") == set()


def _stale() -> list[str]:
    from speccheck.tables.areas import all_areas
    from speccheck.tables.compiled import stale

    return stale(all_areas())


def test_compiled_tables_and_packs_are_fresh():
    # python -m speccheck.tables refreshes them
    assert _stale() == []


@pytest.mark.parametrize("file", sorted(generated()))
def test_published_schemas_are_fresh(file):
    # python -m speccheck.schemas refreshes them
    assert (schemas_folder() / file).read_text("utf-8") == generated()[file], file


def test_no_published_schema_is_left_over():
    assert {path.name for path in schemas_folder().glob("*.json")} == set(generated())


def test_every_start_document_and_example_fits_the_published_schema():
    import jsonschema

    validator = jsonschema.Draft202012Validator(json.loads(generated()["document.schema.json"]))
    folders = (ROOT / "examples", ROOT / "rules" / "starts")
    documents = [
        (path, data)
        for folder in folders
        for path in folder.rglob("*.yaml")
        if "unreadable" not in path.stem and isinstance(data := yaml.safe_load(path.read_text("utf-8")), dict)
        and "assemblies" in data
    ]  # fmt: skip
    assert documents
    for path, data in documents:
        plain = json.loads(json.dumps(data, default=str))
        assert [error.message for error in validator.iter_errors(plain)] == [], path


MACHINE = re.compile(
    r"(?<![\w.])/(?:home|root|tmp|opt|work|Users)/|\b[A-Z]:\\Users\\|[\w.+-]+@[\w-]+\.[a-z]{2,}\b"
)
"""A folder of somebody's machine, or somebody's address."""


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("see /home/someone/wall.yaml", True),
        ("in /tmp/out", True),
        ("C:\\Users\\someone", True),
        ("write to someone@example.org", True),
        ("https://example.org/home/page", False),
        ("north-wall.yaml@2", False),
        ("rules/tmp.yaml", False),
    ],
)
def test_what_counts_as_a_machine_or_a_person(text, found):
    assert bool(MACHINE.search(text)) is found


def test_nothing_names_a_machine_or_a_person():
    # What ships and what explains it tells nothing of where and by whom it was made (house rule).
    kinds = (".py", ".yaml", ".yml", ".md", ".json", ".j2", ".csv", ".txt", ".toml")
    texts = [
        path
        for folder in ("speccheck", "rules", "examples", "schemas")
        for path in (ROOT / folder).rglob("*")
        if path.suffix in kinds
    ]
    texts += [ROOT / "README.md", ROOT / "DEVELOPERS.md", ROOT / "pyproject.toml"]
    assert len(texts) > 100
    assert [name(path) for path in texts if MACHINE.search(path.read_text("utf-8"))] == []
