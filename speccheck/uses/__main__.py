"""``python -m speccheck.uses``: run every example of every rule pack that ships, or of the pack files named."""

import sys
from collections.abc import Sequence
from pathlib import Path

from speccheck.judgement.library import load_pack, pack_ids, read_pack
from speccheck.judgement.pack import PackError
from speccheck.uses.examples import examples_of
from speccheck.uses.trial import faults_of

__all__ = ["main"]


def main(arguments: Sequence[str]) -> int:
    """Run examples; write what is wrong; return 1 when something is."""
    try:
        packs = [read_pack(Path(name)) for name in arguments] or [load_pack(id_) for id_ in pack_ids()]
        faults = [fault for pack in packs for fault in faults_of(pack)]
    except (PackError, OSError, ValueError) as error:
        sys.stdout.write(f"{error}\n")
        return 1
    sys.stdout.write("".join(f"{fault}\n" for fault in faults))
    rules = sum(len(pack.rules) for pack in packs)
    examples = sum(1 for pack in packs for _ in examples_of(pack))
    sys.stdout.write(f"{len(packs)} packs, {rules} rules, {examples} examples: {len(faults)} wrong\n")
    return 1 if faults else 0


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
