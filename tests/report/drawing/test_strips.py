"""Strips of months: each bar as tall as its value is great, past its limit hatched, below nothing open."""

import re
import xml.etree.ElementTree as ET

import pytest

from speccheck.report.drawing import Strip, StripRow, draw_strips

MONTHS = ("January", "February", "March")
SVG = "{http://www.w3.org/2000/svg}"


def row(*values: float | None, limit: float | None = None, solid: bool = False) -> StripRow:
    return StripRow("in", values, tuple("-" if v is None else f"{v:g}" for v in values), limit, solid)


def boxes(svg: str) -> dict[str, list[tuple[float, float]]]:
    """Return top and height of the bars of each look."""
    root = ET.fromstring(svg.replace("<svg ", '<svg xmlns="http://www.w3.org/2000/svg" ', 1))
    return {
        str(path.get("class")): [
            (float(y), float(height))
            for y, height in re.findall(r"M[-.\d]+ ([-.\d]+)h[-.\d]+v([-.\d]+)h", str(path.get("d")))
        ]
        for path in root.iter(f"{SVG}path")
    }


def drawn(*rows: StripRow) -> str:
    return draw_strips([Strip("a face", rows)], MONTHS, "title", "words", "x").svg


def test_a_bar_is_as_tall_as_its_value() -> None:
    ((top, tall), (_, half), _) = boxes(drawn(row(4.0, 2.0, 1.0)))["humid"]
    assert half == pytest.approx(tall / 2, abs=0.1)
    assert tall == 30.0
    assert top == 21.0


def test_rows_of_a_strip_share_a_scale() -> None:
    svg = drawn(row(4.0, 4.0, 4.0, solid=True), row(1.0, None, 0.0))
    assert boxes(svg)["water"][0][1] == pytest.approx(4 * boxes(svg)["humid"][0][1], abs=0.1)
    assert len(boxes(svg)["humid"]) == 1  # no bar where there is no value or nothing


def test_what_is_past_its_limit_is_hatched() -> None:
    svg = drawn(row(1.0, 2.0, 3.0, limit=2.0))
    assert (len(boxes(svg)["humid"]), len(boxes(svg)["wet"])) == (2, 1)
    assert 'class="wet" fill="url(#h-wet)"' in svg
    assert svg.count('class="plane-line"') == 1
    assert 'class="plane-line"' not in drawn(row(1.0, 2.0, 3.0))


def test_what_is_below_nothing_hangs_open_from_the_line() -> None:
    found = boxes(drawn(row(-1.0, 0.0, 3.0, solid=True)))
    (zero, low), (top, high) = found["back"][0], found["water"][0]
    assert zero == pytest.approx(top + high, abs=0.1)
    assert high == pytest.approx(3 * low, abs=0.2)


def test_each_month_has_its_number_and_its_letter() -> None:
    spans = re.findall(r"<tspan[^>]*>([^<]*)</tspan>", drawn(row(1.0, None, 3.5)))
    assert spans == ["1", "-", "3.5", "J", "F", "M"]
    assert ' close"' not in drawn(row(1.0, None, 3.5))
    assert ' close"' in drawn(row(-372.0, None, 3.5))


def test_nothing_at_all_is_drawn_as_nothing() -> None:
    assert boxes(drawn(row(0.0, None, 0.0))) == {}


def test_a_row_with_a_month_short_is_refused() -> None:
    with pytest.raises(ValueError, match="not one value for each month"):
        drawn(row(1.0, 2.0))


def test_a_hostile_name_stays_text_and_a_long_one_is_cut() -> None:
    svg = draw_strips([Strip("<b>" + "x" * 99, ())], MONTHS, "<i>", "<u>", "x").svg
    assert "<b>" not in svg
    assert "x" * 46 + "…" in svg
    assert "x" * 47 not in svg
