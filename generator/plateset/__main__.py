"""Lets ``python -m plateset`` do what the ``plateset`` command does."""

from plateset.cli import main

if __name__ == "__main__":
    main()
