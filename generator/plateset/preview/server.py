"""The preview's server: this machine only, from memory only, to its own pages only."""

from __future__ import annotations

import json
import mimetypes
import sys
from contextlib import nullcontext
from dataclasses import dataclass, field
from http import HTTPStatus
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from importlib.resources import files
from secrets import token_hex
from threading import Condition, Lock
from typing import Any
from urllib.parse import parse_qs, urlsplit

from plateset.preview.address import PAGES, is_ours, site_path
from plateset.preview.making import FAULTS, words_of
from plateset.preview.panel import problems, proof_panel, status
from plateset.preview.state import State
from plateset.publishing.paths import NOT_FOUND

LOOPBACK = "127.0.0.1"
BEAT = 15.0
"""Seconds after which a quiet stream of news says that it is still there."""

SLOW = (".pdf", ".png", ".xlsx", ".zip")
"""Endings of files that take long to make."""

_POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; connect-src 'self'; frame-src 'self'; img-src data:; "
)
_DESK = {"/": "desk.html", "/desk/desk.css": "desk.css", "/desk/desk.js": "desk.js"}
_HEADERS = {
    "Cache-Control": "no-store",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Referrer-Policy": "no-referrer",
    "X-Content-Type-Options": "nosniff",
    "X-Frame-Options": "SAMEORIGIN",
}


@dataclass
class Board:
    """The state that all requests read and the watcher sets, and the word that it has changed."""

    state: State = field(default_factory=State)
    name: str = field(default_factory=lambda: token_hex(4))
    """Tells one preview from the next, whose editions are counted from 1 again."""
    ended: bool = False
    _changed: Condition = field(default_factory=Condition)

    def show(self, state: State) -> None:
        """Set the state and tell whoever waits."""
        with self._changed:
            self.state = state
            self._changed.notify_all()

    def end(self) -> None:
        """Let whoever waits go."""
        with self._changed:
            self.ended = True
            self._changed.notify_all()

    def after(self, news: int, seconds: float) -> State | None:
        """The state once it is newer than ``news``; None when ``seconds`` have passed, or at the end."""
        with self._changed:
            self._changed.wait_for(lambda: self.ended or self.state.news > news, seconds)
            return self.state if self.state.news > news and not self.ended else None


class PreviewServer(ThreadingHTTPServer):
    """Serves a board on a port of the loopback address."""

    daemon_threads = True
    allow_reuse_address = True

    def __init__(self, port: int, board: Board) -> None:
        self.board = board
        self.setting = Lock()  # files that take long are made one at a time, and each once
        self.last_good: dict[str, bytes] = {}  # each page as it was last shown, for when its template breaks
        super().__init__((LOOPBACK, port), _Desk)

    @property
    def address(self) -> str:
        """Where a browser finds it."""
        return f"http://{LOOPBACK}:{self.server_port}/"

    def handle_error(self, request: Any, client_address: Any) -> None:
        """A browser that leaves in the middle of an answer is no fault; anything else is shown as usual."""
        if not isinstance(sys.exception(), ConnectionError):
            super().handle_error(request, client_address)


class _Desk(BaseHTTPRequestHandler):
    server: PreviewServer
    protocol_version = "HTTP/1.1"
    disable_nagle_algorithm = True  # head and body go out at once, without waiting for each other
    server_version, sys_version = "Plateset", ""

    def do_GET(self) -> None:
        """Answer one request."""
        target = urlsplit(self.path)
        if not is_ours(self.headers.get("Host"), self.server.server_port):
            self._tell(HTTPStatus.MISDIRECTED_REQUEST, "This preview answers to its own address only.")
        elif target.path in _DESK:
            self._send(HTTPStatus.OK, _DESK[target.path], (files(__package__) / _DESK[target.path]).read_bytes())
        elif target.path == "/desk/beside":
            self._beside(parse_qs(target.query).get("page", [""])[0])
        elif target.path == "/desk/news":
            self._news()
        elif target.path.startswith(PAGES):
            self._page()
        else:
            self._tell(HTTPStatus.NOT_FOUND, "There is nothing here.")

    def do_HEAD(self) -> None:
        """Answer one request without its body."""
        self.do_GET()

    def _beside(self, page: str) -> None:
        state = self.server.board.state
        beside = {
            "edition": f"{self.server.board.name}-{state.edition}",
            "sound": state.is_sound,
            "status": status(state),
            "problems": problems(state),
            "proof": proof_panel(state, page),
        }
        self._send(HTTPStatus.OK, "beside.json", json.dumps(beside).encode())

    def _page(self) -> None:
        pressed = self.server.board.state.pressed
        path = site_path(self.path)
        if pressed is None:
            self._tell(HTTPStatus.SERVICE_UNAVAILABLE, "There are no pages yet.")
            return
        known = path is not None and path in pressed.files
        shown = path if known and path is not None else NOT_FOUND
        try:
            with self.server.setting if shown.endswith(SLOW) else nullcontext():
                data = pressed.files[shown]()
        except FAULTS as error:
            # What is wrong is said above the pages, which the watch over the folder sees to.
            before = self.server.last_good.get(shown)
            if before is None:
                self._tell(HTTPStatus.INTERNAL_SERVER_ERROR, words_of(error))
                return
            data = before
        if shown.endswith(".html"):
            self.server.last_good[shown] = data
        self._send(HTTPStatus.OK if known else HTTPStatus.NOT_FOUND, shown, data, policy="")

    def _news(self) -> None:
        self._head(HTTPStatus.OK, "text/event-stream", None)
        board, news = self.server.board, 0
        while not board.ended and self.command != "HEAD":
            state = board.after(news, BEAT)
            news = state.news if state else news
            self.wfile.write(f"data: {news}\n\n".encode() if state else b": still here\n\n")
            self.wfile.flush()
        self.close_connection = True

    def _tell(self, code: HTTPStatus, words: str) -> None:
        self._send(code, "words.txt", f"{words}\n".encode())

    def _send(self, code: HTTPStatus, name: str, data: bytes, policy: str = _POLICY) -> None:
        kind = mimetypes.guess_type(name)[0] or "application/octet-stream"
        textual = kind.startswith("text/") or kind.endswith(("/javascript", "/json", "+xml"))
        self._head(code, f"{kind}; charset=utf-8" if textual else kind, len(data), policy)
        if self.command != "HEAD":
            self.wfile.write(data)

    def _head(self, code: HTTPStatus, kind: str, length: int | None, policy: str = _POLICY) -> None:
        self.send_response(code)
        for name, value in _HEADERS.items():
            self.send_header(name, value)
        self.send_header("Content-Type", kind)
        if policy:  # a page brings its own
            self.send_header("Content-Security-Policy", policy + "base-uri 'none'; form-action 'none'")
        if length is None:
            self.send_header("Connection", "close")
        else:
            self.send_header("Content-Length", str(length))
        self.end_headers()

    def log_message(self, format: str, *arguments: object) -> None:
        """Nothing: the author watches the manuscript, not the requests."""
