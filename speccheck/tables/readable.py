"""Reading a table file of ours: YAML that repeats no key.

Table files ship with speccheck and are edited by hand. The slip that plain YAML hides is a key given twice,
where the last one wins in silence; here it is an error that names the file and the line.
"""

from collections.abc import Hashable
from typing import TYPE_CHECKING, Any

import yaml

__all__ = ["read_yaml"]

if TYPE_CHECKING:
    _Base = yaml.SafeLoader
else:
    _Base = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


class _OneKeyOnce(_Base):
    """A safe loader that refuses a mapping with a repeated key."""

    def construct_mapping(self, node: yaml.MappingNode, deep: bool = False) -> dict[Hashable, Any]:
        seen: set[Hashable] = set()
        for key_node, _ in node.value:
            key = self.construct_object(key_node, deep=True)
            if key in seen:
                raise yaml.constructor.ConstructorError(
                    None, None, f"the key {key!r} is given twice", key_node.start_mark
                )
            seen.add(key)
        return super().construct_mapping(node, deep=deep)


def read_yaml(text: bytes, name: str) -> Any:
    """Return what a table file holds.

    Args:
        text: the bytes of the file, UTF-8.
        name: the name to use in an error.

    Raises:
        ValueError: when the text is not YAML or repeats a key; the message names file, line and column.
    """
    try:
        return yaml.load(text, Loader=_OneKeyOnce)
    except yaml.YAMLError as error:
        mark = getattr(error, "problem_mark", None)
        place = f"{name}:{mark.line + 1}:{mark.column + 1}" if mark else name
        raise ValueError(f"{place}: {getattr(error, 'problem', None) or error}") from error
