"""The compiled copies: fresh, deterministic, never trusted when stale, never written at load."""

import json
import shutil
from pathlib import Path

import pytest

from speccheck.shelf import rules_folder
from speccheck.tables import compiled
from speccheck.tables.__main__ import main
from speccheck.tables.areas import all_areas
from speccheck.tables.compiled import Area, compile_area, compiled_file, load_area, read_area, stale
from speccheck.tables.materials import material
from speccheck.tables.readable import read_yaml


def _content(files):
    return {key: value for content in files.values() for key, value in content.items()}


@pytest.fixture
def folder(tmp_path):
    (tmp_path / "colours.yaml").write_text("red: {hue: 0}\nblue: {hue: 240}\n", encoding="utf-8")
    return tmp_path


@pytest.fixture
def area(folder):
    return Area("paint/colours", (folder / "colours.yaml",), _content)


def _load(area, folder):
    return load_area(area.name, area.sources, area.build, folder)


def test_the_shipped_copies_are_fresh():
    assert stale(all_areas()) == []


def test_area_names_are_unique():
    names = [area.name for area in all_areas()]
    assert len(names) == len(set(names))


def test_without_a_copy_the_yaml_is_read_and_nothing_is_written(area, folder):
    assert _load(area, folder) == {"red": {"hue": 0}, "blue": {"hue": 240}}
    assert sorted(path.name for path in folder.rglob("*")) == ["colours.yaml"]


def test_a_fresh_copy_is_used_in_place_of_the_yaml(area, folder):
    path = compile_area(area, folder)
    document = json.loads(path.read_text(encoding="utf-8"))
    document["content"]["red"]["hue"] = 1
    path.write_text(json.dumps(document), encoding="utf-8")
    assert _load(area, folder)["red"] == {"hue": 1}
    assert stale([area], folder) == ["paint/colours"]


def test_a_changed_yaml_wins_over_its_copy(area, folder):
    compile_area(area, folder)
    (folder / "colours.yaml").write_text("red: {hue: 5}\n", encoding="utf-8")
    before = compiled_file(area.name, folder).read_bytes()
    assert _load(area, folder) == {"red": {"hue": 5}}
    assert compiled_file(area.name, folder).read_bytes() == before
    assert stale([area], folder) == ["paint/colours"]


def test_a_copy_in_an_older_form_is_passed_over(area, folder, monkeypatch):
    path = compile_area(area, folder)
    document = json.loads(path.read_text(encoding="utf-8"))
    document["content"]["red"]["hue"] = 1  # tells the copy from the YAML
    path.write_text(json.dumps(document), encoding="utf-8")
    assert read_area(area.name, area.sources, area.build, folder) == (
        {"red": {"hue": 1}, "blue": {"hue": 240}},
        True,
    )
    monkeypatch.setattr(compiled, "FORM", compiled.FORM + 1)
    assert read_area(area.name, area.sources, area.build, folder) == (
        {"red": {"hue": 0}, "blue": {"hue": 240}},
        False,
    )
    assert stale([area], folder) == ["paint/colours"]
    compile_area(area, folder)
    assert stale([area], folder) == []


@pytest.mark.parametrize("damage", [b"", b"{", b"[]", b"\xff\xfe", b'{"fingerprint": "x"}'])
def test_a_damaged_copy_is_passed_over(area, folder, damage):
    path = compile_area(area, folder)
    path.write_bytes(damage)
    assert _load(area, folder) == {"red": {"hue": 0}, "blue": {"hue": 240}}


def test_a_copy_cut_after_the_fingerprint_is_passed_over(area, folder):
    path = compile_area(area, folder)
    path.write_bytes(path.read_bytes()[:-5])
    assert _load(area, folder) == {"red": {"hue": 0}, "blue": {"hue": 240}}


def test_compiling_twice_gives_the_same_bytes_one_record_a_line(area, folder):
    first = compile_area(area, folder).read_bytes()
    assert compile_area(area, folder).read_bytes() == first
    lines = first.decode().splitlines()
    assert lines[1:3] == ['"blue":{"hue":240},', '"red":{"hue":0}']
    assert first.endswith(b"\n")
    assert [path.name for path in compiled_file(area.name, folder).parent.iterdir()] == ["colours.json"]


