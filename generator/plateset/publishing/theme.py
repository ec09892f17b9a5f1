"""A theme: templates, styles and scripts from its folder, a manuscript's own files in front of the shipped ones."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

from jinja2 import BytecodeCache, ChoiceLoader, Environment, FileSystemLoader, StrictUndefined, TemplateError
from jinja2.bccache import Bucket

from plateset.publishing import paths
from plateset.publishing.language import ENGLISH, CatalogueError, Language, catalogue_names, language_of

SHEET = "sheet.typ"
CARD = "card.typ"
FONTS = "fonts"
ASSETS = ("style.css", "site.js", "chart.js", "finder.js", "search.js", "calendar.js")


_TEMPLATE_FAULTS = (TemplateError, ArithmeticError, TypeError, ValueError, LookupError, AttributeError, RecursionError)
"""What a template can raise: Jinja's own errors, and those of the expressions in it."""


class _Compiled(BytecodeCache):
    """Templates as compiled, kept while the process runs; a changed template has another checksum."""

    def __init__(self) -> None:
        self._kept: dict[str, bytes] = {}

    def load_bytecode(self, bucket: Bucket) -> None:
        if bucket.key in self._kept:
            bucket.bytecode_from_string(self._kept[bucket.key])

    def dump_bytecode(self, bucket: Bucket) -> None:
        self._kept[bucket.key] = bucket.bytecode_to_string()


_COMPILED = _Compiled()


class ThemeError(Exception):
    """A theme that cannot be used; the message says which file and why."""


@dataclass(frozen=True)
class Theme:
    """The folders a theme's files are looked for in, first one first."""

    name: str
    folders: tuple[Path, ...]

    def read(self, name: str) -> bytes:
        """The bytes of one of the theme's files."""
        for folder in self.folders:
            if (folder / name).is_file():
                return (folder / name).read_bytes()
        raise ThemeError(f"the theme {self.name!r} has no {name}")

    @property
    def fonts(self) -> tuple[Path, ...]:
        """The folders of fonts for paper: ``fonts`` of the theme, and of the manuscript's own theme folder."""
        return tuple(folder / FONTS for folder in self.folders if (folder / FONTS).is_dir())

    def language(self, tag: str) -> Language:
        """The words of a language as this theme has them; English for those it has not."""
        names = [(folder, name) for folder in self.folders for name in catalogue_names(tag)]
        found = [folder / name for folder, name in names if (folder / name).is_file()]
        try:
            return language_of(tag, tuple(path.read_bytes() for path in found))
        except CatalogueError as error:
            raise ThemeError(
                f"the theme {self.name!r} has a catalogue of words that cannot be read: {error}"
            ) from error

    def environment(self, language: Language = ENGLISH) -> Environment:
        """Jinja set up for pages: everything escaped, an unknown name is an error.

        ``_`` says a phrase of the theme in the site's language (``ngettext`` counts), ``say`` a word that a page was
        given.
        """
        environment = Environment(
            loader=ChoiceLoader([FileSystemLoader(folder) for folder in self.folders]),
            autoescape=True,
            undefined=StrictUndefined,
            trim_blocks=True,
            lstrip_blocks=True,
            keep_trailing_newline=True,
            bytecode_cache=_COMPILED,
            extensions=["jinja2.ext.i18n"],
        )
        install: Any = environment.install_gettext_callables  # type: ignore[attr-defined]
        install(language.say, language.count, newstyle=True)
        environment.globals["say"] = language.say
        environment.filters["low"] = lambda text: text[:1].lower() + text[1:]
        return environment


def find_theme(name: str, manuscript: Path, themes: Path) -> Theme:
    """The theme called ``name``: shipped, with any files of the manuscript's own ``theme/`` folder before it."""
    shipped = themes / name
    if not shipped.is_dir():
        known = ", ".join(sorted(folder.name for folder in themes.iterdir() if folder.is_dir()))
        raise ThemeError(f"there is no theme called {name!r}; there is {known}")
    own = manuscript / "theme"
    if not own.is_dir():
        return Theme(name, (shipped,))
    _check_stays_inside(own, manuscript)
    return Theme(name, (own, shipped))


def _check_stays_inside(own: Path, manuscript: Path) -> None:
    """No file of the manuscript's theme may lie elsewhere: what a link leads to would be published."""
    home = manuscript.resolve()
    for path in (own, *sorted(own.rglob("*"))):
        try:
            inside = path.resolve(strict=True).is_relative_to(home)
        except (OSError, RuntimeError):
            inside = False
        if not inside:
            named = path.relative_to(manuscript).as_posix()
            raise ThemeError(f"{named} leads out of the manuscript or nowhere; put the file itself there")


class Pages:
    """Renders one template after another for a site."""

    def __init__(self, theme: Theme, shared: Mapping[str, Any], language: Language = ENGLISH) -> None:
        self._environment = theme.environment(language)
        self._theme = theme
        self._shared = shared

    def render(self, template: str, page: Mapping[str, Any], data: Mapping[str, Any]) -> str:
        """One page; ``page`` holds its title, description, path and kind."""
        try:
            return self._environment.get_template(template).render(
                **self._shared, **data, page=page, link=lambda target: self._link(target, page["path"])
            )
        except _TEMPLATE_FAULTS as error:
            line = f", line {error.lineno}" if hasattr(error, "lineno") else ""
            raise ThemeError(f"theme {self._theme.name!r}, {template}{line}: {error}") from error

    def _link(self, target: str, page: str) -> str:
        """Relative, but for the page a host shows at any address where nothing is: that one needs the whole path."""
        address: str = self._shared["site"].address
        if page == paths.NOT_FOUND and address and not target.startswith("#"):
            return urlsplit(address).path.rstrip("/") + "/" + target
        return paths.relative(target, page)
