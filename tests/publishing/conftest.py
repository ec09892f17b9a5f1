"""What the tests of publishing share: the small manuscript, its edition and its files, each made once."""

from __future__ import annotations

from pathlib import Path

import pytest
from plateset.publishing.documents import Edition, documents

from tests.publishing.building import edition_of, write_book


@pytest.fixture(scope="session")
def book(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The small manuscript on disk; not to be changed."""
    return write_book(tmp_path_factory.mktemp("publishing") / "book")


@pytest.fixture(scope="session")
def edition(book: Path) -> Edition:
    """Its edition."""
    return edition_of(book)


@pytest.fixture(scope="session")
def files(edition: Edition) -> dict[str, bytes]:
    """Every file of its site, by site path."""
    return dict(documents(edition))
