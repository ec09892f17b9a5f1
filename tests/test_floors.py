"""The floors of the program: what may import what, read off the syntax tree."""

from __future__ import annotations

import ast
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from plateset.cli import COMMANDS
from plateset.stocktaking import TYPESETTER

from tests.publishing.building import write_book

PACKAGE = Path(__file__).parents[1] / "generator" / "plateset"
ORDER = (
    "problems", "not_made", "thrift", "remembering", "records", "digests", "manuscript", "editor_schema", "training",
    "shipped", "usual_cautions", "catalogue", "theme_files", "template_form", "logo_file", "placed_marks", "own_theme",
    "prose_figures", "proving", "comparing", "press_terms",
    "publishing", "chart_library", "editions", "stocktaking", "studying", "program_making", "workers",
    "press_run", "pressing", "problem_text", "verdicts",
    "terminal_table", "proof_tables", "comparison_text", "console",
    "drafting", "proof_schema",
    "proof_json", "manual_keys", "collating", "preview", "commands", "cli", "__main__",
)  # fmt: skip
"""From the ground up: each imports itself and those before it. A module not named here is imported by none of them."""

WORLD = {"os", "pathlib", "io", "random", "secrets", "time", "datetime", "tempfile", "socket", "subprocess", "uuid"}
"""Modules that tell the time, draw lots or touch the disk: training computes, and equal input gives equal output."""

FILES = [path.relative_to(PACKAGE) for path in sorted(PACKAGE.rglob("*.py"))]


def imports(path: Path) -> Iterator[str]:
    """Every module imported anywhere in a file, in whatever block."""
    for node in ast.walk(ast.parse((PACKAGE / path).read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, "imports name their module in full"
            yield from (f"{node.module}.{alias.name}" for alias in node.names)


@pytest.mark.parametrize("path", FILES, ids=str)
def test_imports_go_down(path: Path) -> None:
    floor = path.parts[0].removesuffix(".py")
    below = {*ORDER[: ORDER.index(floor) + 1], "__version__"} if floor in ORDER else None
    used = {name.split(".")[1] for name in imports(path) if name.startswith("plateset.")}
    assert below is None or used <= below


@pytest.mark.parametrize("path", FILES, ids=str)
def test_no_imports_inside_functions(path: Path) -> None:
    tree = ast.parse((PACKAGE / path).read_text(encoding="utf-8"))
    functions = [node for node in ast.walk(tree) if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef)]
    inside = [
        node.lineno for each in functions for node in ast.walk(each) if isinstance(node, ast.Import | ast.ImportFrom)
    ]
    assert inside == []


@pytest.mark.parametrize("path", [path for path in FILES if path.parts[0] == "training"], ids=str)
def test_training_knows_no_clock_chance_or_disk(path: Path) -> None:
    assert not {name.split(".")[0] for name in imports(path)} & WORLD
    calls = [
        node.id
        for node in ast.walk(ast.parse((PACKAGE / path).read_text(encoding="utf-8")))
        if isinstance(node, ast.Name)
    ]
    assert not {"open", "input", "print", "hash", "id"} & set(calls)


@pytest.mark.parametrize("command", ["proof", "draft", "press"])
def test_a_command_loads_only_what_it_uses(command: str) -> None:
    code = (
        f"import sys; from plateset.cli import main; main.get_command(None, {command!r}); print(*sorted(sys.modules))"
    )
    loaded = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout.split()
    assert f"plateset.commands.{command}" in loaded
    assert not {"plotly", "typst", "jinja2"} & set(loaded)


def test_a_press_with_nothing_to_do_loads_only_what_it_uses(tmp_path: Path) -> None:
    """It reads and hashes, and understands nothing of what it reads."""
    book = write_book(tmp_path / "book")
    pressing = (sys.executable, "-c", NOTHING_TO_DO, str(book), "--to", str(tmp_path / "site"), "--as-draft")
    first, second = (subprocess.run(pressing, capture_output=True, text=True, check=True).stdout for _ in range(2))
    understanding = {"yaml", "markdown_it", "jinja2", "typst", "plotly", "xlsxwriter", "plateset.press_run"}
    assert understanding <= set(first.split())
    assert "Nothing has changed since the last press." in second
    assert not {*understanding, "multiprocessing"} & set(second.split())


def test_a_command_ends_without_a_last_look_for_garbage() -> None:
    """Asked at the very end: what is registered first is called last."""
    code = "import atexit, gc; atexit.register(lambda: print(gc.get_freeze_count() > 1000)); import plateset.cli"
    assert subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout == "True\n"


def test_a_press_after_a_note_s_edit_loads_nothing_that_makes_a_program(tmp_path: Path) -> None:
    book = write_book(tmp_path / "book")
    pressing = (sys.executable, "-c", NOTHING_TO_DO, str(book), "--to", str(tmp_path / "site"), "--as-draft")
    loaded: list[set[str]] = []
    for _ in range(2):
        loaded.append(set(subprocess.run(pressing, capture_output=True, text=True, check=True).stdout.split()))
        with (book / "exercises" / "plank.md").open("a") as note:
            note.write("\nAnd one line more.\n")
    making = {"plateset.program_making", "xlsxwriter", "icalendar"}
    assert making <= loaded[0]
    assert not {*making, "multiprocessing"} & loaded[1]


NOTHING_TO_DO = """
import sys
from plateset.commands.press import command
command(sys.argv[1:], standalone_mode=False)
print(*sorted(sys.modules))
"""


def test_what_a_sheet_goes_through_is_named_where_it_is_hashed() -> None:
    """A module that the typesetter came to use would change sheets without their being set again."""
    used = {
        each.removeprefix("plateset.").rpartition(".")[0].replace(".", "/") + ".py"
        for path in TYPESETTER
        for each in imports(Path(path))
        if each.startswith("plateset.")
    }
    assert used <= set(TYPESETTER)


def test_the_commands_are_those_there_are_modules_for() -> None:
    there = {path.stem for path in (PACKAGE / "commands").glob("*.py")}
    assert set(COMMANDS) == there - {"__init__", "endings", "voice"}
