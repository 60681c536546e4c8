"""The sentences of every rule can be read where no document fills them."""

import pytest

from speccheck.judgement.library import load_pack, pack_ids
from speccheck.report.general_words import general_words

RULES = [rule for id_ in pack_ids() for rule in load_pack(id_).rules]


def rule_of(id_: str):
    return next(rule for rule in RULES if rule.id == id_)


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.id)
def test_nothing_of_the_template_is_left(rule):
    for sentence in (rule.why, *rule.do, *rule.limits, *rule.sources):
        told = general_words(sentence, rule)
        assert not any(mark in told for mark in ("{{", "}}", "{%", "%}"))
        if "{" not in sentence:
            assert told == sentence.strip()


def test_a_number_of_the_rule_is_filled_in_with_its_unit():
    rule = rule_of("vapour.inside-retarder-where-cold")
    parameter = rule.parameters[0]
    told = {s: general_words(f"At most {{{{ parameter.{parameter.name} }}}}.", rule, s) for s in ("us", "si")}
    assert told["us"] != told["si"]
    assert "parameter" not in told["us"] + told["si"]


def test_a_value_of_a_table_is_named_with_what_chooses_it():
    rule = rule_of("irc-2018.wall-insulation")
    assert general_words("At most {{ table.u }}.", rule) == "At most [table.u, by climate.zone_2018]."


def test_each_branch_says_where_it_is_meant():
    sentence = (
        '{% if climate.zone == "3" %}Show A.{% elif climate.zone == "4" %}Show B.{% else %}Show C.{% endif %}'
    )
    assert general_words(sentence, RULES[0]) == (
        '[Where climate.zone == "3":] Show A. [Where climate.zone == "4":] Show B. [Otherwise:] Show C.'
    )
