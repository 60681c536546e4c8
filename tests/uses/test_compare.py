"""Comparing findings: trends, the slack of margins, and which document goes with which."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from speccheck.judgement.finding import SEVERITIES
from speccheck.uses.compare import SLACK, TRENDS, Record, moves_between, pair_names, record_of

ONE = Record("thermal.enough", "wall", "caution", "Enough", "Too little.", "assembly.effective_r", "thermal-resistance", 3.0, 4.0, -1.0)  # fmt: skip


def trend(old: Record | None, new: Record | None) -> str:
    (move,) = moves_between([old] if old else [], [new] if new else [])
    return move.trend


def counts(old: Record | None, new: Record | None) -> bool:
    (move,) = moves_between([old] if old else [], [new] if new else [])
    return move.counts


@pytest.mark.parametrize(
    ("old", "new", "wanted", "counted"),
    [
        ("caution", "outside", "worse", True),
        ("pass", "caution", "worse", True),
        ("waived", "outside", "worse", True),
        ("ask", "refer", "worse", True),
        ("outside", "caution", "better", False),
        ("outside", "pass", "better", False),
        ("outside", "waived", "better", False),
        ("ask", "pass", "better", False),
        # a value taken out of the document is no way to be rid of a warning
        ("outside", "ask", "unsure", True),
        ("pass", "ask", "unsure", True),
        ("ask", "ask", "same", False),
        ("outside", "outside", "same", False),
        ("pass", "pass", "same", False),
        ("pass", "waived", "worse", False),
        ("pass", "held-back", "worse", False),
    ],
)
def test_trend_by_severity(old, new, wanted, counted):
    before, after = ONE._replace(severity=old), ONE._replace(severity=new)
    assert (trend(before, after), counts(before, after)) == (wanted, counted)


@pytest.mark.parametrize(
    ("severity", "counted"), [("outside", True), ("ask", True), ("pass", False), ("waived", False)]
)
def test_what_is_new_counts_unless_there_is_nothing_to_act_on(severity, counted):
    new = ONE._replace(severity=severity)
    assert (trend(None, new), counts(None, new)) == ("new", counted)
    assert (trend(new, None), counts(new, None)) == ("gone", False)


class TestMargins:
    """The ratchet: a margin may move by the slack, two hundredths of its limit, and no more."""

    @pytest.mark.parametrize(
        ("margin", "wanted"),
        [
            (-1.0 - 0.0799, "same"),  # 4.0 * 0.02 = 0.08
            (-1.0 - 0.0801, "worse"),
            (-1.0 + 0.0799, "same"),
            (-1.0 + 0.0801, "better"),
        ],
    )
    def test_both_sides_of_the_slack(self, margin, wanted):
        assert SLACK == 0.02
        assert trend(ONE, ONE._replace(margin=margin)) == wanted

    def test_a_margin_that_shrinks_and_still_holds_does_not_count(self):
        held = ONE._replace(severity="pass", margin=1.0)
        assert trend(held, held._replace(margin=0.1)) == "worse"
        assert not counts(held, held._replace(margin=0.1))

    def test_margins_of_different_facts_are_not_compared(self):
        assert trend(ONE, ONE._replace(margin=-3.0, fact="assembly.u_factor")) == "same"

    def test_a_margin_that_is_no_longer_told(self):
        assert trend(ONE, ONE._replace(margin=None)) == "same"

    def test_a_limit_of_zero(self):
        zero = ONE._replace(limit=0.0, margin=-0.01)
        assert trend(zero, zero._replace(margin=-0.05)) == "worse"


records = st.builds(
    Record,
    st.sampled_from(["a.b", "a.c", "d.e"]),
    st.sampled_from(["wall", "roof", "wall.fill"]),
    st.sampled_from(SEVERITIES),
    st.just("title"),
    st.just("reason"),
    st.just("fact"),
    st.just("number"),
    st.just(1.0),
    st.just(1.0),
    st.floats(-10, 10),
)
some = st.lists(records, unique_by=lambda r: r.key)


@given(some)
def test_a_run_held_against_itself_has_nothing_new(run):
    moves = moves_between(run, run)
    assert {move.trend for move in moves} <= {"same"}
    assert not any(move.counts for move in moves)


@given(some, some)
def test_every_rule_and_place_is_told_once_and_the_order_is_fixed(old, new):
    moves = moves_between(old, new)
    assert {m.record.key for m in moves} == {r.key for r in (*old, *new)}
    assert len(moves) == len({r.key for r in (*old, *new)})
    assert moves == moves_between(old[::-1], new[::-1])
    assert [TRENDS.index(m.trend) for m in moves] == sorted(TRENDS.index(m.trend) for m in moves)


@given(some, some)
def test_nothing_is_new_and_gone_at_once_when_sides_change(old, new):
    swapped = {"new": "gone", "gone": "new", "same": "same"}
    forward = {m.record.key: m.trend for m in moves_between(old, new)}
    back = {m.record.key: m.trend for m in moves_between(new, old)}
    for key, found in forward.items():
        assert back[key] == swapped[found] if found in swapped else back[key] in ("worse", "better", "unsure")


def test_a_record_takes_what_a_finding_measured(checked):
    wall = """
speccheck: 1
project: {place: {zone: 6A}, adopted: [us/irc-2021]}
assemblies:
  wall:
    kind: wall
    framing: {spacing: 16 in}
    layers: [{material: mineral-wool-batt, thickness: 5.5 in, framed: true}, {material: osb, thickness: 11 mm}]
"""
    found = [f for f in checked(wall).findings if f.measured is not None]
    assert found
    for finding in found:
        record = record_of(finding)
        assert (record.key, record.severity, record.margin) == (
            finding.key,
            finding.severity,
            finding.measured.margin,
        )


class TestPairs:
    """Which document of a baseline a document is held against."""

    def test_by_path_however_it_is_written(self):
        assert pair_names(["./lots/a.yaml"], ["lots\\a.yaml"]) == {"lots\\a.yaml": "./lots/a.yaml"}

    def test_by_name_where_it_stands_once(self):
        assert pair_names(["old/a.yaml", "old/b.yaml"], ["a.yaml", "b.yaml"]) == {"a.yaml": "old/a.yaml", "b.yaml": "old/b.yaml"}  # fmt: skip

    def test_not_by_name_where_it_stands_twice(self):
        assert pair_names(["x/a.yaml", "y/a.yaml"], ["a.yaml"]) == {}
        assert pair_names(["a.yaml"], ["x/a.yaml", "y/a.yaml"]) == {}

    def test_a_document_that_moved_beside_one_that_stayed(self):
        pairs = pair_names(["x/a.yaml", "y/a.yaml"], ["x/a.yaml", "z/a.yaml"])
        assert pairs == {"x/a.yaml": "x/a.yaml", "z/a.yaml": "y/a.yaml"}

    def test_two_documents_alone_go_together_whatever_they_are_called(self):
        assert pair_names(["a.yaml"], ["b.yaml"]) == {"b.yaml": "a.yaml"}
        assert pair_names(["a.yaml", "c.yaml"], ["b.yaml"]) == {}

    @given(st.lists(st.text("ab", min_size=1), unique=True), st.lists(st.text("ab", min_size=1), unique=True))
    def test_no_older_document_is_used_twice(self, old, new):
        pairs = pair_names(old, new)
        assert set(pairs) <= set(new)
        assert set(pairs.values()) <= set(old)
        assert len(set(pairs.values())) == len(pairs)
