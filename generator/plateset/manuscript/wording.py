"""What pydantic found, in the author's words: what is wrong, what was expected, the nearest valid word."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from typing import Any, get_args

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from plateset.manuscript.fields import EVERY_WEEK
from plateset.manuscript.positions import Path
from plateset.problems import nearest_word

MOST_FINDINGS = 200
"""More faults in one file than anyone reads; the others are counted."""


@dataclass(frozen=True)
class Finding:
    """One fault of the data, by its path; ``at_key`` when the key itself is at fault."""

    path: Path
    message: str
    expected: str = ""
    nearest: str = ""
    at_key: bool = False
    is_missing: bool = False


def findings(errors: Iterable[ValidationError], model: type[BaseModel]) -> list[Finding]:
    """Every fault pydantic found, each once, leaving out those that only follow from another, and their number beyond
    the most.
    """
    kept = faults_of(errors)
    found = _without_what_follows([_finding(detail, model) for detail in kept[:MOST_FINDINGS]])
    more = len(kept) - MOST_FINDINGS
    if more > 0:
        found.append(Finding((), f"{more:,} more faults stand in this file", "those told mended first"))
    return found


def faults_of(errors: Iterable[ValidationError]) -> list[ErrorDetails]:
    """Every fault pydantic found, each once, without lists that are too short only for what in them is at fault."""
    details = {(tuple(each["loc"]), each["type"]): each for error in errors for each in error.errors(include_url=False)}
    above = {path[:length] for path, _ in details for length in range(len(path))}
    return [detail for (path, kind), detail in details.items() if not (kind == "too_short" and path in above)]


def _without_what_follows(found: list[Finding]) -> list[Finding]:
    """The faults without keys that are missing only because they are misspelt, and without the values of such keys."""
    meant = {(*each.path[:-1], each.nearest) for each in found if each.at_key and each.nearest}
    at_fault = {each.path for each in found if each.at_key}
    return [
        each
        for each in found
        if not (each.is_missing and each.path in meant) and (each.at_key or each.path not in at_fault)
    ]


def _finding(detail: ErrorDetails, model: type[BaseModel]) -> Finding:
    path = tuple(detail["loc"])
    if detail["type"] == "union_tag_invalid":
        path = (*path, discriminator_of(detail))
    at_key = path[-1:] == ("[key]",)
    if at_key:
        path = path[:-1]
    kind = detail["type"]
    found = _WORDING.get(kind, _other)(detail, _known_keys(model, path[:-1]))
    if detail["input"] is None and kind not in ("missing", "extra_forbidden"):
        found = replace(found, message="nothing is written here", nearest="")
    at_key = at_key or kind == "extra_forbidden"
    return Finding(path, _short(found.message), found.expected, found.nearest, at_key, kind == "missing")


@dataclass(frozen=True)
class _Words:
    message: str
    expected: str = ""
    nearest: str = ""


def _context(detail: ErrorDetails) -> dict[str, Any]:
    return dict(detail.get("ctx") or {})


def discriminator_of(detail: ErrorDetails) -> str:
    """The key whose word tells what kind of mapping this is."""
    return str(_context(detail).get("discriminator", "")).strip("'")


def _name(detail: ErrorDetails) -> str:
    loc = [part for part in detail["loc"] if isinstance(part, str)]
    named = [part for part in loc if ":" not in part and part not in ("[key]", EVERY_WEEK)]
    return named[-1] if named else "this"


def _ours(detail: ErrorDetails, known: list[str]) -> _Words:
    context = _context(detail)
    return _Words(str(context["message"]), str(context["expected"]), str(context["nearest"]))


def _missing(detail: ErrorDetails, known: list[str]) -> _Words:
    return _Words(f"{_name(detail)!r} is missing", f"a line with '{_name(detail)}: …'")


def _unknown_key(detail: ErrorDetails, known: list[str]) -> _Words:
    key = str(detail["loc"][-1])
    expected = "one of: " + ", ".join(known) if known else "a key that belongs here"
    return _Words(f"there is no key {key!r} here", expected, nearest_word(key, known))


def _not_one_of(detail: ErrorDetails, known: list[str]) -> _Words:
    choices = [choice.strip("'\"") for choice in _split_choices(str(_context(detail).get("expected", "")))]
    return _Words(
        f"{_shown(detail['input'])} is not known here", _listed(choices), nearest_word(detail["input"], choices)
    )


def _split_choices(expected: str) -> list[str]:
    return [part.strip() for part in expected.replace(" or ", ", ").split(",") if part.strip()]


def _listed(choices: list[str]) -> str:
    return choices[0] if len(choices) == 1 else "one of: " + ", ".join(choices)


def choices_of(detail: ErrorDetails) -> list[str]:
    """The words known for the key that tells the kind of a mapping."""
    return [choice.strip("'\"") for choice in _split_choices(str(_context(detail).get("expected_tags", "")))]


def _unknown_tag(detail: ErrorDetails, known: list[str]) -> _Words:
    context = _context(detail)
    choices, key = choices_of(detail), discriminator_of(detail)
    return _Words(f"{context.get('tag')!r} is not a {key}", _listed(choices), nearest_word(context.get("tag"), choices))


def _no_tag(detail: ErrorDetails, known: list[str]) -> _Words:
    key = discriminator_of(detail)
    return _Words(f"{key!r} is missing", f"a mapping with '{key}: …'")


def _not_text(detail: ErrorDetails, known: list[str]) -> _Words:
    if isinstance(detail["input"], int | float | bool):
        return _Words(f"{detail['input']!r} is read as a value, not as text", 'text; put it in quotes: "…"')
    return _Words(f"{_kind(detail['input'])} stands where text is expected", "text")


def _not_whole(detail: ErrorDetails, known: list[str]) -> _Words:
    return _Words(f"{_shown(detail['input'])} is not a whole number", "a whole number without a unit")


def _not_list(detail: ErrorDetails, known: list[str]) -> _Words:
    return _Words(f"{_kind(detail['input'])} stands where a list is expected", "a list: [one, two], or lines with '- '")


def _not_mapping(detail: ErrorDetails, known: list[str]) -> _Words:
    return _Words(f"{_kind(detail['input'])} stands where a mapping is expected", "keys and values: 'key: value'")


def _bound(sign: str) -> Callable[[ErrorDetails, list[str]], _Words]:
    def word(detail: ErrorDetails, known: list[str]) -> _Words:
        context = _context(detail)
        limit = next(context[key] for key in ("ge", "gt", "le", "lt") if key in context)
        return _Words(f"{_shown(detail['input'])} is out of bounds for {_name(detail)!r}", f"{sign} {limit}")

    return word


def _too_short(detail: ErrorDetails, known: list[str]) -> _Words:
    count = _context(detail).get("min_length", 1)
    return _Words(f"{_name(detail)!r} holds too little", f"{count} or more entries")


def _too_long(detail: ErrorDetails, known: list[str]) -> _Words:
    return _Words(f"{_name(detail)!r} holds too much", f"at most {_context(detail).get('max_length')}")


def _no_text(detail: ErrorDetails, known: list[str]) -> _Words:
    return _Words(f"{_name(detail)!r} is empty", "some text, or leave the key out")


def _long_text(detail: ErrorDetails, known: list[str]) -> _Words:
    return _Words(f"{_name(detail)!r} is too long", f"at most {_context(detail).get('max_length'):,} characters")


def _pattern(detail: ErrorDetails, known: list[str]) -> _Words:
    return _Words(f"{_shown(detail['input'])} will not do for {_name(detail)!r}", "a language tag such as en or pt-BR")


def _other(detail: ErrorDetails, known: list[str]) -> _Words:
    return _Words(f"{_shown(detail['input'])}: {detail['msg']}")


_WORDING: dict[str, Callable[[ErrorDetails, list[str]], _Words]] = {
    "manuscript": _ours,
    "missing": _missing,
    "extra_forbidden": _unknown_key,
    "literal_error": _not_one_of,
    "union_tag_invalid": _unknown_tag,
    "union_tag_not_found": _no_tag,
    "string_type": _not_text,
    "int_type": _not_whole,
    "int_from_float": _not_whole,
    "tuple_type": _not_list,
    "list_type": _not_list,
    "dict_type": _not_mapping,
    "model_type": _not_mapping,
    "model_attributes_type": _not_mapping,
    "greater_than_equal": _bound("at least"),
    "greater_than": _bound("more than"),
    "less_than_equal": _bound("at most"),
    "less_than": _bound("less than"),
    "too_short": _too_short,
    "too_long": _too_long,
    "string_too_short": _no_text,
    "string_too_long": _long_text,
    "string_pattern_mismatch": _pattern,
}


def _kind(value: object) -> str:
    if isinstance(value, dict):
        return "a mapping"
    if isinstance(value, list):
        return "a list"
    return "nothing" if value is None else f"{_shown(value)}"


def _short(message: str) -> str:
    """A message without the middle of the long text an author may have put where a word belongs."""
    return message if len(message) <= 300 else f"{message[:200]} … {message[-60:]}"


def _shown(value: object) -> str:
    text = "nothing" if value is None else repr(value)
    return text if len(text) <= 60 else text[:57] + "…"


def _known_keys(model: type[BaseModel], path: Iterable[str | int]) -> list[str]:
    """The keys allowed in the mapping at ``path``: walk the model's fields along it."""
    here: list[type[BaseModel]] = [model]
    for part in path:
        if not isinstance(part, str) or ":" in part:
            here = [m for m in here if ":" not in str(part) or _tagged(m, str(part))]
            continue
        below = [child for m in here for child in _models_below(m, part)]
        here = below or here
    return sorted({info.alias or name for m in here for name, info in m.model_fields.items()})


def _tagged(model: type[BaseModel], tag: str) -> bool:
    return {"line:lift": "LiftLine", "line:group": "GroupLine"}.get(tag, model.__name__) == model.__name__


def _models_below(model: type[BaseModel], key: str) -> list[type[BaseModel]]:
    for name, info in model.model_fields.items():
        if (info.alias or name) == key:
            return _models_in(info.annotation)
    # A union on a written word ('drop-set', 'double') puts that word into the path.
    return [model] if key in str(model.model_fields.get("technique") or model.model_fields.get("rule")) else []


def _models_in(annotation: Any) -> list[type[BaseModel]]:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return [annotation]
    return [model for part in get_args(annotation) for model in _models_in(part)]
