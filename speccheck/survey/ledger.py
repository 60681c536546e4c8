"""The ledger: where facts are entered, each with its inputs, so that any number can be traced back.

A computed fact is entered with the facts it rests on. If one of them is unknown, the new fact is unknown too and
carries the same gaps: the chain of reasons is kept without anyone writing it down. Ranges of table values are
carried through functions that rise or fall steadily with each input.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Any, TypeVar

from speccheck.survey.fact import Fact, FactValue, Gap, Key, Origin

__all__ = ["Ledger", "Page"]

T = TypeVar("T")

# A page enters some fifty facts for each layer, and the constructor of a named tuple, which sorts out names and
# defaults, takes four times as long as this.
_made = tuple.__new__

_PARTS = {
    "assembly": "assemblies",
    "layer": "assemblies",
    "junction": "junctions",
    "opening": "openings",
    "penetration": "penetrations",
    "product": "products",
}
"""Key of the document under which the things of a subject stand."""


def _union(groups: Sequence[tuple[T, ...]]) -> tuple[T, ...]:
    """Return the members of groups that have some, each once, in order; most often there is one group or none."""
    if not groups:
        return ()
    if len(groups) == 1:
        return tuple(dict.fromkeys(groups[0])) if len(groups[0]) > 1 else groups[0]
    return tuple(dict.fromkeys([member for group in groups for member in group]))


def _range(fn: Callable[..., Any], facts: Sequence[Fact], rises: str) -> tuple[float | None, float | None]:
    """Return the least and greatest result over the ranges of the inputs.

    ``rises`` holds one sign for each input, or a single sign for all: ``+`` where the result rises with it.
    """
    signs = rises * len(facts) if len(rises) == 1 else rises
    least: list[Any] = []
    most: list[Any] = []
    ranged = False
    for (_, _, value, _, lowest, highest, *_), sign in zip(facts, signs, strict=True):
        if lowest is not None or highest is not None:
            ranged = True
        low: Any = value if lowest is None else lowest
        high: Any = value if highest is None else highest
        least.append(low if sign == "+" else high)
        most.append(high if sign == "+" else low)
    return (fn(*least), fn(*most)) if ranged else (None, None)


def _document_path(subject: str, place: str) -> tuple[str, ...]:
    """Return where a place stands in the document; of a layer, the assembly that holds it."""
    if subject in ("project", "climate"):
        return ("project",) if subject == "project" else ("project", "place")
    part = _PARTS.get(subject)
    return (part, place.partition(".")[0]) if part is not None else ()


class Page:
    """The facts of one place."""

    __slots__ = ("_known", "_later", "_prefix", "facts", "place", "subject", "table")

    def __init__(self, subject: str, place: str) -> None:
        # a page does not know its ledger: without a ring of references a document is freed when it is done with
        self.subject = subject
        self.place = place
        self.facts: dict[str, Fact] = {}
        self.table: Any = (
            None  # what belongs to the place and is no single fact: twelve months, a year of moisture
        )
        self._prefix = f"{subject}."
        self._known: dict[str, FactValue] | None = None
        self._later: dict[str, Callable[[], None]] = {}

    def enter(self, fact: Fact) -> Fact:
        """Enter a finished fact."""
        self.facts[fact.name] = fact
        self._known = None
        return fact

    def defer(self, names: Sequence[str], enter: Callable[[], None]) -> None:
        """Leave some facts for when one of them is asked for; ``enter`` then enters them all."""
        self._later.update({self._prefix + name: enter for name in names})

    def fact(self, name: str) -> Fact | None:
        """Return a fact by its full name, worked out now where it was left for later; None where there is none."""
        found = self.facts.get(name)
        if found is None and name in self._later:
            self._work_out(name)
            found = self.facts.get(name)
        return found

    def settle(self) -> None:
        """Work out every fact that was left for later."""
        while self._later:
            self._work_out(next(iter(self._later)))

    def let_go(self) -> None:
        """Drop every fact that was left for later; it is not there any more."""
        self._later = {}

    def _work_out(self, name: str) -> None:
        """Enter a fact left for later, and those left with it, which then wait no more."""
        enter = self._later[name]
        self._later = {other: one for other, one in self._later.items() if one is not enter}
        enter()

    @property
    def known(self) -> Mapping[str, FactValue]:
        """The values that are known here, by fact name; worked out once for all that look at the page."""
        if self._known is None:
            self._known = {name: fact.value for name, fact in self.facts.items() if fact.value is not None}
        return self._known

    def declare(
        self,
        name: str,
        value: FactValue,
        *,
        origin: Origin = Origin.DECLARED,
        source: str = "",
        method: str = "",
    ) -> Fact:
        """Enter a value the document gives."""
        full = self._prefix + name
        fact = _made(Fact, (self.place, full, value, origin, None, None, method, source, (), (), ()))
        self.facts[full] = fact
        self._known = None
        return fact

    def from_table(
        self,
        name: str,
        value: FactValue,
        *,
        source: str,
        stands_for: str,
        low: float | None = None,
        high: float | None = None,
        origin: Origin = Origin.TABLE,
        method: str = "",
    ) -> Fact:
        """Enter a table value; ``stands_for`` is the sentence that says what it stands in for."""
        assumed = (stands_for,) if stands_for else ()
        full = self._prefix + name
        given = (self.place, full, value, origin, low, high, method, source, (), assumed, ())
        return self.enter(_made(Fact, given))

    def unknown(self, name: str, *gaps: Gap, inputs: tuple[Key, ...] = (), method: str = "") -> Fact:
        """Enter a fact that has no value because something is not shown."""
        full = self._prefix + name
        given = (self.place, full, None, Origin.UNKNOWN, None, None, method, "", inputs, (), gaps)
        return self.enter(_made(Fact, given))

    def inapplicable(self, name: str, why: str) -> Fact:
        """Enter that there is no such thing at this place."""
        full = self._prefix + name
        given = (self.place, full, None, Origin.INAPPLICABLE, None, None, why, "", (), (), ())
        return self.enter(_made(Fact, given))

    def compute(
        self,
        name: str,
        fn: Callable[..., FactValue],
        inputs: Sequence[Fact],
        *,
        method: str,
        source: str = "",
        rises: str = "",
    ) -> Fact:
        """Enter what ``fn`` gives on the values of ``inputs``; unknown or inapplicable if one of them is.

        ``rises`` says how the result moves with each input (``+`` or ``-``; one sign may serve for all), and
        makes the range of the inputs the range of the result.
        """
        full = self._prefix + name
        keys, values, assumptions, gaps = [], [], [], []
        for place, one, value, _, _, _, _, _, _, words, questions in inputs:
            keys.append((place, one))
            values.append(value)
            if words:
                assumptions.append(words)
            if questions:
                gaps.append(questions)
        assumed, missing = _union(assumptions), _union(gaps)
        if missing or None in values:
            idle = next((f for f in inputs if f.inapplicable), None)
            if idle is not None:
                return self.inapplicable(name, idle.method)
            unknown = (self.place, full, None, Origin.UNKNOWN, None, None, method, source)
            return self.enter(_made(Fact, (*unknown, tuple(keys), assumed, missing)))
        try:
            result = fn(*values)
            low, high = _range(fn, inputs, rises) if rises else (None, None)
        except (ValueError, ArithmeticError) as error:
            # what is declared lies outside the range of the method: ask, never crash or guess
            question = f"{self.place}: {error}. Are the values declared right?"
            gap = Gap(self.place, name.replace("_", " "), question, _document_path(self.subject, self.place))
            return self.unknown(name, gap, inputs=tuple(keys), method=method)
        given = (
            self.place,
            full,
            result,
            Origin.COMPUTED,
            low,
            high,
            method,
            source,
            tuple(keys),
            assumed,
            (),
        )
        return self.enter(_made(Fact, given))

    def copy(self, name: str, fact: Fact, *, method: str = "") -> Fact:
        """Enter the value of another fact under a new name, with that fact as its input."""
        return self.enter(
            Fact(
                self.place,
                self._prefix + name,
                fact.value,
                fact.origin if fact.value is None else Origin.COMPUTED,
                fact.low,
                fact.high,
                method or fact.method,
                fact.source,
                (fact.key,),
                fact.assumed,
                fact.missing,
            )
        )

    def __getitem__(self, name: str) -> Fact:
        return self.facts[self._prefix + name]

    def __contains__(self, name: str) -> bool:
        return self._prefix + name in self.facts


class Ledger:
    """All pages, in the order in which their places stand in the document."""

    __slots__ = ("pages",)

    def __init__(self) -> None:
        self.pages: dict[tuple[str, str], Page] = {}

    def page(self, subject: str, place: str) -> Page:
        """Return the page of a place, opening it where it is new."""
        key = (subject, place)
        found = self.pages.get(key)
        if found is None:
            found = self.pages[key] = Page(subject, place)
        return found

    def __iter__(self) -> Iterator[Page]:
        return iter(self.pages.values())
