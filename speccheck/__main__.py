"""``python -m speccheck``."""

from speccheck.cli import main

main()
