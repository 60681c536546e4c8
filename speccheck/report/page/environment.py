"""The Jinja2 environment of the HTML templates: everything escaped, nothing undefined, no look outside the package."""

import re
from unicodedata import category

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup

from speccheck.report.template_folder import TEMPLATES

__all__ = ["anchor", "css_text", "html_environment"]

_NO_ANCHOR = re.compile("[^a-z0-9-]")
_STEERING = ("Cc", "Cf", "Cs", "Co", "Zl", "Zp")


def html_environment() -> Environment:
    """Return the environment of the HTML templates."""
    environment = Environment(
        loader=FileSystemLoader(TEMPLATES),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
        optimized=False,  # a template runs once: folding its constants costs more than it saves
    )
    environment.filters["anchor"] = anchor
    environment.filters["css_text"] = css_text
    environment.finalize = visible
    return environment


def anchor(text: str) -> str:
    """Return a name that may stand in an id and in a link.

    Example:
        >>> anchor("north-wall.fill <b>")
        'north-wall-fill--b-'
    """
    return _NO_ANCHOR.sub("-", text.lower())


def css_text(text: str) -> Markup:
    r"""Return text that may stand between quotes in a style sheet: all but letters, digits and spaces as escapes.

    Example:
        >>> str(css_text('a"b'))
        'a\\22 b'
    """
    kept = (c if c.isascii() and (c.isalnum() or c == " ") else f"\\{ord(c):x} " for c in str(visible(text)))
    return Markup("".join(kept))


def visible(value: object) -> object:
    """Return text with each character that steers a display or turns its direction replaced by a mark."""
    if isinstance(value, Markup) or not isinstance(value, str) or value.isprintable():
        return value
    return "".join("\N{REPLACEMENT CHARACTER}" if _steers(c) else c for c in value)


def _steers(character: str) -> bool:
    return character != "\n" and category(character) in _STEERING
