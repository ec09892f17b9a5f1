"""Digests of folders: by what the files hold and what they are called, whatever that is."""

from __future__ import annotations

import os
import sys
from pathlib import Path

import pytest
from plateset.digests import digest_of_folders


def test_a_folder_is_told_by_its_names_and_what_they_hold(tmp_path: Path) -> None:
    (tmp_path / "a").write_text("x")
    first = digest_of_folders([tmp_path])
    assert digest_of_folders([tmp_path]) == first
    (tmp_path / "a").write_text("y")
    second = digest_of_folders([tmp_path])
    (tmp_path / "a").rename(tmp_path / "b")
    assert len({first, second, digest_of_folders([tmp_path]), digest_of_folders([])}) == 4


@pytest.mark.skipif(sys.platform != "linux", reason="other systems have no names that are not text")
def test_a_name_that_is_not_text_is_a_name_too(tmp_path: Path) -> None:
    before = digest_of_folders([tmp_path])
    with open(os.fsencode(tmp_path) + b"/\xff\xfe.css", "wb") as file:
        file.write(b"p {}")
    assert digest_of_folders([tmp_path]) != before
