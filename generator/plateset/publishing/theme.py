"""A theme: templates, styles and scripts from its folder, a manuscript's own files in front of the shipped ones."""

from __future__ import annotations

import hashlib
import json
import re
from collections.abc import Callable, Iterable, Mapping
from contextvars import ContextVar
from dataclasses import dataclass
from functools import cache, cached_property, lru_cache, partial
from pathlib import Path
from types import FunctionType, MethodType
from typing import Any
from urllib.parse import urlsplit

from jinja2 import ChoiceLoader, Environment, FileSystemLoader, StrictUndefined, TemplateError, TemplateSyntaxError
from jinja2.runtime import Context, Macro
from markupsafe import Markup

from plateset.catalogue import CatalogueError
from plateset.digests import digest_of_folders
from plateset.not_made import NotMadeError
from plateset.publishing import paths
from plateset.publishing.compiled_templates import CompiledTemplates
from plateset.publishing.language import ENGLISH, Language, language_of
from plateset.publishing.typesetting import UNREAD, Template
from plateset.publishing.words import kept_together
from plateset.remembering import Remembered
from plateset.theme_files import (
    FONTS,
    NAMING,
    OWN,
    PAPER,
    PLAIN_NAME,
    catalogue_names,
    leads_away,
    phrases_on_paper,
)

SHEET = "sheet.typ"
WORDS = "words.txt"
"""What the templates for paper read the site's language from."""
CARD = "card.typ"
ASSETS = (
    "style.css", "site.js", "chart.js", "finder.js", "search.js", "calendar.js",
    "own-loads.js", "own-page.js", "own-form.js",
)  # fmt: skip


_TEMPLATE_FAULTS = (
    TemplateError, ArithmeticError, TypeError, ValueError, LookupError, AttributeError, RecursionError, SyntaxError,
)  # fmt: skip
"""What a template can raise: Jinja's own errors, those of the expressions in it, and of the Python that it becomes."""


KEPT = 1000
"""Pieces of pages that are kept: those of a few programs."""
PHRASES = 2000
"""Phrases that are kept: more than the templates have."""


_COMPILED = CompiledTemplates(Path(__file__))


class ThemeError(NotMadeError):
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

    def has(self, name: str) -> bool:
        """Whether there is such a file."""
        return any((folder / name).is_file() for folder in self.folders)

    def digest(self, name: str) -> str:
        """The digest of one of the theme's files."""
        return hashlib.sha256(self.read(name)).hexdigest()

    def words_digest(self, tag: str) -> str:
        """The digest of the catalogues a language's words are taken from."""
        return hashlib.sha256(repr(self._catalogues(tag)).encode()).hexdigest()

    def folder_digest(self, name: str) -> str:
        """The digest of everything in a folder of the theme."""
        return digest_of_folders(folder / name for folder in self.folders if (folder / name).is_dir())

    def _catalogues(self, tag: str) -> tuple[bytes, ...]:
        names = [(folder, name) for folder in self.folders for name in catalogue_names(tag)]
        return tuple((folder / name).read_bytes() for folder, name in names if (folder / name).is_file())

    @property
    def fonts(self) -> tuple[Path, ...]:
        """The folders of fonts for paper: ``fonts`` of the theme, and of the manuscript's own theme folder."""
        return tuple(folder / FONTS for folder in self.folders if (folder / FONTS).is_dir())

    def sheet(self, language: Language = ENGLISH) -> Template:
        """The template of sheets, with what the manuscript's theme has of its own beside it, and its words.

        What it imports is looked for in the shipped theme's folder; files of the manuscript stand before those.
        """
        *own, shipped = [folder / PAPER for folder in self.folders]
        texts = {path.name: self._text(path) for folder in own for path in sorted(folder.glob("*.typ"))}
        shipped_main = self._text(shipped / SHEET)
        # What is handed over is parsed anew for every sheet; a file of the folder once.
        main = texts.pop(SHEET, shipped_main and f'#include "{SHEET}"'.encode())
        texts[WORDS] = self.words_on_paper(language)
        return Template(main, tuple(sorted(texts.items())), shipped)

    @cached_property
    def _paper(self) -> tuple[bytes, ...]:
        """Every template for paper, read once for all programs."""
        places = [path for folder in self.folders for path in folder.glob(f"{PAPER}/*.typ")]
        return tuple(path.read_bytes() for path in places if path.is_file())

    def words_on_paper(self, language: Language) -> bytes:
        """What the templates for paper say otherwise in a language, by the phrase there, for them to read."""
        phrases = sorted({phrase for template in self._paper for phrase in phrases_on_paper(template)})
        said = {phrase: said for phrase in phrases if (said := language.say(phrase)) != phrase}
        return UNREAD + json.dumps(said, ensure_ascii=False).encode()

    def _text(self, path: Path) -> bytes:
        if not path.is_file():
            raise ThemeError(f"the theme {self.name!r} has no {PAPER}/{path.name}")
        data = path.read_bytes()
        try:
            data.decode("utf-8")
        except UnicodeDecodeError as error:
            raise ThemeError(f"the theme {self.name!r}: {PAPER}/{path.name} is not UTF-8 text") from error
        return data

    def language(self, tag: str) -> Language:
        """The words of a language as this theme has them; English for those it has not."""
        try:
            return language_of(tag, self._catalogues(tag))
        except CatalogueError as error:
            raise ThemeError(f"the theme {self.name!r}, {self._faulty_catalogue(tag)}: {error}") from error

    def _faulty_catalogue(self, tag: str) -> str:
        for name in catalogue_names(tag):
            for data in [(folder / name).read_bytes() for folder in self.folders if (folder / name).is_file()]:
                try:
                    language_of(tag, (data,))
                except CatalogueError:
                    return name
        return "its words"

    def environment(self, language: Language = ENGLISH) -> Environment:
        """Jinja set up for pages: everything escaped, an unknown name is an error.

        ``_`` says a phrase of the theme in the site's language (``ngettext`` counts), ``say`` a word that a page was
        given; ``kept`` leaves a number and its unit on one line. What a page shows reaches it by
        :meth:`Pages.render`: ``link`` makes a site path relative, and ``once(macro, ...)`` is the macro's text for
        just these values, rendered once for all pages of a folder.
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
        environment.globals["_"] = _phrases(language)
        environment.globals["say"] = language.say
        environment.filters["low"] = language.low
        environment.filters["kept"] = kept_together
        environment.filters["cap"] = lambda text: text[:1].upper() + text[1:]
        return environment


def _phrases(language: Language) -> Callable[..., Markup]:
    """What ``_`` is in a template: as Jinja's own, but a phrase without values is looked up once, not for every use."""

    @lru_cache(PHRASES)
    def plain(phrase: str) -> Markup:
        return Markup(language.say(phrase)) % {}

    def said(phrase: str, **values: object) -> Markup:
        return Markup(language.say(phrase)) % values if values else plain(phrase)

    return said


