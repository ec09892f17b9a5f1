"""YAML text to plain data plus a map from data path to its place in the text.

The reading is by the YAML 1.2 core rules (yaml.org/spec/1.2.2, section 10.3): ``1:30``, ``on`` and ``no`` stay
words.
Anchors, aliases, tags, repeated keys and keys that are not scalars are refused; depth and size are bounded.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any

import yaml

MAX_CHARACTERS = 400_000
MAX_DEPTH = 30
MAX_NODES = 60_000

Path = tuple[str | int, ...]

_BOOL = re.compile(r"^(?:true|True|TRUE|false|False|FALSE)$")
_NULL = re.compile(r"^(?:~|null|Null|NULL|)$")
_INT = re.compile(r"^[-+]?[0-9]{1,15}$")
_FLOAT = re.compile(r"^[-+]?(?:\.[0-9]+|[0-9]{1,15}(?:\.[0-9]{0,15})?)(?:[eE][-+]?[0-9]{1,3})?$")

# YAML would refuse these or, worse, take some of them for the end of a line, which no editor does.
_UNREADABLE = re.compile(r"[\x00-\x08\x0b-\x1f\x7f-\x9f\u2028\u2029\ud800-\udfff\ufeff\ufffe\uffff]")

_Base: type[yaml.SafeLoader] = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


class CoreLoader(_Base):  # type: ignore[valid-type, misc]
    """PyYAML's safe loader with the YAML 1.1 word list replaced by the 1.2 core one."""

    yaml_implicit_resolvers: dict[str, list[tuple[str, re.Pattern[str]]]] = {}  # noqa: RUF012 (PyYAML's own way)


CoreLoader.add_implicit_resolver("tag:yaml.org,2002:bool", _BOOL, list("tTfF"))
CoreLoader.add_implicit_resolver("tag:yaml.org,2002:null", _NULL, ["~", "n", "N", ""])
CoreLoader.add_implicit_resolver("tag:yaml.org,2002:int", _INT, list("-+0123456789"))
CoreLoader.add_implicit_resolver("tag:yaml.org,2002:float", _FLOAT, list("-+.0123456789"))


@dataclass(frozen=True)
class Fault:
    """Something wrong with the YAML itself; ``line`` and ``column`` count from 1 within the text given."""

    line: int
    column: int
    message: str
    expected: str


@dataclass
class Marked:
    """Data read from YAML and where each part of it stands (line and column from 1)."""

    data: Any = None
    values: dict[Path, tuple[int, int]] = field(default_factory=dict)
    keys: dict[Path, tuple[int, int]] = field(default_factory=dict)
    faults: list[Fault] = field(default_factory=list)
    repeated: list[Fault] = field(default_factory=list)
    """Keys that stand twice; the data holds what is under the first of each."""

    def locate(self, path: Path, *, key: bool = False) -> tuple[int, int]:
        """The place of ``path`` or of the longest part of it that was written, passing over what was not."""
        real: Path = ()
        data: Any = self.data
        for part in path:
            step: str | int = part
            if isinstance(data, list) and isinstance(part, str) and part in map(str, data):
                step = [*map(str, data)].index(part)  # a list that is read as a mapping
            if (*real, step) in self.values:
                real = (*real, step)
                data = None if data is None else data[step]
        table = self.keys if key and real[-1:] == path[-1:] and real in self.keys else self.values
        return table.get(real, (1, 1))


def read_yaml(text: str) -> Marked:
    """Read one YAML document. Faults are gathered in the result; data is None if there is any but repeated keys."""
    marked = Marked()
    for number, written in enumerate(text.split("\n"), start=1):
        if bad := _UNREADABLE.search(written):
            marked.faults.append(_control(bad[0], number, bad.start() + 1))
    if marked.faults:
        return marked
    try:
        marked.faults.extend(_beyond_plain(text))
        if not marked.faults:
            _read(text, marked)
    except yaml.MarkedYAMLError as error:
        marked.faults.append(_unreadable(error, text))
    except yaml.YAMLError as error:
        marked.faults.append(Fault(1, 1, f"not readable as YAML: {error}", "plain text in UTF-8"))
    if marked.faults:
        marked.data = None
    return marked


def _control(character: str, line: int, column: int) -> Fault:
    return Fault(line, column, f"a control character (U+{ord(character):04X})", "plain text")


def _within(text: str, line: int, column: int) -> tuple[int, int]:
    """A place of the text: what is missing at its very end is marked there, not on a line that no editor shows."""
    lines = text.split("\n")
    return (line, column) if line <= len(lines) else (len(lines), len(lines[-1]) + 1)


