"""Entering several values that rest on the same facts: what they rest on is put together once."""

from collections.abc import Mapping, Sequence

from speccheck.survey.fact import Fact, FactValue
from speccheck.survey.ledger import Page

__all__ = ["enter_alike"]


def enter_alike(
    page: Page,
    values: Mapping[str, FactValue | None],
    facts: Sequence[Fact],
    method: str,
    source: str,
    absent: str = "does not arise here",
) -> None:
    """Enter values worked out from the same facts, each under its name.

    Args:
        page: the page of the place.
        values: value by name; None says that there is no such thing here.
        facts: what all of them rest on.
        method: how they came about.
        source: where the method stands.
        absent: why there is no such thing, where a value is None.
    """
    first: Fact | None = None
    for name, value in values.items():
        if value is None:
            page.inapplicable(name, absent)
            continue
        if first is None or not first.known:
            first = page.compute(name, lambda *_, v=value: v, facts, method=method, source=source)
        else:
            page.enter(first._replace(name=f"{page.subject}.{name}", value=value))
