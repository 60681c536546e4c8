"""Plain conditions mean what they mean to the template engine, which is asked directly as the outside check."""

from __future__ import annotations

import subprocess
import sys
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from speccheck.judgement.sentence import SentenceError, render
from speccheck.judgement.sentence_choice import resolved
from speccheck.judgement.sentence_template import Template

if TYPE_CHECKING:
    from collections.abc import Callable

VALUES = {"climate.zone": "5A", "wall.kind": "wall", "wall.absent": None, "wall.share": 0.31}

RESOLVED = [
    ("{% if wall.kind is defined %}A {{ wall.kind }}.{% else %}Ask.{% endif %}", "A {{ wall.kind }}."),
    ("{% if wall.absent is defined %}A.{% else %}Ask.{% endif %} End", "Ask. End"),
    ("{% if wall.other is defined %}A.{% endif %}", ""),
    ('{% if wall.kind != "roof" %}A.{% else %}B.{% endif %}', "A."),
    ('{% if wall.absent != "roof" %}A.{% else %}B.{% endif %}', "B."),
    ('{% if climate.zone in ["4A", "5A"] %}cold{% endif %}', "cold"),
    ('x {% if climate.zone == "3" %}a{% elif climate.zone == "5A" %}b{% else %}c{% endif %} y', "x b y"),
    ('{% if climate.zone == "" %}a{% endif %}\n{% if wall.kind == "wall" %}b{% endif %}\n', "\nb\n"),
]


@pytest.mark.parametrize(("text", "expected"), RESOLVED)
def test_plain_conditions(text: str, expected: str) -> None:
    assert resolved(text, VALUES) == expected
    assert render(text, VALUES, {}) == Template(text).render(VALUES, {})


RICHER = [
    "{% if wall.share > 0.2 %}a{% endif %}",
    "{% if not wall.kind is defined %}a{% endif %}",
    "{% if wall.kind is not defined %}a{% endif %}",
    "{%- if wall.kind is defined %}a{% endif %}",
    "{% if wall.kind is defined %}{% if wall.share is defined %}a{% endif %}{% endif %}",
    "{% if wall.kind is defined %}a",
    "{% endif %}",
    "{% else %}",
    "{% if wall.kind is defined %}a{% else %}b{% else %}c{% endif %}",
    "{% if wall.kind is defined %}a{% else %}b{% elif wall.share is defined %}c{% endif %}",
    "{{% if wall.kind is defined %}a{% endif %}",
    "{% for x in wall.kind %}a{% endfor %}",
    '{% if wall.kind == "a\\n" %}a{% endif %}',
]


@pytest.mark.parametrize("text", RICHER)
def test_all_else_is_left_to_the_engine(text: str) -> None:
    assert resolved(text, VALUES) is None


@pytest.mark.parametrize("words", ["{{{ wall.kind }}", "{{ wall.kind", "{# a", "{{ wall.kind | nothing }}"])
def test_a_branch_that_does_not_stand_is_read_too(words: str) -> None:
    text = f"{{% if wall.absent is defined %}}{words}{{% endif %}}"
    assert _told(lambda: render(text, VALUES, {})) == _told(lambda: Template(text).render(VALUES, {}))


_TOKENS = st.sampled_from(
    [
        *("{% if wall.kind is defined %}", '{% elif climate.zone == "5A" %}', "{% else %}", "{% endif %}"),
        *('{% if climate.zone in ["3", "5A"] %}', "{% if wall.absent is defined %}", "{{ wall.kind }}"),
        *('{% if climate.zone != "5A" %}', '{% elif wall.absent != "3" %}'),
        *("words ", "{", "}", "%}", "\n", "{{ wall.absent }}", "{#", "{%"),
    ]
)


@given(st.lists(_TOKENS, max_size=9).map("".join))
def test_both_ways_agree(text: str) -> None:
    if resolved(text, VALUES) is not None:
        engine = _told(lambda: Template(text).render(VALUES, {}))
        assert _told(lambda: render(text, VALUES, {})) == engine


def _told(fill: Callable[[], str]) -> str:
    try:
        return fill()
    except SentenceError as error:
        return f"refused: {error.what}"


def test_plain_conditions_load_no_template_engine() -> None:
    code = (
        "import sys; from speccheck.judgement.sentence import render;"
        "render('{% if a.b is defined %}{{ a.b }}{% endif %}', {'a.b': 1}, {}); sys.exit('jinja2' in sys.modules)"
    )
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0
