"""``python -m speccheck.uses``: run every example of every rule pack that ships, or of the pack files named."""

import sys
from collections.abc import Sequence
from pathlib import Path

from speccheck.judgement.library import load_pack, pack_ids, read_pack
from speccheck.judgement.pack import PackError
from speccheck.uses.examples import examples_of, run_example

__all__ = ["main"]


def main(arguments: Sequence[str]) -> int:
    """Run examples; write what is wrong; return 1 when something is."""
    try:
        packs = [read_pack(Path(name)) for name in arguments] or [load_pack(id_) for id_ in pack_ids()]
    except (PackError, OSError, ValueError) as error:
        sys.stdout.write(f"{error}\n")
        return 1
    examples = [example for pack in packs for example in examples_of(pack)]
    faults = [fault for example in examples if (fault := run_example(example))]
    sys.stdout.write("".join(f"{fault}\n" for fault in faults))
    rules = sum(len(pack.rules) for pack in packs)
    sys.stdout.write(f"{len(packs)} packs, {rules} rules, {len(examples)} examples: {len(faults)} wrong\n")
    return 1 if faults else 0


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
