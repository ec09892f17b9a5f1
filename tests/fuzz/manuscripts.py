"""What is put into a manuscript: sound files with a few things changed, values of every kind, text without sense."""

from __future__ import annotations

import json
from collections.abc import Iterator
from copy import deepcopy
from typing import Any

import yaml
from hypothesis import strategies as st
from plateset.manuscript import schema
from plateset.manuscript.positions import read_yaml

from tests.everything import _MORE_NOTES, _NOTE, _PROGRAM, _TECHNIQUES, FEW_PLATES, KILOGRAMS, POUNDS
from tests.publishing.building import BOOK, LANTERN, SITE, TALLY

Tree = Any
Path = tuple[str | int, ...]

NOTES: dict[str, str] = {
    **{f"exercises/{name}.md": _NOTE.format(name=name.capitalize(), more=more) for name, more in _MORE_NOTES.items()},
    **{f"techniques/{name}.md": f"---\nname: {name}\nsummary: So.\n---\nHow.\n" for name in _TECHNIQUES},
}
"""The notes beside the small manuscript's own that a program with everything in it needs."""

PROGRAMS: tuple[Tree, ...] = tuple(
    read_yaml(text).data
    for text in (LANTERN, TALLY, *(_PROGRAM.replace("HEAD", head) for head in (KILOGRAMS, POUNDS, FEW_PLATES)))
)
SITES: tuple[Tree, ...] = tuple(
    read_yaml(text).data
    for text in (
        SITE,
        "title: T\nauthor: {name: A, about: B}\nunit: lb\npaper: [letter, a4]\nlanguage: de-AT\ncurve: mayhew\n"
        "address: https://barn.example/x/\ncolours: {accent: '#ffee00'}\ntype: plain\n"
        "warm-up sets: [{load: 50 %, reps: 5}]\n"
        "limits: {load jump: 5 %, sets jump: 20 %, recovery: 24 h, past failure lines: 0}\n"
        "loading: {bars: {barbell: 45 lb}, collars: 5 lb, add-ons: [1 kg], rounding: down}\n",
    )
)
HEADS: dict[str, tuple[Tree, ...]] = {
    kind: tuple(read_yaml(text.split("---\n")[1]).data for name, text in BOOK.items() if name.startswith(kind))
    for kind in ("exercises", "techniques", "explainers")
}


def _keys(model: type[schema.Entry]) -> Iterator[str]:
    for name, field in model.model_fields.items():
        yield field.alias or name
    for kind in model.__subclasses__():
        yield from _keys(kind)


KEYS: tuple[str, ...] = tuple(sorted(set(_keys(schema.Entry))))
"""Every key of the format, wherever it belongs."""


def paths_in(tree: Tree, path: Path = ()) -> Iterator[Path]:
    """The path of every part of a tree, the whole first."""
    yield path
    if isinstance(tree, dict):
        for key, value in tree.items():
            yield from paths_in(value, (*path, key))
    elif isinstance(tree, list):
        for index, value in enumerate(tree):
            yield from paths_in(value, (*path, index))


def at(tree: Tree, path: Path) -> Tree:
    """The part of a tree at ``path``."""
    for step in path:
        tree = tree[step]
    return tree


def _by_key() -> dict[str, list[Tree]]:
    found: dict[str, list[Tree]] = {}
    for tree in (*PROGRAMS, *SITES, *(head for heads in HEADS.values() for head in heads)):
        for path in paths_in(tree):
            if path and isinstance(path[-1], str) and at(tree, path) not in found.setdefault(path[-1], []):
                found[path[-1]].append(at(tree, path))
    return found


BY_KEY = _by_key()
"""What stands under each key somewhere in sound files."""

LINES: tuple[Tree, ...] = tuple(
    line
    for program in PROGRAMS
    for session in program["sessions"].values()
    for line in (session if isinstance(session, list) else session["lines"])
)

