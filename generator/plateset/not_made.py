"""The error of everything on the way to a site that can fail for a reason its author can be told."""

from __future__ import annotations


class NotMadeError(Exception):
    """A site or a file of one could not be made; the message says why. What there was stays as it was."""
