"""A manuscript whose every free text is hostile: texts in each field that might be taken for more than text."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

from plateset.manuscript.positions import read_yaml

from tests.publishing.building import BOOK, write_book

ELSEWHERE = "evil.example"
"""A host that nothing of the site may ask anything of."""

TEXTS = (
    '</script><script>window.ran=1;fetch("https://evil.example/a")</script>',
    '<img src="https://evil.example/b" onerror="window.ran=2">',
    "\"><svg onload='window.ran=3'>",
    "<!-- <script>",
    "]]></title><script>window.ran=4</script>",
    "{{7*7}}",
    "{% raw %}{% include '/etc/passwd' %}",
    "{{ ''.__class__.__mro__ }}",
    '#eval("6*7")',
    '#read("/etc/passwd")',
    "$ sum_1^2 $ @ref <label> \\u{202e} /* // */",
    "=cmd|' /C calc'!A0",
    "@SUM(1+1)*cmd|'/C calc'!A0",
    "+1+1|x",
    "-2+3",
    '=HYPERLINK("https://evil.example/c","x")',
    "＝1+1",
    "\tx=1",
    "<r>&</r>",
    "1\ufe0f\u20e3 of a\u20dd, \u202e\t\u030d\u028d",
    "Back\\Neck; push &Go, &[Picture] cash $& carry $'",
    "first\nBEGIN:VEVENT\nSUMMARY:planted\nEND:VEVENT",
    "first\nSitemap: https://evil.example/d\nDisallow:",
    "\u202egnp.live\u202c \u2066isolated\u2069",
    "\u200b\u200d\u2060",
    "w" * 190,
    "🏋️\u200d♀️🇳🇴 a\u0301\u0323 ﷽",
    "![p](https://evil.example/e.png)",
    "[x](javascript:window.ran=5)",
    "<https://evil.example/f> https://evil.example/g",
    "[a]: javascript:alert(1)",
    "`code` ``` ~~~ | a | b |",
    "../../../etc/passwd",
    "//evil.example/h",
    "data:text/html,<script>window.ran=6</script>",
    "%0d%0aSet-Cookie: x=1",
    "con", "nul", "__proto__", "constructor", "NaN", "-", "'", '"', "\\", ";,:\\n", "&lt;b&gt; &amp; &#x3c;",
)  # fmt: skip
"""What an author, or whoever wrote to one, might send along. None of it may be anything but text."""


REFUSED = ("\x00", "\x1b[31m", "\r\nX: y", "\u2028", "\u2029", "\ufeff", "\x85", "\x7f", "\ud800", "\uffff")
"""Characters that no text may hold, however they are written."""


def together(size: int, start: int = 0) -> str:
    """Some of the texts one after another, at most ``size`` characters, from one of them on."""
    told = ""
    for text in (*TEXTS[start:], *TEXTS[:start]):
        if len(told) + len(text) + 3 <= size:
            told = f"{told} · {text}" if told else text
    return told


_ESCAPED = re.compile(r"[\x7f-\x9f\u2028\u2029\ud800-\udfff\ufeff\uffff]")


def _written(data: Any) -> str:
    """Data as JSON, which is YAML, with the characters escaped that YAML wants escaped."""
    return _ESCAPED.sub(lambda found: f"\\u{ord(found[0]):04x}", json.dumps(data, ensure_ascii=False))


_REFUSED = re.compile(
    r"\[x\]\(javascript[^)]*\)|!\[p\]\([^)]*\)|\[a\]: javascript:alert\(1\)|"
    r"[\x00\x1b\x7f\x85\u2028\u2029\ud800-\udfff\ufeff\uffff]"
)


_TAG = re.compile(r"<(?=[A-Za-z/!?])(?!https?:)")


def _prose(text: str) -> str:
    """The text without what the proof refuses in Markdown: links that run, pictures, control characters.

    Tags are refused too unless they are to be seen, which a backslash says.
    """
    return _TAG.sub(r"\\<", _REFUSED.sub("", text))


def _program(text: str, short: str) -> str:
    data: dict[str, Any] = read_yaml(BOOK["programs/lantern.yaml"]).data
    data |= {"title": short, "summary": text, "author": short, "licence": short, "starts": "2026-03-02", "at": "18:30"}
    data |= {"suits": [text], "not for": [text], "cautions": [text], "edition": 2}
    data["text"] = "## " + _prose(text)
    data["changes"] = [{"edition": 2, "date": "2026-03-02", "text": text}]
    data["accept"] = [{"mark": "promise-missed", "because": text}]
    heavy = data["sessions"]["heavy"]
    heavy |= {"title": short, "note": text}
    heavy["lines"][0] |= {"note": text, "why": text}
    heavy["lines"][1] |= {"note": text, "why": text}
    heavy["lines"][1]["superset"][0] |= {"note": text}
    return _written(data)


def _note(head: dict[str, Any], text: str) -> str:
    return f"---\n{_written(head)}\n---\n{_prose(text)}\n"


def files_of(text: str, short: str) -> dict[str, str]:
    """Every file of the manuscript: ``text`` in each long field, ``short`` where 200 characters are the most.

    Prose leaves out the links and pictures that the proof refuses; those are tried by themselves.
    """
    exercise: dict[str, Any] = read_yaml(BOOK["exercises/squat.md"].split("---\n")[1]).data
    exercise |= {"name": short, "also called": [short], "set-up": [text], "cues": [text], "faults": {short: text}}
    exercise |= {"cautions": [text], "warn of": [text], "video": {"address": "https://evil.example/v?a=1&b=;{{7*7}}"}}
    site: dict[str, Any] = read_yaml(BOOK["site.yaml"]).data
    site |= {"title": short, "tagline": text, "about": _prose(text), "author": {"name": short, "about": text}}
    site |= {"cautions": [text], "address": "https://barn.example/lifting/"}
    explainer = {"title": short, "summary": text, "date": "2026-02-01", "programs": ["lantern"]}
    technique = {"name": short, "summary": text, "suits": [text], "does not suit": [text], "cautions": [text]}
    return {
        "site.yaml": _written(site),
        "programs/lantern.yaml": _program(text, short),
        "exercises/squat.md": _note(exercise, text),
        "techniques/superset.md": _note(technique, text),
        "explainers/why-the-row.md": _note(explainer, text),
    }


def hostile_book(folder: Path, text: str, short: str) -> Path:
    """The manuscript on disk."""
    return write_book(folder, files_of(text, short))