def _named_in(template: str) -> list[str] | None:
    """The templates that one names to be put into it, those in its comments too; None if it works a name out.

    Told by the tags alone, a hundred times as fast as by reading the template.
    """
    names = [PLAIN_NAME.match(tag) for tag in NAMING.findall(template)]
    return None if None in names else [name[1] or name[2] for name in names if name is not None]


def find_theme(name: str, manuscript: Path, themes: Path) -> Theme:
    """The theme called ``name``: shipped, with any files of the manuscript's own ``theme/`` folder before it."""
    shipped = themes / name
    if not shipped.is_dir():
        known = ", ".join(sorted(folder.name for folder in themes.iterdir() if folder.is_dir()))
        raise ThemeError(f"there is no theme called {name!r}; there is {known}")
    own = manuscript / OWN
    if not own.is_dir():
        return Theme(name, (shipped,))
    _check_stays_inside(own, manuscript)
    return Theme(name, (own, shipped))


def _check_stays_inside(own: Path, manuscript: Path) -> None:
    """No file of the manuscript's theme may lie elsewhere: what a link leads to would be published."""
    for path in (own, *sorted(own.rglob("*"))):
        if leads_away(path, manuscript):
            named = path.relative_to(manuscript).as_posix()
            raise ThemeError(f"{named} leads out of the manuscript or nowhere; put the file itself there")


_PLAIN = {FunctionType, MethodType, partial, type(cache(lambda: None))}
"""What is called as it stands, unless it says otherwise."""

_AT_WORK: ContextVar[list[Context]] = ContextVar("what the templates of a page see, page by page and thread by thread")


class NotedContext(Context):
    """What a template sees, noted while a page is rendered, so that it can be let go once the page is done."""

    def __init__(self, *given: Any, **named: Any) -> None:
        super().__init__(*given, **named)
        _AT_WORK.get([]).append(self)

    def call(self, asked: Any, /, *args: Any, **named: Any) -> Any:
        """As Jinja calls it, which asks at each of a program's 3,800 calls anew what is to be handed over."""
        kind = type(asked)
        if kind is Macro:
            args = (self.eval_ctx, *args)
        elif kind not in _PLAIN or hasattr(asked, "jinja_pass_arg"):
            return super().call(asked, *args, **named)
        named.pop("_loop_vars", None)
        named.pop("_block_vars", None)
        return asked(*args, **named)


