"""What may be asked of a manuscript, as it is noted of whatever is made from it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Asked = Literal["text", "head", "name", "names", "explainers on"]
Question = tuple[Asked, str, str]
"""What was asked: a file's text, what others may take of its head, whether there is a file, which files there are, or
which explainers name a program; of which kind of file; and its name, empty where all are meant."""


@dataclass(frozen=True, eq=False)
class Answer:
    """A question and what was answered. Thousands of programs ask the same, and share one object for it."""

    question: Question
    text: str
