"""What a request may ask for: this machine's own address, and paths within the site."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from plateset.preview.address import is_ours, site_path


@pytest.mark.parametrize("host", ["127.0.0.1:8275", "localhost:8275", "LOCALHOST:8275", "[::1]:8275"])
def test_this_machine_is_answered(host: str) -> None:
    assert is_ours(host, 8275)


@pytest.mark.parametrize(
    "host",
    [None, "", "127.0.0.1", "127.0.0.1:80", "barn.example", "barn.example:8275", "127.0.0.1.barn.example:8275",
     "127.0.0.1:8275, barn.example", "localhost:82750", "0.0.0.0:8275"],
)  # fmt: skip
def test_any_other_name_is_refused(host: str | None) -> None:
    assert not is_ours(host, 8275)


@pytest.mark.parametrize(
    ("target", "path"),
    [
        ("/pages/", "index.html"),
        ("/pages/programs/", "programs/index.html"),
        ("/pages/programs/tally/week-1.html?x=1#y", "programs/tally/week-1.html"),
        ("/pages/a%20b.html", "a b.html"),
        ("/pages/./numbers.html", "numbers.html"),
    ],
)
def test_a_path_within_the_site(target: str, path: str) -> None:
    assert site_path(target) == path


@pytest.mark.parametrize(
    "target",
    ["/", "/pages", "/desk/desk.js", "/pages/../site.yaml", "/pages/%2e%2e/site.yaml", "/pages/a/../../b",
     "/pages//etc/passwd", "/pages/%2fetc/passwd", "/pages/..%5cx", "/pages/a%00.html", "/pagesx/", "pages/"],
)  # fmt: skip
def test_a_way_out_is_no_path(target: str) -> None:
    assert site_path(target) is None


@given(st.text(max_size=40))
def test_no_target_leads_out(text: str) -> None:
    try:
        path = site_path("/pages/" + text)
    except ValueError:  # not an address at all
        return
    assert path is None or not (path.startswith("/") or ".." in path.split("/") or "\x00" in path)
