"""What the moisture rooms work on: one assembly with its paths, its films and both climates' pages."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from speccheck.document.assembly import Assembly
from speccheck.survey.convention import heat_flow
from speccheck.survey.fact import Fact, FactValue, Gap
from speccheck.survey.ledger import Page
from speccheck.survey.moisture.balance import Prepared, prepared
from speccheck.survey.moisture.climate import Year, year_of
from speccheck.survey.moisture.path import MoisturePath, paths_of
from speccheck.survey.moisture.rooms import rooms_of
from speccheck.survey.moisture.stepped import SteppedPath
from speccheck.survey.section import Section
from speccheck.tables.construction import films

__all__ = ["MONTHLY_BALANCE", "Case", "case_of"]

MONTHLY_BALANCE = "ISO 13788:2012, 6, monthly balance (from memory)"
"""The source of what rests on the monthly balance."""


@dataclass(frozen=True)
class Case:
    """What the rooms of this folder work on: the assembly's page and section, its paths, and the films of ISO 6946.

    One serves all rooms of an assembly, so that what they share is worked out once.
    """

    page: Page
    assembly: Assembly
    section: Section
    paths: tuple[MoisturePath, ...]
    films: tuple[float, float]
    climate: Page
    project: Page

    @cached_property
    def year(self) -> Year | tuple[Gap, ...]:
        """Both climates of the place by month, or the questions that must be answered first."""
        return year_of(self.climate, self.project)

    @cached_property
    def ready(self) -> list[Prepared]:
        """The paths, each made ready for many years."""
        return [prepared(path, self.films) for path in self.paths]

    @cached_property
    def steps(self) -> list[SteppedPath]:
        """The paths at each step of humidity in the rooms, for the searches of limits; none without a year."""
        return (
            [SteppedPath(one, rooms_of(self.year)) for one in self.ready]
            if isinstance(self.year, Year)
            else []
        )

    @cached_property
    def missing(self) -> tuple[Gap, ...]:
        """The questions that must be answered before any path can be reckoned."""
        return tuple(dict.fromkeys(gap for path in self.paths for gap in path.missing))

    @cached_property
    def inputs(self) -> tuple[Fact, ...]:
        """Every fact the paths rest on."""
        return tuple(dict.fromkeys(fact for path in self.paths for fact in path.facts))

    def rests_on(self, facts: Sequence[Fact]) -> tuple[Fact, ...]:
        """Return the facts of the paths, and more of them."""
        return (*self.inputs, *facts)

    def enter(
        self, name: str, value: FactValue | None, facts: Sequence[Fact], method: str, source: str
    ) -> None:
        """Enter a value worked out from facts; None says that there is no such thing here."""
        if value is None:
            self.page.inapplicable(name, method)
        else:
            self.page.compute(name, lambda *_: value, facts, method=method, source=source)


def case_of(page: Page, assembly: Assembly, section: Section, climate: Page, project: Page) -> Case:
    """Return the case of an assembly that has insulation; the films are those of ISO 6946."""
    found = films("iso-6946", heat_flow(assembly.kind))
    sheltered = section.beyond < len(section.slices) or page["outside"].value == "attic"
    outer = found.sheltered if sheltered else found.exterior
    both = (found.interior.value, outer.value)
    return Case(page, assembly, section, tuple(paths_of(section)), both, climate, project)
