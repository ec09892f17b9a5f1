"""Records of which a program has thousands: made once, never changed, held to that by the type checker."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TypeVar, dataclass_transform

R = TypeVar("R")


@dataclass_transform(frozen_default=True, field_specifiers=(field,))
def record(kind: type[R]) -> type[R]:
    """A dataclass whose objects are the same where their fields are, and can be hashed.

    A type checker refuses to set a field, as it does for ``dataclass(frozen=True)``. Nothing guards it while it runs:
    an object that is guarded takes three times as long to make, and a program is made of six thousand.
    """
    return dataclass(unsafe_hash=True)(kind)
