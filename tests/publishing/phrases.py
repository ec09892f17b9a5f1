"""Every phrase of the interface, collected from the templates and the views; ``python -m tests.publishing.phrases``
writes the catalogue of the shipped theme anew."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from dataclasses import astuple
from io import BytesIO
from pathlib import Path
from typing import get_args

from babel.messages.catalog import Catalog
from babel.messages.pofile import write_po
from jinja2.ext import babel_extract
from plateset import usual_cautions
from plateset.manuscript import vocabulary
from plateset.publishing import (
    contents,
    finder,
    sheets,
    studio,
    words,
    workbook,
    workbook_figures,
    workbook_gym,
    workbook_lifts,
    workbook_sets,
    workbook_weeks,
    workbook_words,
)
from plateset.theme_files import PAPER, phrases_on_paper
from plateset.training.accounts import ACCOUNTS
from plateset.training.strength import CURVES
from plateset.training.techniques import TECHNIQUES

ROOT = Path(__file__).parents[2]
THEME = ROOT / "themes" / "noticeboard"
CATALOGUE = THEME / "words.en.po"
PUBLISHING = ROOT / "generator" / "plateset" / "publishing"

TRAINING = ROOT / "generator" / "plateset" / "training"

Phrase = str | tuple[str, str]

GIVEN = (
    *vocabulary.MUSCLES, *vocabulary.MUSCLE_GROUPS, *get_args(vocabulary.Movement),
    *map(words.kit_text, vocabulary.KIT), *get_args(vocabulary.Implement),
    *vocabulary.LEVELS, *(level.capitalize() for level in vocabulary.LEVELS), *words.GOALS.values(),
    *(link.title for link in studio.NAVIGATION),
    *(link.title for link in (contents.PROGRAMS, contents.EXERCISES, contents.TECHNIQUES, contents.EXPLAINERS)),
    *(facet.title for facet in finder._FACETS),
    *words.GROUPS.values(), *words.RANGES_OF_MOTION.values(), *words._ROLES.values(),
    *(curve.title for curve in CURVES.values()),
    "Deload", "Test", *sheets.MEASURES,
    *usual_cautions.SAID_WHOLE, "Test week",
    *(part for each in ACCOUNTS for part in (each.title, each.words, each.formula, each.valid, each.source) if part),
    "direct", "indirect", "deload", "test", "drop", "after a pause", "negatives", "loose form", "with help",
    "short range", "hold",
    *astuple(workbook_words.SheetNames()), *astuple(workbook_words.FormulaWords()), *workbook.OURS,
    workbook_figures.FRACTIONAL, *workbook_figures.WORKING,
    *workbook_gym.HEADS, *workbook_gym.TITLES.values(), *workbook_gym.LISTS,
    *workbook_lifts.INTRODUCTION, *workbook_lifts.LIFTED.values(),
    *workbook_sets.ROLES.values(), *workbook_sets.KINDS.values(),
    *workbook_weeks.HEADS, *(part for asked, _ in workbook_weeks.LOGGED for part in (asked.title, asked.message)),
    *(technique.title for technique in TECHNIQUES.values()),
)  # fmt: skip
"""Words that reach a template as data and are said there."""

_LABELS = re.compile(r'\bFact\(\s*"([^"]+)"')


def phrases() -> dict[Phrase, str]:
    """Each phrase (one with plurals as a pair) and where it is said."""
    found: dict[Phrase, str] = {}
    for path in sorted(THEME.glob("*.html")):
        for _, function, message, _ in babel_extract(BytesIO(path.read_bytes()), ("_", "gettext", "ngettext"), (), {}):
            said = [message] if isinstance(message, str) else [part for part in message or () if part]
            found.setdefault((said[0], said[1]) if function == "ngettext" else said[0], path.name)
    for path in sorted((THEME / PAPER).glob("*.typ")):
        found |= {words: f"{PAPER}/{path.name}" for words in phrases_on_paper(path.read_bytes()) if words not in found}
    for path in sorted(PUBLISHING.glob("*.py")):
        for phrase in _said_in(path.read_text("utf-8")):
            found.setdefault(phrase, path.name)
        for match in _LABELS.finditer(path.read_text("utf-8")):
            found.setdefault(match[1], path.name)
    for phrase in _sentences_in((TRAINING / "progression.py").read_text("utf-8")):
        found.setdefault(phrase, "what a plan tells")
    for word in GIVEN:
        found.setdefault(word, "words given to a page")
    return {phrase: where for phrase, where in found.items() if phrase}


def _said_in(source: str) -> Iterator[Phrase]:
    """What a module says; in f-strings too, which a reader of tokens sees into from Python 3.12 on alone."""
    for node in ast.walk(ast.parse(source)):
        match node:
            case ast.Call(func=ast.Attribute(attr="say") | ast.Name(id="say"), args=[said, *_]):
                yield from (each.value for each in _either(said) if isinstance(each.value, str))
            case ast.Call(func=ast.Attribute(attr="count"), args=[ast.Constant(str(one)), ast.Constant(str(many)), *_]):
                yield one, many


def _sentences_in(source: str) -> Iterator[Phrase]:
    """What a plan tells in sentences; the first and third of what they are made of are phrases."""
    for node in ast.walk(ast.parse(source)):
        match node:
            case ast.Call(func=ast.Name(id="Sentence"), args=[ast.Constant(str(one)), _, ast.Constant(str(many)), *_]):
                yield one, many
            case ast.Call(func=ast.Name(id="Sentence"), args=[ast.Constant(str(one)), *_]):
                yield one


def _either(words: ast.expr) -> Iterator[ast.Constant]:
    """The texts that may be said, where it depends."""
    match words:
        case ast.Constant():
            yield words
        case ast.IfExp():
            yield from (*_either(words.body), *_either(words.orelse))


def catalogue() -> bytes:
    """The English catalogue: every phrase in the order of the alphabet, nothing translated."""
    po = Catalog(locale="en", project="Plateset", header_comment=HEADER, fuzzy=False)
    for phrase, where in sorted(phrases().items(), key=lambda pair: str(pair[0])):
        po.add(phrase, auto_comments=[where])
    written = BytesIO()
    write_po(written, po, width=0, omit_header=True)
    return f"{HEADER}\n{META}\n".encode() + written.getvalue()


HEADER = """\
# The words of this theme's interface, one phrase after another.
#
# A phrase left empty is said as it stands. To say some otherwise, put a file of this name in the theme folder of your
# manuscript, with those phrases alone. To say all in another language, copy the file to words.nb.po (or whatever
# 'language' in site.yaml is), put the plural rule of the language in its head, and fill in each msgstr."""
META = r"""msgid ""
msgstr ""
"Content-Type: text/plain; charset=utf-8\n"
"Language: en\n"
"Plural-Forms: nplurals=2; plural=(n != 1);\n"
"""


if __name__ == "__main__":
    CATALOGUE.write_bytes(catalogue())
