"""Workbooks recalculated by LibreOffice: an engine that shares nothing with the one that wrote them."""

from __future__ import annotations

import os
import shutil
import subprocess
from collections.abc import Mapping
from functools import lru_cache
from io import BytesIO
from pathlib import Path

import pytest
from openpyxl import Workbook, load_workbook

REQUIRED = "PLATESET_OFFICE_REQUIRED"
_ALWAYS = """\
<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry" xmlns:xs="http://www.w3.org/2001/XMLSchema">
<item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop oor:name="OOXMLRecalcMode" oor:op="fuse">\
<value>0</value></prop></item>
</oor:items>
"""
"""Without it the values in a file are believed and nothing is worked out again."""


def office() -> str:
    """The command; where there is none the test is skipped and says so, or fails if it is required."""
    found = os.environ.get("PLATESET_OFFICE") or shutil.which("soffice")
    if found is None:
        message = "no LibreOffice (apt-get install libreoffice-calc-nogui, or set PLATESET_OFFICE)"
        if os.environ.get(REQUIRED):
            pytest.fail(message)
        pytest.skip(message)
    return found


def converted(books: Mapping[str, bytes], folder: Path, to: str = "xlsx") -> dict[str, bytes]:
    """Every workbook opened, worked out again and saved in another form, by name."""
    command, profile, given, made = office(), folder / "profile", folder / "given", folder / "made"
    for each in (profile / "user", given):
        each.mkdir(parents=True)
    (profile / "user" / "registrymodifications.xcu").write_text(_ALWAYS, "utf-8")
    for name, data in books.items():
        (given / f"{name}.xlsx").write_bytes(data)
    done = subprocess.run(
        [command, "--headless", f"-env:UserInstallation={profile.as_uri()}", "--convert-to", to, "--outdir", str(made)]
        + [str(given / f"{name}.xlsx") for name in books],
        capture_output=True,
        text=True,
        timeout=600,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    return {name: (made / f"{name}.{to}").read_bytes() for name in books}


@lru_cache(maxsize=8)
def values(data: bytes) -> Workbook:
    """A workbook with what its formulas come to; not to be changed, others look at it too."""
    return load_workbook(BytesIO(data), data_only=True)


@lru_cache(maxsize=8)
def formulas(data: bytes) -> Workbook:
    """A workbook with its formulas as they are written; not to be changed."""
    return load_workbook(BytesIO(data))