def test_line_ends_do_not_make_a_copy_stale(area, folder):
    compile_area(area, folder)
    path = folder / "colours.yaml"
    path.write_bytes(path.read_bytes().replace(b"\n", b"\r\n"))
    assert stale([area], folder) == []


def test_the_order_of_sources_does_not_matter_but_their_names_do(folder):
    (folder / "more.yaml").write_text("green: {hue: 120}\n", encoding="utf-8")
    one, two = folder / "colours.yaml", folder / "more.yaml"
    compile_area(Area("all", (one, two), _content), folder)
    assert stale([Area("all", (two, one), _content)], folder) == []
    renamed = folder / "zz.yaml"
    two.rename(renamed)
    assert stale([Area("all", (one, renamed), _content)], folder) == ["all"]


def test_a_failed_build_leaves_the_old_copy_and_no_draft(area, folder):
    before = compile_area(area, folder).read_bytes()

    def broken(_files):
        raise RuntimeError

    with pytest.raises(RuntimeError):
        compile_area(Area(area.name, area.sources, broken), folder)
    parent = compiled_file(area.name, folder).parent
    assert [path.read_bytes() for path in parent.iterdir()] == [before]


@pytest.mark.parametrize(
    ("text", "words"),
    [
        (b"a: 1\nb: 2\na: 3\n", "colours.yaml:3:1: the key 'a' is given twice"),
        (b"a: {x: 1, x: 2}\n", "colours.yaml:1:11: the key 'x' is given twice"),
        (b"a: [1\n", "colours.yaml:2:1:"),
        (b"a: !!python/object:object {}\n", "colours.yaml:1:4:"),
    ],
)
def test_a_faulty_yaml_names_file_line_and_column(text, words):
    with pytest.raises(ValueError, match=r"colours\.yaml") as caught:
        read_yaml(text, "colours.yaml")
    assert str(caught.value).startswith(words)


@pytest.fixture
def copied_rules(tmp_path):
    rules = tmp_path / "rules"
    for name in ("materials", "construction", "compiled"):
        shutil.copytree(rules_folder() / name, rules / name)
    return rules


def _edit(path: Path, old: str, new: str) -> None:
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), encoding="utf-8")


def test_a_changed_material_is_honoured_without_a_rebuild(copied_rules):
    _edit(copied_rules / "materials" / "wood.yaml", "dry-cup: 0.8\n", "dry-cup: 0.9\n")
    changed = material("osb-11mm", copied_rules)
    shipped = material("osb-11mm")
    assert changed.rows[0].vapour.dry_cup.value / shipped.rows[0].vapour.dry_cup.value == pytest.approx(
        0.9 / 0.8
    )


def test_the_command_checks_writes_and_checks_again(copied_rules, capsys, monkeypatch):
    monkeypatch.setattr(
        "speccheck.tables.areas.OWNERS", ("speccheck.tables.materials", "speccheck.tables.construction")
    )
    arguments = ["--rules", str(copied_rules)]
    assert main([*arguments, "--check"]) == 0
    _edit(copied_rules / "materials" / "wood.yaml", "dry-cup: 0.8\n", "dry-cup: 0.9\n")
    assert main([*arguments, "--check"]) == 1
    assert capsys.readouterr().out == "stale: materials/index\nstale: materials/wood\n"
    assert main(arguments) == 0
    assert main([*arguments, "--check"]) == 0


@pytest.mark.parametrize(
    ("file", "old", "new", "words"),
    [
        ("materials/wood.yaml", "dry-cup: 0.8\n", "dry-cup: -0.8\n", "greater than or equal to 0"),
        ("materials/wood.yaml", "low: 0.5\n", "low: 0.5\n          lowest: 0.5\n", "Extra inputs"),
        ("materials/gypsum.yaml", "value: 0.16, low: 0.16", "value: 0.15, low: 0.16", "lies outside"),
        (
            "materials/gypsum.yaml",
            "[ashrae-thermal,",
            "[no-such-source,",
            "no-such-source is not in sources.yaml",
        ),
        ("construction/films.yaml", "how: memory, ", "", "Field required"),
        ("construction/sealing.yaml", "osb: good", "osb: fine", "sealing.yaml"),
    ],
)
def test_the_command_refuses_a_faulty_table(copied_rules, capsys, file, old, new, words):
    _edit(copied_rules / file, old, new)
    assert main(["--rules", str(copied_rules)]) == 1
    assert words in capsys.readouterr().out
