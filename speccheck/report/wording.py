"""Words shared by the formats: levels, verdicts, limits, margins."""

from speccheck.judgement.finding import Finding, Limit
from speccheck.judgement.wording import word
from speccheck.quantity import show

__all__ = ["DEFERRAL", "LABELS", "limit_words", "margin_words", "rule_words", "verdict_words"]

DEFERRAL = "Nothing here is an approval: local code, its amendments and licensed practice decide."

LABELS = {
    "outside": "OUTSIDE",
    "caution": "CAUTION",
    "refer": "REFER",
    "ask": "ASK",
    "held-back": "HELD BACK",
    "waived": "WAIVED",
    "pass": "HOLDS",
}

_THREE_DIGITS = ("thermal-resistance", "transmittance", "conductivity")
"""Kinds that are shown with three digits: the difference of two near ones has no more than one that means something."""
_NEAR = 0.01

_COUNTED = {
    "outside": ("outside a published limit", "outside a published limit"),
    "caution": ("caution", "cautions"),
    "refer": ("referral", "referrals"),
    "ask": ("check that waits for an answer", "checks that wait for an answer"),
    "held-back": (
        "held back until the air line is shown closed",
        "held back until the air line is shown closed",
    ),
    "waived": ("waived", "waived"),
    "pass": ("holds", "hold"),
}

_VERDICTS = {
    "outside": "warn (outside a published limit)",
    "caution": "warn (caution)",
    "refer": "refer",
    "ask": "ask",
    "held-back": "ask",
    "waived": "nothing to warn about but what is waived",
    "pass": "nothing to warn about",
}


def verdict_words(verdict: str, counts: dict[str, int]) -> str:
    """Return the verdict with the counts of every level, such as ``warn (caution): 2 cautions, 14 hold``."""
    parts = [f"{count} {_COUNTED[severity][count != 1]}" for severity, count in counts.items() if count]
    return f"{_VERDICTS[verdict]}: {', '.join(parts) or 'no rule had anything to say'}"


def rule_words(finding: Finding) -> str:
    """Return what should hold, marked as the rule: beside what was found it would read as said of the building."""
    return f"Rule: {finding.title}{'' if finding.title.endswith(('.', '?', '!')) else '.'}"


def limit_words(limit: Limit, system: str) -> str:
    """Return what was observed and the limit it was held against."""
    sense = "at least" if limit.sense == "at-least" else "at most"
    return f"observed {word(limit.observed, limit.kind, system)}; limit {sense} {word(limit.limit, limit.kind, system)}"


def _size_words(limit: Limit, system: str) -> str:
    """Return how far apart they are: shares in points, near values with only the digits that mean something."""
    size = abs(limit.margin)
    if limit.kind == "fraction":
        points = word(size, "fraction").removesuffix(" %")
        return f"{points} percentage point{'' if points == '1' else 's'}"
    if limit.kind in _THREE_DIGITS and size < _NEAR * abs(limit.limit):
        return show(size, limit.kind, system, more_digits=-2)  # type: ignore[arg-type]
    return word(size, "temperature-difference" if limit.kind == "temperature" else limit.kind, system)


def margin_words(finding: Finding, system: str) -> str:
    """Return the margin in words, and a note where the verdict could turn within the range of a table value."""
    limit = finding.measured
    if limit is None:
        return ""
    size = _size_words(limit, system)
    if limit.margin == 0:
        words = "on the limit"
    elif limit.margin > 0:
        words = f"margin {size}"
    else:
        words = f"short by {size}" if limit.sense == "at-least" else f"over by {size}"
    if limit.turns and limit.low is not None and limit.high is not None:
        low, high = word(limit.low, limit.kind, system), word(limit.high, limit.kind, system)
        words += f"; the verdict could turn within the range of the table values, {low} to {high}"
    return words
