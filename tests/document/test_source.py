"""Reading a document: data and marks, every trap told with its place, and nothing that breaks the reader."""

import json
import os

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from speccheck.document import nodes
from speccheck.document.problem import Mark, Unreadable
from speccheck.document.source import Source, read_file, read_source
from speccheck.document.text import LARGEST

WALL = """\
# A wall
speccheck: 1
project: {name: "No 12", use: dwelling, adopted: [us/irc-2021]}
assemblies:
  north-wall:
    layers:
      - {id: lining, thickness: 12.7 mm}
      - id: fill
        thickness: 5.5 in
        framed: true
        note: |
          two
          lines
    share: 0.23
    curve: {25 %: 0.9 perm}
"""


@pytest.fixture(params=["CSafeLoader", "SafeLoader"])
def loader(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> str:
    """Run a test on the C parser and on the plain Python one."""
    monkeypatch.setattr(nodes, "_LOADER", getattr(yaml, request.param))
    return str(request.param)


def read(text: str, name: str = "wall.yaml") -> Source:
    return read_source(text.encode(), name)


def problems(text: str) -> list[tuple[str, Mark | None, str]]:
    try:
        found = read(text).problems
    except Unreadable as error:
        found = error.problems
    return [(problem.where, problem.mark, problem.what) for problem in found]


@pytest.mark.usefixtures("loader")
def test_data_is_what_a_plain_load_gives():
    source = read(WALL)
    assert source.problems == ()
    assert source.data == yaml.safe_load(WALL)
    assert list(source.data) == ["speccheck", "project", "assemblies"]


@pytest.mark.usefixtures("loader")
def test_marks_of_values_and_keys():
    source = read(WALL)
    layer = ("assemblies", "north-wall", "layers", 1)
    assert source.mark(("speccheck",)) == Mark(2, 12)
    assert source.mark(("project", "adopted", 0)) == Mark(3, 51)
    assert source.mark(layer) == Mark(8, 9)
    assert source.key_mark((*layer, "thickness")) == Mark(9, 9)
    assert source.mark((*layer, "thickness")) == Mark(9, 20)
    assert source.mark((*layer, "no-such", "key")) == Mark(8, 9)
    assert source.key_mark((*layer, "no-such")) == Mark(8, 9)
    assert source.mark(()) == Mark(2, 1)
    assert source.mark(("assemblies", "north-wall", "curve", "25 %")) == Mark(15, 19)


def test_data_from_no_file_has_no_marks():
    source = Source(data={"a": 1}, marks={}, name="changed")
    assert source.mark(("a",)) is None
    assert source.key_mark(("a",)) is None


@pytest.mark.usefixtures("loader")
def test_every_value_has_a_mark():
    source = read(WALL)

    def walk(value, path):
        assert path in source.marks
        items = (
            value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
        )
        for key, inner in items:
            walk(inner, (*path, key))

    walk(source.data, ())


@pytest.mark.usefixtures("loader")
@pytest.mark.parametrize(
    ("text", "where", "line", "column", "what"),
    [
        ("a: 1\nb: 2\na: 3", "a", 3, 1, "the key 'a' stands here a second time (first in line 1)"),
        ("a: {b: 1, b: 2}", "a.b", 1, 11, "the key 'b' stands here a second time (first in line 1)"),
        ("a: no", "a", 1, 4, "'no' is read as false by some YAML readers and as text by others"),
        ("a: [1, On]", "a[1]", 1, 8, "'On' is read as true by some YAML readers and as text by others"),
        ("a: 12:30", "a", 1, 4, "'12:30' may be read as a number in sixties by some YAML readers"),
        ("zip: 02134", "zip", 1, 6, "'02134' begins with a zero; YAML readers disagree on it"),
        ("a: 5e-11", "a", 1, 4, "'5e-11' is a number with an exponent and no unit; YAML readers disagree on it"),
        ("a: .nan", "a", 1, 4, "'.nan' is not a finite number"),
        ("a: !!python/object:os.system x", "a", 1, 4, "a tag (!!python/object:os.system) stands here"),
        ("a: !thing {b: 1}", "a", 1, 4, "a tag (!thing) stands here"),
        ("a: &x 1", "a", 1, 4, "an anchor (&x) stands here"),
        ("a: &x [1]", "a", 1, 4, "an anchor (&x) stands here"),
        ("a:\n  <<: {b: 1}", "a", 2, 3, "a merge key (<<) stands here"),
        ("a: 1\n---\nb: 1", "", 2, 1, "a second document begins here"),
        ("? [a]\n: 1", "", 1, 3, "a list or mapping stands where a key is wanted"),
        ("~: 1", "", 1, 1, "a value stands without a key"),
        ('a: "\\e[31m"', "a", 1, 4, "an unprintable character stands in this text"),
    ],
)  # fmt: skip
def test_faults_that_leave_the_rest_readable(text: str, where: str, line: int, column: int, what: str):
    assert problems(text) == [(where, Mark(line, column), what)]
    assert isinstance(read(text).data, dict)


@pytest.mark.usefixtures("loader")
@pytest.mark.parametrize(
    ("text", "line", "column", "what"),
    [
        ("- a", 1, 1, "the file holds a list"),
        ("just words", 1, 1, "the file holds one value"),
        ("*x", 1, 1, "the file holds a reference"),
        ("\ta: 1", 1, 1, "a tab stands where only spaces may"),
        ("a:\n\tb: 1", 2, 1, "a tab stands where only spaces may"),
        ("a: b: c", 1, 5, "a colon and a space stand where no key can begin"),
        ("a: 1\n  b: 2", 2, 4, "a colon and a space stand where no key can begin"),
        ('x: 1\na: "b\nc: 1', 2, 4, "a quote is opened and never closed"),
        ("a: [1\nb: 2", 1, 4, "a list in brackets is not closed or lacks a comma"),
        ("a: {x: 1]", 1, 4, "a mapping in braces is not closed or lacks a comma"),
        ("a: @x", 1, 4, "a value may not begin with @"),
        ("a: 1\n- b", 2, 1, "the indentation does not fit the lines above"),
        ("a: " + "[" * 40, 1, 35, "the nesting is deeper than 32 levels"),
        ("a: \x1b[31m", 1, 4, "a control character (code 27) stands in the file"),
        ("a: b\x00", 1, 5, "a control character (code 0) stands in the file"),
    ],
)
def test_faults_that_end_the_reading(text: str, line: int, column: int, what: str):
    with pytest.raises(Unreadable) as caught:
        read(text)
    (problem,) = caught.value.problems
    assert (problem.mark, problem.what) == (Mark(line, column), what)
    assert problem.do
    assert problem.text().startswith(f"wall.yaml:{line}:{column}: {what}.")


@pytest.mark.parametrize("text", ["", " \n", "# only a comment\n", "---\n", "null"])
def test_an_empty_file_is_told(text: str):
    with pytest.raises(Unreadable, match="the file"):
        read(text)


def test_all_problems_come_at_once_also_before_a_syntax_error():
    found = problems("a: no\nb: 012\na: 1\nc: [1\nd: 2")
    assert [mark.line for _, mark, _ in found if mark] == [1, 2, 3, 4]


def test_values_at_traps_stay_text_and_repeated_keys_keep_the_first():
    assert read("a: no\nb: 5e-11\nc: 012\na: other\nd: *x\ne: ~").data == {
        "a": "no",
        "b": "5e-11",
        "c": "012",
        "d": "*x",
        "e": None,
    }


def test_quoted_words_are_text():
    assert read("a: \"no\"\nb: '012'\n\"c\": '1e3'").data == {"a": "no", "b": "012", "c": "1e3"}
    assert read("a: \"no\"\nb: '012'").problems == ()


def test_keys_are_their_text():
    assert read("2021: a\n25 %: b\ntrue: c\n1.50: d\nno: e").data == {
        "2021": "a",
        "25 %": "b",
        "true": "c",
        "1.50": "d",
        "no": "e",
    }


def test_what_stands_under_a_refused_key_is_left_out_but_still_read():
    source = read("a: {b: 1}\na: {c: no, d: {e: [012]}}\nf: 2")
    assert source.data == {"a": {"b": 1}, "f": 2}
    assert [problem.mark for problem in source.problems] == [Mark(2, 1), Mark(2, 8), Mark(2, 20)]
    assert ("a", "c") not in source.marks


def test_an_alias_bomb_costs_nothing():
    levels = "\n".join(f"a{n}: &a{n} [{', '.join([f'*a{n - 1}'] * 9)}]" for n in range(1, 12))
    source = read(f"a0: &a0 [x]\n{levels}\n")
    assert len(source.marks) < 150
    assert any("reference (*a10)" in problem.what for problem in source.problems)


def test_limits():
    with pytest.raises(Unreadable, match="bytes"):
        read_source(b"a: " + b"x" * LARGEST, "wall.yaml")
    with pytest.raises(Unreadable, match="more than 50000 values"):
        read("a: [" + "1," * 50_001 + "]")
    with pytest.raises(Unreadable) as caught:
        read("a: [" + "no," * 1000 + "]")
    assert len(caught.value.problems) == nodes.MOST_PROBLEMS + 1
    deepest = "a: " + "[" * 31 + "]" * 31
    assert read(deepest).problems == ()


@pytest.mark.parametrize(
    ("data", "what"),
    [
        (b"a: caf\xe9", "byte 7 (value 233) is not UTF-8"),
        ("a: 1".encode("utf-16"), "UTF-16"),
        ("a: 1".encode("utf-16-be"), "UTF-16"),
        ("a: 1".encode("utf-32-le"), "UTF-16"),
        (b"PK\x03\x04\x00", "control character"),
    ],
)
def test_other_encodings_are_told(data: bytes, what: str):
    with pytest.raises(Unreadable) as caught:
        read_source(data, "wall.yaml")
    assert what in caught.value.problems[0].what


def test_the_place_of_a_wrong_byte():
    with pytest.raises(Unreadable) as caught:
        read_source("a: ½\nb: ".encode() + b"\xff", "wall.yaml")
    assert caught.value.problems[0].mark == Mark(2, 4)


def test_byte_order_mark_and_windows_lines():
    source = read_source(b"\xef\xbb\xbfa: 1\r\nb: 2\r\n", "wall.yaml")
    assert source.data == {"a": 1, "b": 2}
    assert source.mark(("b",)) == Mark(2, 4)


@pytest.mark.usefixtures("loader")
def test_json_reads_as_json():
    text = '{\n\t"a":\t1.5e3, "b": "\\ud83d\\ude00 \\u00e9 \\\\ud83d\\\\ude00 \\/",\n\t"c": [true, null, -2, "no"]}'
    source = read(text, "wall.json")
    assert source.problems == ()
    assert source.data == json.loads(text)
    assert source.mark(("a",)) == Mark(2, 7)
    assert source.key_mark(("c",)) == Mark(3, 2)


def test_json_repeated_keys_are_found():
    assert problems('{"a": 1, "a": 2}') == [
        ("a", Mark(1, 10), "the key 'a' stands here a second time (first in line 1)")
    ]


def test_yaml_that_begins_with_a_brace_is_still_yaml():
    assert [what for _, _, what in problems("{a: 1e3}")] == [
        "'1e3' is a number with an exponent and no unit; YAML readers disagree on it"
    ]


def test_files(tmp_path):
    path = tmp_path / "wall.yaml"
    path.write_text(WALL, encoding="utf-8")
    assert read_file(path).data == yaml.safe_load(WALL)
    assert read_file(str(path)).name == str(path)


def test_files_that_cannot_be_read(tmp_path):
    def told(path) -> str:
        with pytest.raises(Unreadable) as caught:
            read_file(path)
        assert caught.value.problems[0].do
        return caught.value.problems[0].what

    assert told(tmp_path / "missing.yaml") == "there is no such file"
    assert told(tmp_path) == "this is a folder"
    assert "cannot be opened" in told("nul\x00.yaml")
    assert "cannot be opened" in told(tmp_path / ("x" * 5000))
    large = tmp_path / "large.yaml"
    with large.open("wb") as file:
        file.truncate(LARGEST + 1)
    assert told(large) == f"the file has {LARGEST + 1} bytes"


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no named pipes here")
def test_a_named_pipe_is_refused_without_waiting(tmp_path):
    pipe = tmp_path / "pipe.yaml"
    os.mkfifo(pipe)
    with pytest.raises(Unreadable, match="not an ordinary file"):
        read_file(pipe)


@pytest.mark.skipif(not hasattr(os, "geteuid") or os.geteuid() == 0, reason="may read every file")
def test_a_file_without_permission(tmp_path):
    path = tmp_path / "wall.yaml"
    path.write_text(WALL)
    path.chmod(0)
    with pytest.raises(Unreadable, match="may not be read"):
        read_file(path)


def read_or_told(data: bytes) -> bool:
    """Tell whether bytes gave a mapping or problems, each with words fit for a terminal."""
    try:
        source = read_source(data, "fuzz.yaml")
    except Unreadable as error:
        return bool(error.problems) and all(problem.text().isprintable() for problem in error.problems)
    return isinstance(source.data, dict) and all(problem.text().isprintable() for problem in source.problems)


@given(st.binary(max_size=200))
def test_any_bytes_are_read_or_told(data: bytes):
    assert read_or_told(data)


PIECES = ["a", "b", ": ", "\n", "  ", "- ", "[", "]", "{", "}", ",", "&x ", "*x", "!t ", "? ", "|", ">", '"', "'", "#", "---", "...", "~", "<<", "%", "\t", "é", "\\", "no", "1e3", "\u2028", "😀"]  # fmt: skip


@given(st.lists(st.sampled_from(PIECES), max_size=40))
@settings(max_examples=300)
def test_any_mixture_of_yaml_pieces_is_read_or_told(pieces: list[str]):
    assert read_or_told("".join(pieces).encode())


@given(st.integers(0, len(WALL) - 1), st.integers(0, 8), st.text(max_size=4))
@settings(max_examples=200)
def test_any_change_to_a_document_is_read_or_told(at: int, length: int, instead: str):
    assert read_or_told((WALL[:at] + instead + WALL[at + length :]).encode("utf-8", "replace"))


VALUES = st.recursive(
    st.none()
    | st.booleans()
    | st.integers(-(10**12), 10**12)
    | st.text(st.characters(exclude_categories=["Cc", "Cs"])),
    lambda inner: (
        st.lists(inner, max_size=4)
        | st.dictionaries(
            st.text(st.characters(exclude_categories=["Cc", "Cs"]), max_size=8), inner, max_size=4
        )
    ),
    max_leaves=12,
)


@given(
    st.dictionaries(st.text(st.characters(exclude_categories=["Cc", "Cs"]), max_size=8), VALUES, max_size=4)
)
@settings(max_examples=200)
def test_what_json_writes_reads_back(data: dict[str, object]):
    source = read_source(json.dumps(data, indent="\t").encode(), "wall.json")
    assert source.problems == ()
    assert source.data == data
