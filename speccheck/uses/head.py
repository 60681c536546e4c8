"""What the head of a file says it is: its keys at the top level, found without reading it as YAML or JSON.

A document with a fault is still a document: one whose YAML is broken further down, or whose other keys are mistyped, is
told of, not passed over. So only the key that names the form counts, and only where it stands at the top: a rule pack
holds whole documents in its examples.
"""

import re

__all__ = ["is_own_report", "top_keys"]

_ORDER_MARKS = b"\xef\xbb\xbf\xff\xfe"
"""The bytes of the marks that may open a text in UTF-8, UTF-16 or UTF-32; none of them opens a key."""
_REPORT = re.compile(rb"\s*\{\s*\"speccheck-[a-z]+\"\s*:")
"""How the program's own reports in JSON begin."""
_IN_FLOW = re.compile(
    rb"[{\[]|[}\]]|\"((?:[^\"\\]|\\.)*)\"|(?<=[\s{,])'([^']*)'|(?<=[\s{,])([\w-]+)(?=\s*:)", re.DOTALL
)


def is_own_report(head: bytes) -> bool:
    """Is it one of the program's own reports in JSON?"""
    return _REPORT.match(_plain(head)) is not None


def top_keys(head: bytes, wanted: tuple[str, ...]) -> set[str]:
    r"""Return which of some keys stand at the top level of a file.

    Args:
        head: the beginning of the file, in whatever encoding.
        wanted: the keys to look for.

    Example:
        >>> top_keys(b"# a wall\nspeccheck: 1\nstarts: {assemblies: 2}\n", ("speccheck", "assemblies"))
        {'speccheck'}
        >>> top_keys(b'{"starts": {"speccheck": 1}, "assemblies": {}}', ("speccheck", "assemblies"))
        {'assemblies'}
    """
    text = _from_first_key(_plain(head))
    found = _in_flow(text) if text.lstrip().startswith(b"{") else _in_block(text)
    return {key for key in wanted if key.encode() in found}


def _plain(head: bytes) -> bytes:
    """Return the head without what UTF-16 and UTF-32 put between the letters of a key."""
    return head.lstrip(_ORDER_MARKS + b"\0").replace(b"\0", b"")


def _from_first_key(text: bytes) -> bytes:
    """Return the text without comments, directives and the mark that may stand before its first key."""
    lines = text.splitlines(keepends=True)
    for at, line in enumerate(lines):
        said = line.strip()
        if said.startswith(b"---"):
            line = said.removeprefix(b"---").lstrip()  # a document may begin beside its mark
            said = line
        if said and not said.startswith((b"#", b"%")):
            return b"".join((line, b"\n", *lines[at + 1 :]))
    return b""


def _in_block(text: bytes) -> set[bytes]:
    """Return the keys that are indented as the first one is."""
    indent = re.match(rb"[ \t]*", text)
    lead = re.escape(indent[0] if indent else b"")
    return set(re.findall(rb"^" + lead + rb"[\"']?([\w-]+)[\"']?[ \t]*:", text, re.MULTILINE))


def _in_flow(text: bytes) -> set[bytes]:
    """Return the keys within the outermost braces."""
    found: set[bytes] = set()
    depth = 0
    for match in _IN_FLOW.finditer(text):
        token = match[0]
        if token in (b"{", b"["):
            depth += 1
        elif token in (b"}", b"]"):
            depth -= 1
            if depth == 0:
                break
        elif depth == 1 and re.match(rb"\s*:", text[match.end() : match.end() + 80]):
            found.add(next(name for name in match.groups() if name is not None))
    return found
