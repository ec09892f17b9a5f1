"""The index at the back of the site: every name in order for reading, and every word for the page that searches.

The search runs on the reader's machine. Its words are a script file that sets one variable, since a page opened from a
folder may load a script but no other file.
"""

from __future__ import annotations

import json
import re
import unicodedata
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache

from plateset.publishing.views import ExerciseView, ExplainerView, IndexEntry, IndexLetter, ProgramCard, TechniqueView

NAME, SUBJECT, TEXT = 8, 3, 1
"""What a word counts for in a name, among the subjects of a page, and in its running text."""
SHORTEST = 2
_WORD = re.compile(r"[^\W_]+")


@dataclass(frozen=True)
class Searched:
    """A page that can be found: its names, what is said of it, and the words it is found by."""

    kind: str
    title: str
    path: str
    gloss: str
    also: tuple[str, ...] = ()
    subjects: tuple[str, ...] = ()
    text: str = ""


Views = Iterable[ProgramCard | ExerciseView | TechniqueView | ExplainerView]


def searched(views: Views) -> tuple[Searched, ...]:
    """The pages of ``views``, in their order."""
    return tuple(_searched(view) for view in views)


def _searched(view: ProgramCard | ExerciseView | TechniqueView | ExplainerView) -> Searched:
    if isinstance(view, ProgramCard):
        facets = view.facets
        named = (*(name for _, name in facets.techniques), *(muscle for muscle, _ in facets.muscles), *facets.kit)
        subjects = (view.summary, view.level, view.goal, *named, *view.suits)
        return Searched("Program", view.title, view.path, view.summary, (), subjects, view.words)
    text = view.text.striptags()
    if isinstance(view, ExerciseView):
        muscles = tuple(bar.muscle for bar in view.muscles)
        gloss = f"{view.movement.capitalize()}, {view.primary}"
        facts = tuple(fact.value for fact in view.facts)
        faults = " ".join(word for pair in view.faults for word in pair)
        body = " ".join((text, *view.cues, *view.set_up, faults))
        return Searched("Exercise", view.title, view.path, gloss, view.names, (*muscles, *facts), body)
    kind = "Technique" if isinstance(view, TechniqueView) else "Explainer"
    return Searched(kind, view.title, view.path, view.summary, (), (view.summary,), text)


def words_of(text: str) -> list[str]:
    """The words of a text as they are searched: small letters without accents. The page's script does the same."""
    return list(_words(text))


@lru_cache(maxsize=2000)  # many programs are of the same level, for the same muscles, with the same kit
def _words(text: str) -> tuple[str, ...]:
    if text.isascii():
        return tuple(_WORD.findall(text.lower()))
    plain = "".join(mark for mark in unicodedata.normalize("NFKD", text) if unicodedata.category(mark)[0] != "M")
    return tuple(_WORD.findall(plain.lower()))


def search_script(pages: Sequence[Searched]) -> bytes:
    """The script that holds the index: pages as [kind, title, path, gloss, also], words with (page, weight) in turn."""
    weights = [_weights(page) for page in pages]
    spread = Counter(word for each in weights for word, weight in each.items() if weight == TEXT)
    words: dict[str, list[int]] = {}
    for place, each in enumerate(weights):
        for word, weight in each.items():
            # A word in the running text of most pages tells none of them apart.
            if weight > TEXT or spread[word] * 2 <= max(len(pages), 8):
                words.setdefault(word, []).extend((place, weight))
    index = {
        "pages": [[page.kind, page.title, page.path, page.gloss, ", ".join(page.also)] for page in pages],
        "words": dict(sorted(words.items())),
    }
    return f"window.searchIndex = {json.dumps(index, separators=(',', ':'))};\n".encode()


def _weights(page: Searched) -> dict[str, int]:
    weights: dict[str, int] = {}
    for weight, texts in ((NAME, (page.title, *page.also)), (SUBJECT, page.subjects), (TEXT, (page.text,))):
        for text in texts:
            for word in _words(text):
                if len(word) >= SHORTEST:
                    weights.setdefault(word, weight)
    return weights


def index_letters(pages: Iterable[Searched]) -> tuple[IndexLetter, ...]:
    """Every name and every other name under its first letter, as at the back of a book."""
    entries = [
        (
            _words(name),
            IndexEntry(name[:1].upper() + name[1:], page.kind, page.title, page.path, name == page.title),
        )
        for page in pages
        for name in dict.fromkeys((page.title, *page.also))
    ]
    letters: dict[str, list[IndexEntry]] = {}
    for words, entry in sorted(entries, key=lambda pair: (pair[0], pair[1].path)):
        first = words[0][:1].upper() if words else ""
        letters.setdefault(first if first.isalpha() else "0–9", []).append(entry)
    return tuple(IndexLetter(letter, tuple(found)) for letter, found in letters.items())
