"""The form of a manuscript's own page templates: faults that Jinja finds without a page to make, and their phrases.

Loaded only where there are templates, for Jinja takes a while to load.
"""

from __future__ import annotations

from collections.abc import Iterator
from io import BytesIO
from pathlib import Path

from jinja2 import Environment, TemplateSyntaxError, nodes
from jinja2.ext import babel_extract

from plateset.catalogue import Phrase
from plateset.problems import Problem, nearest_word
from plateset.theme_files import place_in

FILTERS = ("low", "kept", "cap")
"""What templates may do with a value besides Jinja's own filters."""
SAYING = ("_", "gettext", "ngettext")
"""The functions by which a template says a phrase."""

UNTOLD = (SyntaxError, RecursionError, ValueError, OverflowError, MemoryError)
"""What else a template can be refused for, by the Python it would become: too deep a nest, too long a number."""

_NAMING = (nodes.Extends, nodes.Include, nodes.Import, nodes.FromImport)


def template_problems(own: Path, shown: str, theme: Path) -> Iterator[Problem]:
    """What is wrong with the templates of ``own`` (told as ``shown``) that pages of the theme would be made with."""
    known = {path.relative_to(folder).as_posix() for folder in (own, theme) for path in folder.rglob("*.html")}
    ahead = sorted(path.name for path in theme.glob("*.html"))
    seen: set[str] = set()
    while ahead:
        name = ahead.pop()
        if name in seen or not (own / name).is_file():
            continue
        seen.add(name)
        text = _text(own / name)
        if text is None:
            yield Problem(place_in(f"{shown}/{name}", "", 0), "this is not UTF-8 text", "a text file saved as UTF-8")
            continue
        try:
            tree = _environment().parse(text, name)
            _environment().compile(tree, name)
        except TemplateSyntaxError as error:
            message = f"this is no template: {error.message}"
            yield Problem(place_in(f"{shown}/{name}", text, error.lineno), message, "a Jinja template")
            continue
        except UNTOLD as error:
            message = f"this is no template: {getattr(error, 'msg', error)}"
            yield Problem(place_in(f"{shown}/{name}", "", 0), message, "a Jinja template")
            continue
        for line, part in _parts(tree):
            ahead.append(part)
            if part not in known and not (own / part).is_file() and not (theme / part).is_file():
                message = f"there is no template called {part!r}"
                place = place_in(f"{shown}/{name}", text, line)
                yield Problem(place, message, "one of the theme's or of your own", nearest_word(part, sorted(known)))


def phrases_said(own: Path) -> Iterator[Phrase]:
    """The phrases that the templates of ``own`` say; of those that cannot be read none."""
    for path in sorted(own.rglob("*.html")):
        text = _text(path) if path.is_file() else None
        if text is None:
            continue
        try:
            found = list(babel_extract(BytesIO(text.encode()), SAYING, (), {}))
        except (TemplateSyntaxError, *UNTOLD):
            continue
        for line, function, message, _ in found:
            said = message if isinstance(message, str) else (message or ("",))[0]
            if said:
                yield Phrase(said, function == "ngettext", line)


def _environment() -> Environment:
    environment = Environment(autoescape=True, extensions=["jinja2.ext.i18n"])
    environment.filters |= dict.fromkeys(FILTERS, str)
    return environment


def _parts(tree: nodes.Template) -> Iterator[tuple[int, str]]:
    """The templates that one names and cannot do without, each with its line."""
    for node in tree.find_all(_NAMING):
        named, may_lack = getattr(node, "template", None), getattr(node, "ignore_missing", False)
        if isinstance(named, nodes.Const) and isinstance(named.value, str) and not may_lack:
            yield node.lineno, named.value


def _text(path: Path) -> str | None:
    try:
        return path.read_text("utf-8")
    except (OSError, UnicodeDecodeError):
        return None
