"""What all tests share: documents from text, their facts by name, no network, and golden snapshots.

A golden snapshot is a file under ``snapshots/`` beside the test that names it. After a wanted change of the output
rewrite them with ``pytest tests/report tests/cli --update-snapshots`` and read the difference before committing it.
"""

import socket
from collections.abc import Callable, Iterator, Mapping
from datetime import date
from pathlib import Path
from typing import Any, NoReturn

import pytest
import yaml

from speccheck.survey import Fact, Surveyed, survey
from speccheck.uses.check import KNOWN, Checked, check

DAY = date(2026, 1, 15)


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption(
        "--update-snapshots", action="store_true", help="rewrite the golden files under snapshots/"
    )


@pytest.fixture(autouse=True)
def _no_network(monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(*_: object, **__: object) -> NoReturn:
        raise AssertionError("something reaches for a network")

    # on the class, since others inherit from it
    monkeypatch.setattr(socket.socket, "__init__", refuse)
    monkeypatch.setattr(socket, "getaddrinfo", refuse)


class Facts(Mapping[str, Fact]):
    """Facts by place and name, such as ``wall.effective_r`` or ``wall.fill.resistance``."""

    def __init__(self, surveyed: Surveyed) -> None:
        self.surveyed = surveyed
        self._by_name = {f"{f.place}.{f.name.partition('.')[2]}": f for f in surveyed.facts()}

    def __getitem__(self, name: str) -> Fact:
        return self._by_name[name]

    def __iter__(self) -> Iterator[str]:
        return iter(self._by_name)

    def __len__(self) -> int:
        return len(self._by_name)

    def value(self, name: str) -> Any:
        """Return the value; a fact without one fails the test with its reasons."""
        fact = self[name]
        assert fact.value is not None, (name, fact.origin, fact.method, fact.missing)
        return fact.value


def _read(text: str) -> dict[str, Any]:
    data = yaml.safe_load(text)
    assert isinstance(data, dict)
    return data


@pytest.fixture(scope="session")
def loaded() -> Callable[..., Any]:
    """Return what loads a document from text (or plain data), as the commands do."""
    from speccheck.document.load import load_bytes, load_data

    def load(given: str | dict[str, Any], folder: Path = Path()) -> Any:
        if isinstance(given, str):
            return load_bytes(given.encode(), "document.yaml", KNOWN, folder)
        return load_data(given, "document.yaml", KNOWN, folder)

    return load


@pytest.fixture(scope="session")
def facts_of(loaded: Callable[..., Any]) -> Callable[..., Facts]:
    """Return what surveys a document."""

    def facts(given: str | dict[str, Any], folder: Path = Path()) -> Facts:
        return Facts(survey(loaded(given, folder).document, folder))

    return facts


@pytest.fixture(scope="session")
def checked(loaded: Callable[..., Any]) -> Callable[..., Checked]:
    """Return what checks a document on a fixed day."""

    def run(given: str | dict[str, Any], extra: Any = (), today: date = DAY) -> Checked:
        return check(loaded(given), extra, today)

    return run


@pytest.fixture(scope="session")
def steady_weather(tmp_path_factory: pytest.TempPathFactory) -> Callable[[float], Path]:
    """Return what writes an EPW file of one temperature all year (dew point 2 K below) and gives its folder."""
    made: dict[float, Path] = {}
    days = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)

    def write(temperature: float) -> Path:
        if temperature not in made:
            folder = tmp_path_factory.mktemp("weather")
            lines = [
                "LOCATION,Nowhere,XX,XXX,made up,000000,45.0,8.0,1.0,120.0",
                *["DESIGN CONDITIONS,0"] * 7,
            ]
            lines += [
                f"2001,{month},{day},{hour},0,?,{temperature:.4f},{temperature - 2:.4f},70,101325" + ",0" * 25
                for month, count in enumerate(days, 1)
                for day in range(1, count + 1)
                for hour in range(1, 25)
            ]
            (folder / "steady.epw").write_text("\n".join(lines) + "\n")
            made[temperature] = folder
        return made[temperature]

    return write


@pytest.fixture
def snapshot(request: pytest.FixtureRequest) -> Callable[[str, str], None]:
    """Return what holds a text against its golden file, or rewrites the file where asked to."""
    folder = Path(request.node.path).parent / "snapshots"

    def compare(name: str, text: str) -> None:
        path = folder / name
        if request.config.getoption("--update-snapshots"):
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text, "utf-8")
        assert path.is_file(), f"no golden file {path.name}; write it with --update-snapshots"
        assert text == path.read_text("utf-8"), f"{path.name} differs; --update-snapshots rewrites it"

    return compare
