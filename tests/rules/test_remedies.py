"""What the rules that ship tell a person to do: choices told from steps, and no figure in the units of one system alone."""

import re
from collections.abc import Iterator

import pytest
import yaml

from speccheck.judgement.library import load_pack, pack_ids
from speccheck.judgement.pack import Rule
from speccheck.report.general_words import general_words
from speccheck.shelf import rules_folder

PACKS = {id_: load_pack(id_) for id_ in pack_ids()}
RULES = [rule for pack in PACKS.values() for rule in pack.rules]
WRITTEN = [
    entry
    for id_ in PACKS
    for entry in yaml.safe_load((rules_folder() / f"{id_}.yaml").read_text("utf-8"))["rules"]
]
_COUNT = r"(?:\d+(?:[./]\d+)?|one|two|three|four|five|six)"
_UNITS = r"perms?|mils?|in|ft|feet|foot|inch(?:es)?|mm|cm|m|°F|°C|K|MN|ng|Pa|psf|lbs?|cfm|L|W|m²|ft²|kg|g|oz|degrees|met(?:re|er)s?"
FIGURE = re.compile(
    rf"R-\d|RSI ?\d|\bsd \d|per (?:inch|foot)\b|(?<!\w){_COUNT}[ -](?:square |cubic )?(?:{_UNITS})(?![A-Za-z])"
)
_PLACEHOLDER = re.compile(r"\{[{%].*?[%}]\}")
# names of tests by their pressure, which every system says alike
_NAME = re.compile(r"\b(?:50|75) Pa\b")
ONLY_US = re.compile(r"(?<![\w-])(?:R-\d|°F|perm\b|Btu|\d in\b|\d mil\b|\d ft²?(?![\w²]))")
ONLY_SI = re.compile(r"m²·K/W|°C|ng/\(|kg/m²|g/m²|W/\(m|\d mm\b|\d m²?(?![\w²·])")
LITERAL = {
    "uk.breather-membrane-open": "a membrane is sold in the United Kingdom by its resistance in MN·s/g, in no other unit",
    "air.recessed-light-sealed": "both systems stand side by side; an air flow is no kind of quantity here",
}


def sentences(rule: Rule) -> Iterator[str]:
    yield from rule.says.values()
    yield from (band.says for band in rule.bands)
    yield from rule.do


def literal(text: str, rule: Rule) -> str:
    """Return what of a sentence is the same in both systems; a plain number of the rule stands as 1."""
    for parameter in rule.parameters:
        if parameter.kind == "number":
            text = text.replace(f"{{{{ parameter.{parameter.name} }}}}", "1")
    return _NAME.sub("", _PLACEHOLDER.sub(" ", text))


@pytest.mark.parametrize("entry", WRITTEN, ids=lambda entry: entry["id"])
def test_a_list_says_whether_it_holds_choices_or_steps(entry):
    assert ("do-is" in entry) == (len(entry["do"]) > 1)


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.id)
def test_no_entry_of_a_list_refers_to_another(rule):
    # what joins the entries is said by the report; an entry stands alone in a letter
    joints = ("Or ", "And ", "Else ", "Otherwise ")
    assert [text for text in rule.do if text.startswith(joints)] == []
    if rule.do_is == "steps":
        assert [text for text in rule.do if text.rstrip(".").endswith(" instead")] == []


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.id)
def test_no_figure_stands_in_one_system_alone(rule):
    if rule.id not in LITERAL:
        assert [text for text in sentences(rule) if FIGURE.search(literal(text, rule))] == []


@pytest.mark.parametrize("id_", LITERAL)
def test_an_exception_is_one(id_):
    rule = next(rule for rule in RULES if rule.id == id_)
    assert any(FIGURE.search(literal(text, rule)) for text in sentences(rule))


def test_the_search_finds_figures():
    for text in ("Lap it 6 in, seal it.", "a film of 10 mil", "Show R-30 of it", "two inches of foam", "above 75 °F", "0.1 perm", "1/2 in per foot", "500 ft² of roof", "at least 10 mm"):  # fmt: skip
        assert FIGURE.search(text), text
    for text in ("Where the two layers lie in one plane", "20 % of it", "class II", "R402.1", "IRC 2021"):
        assert not FIGURE.search(text), text


@pytest.mark.parametrize("rule", [rule for rule in RULES if rule.id not in LITERAL], ids=lambda rule: rule.id)
def test_sentences_come_out_in_the_units_asked_for(rule):
    for text in sentences(rule):
        assert ONLY_SI.findall(_NAME.sub("", general_words(text, rule, "us"))) == []
        assert ONLY_US.findall(general_words(text, rule, "si")) == []


def test_rows_of_a_code_table_come_out_in_the_units_asked_for():
    from speccheck.judgement.wording import Wording

    rule = next(rule for rule in RULES if rule.id == "irc-2021.wall-insulation")
    table = next(table for table in rule.tables if table.name == "row")
    kinds = {"options.row": "options"} | {f"options.row.{m}": kind for m, kind in table.kinds.items()}
    values = {"options.row": table.find({"climate.zone_2021": "3A"})}
    # IRC 2021, table N1102.1.3, zone 3: 20 or 13 & 5 ci or 15 ci; 1 h·ft²·°F/Btu = 0.1761 m²·K/W
    us, si = (Wording(values, kinds, system).say(rule.do[0]) for system in ("us", "si"))
    assert us.startswith(
        "Show R-20 between the framing, R-13 between the framing with R-5 continuous, or R-15 continuous"
    )
    assert si.startswith("Show 3.52 m²·K/W between the framing, 2.29 m²·K/W between the framing with 0.881")
