"""Where the themes and the shipped manuscript are: inside an installed package, or beside it in a checkout."""

from __future__ import annotations

from importlib.resources import files
from pathlib import Path


def shipped(name: str) -> Path:
    """The folder ``themes`` or ``content``. Raises FileNotFoundError when an installation is incomplete."""
    installed = Path(str(files("plateset"))) / "_data" / name
    checkout = Path(__file__).resolve().parents[2] / name
    for folder in (installed, checkout):
        if folder.is_dir():
            return folder
    raise FileNotFoundError(f"this installation has no {name} folder; install Plateset again")
