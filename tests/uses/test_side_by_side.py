"""Two sides held side by side: eased findings alone make nothing better where a fact of quality fell."""

from typing import Any

import pytest

from speccheck.report.compare_text import compare_text, plain_comparison
from speccheck.uses.compare import Move, Record
from speccheck.uses.side_by_side import Comparison, Differing, Pair, Side

DAMP = Record(
    "moisture.dries", "wall", "caution", "It dries", "Damp.", "assembly.peak", "fraction", 0.6, 0.5, -0.1
)
EASED = Move(DAMP, DAMP._replace(observed=0.55, margin=-0.05))
SAME = Move(DAMP, DAMP)


def fact(name: str, before: Any, after: Any, kind: str = "") -> Differing:
    return Differing(name.partition(".")[0], name, kind, before, after)


def comparison(move: Move, *facts: Differing, copies: int = 1, known: bool = True) -> Comparison:
    pairs = []
    for number in range(copies):
        sides = [Side(f"{number}.yaml", "caution", (record,), None) for record in move if record is not None]
        pairs.append(Pair(sides[0], sides[1], (move,), tuple(facts) if known else None))
    return Comparison(("a", "b"), tuple(pairs))


R = fact("assembly.effective_r", 3.01, 2.75, "thermal-resistance")


def test_a_margin_that_eases_while_the_resistance_falls_is_not_called_better():
    text = compare_text(comparison(EASED, R), 120)
    assert "B against A: findings: better; facts that fell: assembly.effective_r R-17.1" in text
    assert "-> R-15.6" in text
    plain = plain_comparison(comparison(EASED, R))
    assert plain["verdict"] == "better"
    assert [(one["file"], one["name"], one["after"]) for one in plain["fell"]] == [
        ("0.yaml", "assembly.effective_r", 2.75)
    ]


def test_so_where_no_finding_moved():
    assert "B against A: findings: as before; facts that fell: " in compare_text(comparison(SAME, R), 120)


@pytest.mark.parametrize(
    ("name", "before", "after", "fell"),
    [
        ("assembly.effective_r", 3.0, 2.93, True),
        ("assembly.effective_r", 3.0, 2.95, False),  # within the slack of two hundredths
        ("assembly.effective_r", 2.0, 3.0, False),
        ("opening.u_factor", 1.0, 1.5, True),
        ("opening.u_factor", 1.5, 1.0, False),
        ("project.airtightness_target", 0.6, 3.0, True),
        ("project.air_gap_count", 0.0, 1.0, True),
        ("project.air_line_closed", True, False, True),
        ("project.air_line_closed", False, True, False),
        ("assembly.critical_indoor_rh", 0.5, 0.4, True),
        ("assembly.effective_r", 3.0, None, False),  # what is no longer shown is told by the findings
        ("assembly.effective_r", None, 3.0, False),
        ("assembly.effective_r", "x", 3.0, False),  # a report edited by hand
        ("assembly.outboard_share", 0.5, 0.1, False),  # hangs on the rest of the assembly
    ],
)
def test_which_facts_fall(name, before, after, fell):
    assert fact(name, before, after).fell is fell
    assert bool(comparison(SAME, fact(name, before, after)).fell) is fell


def test_without_a_fall_the_headline_is_the_verdict_alone():
    assert "B against A: better.\n" in compare_text(comparison(EASED), 120)
    assert "B against A: better.\n" in compare_text(comparison(EASED, R, known=False), 120)


def test_of_several_documents_each_is_named_and_many_are_counted():
    text = " ".join(compare_text(comparison(EASED, R, copies=6), 120).split())
    assert "facts that fell: 0.yaml, assembly.effective_r" in text
    assert "and 2 more." in text