def _let_go(contexts: Iterable[Context]) -> None:
    """Let go of what a page was made from: macros and what they see hold each other, which garbage has to be looked for
    to be found, with all of a program in it (a fourteenth of a press).
    """
    for context in contexts:
        if "page" in context.parent:  # else Jinja keeps it for the next page
            context.vars.clear()
            context.parent.clear()


class Pages:
    """Renders one template after another for a site."""

    def __init__(self, theme: Theme, shared: Mapping[str, Any], language: Language = ENGLISH) -> None:
        self._environment = theme.environment(language)
        self._environment.context_class = NotedContext
        self._theme = theme
        self._shared = shared
        self._digests: dict[str, str] = {}
        self._texts: dict[str, str] = {}
        self._mentioned: dict[tuple[str, str], bool] = {}
        self._rendered: Remembered[Markup] = Remembered(KEPT)

    def digest_of(self, template: str) -> str:
        """The digest of a template and all that it includes, imports or extends."""
        if template not in self._digests:
            names = sorted(self._made_of(template))
            known = [(name, hashlib.sha256(self._theme.read(name)).hexdigest()) for name in names]
            self._digests[template] = hashlib.sha256(repr(known).encode()).hexdigest()
        return self._digests[template]

    def mentions(self, template: str, name: str) -> bool:
        """Whether a template or any it is made of may read what is handed over as ``name``; if not, it does not.

        A name that is read stands there as a word, and neither after a point nor within quotation marks at their start.
        """
        if (template, name) not in self._mentioned:
            word = re.compile(rf"""(?<![\w."'])({re.escape(name)})\b""")
            if template not in self._texts:
                texts = (self._theme.read(each).decode("utf-8", "replace") for each in self._made_of(template))
                self._texts[template] = "\n".join(texts)
            self._mentioned[template, name] = word.search(self._texts[template]) is not None
        return self._mentioned[template, name]

    def _made_of(self, template: str) -> set[str]:
        found: set[str] = set()
        ahead = [template]
        while ahead:
            name = ahead.pop()
            if name in found:
                continue
            found.add(name)
            try:
                named = _named_in(self._theme.read(name).decode("utf-8"))
            except UnicodeDecodeError:
                named = None  # the rendering will say what is wrong
            if named is None:
                return set(self._environment.list_templates())
            ahead.extend(each for each in named if self._theme.has(each))
        return found

    def render(self, template: str, page: Mapping[str, Any], data: Mapping[str, Any]) -> str:
        """One page; ``page`` holds its title, description, path and kind."""
        path: str = page["path"]
        links_as = path if path == paths.NOT_FOUND else path.rpartition("/")[0]
        contexts: list[Context] = []
        before = _AT_WORK.set(contexts)
        try:
            return self._environment.get_template(template).render(
                **self._shared,
                **data,
                page=page,
                link=cache(partial(self._link, page=path)),
                once=partial(self._once, links_as),
            )
        except _TEMPLATE_FAULTS as error:
            raise ThemeError(f"theme {self._theme.name!r}, {self._place_of(error, template)}: {error}") from error
        finally:
            _AT_WORK.reset(before)
            _let_go(contexts)

    def _place_of(self, error: Exception, template: str) -> str:
        """The file and line of a fault: the last one of the theme's on the way to it, which Jinja puts there."""
        if isinstance(error, TemplateSyntaxError):
            return f"{error.name or template}, line {error.lineno}"
        place, step = template, error.__traceback__
        while step is not None:
            path = Path(step.tb_frame.f_code.co_filename)
            for folder in self._theme.folders:
                if path.is_relative_to(folder):
                    place = f"{path.relative_to(folder).as_posix()}, line {step.tb_lineno}"
            step = step.tb_next
        return place

    def _once(self, links_as: str, macro: Any, *given: object) -> Markup:
        """What a macro makes of ``given`` on pages with the same links, made once: weeks share most of their lifts."""
        # Each page has a macro object of its own; its code is the same, and no other macro's, whatever they are called.
        return self._rendered.get((macro._func.__code__, links_as, *given), partial(macro, *given))

    def _link(self, target: str, page: str) -> str:
        """Relative, but for the page a host shows at any address where nothing is: that one needs the whole path."""
        address: str = self._shared["site"].address
        if page == paths.NOT_FOUND and address and not target.startswith("#"):
            return urlsplit(address).path.rstrip("/") + "/" + target
        return paths.relative(target, page)
