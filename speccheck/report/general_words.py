"""The sentences of a rule where no document is there to fill them: for pages of a rule and for help beside a result."""

import re

from speccheck.judgement.pack import Rule
from speccheck.judgement.wording import word

__all__ = ["general_words"]

_PLACE = re.compile(r"\{\{\s*([\w.]+)[^}]*\}\}")
_BRANCH = re.compile(r"\{%\s*(if|elif|else|endif)\b\s*(.*?)\s*%\}")


def general_words(sentence: str, rule: Rule, system: str = "both") -> str:
    """Return a sentence of a rule in general words.

    A number of the rule is filled in; a value of a table is named with the facts that choose it, a fact by its name,
    each in square brackets. Each branch says where it is meant.

    Args:
        sentence: as the rule has it, with placeholders and branches.
        rule: the rule it belongs to.
        system: units to show: ``both``, ``us`` or ``si``.

    Example of a sentence that has branches: ``{% if climate.zone == "3" %}Show A.{% else %}Show B.{% endif %}`` reads
    ``[Where climate.zone == "3":] Show A. [Otherwise:] Show B.``
    """
    return _PLACE.sub(lambda found: _named(found[1], rule, system), _BRANCH.sub(_told, sentence)).strip()


def _told(found: re.Match[str]) -> str:
    """Return what stands in place of the mark of a branch."""
    kind, condition = found.groups()
    before = "" if found.start() == 0 or found.string[found.start() - 1].isspace() else " "
    if kind == "endif":
        return ""
    return f"{before}[Otherwise:] " if kind == "else" else f"{before}[Where {condition}:] "


def _named(name: str, rule: Rule, system: str) -> str:
    space, _, last = name.partition(".")
    if space == "parameter":
        found = next((p for p in rule.parameters if p.name == last), None)
        if found is not None:
            return word(found.value, found.kind, system)
    table = next((t for t in rule.tables if t.name == last), None) if space in ("table", "options") else None
    return f"[{name}]" if table is None else f"[{name}, by {' and '.join(table.facts)}]"
