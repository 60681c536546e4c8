"""Values that rest on the same facts are entered as if each were worked out by itself."""

from speccheck.survey.fact import Gap, Origin
from speccheck.survey.ledger import Page
from speccheck.survey.moisture.alike import enter_alike


def pages(*inputs):
    """Two pages with the same two facts: one known with something assumed, the other as given."""
    found = []
    for _ in range(2):
        page = Page("assembly", "wall")
        page.from_table("one", 1.0, source="a table", stands_for="one of wall from the table")
        inputs[0](page)
        found.append(page)
    return found


def known(page):
    page.declare("two", 2.0)


def gap(page):
    page.unknown("two", Gap("wall", "two", "What is two of wall?"))


VALUES = {"none": None, "mass": 0.5, "place": "outside", "settled": True}


def both(page_by_one, page_alike):
    facts = [page_by_one["one"], page_by_one["two"]]
    for name, value in VALUES.items():
        if value is None:
            page_by_one.inapplicable(name, "not here")
        else:
            page_by_one.compute(name, lambda *_, v=value: v, facts, method="a method", source="a source")
    enter_alike(page_alike, VALUES, facts, "a method", "a source", "not here")
    return page_by_one.facts, page_alike.facts


def test_the_facts_are_those_of_one_by_one():
    by_one, alike = both(*pages(known))
    assert alike == by_one
    assert alike["assembly.place"].value == "outside"
    assert alike["assembly.place"].assumed == ("one of wall from the table",)


def test_what_is_missing_is_asked_of_each():
    by_one, alike = both(*pages(gap))
    assert alike == by_one
    assert all(alike[f"assembly.{name}"].origin is Origin.UNKNOWN for name in ("mass", "place", "settled"))
