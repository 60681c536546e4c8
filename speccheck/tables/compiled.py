"""The compiled copy of readable tables: YAML is the truth, JSON beside it loads fast.

An *area* is a named set of YAML files and a function that turns what they hold into plain data. Its compiled
copy lies at ``rules/compiled/<area>.json`` and carries a fingerprint of the files it was made from and of the
form it has. Loading hashes the files: when the fingerprint matches, the copy is used; when it does not, the YAML
is read, which is slow but right. Loading never writes. ``python -m speccheck.tables`` writes the copies; with
``--check`` it names the stale ones.
"""

import json
import os
from collections.abc import Callable, Iterable, Sequence
from hashlib import blake2b
from pathlib import Path
from typing import Any, NamedTuple, TypeAlias

from speccheck.shelf import rules_folder

__all__ = [
    "FORM",
    "JSON",
    "Area",
    "Build",
    "Read",
    "compile_area",
    "compiled_file",
    "load_area",
    "read_area",
    "stale",
]

FORM = 5
"""Number of the form that compiled copies have. Count it up whenever a build gives other data from the same YAML:
copies that another speccheck wrote are then passed over, and the YAML is read."""

JSON: TypeAlias = dict[str, "JSON"] | list["JSON"] | str | int | float | bool | None
"""Plain data, as JSON knows it."""

Build: TypeAlias = Callable[[dict[str, Any]], Any]
"""From ``{file name relative to the rules folder: what its YAML holds}`` to the plain data of the area."""


class Area(NamedTuple):
    """One compiled area: its name, the YAML files it is made from, and how.

    Attributes:
        name: path of the compiled copy below ``rules/compiled``, without ``.json``; ``/`` makes a folder.
        sources: the YAML files, in any order.
        build: turns ``{relative file name: content}`` into plain JSON data; must be deterministic.
    """

    name: str
    sources: tuple[Path, ...]
    build: Build


class Read(NamedTuple):
    """The data of an area, and whether they come from a compiled copy."""

    content: Any
    compiled: bool


def load_area(name: str, sources: Iterable[Path], build: Build, rules: Path | None = None) -> Any:
    """Return the data of an area, as :func:`read_area` does, whichever way they came."""
    return read_area(name, sources, build, rules).content


def read_area(name: str, sources: Iterable[Path], build: Build, rules: Path | None = None) -> Read:
    """Return the data of an area, from its compiled copy when that is fresh, else from the YAML, and which it was.

    Args:
        name: name of the area.
        sources: the YAML files it is made from.
        build: turns ``{relative file name: content}`` into plain JSON data.
        rules: the rules folder; the shipped one when not given.

    Raises:
        OSError: when a source file cannot be read.
        ValueError: when a source file is not YAML, or a mapping in it repeats a key.
    """
    folder = rules or rules_folder()
    texts = _read(folder, sources)
    copy = _fresh_copy(compiled_file(name, folder), _fingerprint(texts))
    return Read(copy["content"], True) if copy is not None else Read(build(_parse(texts)), False)


def compile_area(area: Area, rules: Path | None = None) -> Path:
    """Write the compiled copy of an area and return its path; the file is replaced in one step."""
    import tempfile

    folder = rules or rules_folder()
    target = compiled_file(area.name, folder)
    target.parent.mkdir(parents=True, exist_ok=True)
    handle, draft = tempfile.mkstemp(dir=target.parent, prefix=target.name, suffix=".tmp")
    try:
        with os.fdopen(handle, "wb") as stream:
            stream.write(_compiled_bytes(area, folder))
        Path(draft).chmod(0o644)
        Path(draft).replace(target)
    except BaseException:
        Path(draft).unlink(missing_ok=True)
        raise
    return target


def stale(areas: Sequence[Area], rules: Path | None = None) -> list[str]:
    """Return the names of the areas whose compiled copy is missing or is not, byte for byte, a fresh one."""
    folder = rules or rules_folder()
    return [area.name for area in areas if not _is_current(area, folder)]


def compiled_file(name: str, rules: Path | None = None) -> Path:
    """Return where the compiled copy of an area lies."""
    return (rules or rules_folder()) / "compiled" / f"{name}.json"


def _is_current(area: Area, folder: Path) -> bool:
    try:
        return compiled_file(area.name, folder).read_bytes() == _compiled_bytes(area, folder)
    except FileNotFoundError:
        return False


def _compiled_bytes(area: Area, folder: Path) -> bytes:
    texts = _read(folder, area.sources)
    content = area.build(_parse(texts))
    return _written({"content": content, "fingerprint": _fingerprint(texts)}).encode()


def _written(document: dict[str, Any]) -> str:
    """Write the document with one record of its content on each line, so that a change touches few lines."""
    content = document["content"]
    if not isinstance(content, dict):
        return _line(document) + "\n"
    records = ",\n".join(f"{_line(key)}:{_line(content[key])}" for key in sorted(content))
    return f'{{"fingerprint":{_line(document["fingerprint"])},"content":{{\n{records}\n}}}}\n'


def _line(value: object) -> str:
    return json.dumps(value, sort_keys=True, ensure_ascii=False, separators=(",", ":"), allow_nan=False)


def _fresh_copy(path: Path, fingerprint: str) -> dict[str, Any] | None:
    """Return the compiled document, or None when it is missing, broken or made from other files."""
    try:
        text = path.read_bytes()
    except OSError:
        return None
    if fingerprint.encode() not in text[:200]:
        return None
    try:
        document = json.loads(text)
    except ValueError:
        return None
    return document if isinstance(document, dict) and document.get("fingerprint") == fingerprint else None


def _read(folder: Path, sources: Iterable[Path]) -> dict[str, bytes]:
    named = {_relative(folder, source): source for source in sources}
    return {name: named[name].read_bytes() for name in sorted(named)}


def _relative(folder: Path, source: Path) -> str:
    try:
        return source.relative_to(folder).as_posix()
    except ValueError:
        return source.name


def _fingerprint(texts: dict[str, bytes]) -> str:
    # A checkout may turn line ends into CRLF; the table stays the same, so the fingerprint must too.
    digest = blake2b(f"form {FORM}\0".encode(), digest_size=16)
    for name, text in texts.items():
        plain = text.replace(b"\r\n", b"\n")
        digest.update(f"{name}\0{len(plain)}\0".encode())
        digest.update(plain)
    return digest.hexdigest()


def _parse(texts: dict[str, bytes]) -> dict[str, Any]:
    from speccheck.tables.readable import read_yaml

    return {name: read_yaml(text, name) for name, text in texts.items()}
