"""The page of a rule as Markdown and as plain text, for readers that show help beside a result."""

from collections.abc import Sequence

from speccheck.judgement.pack import Pack, Rule
from speccheck.report.general_words import general_words
from speccheck.report.markdown_text import code, plain
from speccheck.report.remedies import heading
from speccheck.report.wording import DEFERRAL

__all__ = ["help_markdown", "help_text"]


def _sections(rule: Rule) -> list[tuple[str, Sequence[str]]]:
    sections = [
        ("Why", [rule.why]),
        (heading(rule.do, rule.do_is), rule.do),
        ("Known limits", rule.limits),
        ("Disputed", rule.disputed),
        ("Source", rule.sources),
    ]
    return [(title, lines) for title, lines in sections if lines]


def help_markdown(rule: Rule, pack: Pack) -> str:
    """Return the page of a rule as Markdown: why, the conditions, what to do, limits, both sides, sources."""
    lines = [
        f"# {plain(rule.title)}",
        "",
        f"{code(rule.id)} of {plain(pack.title)}, edition {plain(pack.edition)}",
    ]
    conditions = [f"where {code(source)}" for source in rule.applies]
    conditions += [f"{'or ' if i else 'holds '}{code(source)}" for i, source in enumerate(rule.holds)]
    lines += ["", "## What should hold", "", *(f"- {line}" for line in conditions)]
    for title, entries in _sections(rule):
        lines += ["", f"## {title}", "", *(f"- {plain(general_words(entry, rule))}" for entry in entries)]
    return "\n".join([*lines, "", plain(DEFERRAL), ""])


def help_text(rule: Rule, pack: Pack) -> str:
    """Return the page of a rule as plain text."""
    lines = [rule.title, f"{rule.id} of {pack.title}, edition {pack.edition}"]
    for title, entries in _sections(rule):
        lines += ["", f"{title}:", *(f"- {general_words(entry, rule)}" for entry in entries)]
    return "\n".join([*lines, "", DEFERRAL])
