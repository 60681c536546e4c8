"""The units asked for, throughout the page: drawings, captions, tables and what a finding observed."""

import re
from pathlib import Path
from typing import Any

import pytest

from speccheck.report.letter import letter_text
from speccheck.report.page import html_page
from speccheck.report.water_amount import water_number, water_unit
from speccheck.uses.check import check, load

EXAMPLES = Path(__file__).parents[3] / "examples"
DOCUMENTS = ("studio/studio-mistakes.yaml", "ten-lines.yaml")
FIGURES = re.compile(
    r'<svg.*?</svg>|<table.*?</table>|<figcaption.*?</figcaption>|<dl class="(?:block|good-for)".*?</dl>'
    r"|<dt>(?:Observed|Limit|Margin|Good for)</dt><dd>.*?</dd>|<p>[^<]*Effective.*?</p>",
    re.DOTALL,
)
ONLY_US = re.compile(r"(?<![\w-])(?:R-\d|°F|perm\b|inHg|oz/ft²|lb/ft²|Btu|\d in\b|\d mil\b|\d ft\b)")
ONLY_SI = re.compile(r"m²·K/W|°C|ng/\(|kg/m²|g/m²|W/\(m|\d mm\b|\d m\b|\d Pa\b(?! )")


def page(name: str, system: Any) -> str:
    """Return the figures of a page: all that is worked out for it, without what its sources say."""
    found = html_page(check(load(EXAMPLES / name), system=system), system)
    told = "\n".join(FIGURES.findall(re.sub(r"<style>.*?</style>", "", found, flags=re.DOTALL)))
    return re.sub(r" at (?:50|75) Pa", "", told)  # the pressure of a test is part of its name


@pytest.mark.parametrize("name", DOCUMENTS)
def test_the_units_asked_for_and_no_others(name):
    us, si = page(name, "us"), page(name, "si")
    assert not ONLY_SI.findall(us)
    assert not ONLY_US.findall(si)
    for figure, wanted in ((us, ("°F", "inHg", "perm", "R-", " in")), (si, ("°C", "Pa", "m²·K/W", " mm"))):
        assert all(unit in figure for unit in wanted)


@pytest.mark.parametrize("name", DOCUMENTS)
def test_both_stand_together_where_nothing_is_asked_for(name):
    both = page(name, "both")
    for unit in ("°F", "°C", "inHg", "Pa", "R-", "m²·K/W", "perm", "ng/(Pa·s·m²)", " mm", " in"):
        assert unit in both


def test_an_axis_in_us_units_is_marked_at_their_round_numbers():
    drawing = re.search(
        r'<svg[^>]*aria-labelledby="[^"]*-lines-t.*?</svg>', page(DOCUMENTS[1], "us"), re.DOTALL
    )
    assert drawing is not None
    words = re.findall(r'class="scale-mark"[^>]*>([^<]*)<', drawing[0])
    heat, vapour = (w for w in words if "." not in w and w != "0"), (w for w in words if "." in w)
    assert {int(mark) % 10 for mark in heat} == {0}
    assert {round(float(mark) * 100) % 5 for mark in vapour} == {0}


def test_a_letter_follows_too():
    told = {}
    for system in ("us", "si"):
        letter = letter_text(check(load(EXAMPLES / DOCUMENTS[1]), system=system), system)
        told[system] = " ".join(re.findall(r"Observed [^;]*; limit [^;]*;", letter))
    assert "oz/ft²" in told["us"]
    assert not ONLY_SI.search(told["us"])
    assert "g/m²" in told["si"]
    assert not ONLY_US.search(told["si"])


@pytest.mark.parametrize(
    ("water", "us", "si"),
    [
        (0.0, "0", "0"),
        (0.0004, "0", "0"),
        (0.3051517, "1.0", "305"),  # an ounce of 28.349523125 g on a square foot of 0.09290304 m²
        (3.5, "11", "3500"),
        (0.0083, "0.03", "8"),
        (40.0, "131", "40000"),
        (-0.001, "0", "-1"),
    ],
)
def test_water_is_told_in_four_characters_or_so(water, us, si):
    assert (water_number(water, "us"), water_number(water, "si"), water_number(water)) == (us, si, si)
    assert (water_unit("us"), water_unit("si"), water_unit()) == ("oz/ft²", "g/m²", "g/m²")
