"""Run the commands with ``python -m counterhoop``."""

from counterhoop.cli import main

main()
