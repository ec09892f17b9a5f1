"""Templates as compiled: kept for the next press where nobody else could have put them there."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from jinja2 import DictLoader, Environment
from plateset.publishing.compiled_templates import CompiledTemplates
from plateset.publishing.user_cache import CACHE


@pytest.fixture
def cache(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv(CACHE, str(tmp_path / "cache"))
    return tmp_path / "cache"


@pytest.fixture
def maker(tmp_path: Path) -> Path:
    path = tmp_path / "maker.py"
    path.write_text("first")
    return path


def compiled(maker: Path, text: str, monkeypatch: pytest.MonkeyPatch) -> tuple[str, int]:
    """What a template says in a process of its own, as it were, and how often one was compiled for that."""
    times: list[object] = []
    found = Environment._compile

    def noted(self: Environment, *given: Any) -> Any:
        times.append(given)
        return found(self, *given)

    with monkeypatch.context() as patched:
        patched.setattr(Environment, "_compile", noted)
        environment = Environment(loader=DictLoader({"page": text}), bytecode_cache=CompiledTemplates(maker))
        return environment.get_template("page").render(), len(times)


def test_a_template_is_compiled_once_for_all_presses(cache: Path, maker: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    assert compiled(maker, "{{ 1 + 1 }}", monkeypatch) == ("2", 1)
    assert compiled(maker, "{{ 1 + 1 }}", monkeypatch) == ("2", 0)


def test_a_changed_template_is_another(cache: Path, maker: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    compiled(maker, "{{ 1 + 1 }}", monkeypatch)
    assert compiled(maker, "{{ 1 + 2 }}", monkeypatch) == ("3", 1)


def test_what_another_version_compiled_is_cleared(cache: Path, maker: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    compiled(maker, "{{ 1 + 1 }}", monkeypatch)
    before = list(cache.iterdir())
    maker.write_text("second")
    assert compiled(maker, "{{ 1 + 1 }}", monkeypatch) == ("2", 1)
    assert len(list(cache.iterdir())) == len(before) == 1
    assert list(cache.iterdir()) != before


@pytest.mark.parametrize("mode", [0o770, 0o702])
def test_a_folder_that_others_may_write_is_not_read(
    mode: int, cache: Path, maker: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    compiled(maker, "{{ 1 + 1 }}", monkeypatch)
    next(cache.iterdir()).chmod(mode)
    assert compiled(maker, "{{ 1 + 1 }}", monkeypatch) == ("2", 1)


def test_a_link_in_its_place_is_not_followed(
    cache: Path, maker: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    compiled(maker, "{{ 1 + 1 }}", monkeypatch)
    folder = next(cache.iterdir())
    folder.rename(tmp_path / "elsewhere")
    folder.symlink_to(tmp_path / "elsewhere")
    assert compiled(maker, "{{ 1 + 1 }}", monkeypatch) == ("2", 1)


def test_a_file_that_is_no_template_is_compiled_anew(cache: Path, maker: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    compiled(maker, "{{ 1 + 1 }}", monkeypatch)
    for path in next(cache.iterdir()).iterdir():
        path.write_bytes(b"something else")
    assert compiled(maker, "{{ 1 + 1 }}", monkeypatch) == ("2", 1)


def test_without_a_place_to_write_templates_are_compiled_all_the_same(
    cache: Path, maker: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    cache.write_text("a file")
    assert compiled(maker, "{{ 1 + 1 }}", monkeypatch) == ("2", 1)
