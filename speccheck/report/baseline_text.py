"""What a baseline makes of the findings, as text: what counts because it is new or worse, and what is as it was."""

from speccheck.judgement.wording import word
from speccheck.report.layout import Sheet
from speccheck.report.wording import LABELS
from speccheck.uses.baseline import Against
from speccheck.uses.compare import SLACK, Move, tidy

__all__ = ["baseline_section", "held_against", "move_words", "outcome_words", "trend_words"]

_TITLES = {
    "new": "new",
    "worse": "worse",
    "unsure": "no longer answered",
    "same": "as before",
    "better": "better",
    "gone": "gone",
}
_WORSE = ("new", "worse", "unsure")
_HOW = (
    "Only what is new, worse or no longer answered counts toward the exit status; what is as before is listed above "
    f"all the same. A margin that shrinks by more than {SLACK * 100:g} % of its limit is worse."
)


def trend_words(trends: dict[str, int]) -> str:
    """Return how many findings moved which way, such as ``1 new, 4 as before``."""
    return ", ".join(f"{count} {_TITLES[trend]}" for trend, count in trends.items() if count) or "nothing"


def outcome_words(trends: dict[str, int]) -> str:
    """Return what a baseline makes of a document: what is new or worse comes first, or that there is no such thing.

    Example:
        >>> outcome_words({"new": 1, "worse": 0, "unsure": 1, "same": 4, "better": 0, "gone": 0})
        '1 new, 1 no longer answered, 4 as before'
        >>> outcome_words({"new": 0, "worse": 0, "unsure": 0, "same": 4, "better": 0, "gone": 1})
        'nothing is new or worse: 4 as before, 1 gone'
    """
    words = trend_words(trends)
    return words if any(trends[trend] for trend in _WORSE) else f"nothing is new or worse: {words}"


def held_against(against: Against, name: str) -> str:
    """Return which document of the baseline another one was held against; empty where it goes by the same path."""
    return "" if not against.older or tidy(against.older) == tidy(name) else f"held against {against.older}"


def move_words(move: Move, system: str) -> str:
    """Return from what to what a finding moved, such as ``caution -> outside`` or how its margin shrank."""
    before, after = move
    sides = [LABELS[one.severity].lower() if one is not None else "nothing" for one in move]
    if sides[0] != sides[1]:
        return f"{sides[0]} -> {sides[1]}"
    if before is None or after is None or before.margin is None or after.margin is None:
        return sides[0]
    kind = "temperature-difference" if after.kind == "temperature" else after.kind
    return f"{sides[0]}, margin {word(before.margin, kind, system)} -> {word(after.margin, kind, system)}"


def baseline_section(against: Against, width: int = 80, system: str = "both") -> str:
    """Return the section of a report that says what a baseline makes of its findings."""
    sheet = Sheet(width)
    sheet.heading(f"Against the baseline {against.baseline}")
    if not against.older:
        sheet.wrap("This document is not in the baseline, so every finding counts.", 2)
    sheet.wrap(f"{trend_words(against.trends)}. {_HOW}", 2)
    for trend in ("new", "worse", "unsure", "better", "gone"):
        for move in against.of(trend):
            record = move.record
            words = f"{record.title} [{record.place}] ({move_words(move, system)}; {record.rule})"
            sheet.wrap(words, 2, f"{_TITLES[trend]}: ")
    return sheet.text()
