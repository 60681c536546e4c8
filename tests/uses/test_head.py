"""What the head of a file says it is, whatever else is wrong with the file; held against readers of YAML and JSON."""

import json
from pathlib import Path

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from speccheck.uses.folder import documents_in, look_in
from speccheck.uses.head import is_own_report, top_keys

KEYS = ("speccheck", "assemblies")
ROOT = Path(__file__).resolve().parents[2]
FAULTY = {
    "another key": "speccheck: 1\nassembly:\n  wall: {kind: wall}\n",
    "broken below": "speccheck: 1\nproject: {name: [\nassemblies:\n",
    "only that": "speccheck: 1\n",
    "no version": "speccheck:\nassemblies: {}\n",
    "no space": "speccheck:1\nassemblies: {}\n",
    "indented": "\n  # a wall\n  speccheck: 1\n  assembly: {}\n",
    "marked": "%YAML 1.2\n--- # begins\n'speccheck' : 1\nassembly: {}\n",
    "beside the mark": "--- {speccheck: 1, assembly: {}}\n",
    "in braces": "{assembly: {wall: {kind: it's}}, speccheck: 1}\n",
    "JSON": '{"project": {"name": "a \\" } b"}, "speccheck": 1, "assembly": {}}',
    "broken JSON": '{"speccheck": 1 "assembly": {',
    "windows": "# a\r\nspeccheck: 1\r\nassembly: {}\r\n",
}
OTHERS = {
    "pack": "pack: local/mine\nstarts:\n  wall:\n    speccheck: 1\n    assemblies: {}\nrules: []\n",
    "JSON pack": '{"pack": "local/mine", "starts": {"wall": {"speccheck": 1, "assemblies": {}}}}',
    "product": "name: Board\nfamily: osb\n",
    "report": '{"speccheck-report": 1, "documents": []}',
    "comparison": '{\n "speccheck-compare": 1, "pairs": []}',
    "workflow": "jobs:\n  speccheck:\n    steps: []\n",
    "hooks": "repos:\n- repo: local\n  hooks:\n  - id: speccheck\n    name: speccheck\n",
    "list": "- speccheck: 1\n",
    "words": "about: 'speccheck: 1'\ntext: |\n  speccheck: 1\n",
    "JSON words": '{"about": "{ \\"speccheck\\": 1", "other": ["speccheck"]}',
    "longer": "speccheck-notes: 1\nmy-speccheck: 2\n",
    "empty": "",
    "comment": "# speccheck: 1\n",
}


@pytest.mark.parametrize("text", FAULTY.values(), ids=FAULTY)
def test_a_file_that_says_it_is_a_document_is_one_whatever_else_is_wrong(tmp_path, text):
    path = tmp_path / "a.yaml"
    path.write_bytes(text.encode())
    assert look_in([tmp_path]) == ([path], [])
    assert documents_in([path], documents_only=True) == [path]


@pytest.mark.parametrize("text", OTHERS.values(), ids=OTHERS)
def test_what_says_something_else_is_left_alone(tmp_path, text):
    path = tmp_path / "a.yaml"
    path.write_text(text, "utf-8")
    assert documents_in([tmp_path]) == []
    assert documents_in([path], documents_only=True) == []


def test_no_pack_table_or_product_that_ships_is_swept_in_and_every_start_is():
    starts = {path for path in (ROOT / "rules" / "starts").glob("*.yaml") if path.name != "product.yaml"}
    assert set(documents_in([ROOT / "rules"])) == starts
    assert documents_in([ROOT / "examples" / "studio" / "products"]) == []
    assert documents_in([ROOT / "schemas"]) == []


NAMES = st.sampled_from([*KEYS, "project", "a-b", "speccheck-report"])
TREES = st.recursive(
    st.none()
    | st.integers()
    | st.text(max_size=20)
    | st.sampled_from(["speccheck: 1", '{"speccheck": 1', "]"]),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(NAMES, inner, max_size=4),
    max_leaves=12,
)


@given(st.dictionaries(NAMES, TREES, min_size=1, max_size=4), st.sampled_from([None, 1, 4]))
def test_it_finds_in_json_what_a_reader_finds(data, indent):
    text = json.dumps(data, indent=indent).encode()
    assert top_keys(text, KEYS) == set(KEYS) & set(data)


@given(st.dictionaries(NAMES, TREES, min_size=1, max_size=4))
def test_it_finds_in_yaml_what_a_reader_finds(data):
    text = yaml.safe_dump(data, sort_keys=False)
    assert yaml.safe_load(text) == data
    assert top_keys(text.encode(), KEYS) == set(KEYS) & set(data)


@given(st.binary(max_size=200))
def test_any_bytes_have_some_answer(data):
    assert top_keys(data, KEYS) <= set(KEYS)
    assert is_own_report(data) in (True, False)
