"""``python -m speccheck``."""

from speccheck.cli import main

if __name__ == "__main__":
    main()
