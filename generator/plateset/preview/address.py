"""What a request to the preview asks for. Pure: says what a host and a path mean, and touches nothing."""

from __future__ import annotations

import posixpath
import re
from urllib.parse import unquote, urlsplit

PAGES = "/pages/"
"""Where the site begins; everything outside belongs to the preview itself."""

_HOSTS = ("127.0.0.1", "localhost", "[::1]")
_UNFIT = re.compile(r"[\x00-\x1f\x7f\\]")


def is_ours(host: str | None, port: int) -> bool:
    """Whether a request names this machine's own address in its Host header.

    A page of another site can make a browser ask 127.0.0.1 under a name of its own; such a request is refused.
    """
    return host is not None and host.strip().lower() in {f"{name}:{port}" for name in _HOSTS}


def site_path(target: str) -> str | None:
    """The path within the site that a request's target asks for; None where there can be none.

    ``/pages/`` is ``index.html``, ``/pages/programs/`` is ``programs/index.html``.
    """
    path = unquote(urlsplit(target).path, errors="replace")
    if not path.startswith(PAGES) or _UNFIT.search(path):
        return None
    inside = path.removeprefix(PAGES)
    if inside.startswith("/") or ".." in inside.split("/"):
        return None
    if inside in ("", ".") or inside.endswith("/"):
        inside += "index.html"
    return posixpath.normpath(inside)
