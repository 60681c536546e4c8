"""Sentences of rules: placeholders and conditions are filled in alike on both ways, everything else is refused.

What the template language means by a text is the outside check: the template engine itself, asked directly.
"""

from __future__ import annotations

import subprocess
import sys
from typing import TYPE_CHECKING

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from jinja2 import Environment

from speccheck.judgement import sentence
from speccheck.judgement.sentence import SentenceError, check_sentence, render
from speccheck.judgement.sentence_template import Template

if TYPE_CHECKING:
    from collections.abc import Callable

NAMES = {"assembly.share", "limit", "assembly.kind", "absent", "zone"}
VALUES = {
    "assembly.share": 0.31,
    "limit": 0.5,
    "assembly.kind": "wall <x> & {{ limit }}",
    "zone": 5,
    "absent": None,
}
FILTERS: dict[str, Callable[..., object]] = {
    "percent": lambda value, digits=0: f"{value:.{digits}%}",
    "loud": lambda value: str(value).upper(),
    "broken": lambda value: value / 0,
}

PLAIN = [
    ("", ""),
    ("No placeholder, 100 % { } }} %} #}.", "No placeholder, 100 % { } }} %} #}."),
    (
        "{{ assembly.share | percent }} outboard; at least {{ limit | percent }}.",
        "31% outboard; at least 50%.",
    ),
    ("{{assembly.share|percent}}{{limit}}", "31%0.5"),
    ("zone {{ zone }} {{ other.name }} {{ absent }}\n", "zone 5 not shown not shown\n"),
    ("{{ absent | percent }} and {{ other | broken }}", "not shown and not shown"),
    # a value is no template and is not escaped
    ("{{ assembly.kind }}", "wall <x> & {{ limit }}"),
    ("{{ assembly.kind | loud }}", "WALL <X> & {{ LIMIT }}"),
    ("{{ limit }}}", "0.5}"),
    # attributes of a value are out of reach: these are names nobody gave a value
    (
        "{{ limit.__class__ }} {{ limit.real }} {{ self }} {{ range }}",
        "not shown not shown not shown not shown",
    ),
]


@pytest.mark.parametrize(("text", "expected"), PLAIN)
def test_plain_sentences_read_the_same_on_both_ways(text: str, expected: str) -> None:
    assert sentence._pieces(text) is not None
    assert render(text, VALUES, FILTERS) == expected
    assert Template(text).render(VALUES, FILTERS) == expected


RICHER = [
    ("{% if assembly.share < limit %}below{% else %}above{% endif %}", "below"),
    ("{% if assembly.share > limit %}a{% elif zone in [5, -1] and not absent %}b{% else %}c{% endif %}", "b"),
    ("{% if absent is defined %}{{ absent }}{% else %}no share{% endif %}", "no share"),
    ("{% if zone is not defined or zone == 5 %}five{% endif %}", "five"),
    (
        "{% if absent > 1.0 or absent < 1.0 or absent == 1.0 or absent != 1.0 %}x{% else %}none{% endif %}",
        "none",
    ),
    ("{% if 1.0 > absent or 'a' in absent or absent in ['a'] %}x{% else %}none{% endif %}", "none"),
    ("{% if limit > -0.5 %}{{ assembly.share | percent(1) }}{% endif %}", "31.0%"),
    ("{{ assembly.share | percent | loud }} {{ absent | percent(1) | loud }}", "31% not shown"),
    ("a {%- if limit %} b {% endif -%} c\n", "a b c\n"),
    ("{{ 'a' }} {{ 1.5 }} {{ true }}", "a 1.5 True"),
    ("{{ 0.5 | percent }}", "50%"),
    ("{%\nif limit %}{{- limit }}{% endif %}\r\n", "0.5\n"),
    ("{% if limit.real is defined or ''.x is defined %}x{% endif %}", None),
]


@pytest.mark.parametrize(("text", "expected"), RICHER)
def test_conditions(text: str, expected: str | None) -> None:
    assert sentence._pieces(text) is None
    if expected is None:
        with pytest.raises(SentenceError):
            render(text, VALUES, FILTERS)
        return
    assert render(text, VALUES, FILTERS) == expected
    assert render(text, VALUES, FILTERS) == expected


