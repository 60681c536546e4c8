"""Text made inert for Markdown: what a person wrote shows as written, and is no markup, link, mention or HTML."""

import re

from speccheck.document.problem import printable

__all__ = ["code", "plain", "worded"]

_LONGEST = 5_000
_MARKUP = re.compile(
    r"([\\`*_{}\[\]|~$])"  # anywhere
    r"|(^\s*)([#+\-=])"  # at the beginning: headings, lists, rules
    r"|(^\s*\d+)([.)])"  # numbered lists
    r"|(?<=\bwww)(\.)|(:)(?=//)|(:)(?=[\w+\-]+:)",  # what would become a link or a picture
    re.IGNORECASE,
)
_CODE_SPAN = re.compile(r"(?<!`)`([^`]+)`(?!`)")
_ENTITIES = {"&": "&amp;", "<": "&lt;", ">": "&gt;"}
# code hosts look for these in the finished page, where no escape is left to see: a joiner without width parts them
_CALLS = re.compile(r"([@#])(?=[\w\-])|(\bGH-)(?=\d)")
_JOINER = "\u2060"


def plain(text: str) -> str:
    r"""Return text for a paragraph, a list item or a cell of a table.

    Example:
        >>> plain("<b>*a*</b> | [x](y)")
        '&lt;b&gt;\\*a\\*&lt;/b&gt; \\| \\[x\\](y)'
    """
    shown = printable(text, _LONGEST)
    parted = _CALLS.sub(lambda found: found[0] + _JOINER, shown)
    escaped = _MARKUP.sub(_escaped, parted)
    return "".join(_ENTITIES.get(character, character) for character in escaped)


def _escaped(found: re.Match[str]) -> str:
    anywhere, start, mark, number, stop, *others = found.groups()
    if mark or stop:
        return f"{start if mark else number}\\{mark or stop}"
    return "\\" + next(letter for letter in (anywhere, *others) if letter)


def code(text: str) -> str:
    """Return text as a span of code, which no reader of Markdown looks into; also in a cell of a table.

    Example:
        >>> code("a`b")
        '`` a`b ``'
    """
    # a bar would end the cell of a table even inside a span of code
    shown = printable(text, _LONGEST).replace("|", "¦") or " "
    runs = [len(run) for run in re.findall("`+", shown)]
    fence = "`" * next(size for size in range(1, len(runs) + 2) if size not in runs)
    pad = " " if runs else ""
    return f"{fence}{pad}{shown}{pad}{fence}"


def worded(text: str) -> str:
    r"""Return a sentence of the program's own, in which what stands between backticks is code: a key, a command.

    What a person wrote and the sentence quotes is as inert in it as anywhere.

    Example:
        >>> worded("say so with `sealed`, *not* with `a|b`")
        'say so with `sealed`, \\*not\\* with `a¦b`'
    """
    shown = printable(text, _LONGEST)
    # what is split off stands at odd places
    parts = _CODE_SPAN.split(shown)
    return "".join(code(part) if at % 2 else plain(part) for at, part in enumerate(parts))