QUANTITIES = (
    "999999 kg", "0.000001 kg", "0 kg", "999999.999999 lb", "1 lb", "20kg", "0 %", "0.1 %", "10 %", "99 %", "100 %",
    "150 %", "999999 %", "0 s", "1 s", "600 s", "60 min", "6 h", "999999 h", "1:30", "999:59", "0 RIR", "6 RIR",
    "0.5 RIR", "1-2 RIR", "6 to 0 RIR", "3 to 2.5 RIR", "RPE 6", "RPE 10", "RPE 6 to 10", "to failure", "by feel",
    "none", "as many as possible", "bodyweight", "bodyweight - 999999 kg", "bodyweight + 0.000001 kg", "1-20", "1-100",
    "0-9999", "20-1", "3-1-1-0", "0-0-0-0", "99-99-X-99", "999999 kg x 999", "0.000001 kg x 1",
    "bodyweight + 999999 lb x 100", "bodyweight - 999999 kg x 5", "week 1", "weeks 1-52", "weeks 2-99", "day 1",
    "day 7", "sun", "0001-01-01", "9999-12-31", "2999-12-31", "1900-01-01", "2026-02-30", "00:00", "23:59", "squat",
    "pull-up", "allowed", "off", "on", "legs", "back", "core", "test", "#ffffff", "https://x.example/", "{a}", "%s",
)  # fmt: skip
NUMBERS = (0, 1, 2, 3, 5, 7, 10, 12, 20, 50, 52, 53, 100, 101, -1, 1000, 10**15, 0.5, 1.5, -0.0, 1e300, True, False)

_OF_A_CATALOGUE = (
    '"', "\\", "\n", "\r", 'msgid ""\nmsgstr ""\n', '"Plural-Forms: nplurals=2; plural=(n != 1);\\n"\n',
    'msgid "Notes"\n', 'msgstr "x"\n', 'msgid "%(num)s day a week"\n', 'msgid_plural "%(num)s days a week"\n',
    'msgstr[0] "%(num)s d"\n', 'msgstr[1] "%(num)s ds"\n', 'msgstr[99999999999] "x"\n', 'msgctxt "c"\n',
    "#, fuzzy\n", '#~ msgid "x"\n', "#: a:b\n", "#| x\n", '"Content-Type: text/plain; charset=utf-16\\n"\n',
    '"Content-Type: ;;;\\n"\n', '"Language: zz_ZZ\\n"\n', '"Plural-Forms: nplurals=99; plural=n;\\n"\n',
    '"Plural-Forms: nplurals=2; plural=((((n % 0;\\n"\n', "%(", "%s", "[0]",
)  # fmt: skip
_OF_A_TEMPLATE = (
    "{{ ", " }}", "{% ", " %}", "{# ", " #}", "{% if page %}", "{% endif %}", "{% for a in page %}", "{% endfor %}",
    "{% include 'home.html' %}", "{% extends 'bse.html' %}", "{% from page import x %}", "{% raw %}", "{% endraw %}",
    "{% macro m(a, a) %}", "{% endmacro %}", "{% trans a=1 %}", "{% pluralize %}", "{% endtrans %}", "{% block b %}",
    "{% endblock %}", "{% set a = 1 %}", "_('x')", "ngettext('a', 'b', 2)", "page.title", " | low", " | lo", "(" * 90,
    "[" * 2000, "{% for a in b %}" * 25 + "{% endfor %}" * 25, "9" * 5000, "1 // 0", "'a' * 99", "-", "~", "is defined",
)  # fmt: skip
own_theme = st.one_of(st.sampled_from(_OF_A_CATALOGUE), st.sampled_from(_OF_A_TEMPLATE))
"""Pieces of an own theme's catalogues and templates."""

scalars = st.one_of(
    st.sampled_from(QUANTITIES),
    st.sampled_from(NUMBERS),
    st.none(),
    st.text(max_size=12),
    st.integers(-5, 200),
    st.builds("{} kg".format, st.integers(0, 2000)),
    st.builds("{} %".format, st.integers(0, 200)),
    st.builds("{}-{}".format, st.integers(0, 30), st.integers(0, 30)),
)
keys = st.one_of(st.sampled_from(KEYS), st.sampled_from(sorted(BY_KEY)), st.text(max_size=6))
trees = st.recursive(
    scalars, lambda inner: st.lists(inner, max_size=4) | st.dictionaries(keys, inner, max_size=5), max_leaves=25
)
by_week = st.dictionaries(
    st.sampled_from(["week 1", "week 2", "week 3", "weeks 2-4", "weeks 5-52", "week 6", "every week"]),
    scalars,
    min_size=1,
    max_size=3,
)


