"""Letters and briefs in Markdown: the environment of their templates, in which every value is made inert.

What is put into a template is escaped on its way out, as in the HTML pages, so that no template can forget it. Only
what Markdown would act on is escaped: a letter is also read as plain text.
"""

import re
from functools import lru_cache
from typing import Any

from speccheck.document.problem import printable

__all__ = ["inert", "render_markdown"]

_LONGEST = 5_000
_MARKUP = re.compile(r"([\\`*_\[\]|~$^])")
_ENTITIES = {"&": "&amp;", "<": "&lt;", ">": "&gt;"}
_AT_START = re.compile(r"^(\s*)([-+=#]|\d+(?=[.)]))")
# a code host or a reader of mail makes links of these where it finds them, escaped or not: a joiner parts them
_CALLS = re.compile(r"[@#](?=\w)|(?<=:)(?=//)|(?<=\bwww)(?=\.)", re.IGNORECASE)
_JOINER = "\u2060"


def inert(text: str) -> str:
    r"""Return text that Markdown shows as it was written: no markup, link, mention or HTML.

    Example:
        >>> inert("1. <b>*a*</b> | [x](y)")
        '1\\. &lt;b&gt;\\*a\\*&lt;/b&gt; \\| \\[x\\](y)'
        >>> inert("R-40.8 (7.18 m²·K/W)")
        'R-40.8 (7.18 m²·K/W)'
    """
    shown = printable(" ".join(text.split()), _LONGEST)
    parted = _CALLS.sub(lambda found: found[0] + _JOINER, shown)
    escaped = _MARKUP.sub(r"\\\1", parted)
    plain = "".join(_ENTITIES.get(character, character) for character in escaped)
    return _AT_START.sub(lambda found: _escaped_start(found[1], found[2]), plain)


def _escaped_start(space: str, mark: str) -> str:
    # the number of a list is harmless once its point is escaped
    return f"{space}{mark}\\" if mark.isdigit() else f"{space}\\{mark}"


def _shown(value: object) -> object:
    return inert(value) if isinstance(value, str) else value


@lru_cache(maxsize=1)
def _environment() -> Any:
    from jinja2 import Environment, FileSystemLoader, StrictUndefined

    from speccheck.report.template_folder import TEMPLATES

    return Environment(
        loader=FileSystemLoader(TEMPLATES),
        autoescape=False,
        finalize=_shown,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )


def render_markdown(template: str, **given: Any) -> str:
    """Return a Markdown template filled, every text that is put into it made inert."""
    text: str = _environment().get_template(template).render(given)
    return text