REFUSED = [
    ("{{ ''.__class__ }}", "not getattr", 0),
    ("{{ limit['a'] }}", "not getitem", 0),
    ("{{ limit() }}", "not call", 0),
    ("{{ assembly.kind.upper() }}", "not call", 0),
    ("{{ range(1000000000) }}", "not call", 0),
    ("ok\n{{ 'a' * 1000000000 }}", "not mul", 3),
    ("{{ 9 ** 999999999 }}", "not pow", 0),
    ("{{ limit + 1 }}", "not add", 0),
    ("{{ '%999999999d' % 1 }}", "not mod", 0),
    ("{{ limit ~ limit }}", "not concat", 0),
    ("{{ limit if zone else zone }}", "not condexpr", 0),
    ("{{ {'a': 1} }}", "not dict", 0),
    ("{{ [limit] }}", "written values only", 0),
    ("{{ -limit }}", "a minus", 0),
    ("{{ -'a' }}", "a minus", 0),
    ("{{ limit is number }}", "'number' is no test", 0),
    ("{{ limit is defined(1) }}", "'defined' is no test", 0),
    ("{{ limit | percent(zone) }}", "written values only", 0),
    ("{{ limit | percent(digits=1) }}", "written values only", 0),
    ("{{ limit | percent(*zone) }}", "written values only", 0),
    ("{% for a in zone %}{% endfor %}", "the statement 'for'", 3),
    ("{% set a = 1 %}", "the statement 'set'", 3),
    ("x {%- macro m() %}{% endmacro %}", "the statement 'macro'", 6),
    ("{% include 'x' %}", "the statement 'include'", 3),
    ("{% import 'x' as y %}", "the statement 'import'", 3),
    ("{% extends 'x' %}", "the statement 'extends'", 3),
    ("{% filter loud %}x{% endfilter %}", "the statement 'filter'", 3),
    ("{% raw %}{{ limit }}{% endraw %}", "the statement '{% raw %}'", 0),
    ("{# unseen #}", "a comment", 0),
    ("{{ limit", "cannot be read", 0),
    ("{% if limit %}", "cannot be read", 0),
    ("{{{ limit }}}", "cannot be read", 0),
    ("{{ }}", "cannot be read", 0),
    ("{{ " + "(" * 450 + "limit" + ")" * 450 + " }}", "nested deeper", 0),
    ("{{ " + "not " * 200 + "limit }}", "nested deeper", 0),
    ("{% if limit %}" * 20 + "{% endif %}" * 20, "nested deeper", 0),
    ("a" * 1001, "longer than 1000", 1000),
]


@pytest.mark.parametrize(("text", "what", "offset"), REFUSED)
def test_refusals_say_what_and_where(text: str, what: str, offset: int) -> None:
    for attempt in (lambda: check_sentence(text, NAMES, FILTERS), lambda: render(text, VALUES, FILTERS)):
        with pytest.raises(SentenceError) as caught:
            attempt()
        assert what in caught.value.what
        assert caught.value.offset == offset


CHECKED = [
    ("{{ assembly.share | percent }} of {{ limit }}", {"assembly.share", "limit"}),
    ("{% if assembly.share < limit %}{{ zone | loud }}{% endif %}", {"assembly.share", "limit", "zone"}),
    ("nothing", set()),
]


@pytest.mark.parametrize(("text", "names"), CHECKED)
def test_checking_gives_the_names(text: str, names: set[str]) -> None:
    assert check_sentence(text, NAMES, FILTERS) == names
    assert Template(text).check(NAMES, FILTERS) == names


UNDECLARED = [
    ("at {{ assembly.shares }}", "nothing is declared under the name 'assembly.shares'", 3, 6),
    ("at {{ assembly }}", "nothing is declared under the name 'assembly'", 3, 6),
    ("at {{ limit.__init__ }}", "nothing is declared under the name 'limit.__init__'", 3, 6),
    ("at\n{{ limit | per_cent }}", "'per_cent' is not among the filters", 3, 14),
]


