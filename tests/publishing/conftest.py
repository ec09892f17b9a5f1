"""What the tests of publishing share: the small manuscript, its edition and its files, each made once."""

from __future__ import annotations

from pathlib import Path

import pytest
from plateset.publishing.documents import Edition, documents

from tests.conftest import CONTENT
from tests.everything import HEADS, everything
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


@pytest.fixture(scope="session")
def demo() -> Edition:
    """The edition of the shipped manuscript."""
    return edition_of(CONTENT)


@pytest.fixture(scope="session")
def everythings(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Edition]:
    """The program with everything in it, in three gyms."""
    folder = tmp_path_factory.mktemp("everything")
    return {name: everything(folder / name, head) for name, head in HEADS.items()}
