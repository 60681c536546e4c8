"""The examples of a rule: each a document run through the whole street, held against what the rule says of it."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any

from speccheck.document import Unreadable
from speccheck.judgement.finding import Finding, Level
from speccheck.judgement.pack import Pack, Rule
from speccheck.uses.change import ChangeError, changed
from speccheck.uses.check import check_data
from speccheck.uses.trial import within_an_example

__all__ = ["EXAMPLE_DAY", "Example", "examples_of", "run_example"]

EXAMPLE_DAY = date(2026, 1, 15)
"""The day on which examples are judged, so that waivers in them do not age."""


@dataclass(frozen=True, slots=True)
class Example:
    """One example with the rule and pack it belongs to."""

    pack: Pack
    rule: Rule
    plain: Mapping[str, Any]

    @property
    def name(self) -> str:
        """Rule and example."""
        return f"{self.rule.id}: {self.plain['name']}"

    @property
    def address(self) -> str:
        """Where it stands in the file of its pack."""
        return f"{self.rule.id}.examples[{self.rule.examples.index(self.plain)}]"

    def document(self) -> dict[str, Any]:
        """Return the example's document as plain data."""
        start = self.plain.get("document") or self.pack.starts[self.plain["start"]]
        return changed(start, self.plain.get("change", {}))


def examples_of(pack: Pack) -> Iterator[Example]:
    """Yield the examples of all rules of a pack."""
    return (Example(pack, rule, plain) for rule in pack.rules for plain in rule.examples)


def run_example(example: Example) -> str:
    """Return nothing where the example comes out as it says, else what is wrong with it."""
    start = example.plain.get("start")
    if not example.plain.get("document") and start not in example.pack.starts:
        return f"{example.name}: no start document {start!r}"
    try:
        data = example.document()
        if example.pack.adopt:
            _adopt(data, example.pack.adopt)
        with within_an_example():
            checked = check_data(data, example.name, (example.pack,), EXAMPLE_DAY)
    except (ChangeError, Unreadable) as error:
        return f"{example.name}: {error}"
    return _compare(example, [f for f in checked.findings if f.rule == example.rule.id])


def _adopt(data: dict[str, Any], edition: str) -> None:
    project = data.setdefault("project", {})
    if isinstance(project, dict):  # anything else is refused when the document is read
        project.setdefault("adopted", [edition])


def _compare(example: Example, findings: list[Finding]) -> str:
    wanted = example.plain["expect"]
    place, level, strength = wanted["place"], wanted["level"], wanted.get("strength")
    here = [finding for finding in findings if finding.place == place]
    if level == Level.NOT_APPLICABLE:
        return (
            ""
            if not here
            else f"{example.name}: expected nothing at {place}, got {here[0].level}: {here[0].reason}"
        )
    if not here:
        elsewhere = ", ".join(f"{f.level} at {f.place}" for f in findings) or "no finding"
        return f"{example.name}: expected {level} at {place}, got {elsewhere}"
    got = here[0]
    if got.level != level or (strength and got.strength != strength):
        expected = f"{level} {strength or ''}".strip()
        return f"{example.name}: expected {expected} at {place}, got {got.severity}: {got.reason}"
    return ""
