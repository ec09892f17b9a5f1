"""A real browser, and the demo served under a sub-path or opened from a folder."""

from __future__ import annotations

import os
import re
import shutil
import threading
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from urllib.parse import urlsplit

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, Response, sync_playwright

from tests.pressed import pressed_demo

SUB_PATH = "/people/osla/lifting/"
ARGUMENTS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--no-first-run",
]
KINDS = (
    "home", "programs", "program", "week", "exercises", "exercise", "techniques", "technique", "explainers",
    "explainer", "numbers", "facet", "search",
)  # fmt: skip
"""Every kind of page that links lead to."""


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    here = Path(__file__).parent
    for item in items:
        if here in item.path.parents:
            item.add_marker(pytest.mark.browser)


def chromium_path() -> str | None:
    """The browser to test with: the one named in the environment, Debian's, or one on the path."""
    named = os.environ.get("PLATESET_CHROMIUM")
    if named:
        return named
    names = ("/usr/bin/chromium", "chromium", "chromium-browser", "google-chrome")
    return next((found for name in names if (found := shutil.which(name))), None)


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    path = chromium_path()
    if path is None:
        pytest.skip("no Chromium on this machine; install it or set PLATESET_CHROMIUM")
    with sync_playwright() as playwright:
        started = playwright.chromium.launch(executable_path=path, args=ARGUMENTS)
        yield started
        started.close()


@pytest.fixture(scope="session")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return pressed_demo(tmp_path_factory.getbasetemp())


@pytest.fixture(scope="session")
def paths(site: Path) -> dict[str, str]:
    """The longest page of each kind, by kind."""
    longest: dict[str, tuple[int, str]] = {}
    for file in sorted(site.rglob("*.html")):
        text = file.read_text(encoding="utf-8")
        kind = re.search(r'<body class="page-([a-z0-9]+)"', text)
        assert kind, file
        longest[kind[1]] = max(longest.get(kind[1], (0, "")), (len(text), file.relative_to(site).as_posix()))
    assert set(longest) == {*KINDS, "404"}
    return {kind: path for kind, (_, path) in longest.items()}


class _Host(SimpleHTTPRequestHandler):
    """Serves the site under the sub-path, and at the root too."""

    def translate_path(self, path: str) -> str:
        if path.startswith(SUB_PATH):
            path = "/" + path.removeprefix(SUB_PATH)
        return super().translate_path(path)

    def log_message(self, format: str, *arguments: object) -> None:
        """Nothing: the tests record every request on the browser's side."""


@pytest.fixture(scope="session")
def host(site: Path) -> Iterator[str]:
    """The origin the site is served from."""
    server = ThreadingHTTPServer(("127.0.0.1", 0), partial(_Host, directory=str(site)))
    server.daemon_threads = True
    thread = threading.Thread(target=server.serve_forever, daemon=True)
    thread.start()
    yield f"http://127.0.0.1:{server.server_port}"
    server.shutdown()
    thread.join()
    server.server_close()


@pytest.fixture(params=["http", "file"])
def base(request: pytest.FixtureRequest, site: Path) -> str:
    """The address the site begins at: under a host's sub-path, or in a folder."""
    if request.param == "file":
        return site.as_uri() + "/"
    origin: str = request.getfixturevalue("host")
    return origin + SUB_PATH


@dataclass
class Visit:
    """A page of the browser with everything it asked for and complained of."""

    page: Page
    context: BrowserContext
    requests: list[str] = field(default_factory=list)
    troubles: list[str] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.context.on("request", lambda request: self.requests.append(request.url))
        self.context.on("requestfailed", lambda request: self.troubles.append(f"failed: {request.url}"))
        self.context.on("response", self._answered)
        self.context.on("weberror", lambda error: self.troubles.append(f"error: {error.error}"))
        self.context.on("console", lambda said: self.troubles.append(f"console {said.type}: {said.text}"))

    def _answered(self, response: Response) -> None:
        if not response.ok:
            self.troubles.append(f"{response.status}: {response.url}")

    def outside(self, base: str) -> list[str]:
        """Requests to anything but the site that begins at ``base``; data inside a page is no request to anyone."""
        mine = urlsplit(base)
        return [
            url
            for url in self.requests
            if urlsplit(url).scheme not in ("data", "blob")
            and not (urlsplit(url)[:2] == mine[:2] and urlsplit(url).path.startswith(mine.path))
        ]


class Visits:
    """Opens pages of the browser, each in a context of its own, and closes them at the end of a test."""

    def __init__(self, browser: Browser) -> None:
        self._browser = browser
        self._contexts: list[BrowserContext] = []

    def __call__(self, *, width: int = 1280, dark: bool = False, scripts: bool = True) -> Visit:
        context = self._browser.new_context(
            viewport={"width": width, "height": 800},
            color_scheme="dark" if dark else "light",
            java_script_enabled=scripts,
        )
        context.set_default_timeout(20_000)
        self._contexts.append(context)
        return Visit(context.new_page(), context)

    def close(self) -> None:
        for context in self._contexts:
            context.close()


@pytest.fixture
def visit(browser: Browser) -> Iterator[Visits]:
    opened = Visits(browser)
    yield opened
    opened.close()


@pytest.fixture(scope="session")
def site_programs(site: Path) -> list[str]:
    """Every program's page."""
    return sorted(path.relative_to(site).as_posix() for path in site.glob("programs/*/index.html"))


@pytest.fixture(scope="session")
def site_weeks(site: Path) -> list[str]:
    """The first and the longest week of every program."""
    weeks: list[str] = []
    for folder in sorted(site.glob("programs/*/")):
        pages = list(folder.glob("week-*.html"))
        longest = max(pages, key=lambda path: (path.stat().st_size, path.name))
        weeks += sorted({path.relative_to(site).as_posix() for path in (folder / "week-1.html", longest)})
    return weeks
