"""Every example of every pack that ships, and what the examples of a rule must show between them."""

from collections import Counter

import pytest

from speccheck.judgement.library import load_pack, pack_ids
from speccheck.judgement.reading import Reader
from speccheck.uses.examples import Example, examples_of, run_example

PACKS = {id_: load_pack(id_) for id_ in pack_ids()}
EXAMPLES = [example for pack in PACKS.values() for example in examples_of(pack)]
RULES = [(pack, rule) for pack in PACKS.values() for rule in pack.rules]


def name(example: Example) -> str:
    return f"{example.pack.id}: {example.name}"


@pytest.mark.parametrize("example", EXAMPLES, ids=name)
def test_example_comes_out_as_it_says(example):
    assert run_example(example) == ""


def expected(rule) -> list[str]:
    return [example["expect"]["level"] for example in rule.examples]


@pytest.mark.parametrize(("pack", "rule"), RULES, ids=lambda one: getattr(one, "id", ""))
def test_examples_show_each_side_of_a_rule(pack, rule):
    levels = expected(rule)
    assert {"pass", "not-applicable"} & set(levels), "no example that holds"
    assert {"warn", "refer", "ask"} & set(levels), "no example that does not hold"
    if can_lack_a_value(pack, rule):
        assert "ask" in levels, "no example that lacks a value"


def can_lack_a_value(pack, rule) -> bool:
    """Could a fact the rule needs be unknown in some document? Found out by the examples of all rules, not by listing."""
    needed = Reader.of([pack]).needs(rule)
    return bool(needed & UNKNOWN_SOMEWHERE) and rule.looks_at != "waiver"


@pytest.mark.parametrize(("pack", "rule"), RULES, ids=lambda one: getattr(one, "id", ""))
def test_every_expectation_names_level_and_place(pack, rule):
    assert all(example["expect"].get("level") and example["expect"].get("place") for example in rule.examples)


def test_an_example_with_the_wrong_level_or_place_fails():
    # The runner must be able to fail: each example turned round comes out wrong.
    example = next(e for e in EXAMPLES if e.plain["expect"]["level"] == "pass")
    for wrong in ({"level": "warn"}, {"place": "nowhere"}, {"level": "not-applicable"}):
        turned = Example(
            example.pack, example.rule, {**example.plain, "expect": {**example.plain["expect"], **wrong}}
        )
        assert run_example(turned) != ""


def test_no_id_is_used_twice_in_the_packs_that_are_in_force_together():
    always = [rule.id for pack in PACKS.values() if not pack.adopt for rule in pack.rules]
    for pack in PACKS.values():
        ids = Counter([*always, *(rule.id for rule in pack.rules)] if pack.adopt else always)
        assert [id_ for id_, count in ids.items() if count > 1] == [], pack.id


def _unknown_somewhere() -> set[str]:
    """Return the facts that are unknown in at least one example that expects a question."""
    from speccheck.document.load import load_data
    from speccheck.survey import survey
    from speccheck.uses.check import KNOWN

    found: set[str] = set()
    for example in EXAMPLES:
        if example.plain["expect"]["level"] != "ask":
            continue
        loaded = load_data(example.document(), "example", KNOWN)
        found |= {fact.name for fact in survey(loaded.document).facts() if fact.missing}
    return found


UNKNOWN_SOMEWHERE = _unknown_somewhere()