@st.composite
def values_for(draw: st.DrawFn, key: str | int) -> Tree:
    """A value for a key: mostly one that stands under such a key somewhere."""
    known = BY_KEY.get(str(key))
    if known and draw(st.integers(0, 9)) < 7:
        return deepcopy(draw(st.sampled_from(known)))
    return draw(st.one_of(scalars, by_week, st.sampled_from(LINES).map(deepcopy), trees))


@st.composite
def changed(draw: st.DrawFn, sound: tuple[Tree, ...]) -> Tree:
    """A sound tree with one to six things changed in it."""
    tree = {"": deepcopy(draw(st.sampled_from(sound)))}
    for _ in range(draw(st.integers(1, 6))):
        _change(draw, tree)
    return tree[""]


def _change(draw: st.DrawFn, tree: dict[str, Tree]) -> None:
    path = draw(st.sampled_from(list(paths_in(tree))[1:]))
    holder, last = at(tree, path[:-1]), path[-1]
    found = holder[last]
    how = draw(st.sampled_from(["put", "put", "put", "drop", "add", "add", "twice", "name", "wrap"]))
    if how == "put":
        holder[last] = draw(values_for(last))
    elif how == "drop" and path != ("",):
        del holder[last]
    elif how == "add" and isinstance(found, dict):
        key = draw(keys)
        found[key] = draw(values_for(key))
    elif how == "add" and isinstance(found, list):
        found.insert(draw(st.integers(0, len(found))), draw(values_for(last)))
    elif how == "twice" and isinstance(holder, list):
        holder += [deepcopy(found) for _ in range(draw(st.integers(1, 4)))]
    elif how == "name" and isinstance(holder, dict) and path != ("",):
        holder[draw(keys)] = holder.pop(last)
    elif how == "wrap":
        holder[last] = draw(st.sampled_from([[found], {"week 1": found}, [found, found]]))


@st.composite
def as_yaml(draw: st.DrawFn, tree: st.SearchStrategy[Tree]) -> str:
    """A tree as an author might write it: in blocks, in brackets, or as JSON."""
    data = draw(tree)
    if draw(st.booleans()):
        text: str = yaml.safe_dump(data, sort_keys=False, allow_unicode=True, width=draw(st.sampled_from([20, 120])))
        return text
    return json.dumps(data, ensure_ascii=draw(st.booleans()), indent=draw(st.sampled_from([None, 1])))


SIGNS = (
    "[", "]", "(", ")", "<", ">", "![", "](", "[](figure:lantern/", "[](figure:", "weeks", "/week 1", "`",
    "```\n", "~~~",
    "*", "**", "_", "#", "# ", "> ", "- ", "1. ", "\n", "\n\n", "    ", "\t", "|", "| --- |\n", "---\n", "===\n", "\\",
    "&", "&#0;", "&#xD800;", "&amp;", "http://", "https://x.example", "javascript:", "exercise:squat", "technique:",
    "program:lantern", "explainer:", "mailto:", "<!--", "-->", "<script>", "</script>", "{{", "}}", "{%", "%}",
    "#eval(",
    "\u2028", "\u202e", "\ufeff", "\u0000", "\u200d", "é", "e\u0301", "🏋️", "ß", "%", "%2e%2e%2f", ":", "[a]: b\n",
    "[^1]",
)  # fmt: skip
prose = st.one_of(
    st.lists(st.one_of(st.sampled_from(SIGNS), st.text(max_size=4)), max_size=40).map("".join),
    st.builds(lambda sign, times, more: sign * times + more, st.sampled_from(SIGNS), st.integers(1, 300), st.text()),
)