def _unreadable(error: yaml.MarkedYAMLError, text: str) -> Fault:
    """What keeps the text from being read, where it begins: a key or quote is looked for lines further on."""
    reason = error.problem or "unreadable"
    begun = any(words in reason for words in ("could not find expected ':'", "unexpected end of stream"))
    mark = (begun and error.context_mark) or error.problem_mark or error.context_mark
    line, column = _within(text, mark.line + 1, mark.column + 1) if mark else (1, 1)
    advice = next((advice for words, advice in _ADVICE.items() if words in reason), _USUAL_ADVICE)
    return Fault(line, column, f"not readable as YAML: {reason}", advice)


_ADVICE = {
    "could not find expected ':'": "a colon and a space after the key",
    "unexpected end of stream": "the quote or bracket that begins here closed",
    "cannot start any token": "spaces instead of tabs, and quotes round text that starts with a sign",
    "tab character": "spaces instead of tabs",
    "mapping values are not allowed": "a colon and a space after every key, here and on the line before; keys side by "
    "side at the same indent; or quotes round text that holds a colon and a space",
}
_USUAL_ADVICE = "the same indent for entries of the same list or mapping, and every quote and bracket closed"


def _beyond_plain(text: str) -> list[Fault]:
    """What plain data has no use for: aliases, tags, depth and size beyond measure.

    Looked for in the stream of events, before anything is built, so that no file can ask for too much.
    """
    faults: list[Fault] = []
    depth = 0
    events: Iterator[Any] = yaml.parse(text, Loader=CoreLoader)
    for count, event in enumerate(events):
        place = (event.start_mark.line + 1, event.start_mark.column + 1)
        if isinstance(event, yaml.AliasEvent):
            message = f"the alias *{event.anchor} repeats another entry"
            faults.append(Fault(*place, message, "the entry written out again"))
        elif getattr(event, "anchor", None):
            faults.append(Fault(*place, f"the anchor &{event.anchor}", "entries without anchors"))
        if getattr(event, "tag", None):
            faults.append(Fault(*place, f"the tag {event.tag}", "plain values without '!' tags"))
        depth += isinstance(event, yaml.CollectionStartEvent) - isinstance(event, yaml.CollectionEndEvent)
        if depth > MAX_DEPTH:
            return [*faults, Fault(*place, f"nested more than {MAX_DEPTH} deep", "a flatter file")]
        if count > MAX_NODES:
            return [*faults, Fault(*place, f"more than {MAX_NODES:,} entries in one file", "a shorter file")]
    return faults


def _read(text: str, marked: Marked) -> None:
    loader = CoreLoader(text)
    try:
        node = loader.get_single_node()
        if node is not None:
            _walk(node, (), marked)
            marked.data = None if marked.faults else _build(loader, node)
    finally:
        loader.dispose()


def _walk(node: yaml.Node, path: Path, marked: Marked) -> None:
    """Note the place of every node below ``node``."""
    marked.values[path] = _place(node)
    if isinstance(node, yaml.SequenceNode):
        for index, item in enumerate(node.value):
            _walk(item, (*path, index), marked)
    elif isinstance(node, yaml.ScalarNode):
        # Escaped between double quotes, as "\\0": no file made from it could hold it, and XML not at all.
        if bad := _UNREADABLE.search(node.value):
            marked.faults.append(_control(bad[0], *_place(node)))
    elif isinstance(node, yaml.MappingNode):
        for key, value in node.value:
            name = _note_key(key, path, marked)
            if name is not None:
                _walk(value, (*path, name), marked)


def _place(node: Any) -> tuple[int, int]:
    return node.start_mark.line + 1, node.start_mark.column + 1


def _note_key(key: yaml.Node, path: Path, marked: Marked) -> str | None:
    place = _place(key)
    if not isinstance(key, yaml.ScalarNode):
        marked.faults.append(Fault(*place, "a key that is not a word", "a plain word before the colon"))
        return None
    name = str(key.value)
    if bad := _UNREADABLE.search(name):
        marked.faults.append(_control(bad[0], *place))
    earlier = marked.keys.get((*path, name))
    if earlier:
        message = f"the key {name[:60]!r} stands here and on line {earlier[0]}"
        marked.repeated.append(Fault(*place, message, "each key once"))
        return None
    marked.keys[(*path, name)] = place
    return name


def _build(loader: Any, node: yaml.Node) -> Any:
    if isinstance(node, yaml.SequenceNode):
        return [_build(loader, item) for item in node.value]
    if isinstance(node, yaml.MappingNode):
        built: dict[str, Any] = {}
        for key, value in node.value:
            built.setdefault(str(key.value), _build(loader, value))
        return built
    if node.tag == "tag:yaml.org,2002:int":
        return int(node.value)
    if node.tag == "tag:yaml.org,2002:float":
        return float(node.value)
    return loader.construct_object(node)