@pytest.mark.parametrize(("text", "what", "plain_offset", "rich_offset"), UNDECLARED)
def test_undeclared_names_and_filters(text: str, what: str, plain_offset: int, rich_offset: int) -> None:
    with pytest.raises(SentenceError) as caught:
        check_sentence(text, NAMES, FILTERS)
    assert (caught.value.what, caught.value.offset) == (what, plain_offset)
    with pytest.raises(SentenceError) as caught:
        check_sentence(text + "{% if limit %}{% endif %}", NAMES, FILTERS)
    assert (caught.value.what, caught.value.offset) == (what, rich_offset)


@pytest.mark.parametrize("ending", ["", "{% if limit %}{% endif %}"])
def test_what_cannot_be_worded_is_an_error_of_the_sentence(ending: str) -> None:
    with pytest.raises(SentenceError, match=r"cannot be worded: .*division by zero"):
        render("{{ limit | broken }}" + ending, VALUES, FILTERS)
    with pytest.raises(SentenceError, match="'nope' is not among the filters"):
        render("{{ absent | nope }}" + ending, VALUES, FILTERS)


def test_a_comparison_that_does_not_fit_is_an_error_of_the_sentence() -> None:
    with pytest.raises(SentenceError, match="cannot be worded"):
        render("{% if assembly.kind > limit %}x{% endif %}", VALUES, FILTERS)


def test_plain_sentences_load_no_template_engine() -> None:
    code = (
        "import sys; from speccheck.judgement.sentence import check_sentence, render;"
        "check_sentence('{{ a.b | f }} x', {'a.b'}, {'f'}); render('{{ a.b | f }} x', {'a.b': 1}, {'f': str});"
        "sys.exit('jinja2' in sys.modules)"
    )
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0


# -- properties --------------------------------------------------------------------------------------------------

WORDS = st.sampled_from(
    [" ", "\n", "{", "}", "{ {", "%", "#", "}}", "%}", "é", "{{ limit }}", "{{zone|loud}}", "\u2028"]
)
PLACEHOLDERS = st.sampled_from(
    ["{{ limit }}", "{{ assembly.share | percent }}", "{{zone}}", "{{ absent | loud }}", "{{ x.y }}"]
)
TEXTS = st.lists(WORDS | PLACEHOLDERS | st.text(max_size=4), max_size=8).map("".join)


def _outcome(fill: Callable[[], str]) -> str:
    try:
        return fill()
    except SentenceError:
        return "refused"


@settings(max_examples=400, deadline=None)
@given(TEXTS)
def test_both_ways_agree(text: str) -> None:
    assert _outcome(lambda: render(text, VALUES, FILTERS)) == _outcome(
        lambda: Template(text).render(VALUES, FILTERS)
    )


@settings(max_examples=400, deadline=None)
@given(TEXTS)
def test_plain_sentences_mean_what_the_template_language_means(text: str) -> None:
    if sentence._pieces(text) is None or "x.y" in text or "absent" in text:
        return
    engine = Environment(autoescape=False, keep_trailing_newline=True)
    engine.filters.update(FILTERS)
    nested = {"assembly": {"share": 0.31, "kind": VALUES["assembly.kind"]}, "limit": 0.5, "zone": 5}
    assert render(text, VALUES, FILTERS) == engine.from_string(text).render(nested)


@settings(max_examples=300, deadline=None)
@given(
    st.lists(
        st.sampled_from(
            [
                "{{",
                "}}",
                "{%",
                "%}",
                "if",
                "else",
                "endif",
                "limit",
                ".",
                "__class__",
                "|",
                "loud",
                "(",
                ")",
                "[",
                "]",
                "'a'",
                "*",
                "9",
                "for",
                "in",
                "not",
                "#}",
                "{#",
                "-",
            ]
        ),
        max_size=14,
    ).map(" ".join)
)
def test_any_sentence_is_filled_in_or_refused_inside_the_text(text: str) -> None:
    try:
        names = check_sentence(text, NAMES, FILTERS)
    except SentenceError as error:
        place = error.offset
        names = frozenset()
    else:
        place = 0
    assert 0 <= place <= len(text)
    assert names <= NAMES
    assert isinstance(_outcome(lambda: render(text, VALUES, FILTERS)), str)
