"""The preview over a socket: whom it answers, what it sends, and how it ends."""

from __future__ import annotations

import json
import os
import re
import signal
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from http.client import HTTPConnection, HTTPResponse
from pathlib import Path
from threading import Event, Thread

import pytest
from plateset.preview.server import Board, PreviewServer
from plateset.preview.watching import serve

from tests.publishing.building import write_book

DEADLINE = 20.0


@contextmanager
def previewing(folder: Path) -> Iterator[tuple[PreviewServer, list[str]]]:
    """A preview at work on a free port, and what it has said so far."""
    server, stop, said = PreviewServer(0, Board()), Event(), list[str]()
    thread = Thread(target=serve, args=(server, folder, "book", stop, said.append))
    thread.start()
    try:
        assert server.board.after(0, DEADLINE)
        yield server, said
    finally:
        stop.set()
        thread.join(DEADLINE)
        assert not thread.is_alive()


def ask(server: PreviewServer, target: str, method: str = "GET", **headers: str) -> tuple[HTTPResponse, bytes]:
    connection = HTTPConnection("127.0.0.1", server.server_port, timeout=DEADLINE)
    connection.request(method, target, headers=headers)
    answer = connection.getresponse()
    body = answer.read()
    connection.close()
    return answer, body


@pytest.fixture
def book(tmp_path: Path) -> Path:
    return write_book(tmp_path / "book")


@pytest.fixture
def server(book: Path) -> Iterator[PreviewServer]:
    with previewing(book) as (server, _):
        yield server


def test_it_listens_on_the_loopback_address_only(server: PreviewServer) -> None:
    assert server.socket.getsockname()[0] == "127.0.0.1"
    assert server.address == f"http://127.0.0.1:{server.server_port}/"


@pytest.mark.parametrize(
    ("target", "kind"),
    [
        ("/", "text/html; charset=utf-8"),
        ("/desk/desk.css", "text/css; charset=utf-8"),
        ("/desk/beside?page=index.html", "application/json; charset=utf-8"),
        ("/pages/", "text/html; charset=utf-8"),
        ("/pages/programs/lantern/", "text/html; charset=utf-8"),
        ("/pages/assets/style.css", "text/css; charset=utf-8"),
        ("/pages/programs/lantern/week-1-a4.pdf", "application/pdf"),
    ],
)
def test_what_there_is(server: PreviewServer, target: str, kind: str) -> None:
    answer, body = ask(server, target)
    assert (answer.status, answer.headers["Content-Type"]) == (200, kind)
    assert body
    assert answer.headers["Cache-Control"] == "no-store"
    head, nothing = ask(server, target, "HEAD")
    assert (head.status, head.headers["Content-Length"], nothing) == (200, str(len(body)), b"")


@pytest.mark.parametrize("host", ["barn.example", "barn.example:80", "127.0.0.1.barn.example"])
@pytest.mark.parametrize("target", ["/", "/pages/", "/desk/beside", "/desk/news", "/desk/desk.js"])
def test_a_foreign_host_is_refused(server: PreviewServer, target: str, host: str) -> None:
    answer, body = ask(server, target, Host=host)
    assert answer.status == 421
    assert b"Lantern" not in body


@pytest.mark.parametrize(
    "target", ["/pages/../site.yaml", "/pages/%2e%2e/site.yaml", "/pages/..%2f..%2fetc/passwd", "/pages//etc/passwd"]
)
def test_no_path_leads_out(server: PreviewServer, target: str) -> None:
    answer, body = ask(server, target)
    assert answer.status == 404
    assert b"Page not found" in body


@pytest.mark.parametrize("target", ["/site.yaml", "/desk/", "/desk/server.py", "/favicon.ico"])
def test_there_is_nothing_else(server: PreviewServer, target: str) -> None:
    assert ask(server, target)[0].status == 404


@pytest.mark.parametrize("method", ["POST", "PUT", "DELETE", "OPTIONS"])
def test_nothing_can_be_changed(server: PreviewServer, method: str) -> None:
    assert ask(server, "/pages/", method)[0].status == 501


def test_what_stands_around_the_pages_loads_nothing_from_elsewhere(server: PreviewServer) -> None:
    for target in ("/", "/desk/desk.css", "/desk/desk.js"):
        answer, body = ask(server, target)
        assert not re.search(rb"https?://|//[a-z]+\.", body)
        policy = answer.headers["Content-Security-Policy"]
        assert "default-src 'none'" in policy
        assert "unsafe" not in policy


def test_a_page_is_sent_as_it_will_be_pressed(server: PreviewServer) -> None:
    pressed = server.board.state.pressed
    assert pressed is not None
    answer, body = ask(server, "/pages/numbers.html")
    assert body == pressed.files["numbers.html"]()
    assert "Content-Security-Policy" not in answer.headers


def test_a_save_is_news_within_a_second(book: Path) -> None:
    with previewing(book) as (server, said):
        before = server.board.state
        program = book / "programs" / "lantern.yaml"
        program.write_text(program.read_text("utf-8").replace("Three weeks", "Four nights"), "utf-8")
        began = time.monotonic()
        after = server.board.after(before.news, DEADLINE)
        took = time.monotonic() - began
        assert after is not None
        assert after.edition == before.edition + 1
        assert b"Four nights" in ask(server, "/pages/programs/lantern/")[1]
        assert took < 5  # a machine may be busy; how long it takes on a quiet one is told in the manual
        assert said[-1].startswith("These are your pages as they stand. (")


def test_a_slip_is_told_and_the_pages_stay(book: Path) -> None:
    with previewing(book) as (server, _):
        page = ask(server, "/pages/programs/lantern/")[1]
        program = book / "programs" / "lantern.yaml"
        news = server.board.state.news
        program.write_text(program.read_text("utf-8").replace("weeks: 3\n", "weeks: three\n"), "utf-8")
        assert server.board.after(news, DEADLINE)
        beside = json.loads(ask(server, "/desk/beside?page=programs/lantern/index.html")[1])
        assert beside["sound"] is False
        assert "weeks: three" in beside["problems"]
        assert ask(server, "/pages/programs/lantern/")[1] == page


def test_a_fault_on_a_page_nobody_opened_is_told(book: Path) -> None:
    (book / "theme").mkdir()
    (book / "theme" / "404.html").write_text("{{ 1 // 0 }}")
    with previewing(book) as (server, _):
        if server.board.state.is_sound:
            assert server.board.after(server.board.state.news, DEADLINE)
        assert "404.html" in server.board.state.fault
        answer, body = ask(server, "/pages/nothing.html")
        assert answer.status == 500
        assert b"404.html" in body


DRAFT = "<i data-draft></i>"
"""What a page of a draft has to say."""


def test_a_page_whose_template_breaks_stays_as_it_was_last_shown(book: Path) -> None:
    (book / "theme").mkdir()
    template = book / "theme" / "404.html"
    template.write_text("as it was" + DRAFT)
    with previewing(book) as (server, _):
        good = ask(server, "/pages/nothing.html")
        news = server.board.state.news
        template.write_text("{{ zork }}")
        assert server.board.after(news, DEADLINE)
        while not server.board.state.fault:
            assert server.board.after(server.board.state.news, DEADLINE)
        assert "404.html" in server.board.state.fault
        assert ask(server, "/pages/nothing.html")[1] == good[1] == f"as it was{DRAFT}".encode()
        template.write_text("mended" + DRAFT)
        while b"mended" not in ask(server, "/pages/nothing.html")[1]:
            assert server.board.after(server.board.state.news, DEADLINE)


@pytest.mark.parametrize("name", [".hidden", "programs/.lantern.yaml.swp", "programs/lantern.yaml~", "todo.txt"])
def test_files_that_are_no_part_of_it_are_no_news(book: Path, name: str) -> None:
    with previewing(book) as (server, _):
        news = server.board.state.news
        (book / name).write_text("x")
        assert server.board.after(news, 1.0) is None


def test_before_the_first_pages_there_are_none(book: Path) -> None:
    (book / "site.yaml").rename(book / "kept")
    with previewing(book) as (server, _):
        assert ask(server, "/pages/")[0].status == 503
        news = server.board.state.news
        (book / "kept").rename(book / "site.yaml")
        assert server.board.after(news, DEADLINE)
        assert ask(server, "/pages/")[0].status == 200


def test_a_page_left_open_knows_a_new_preview_from_the_one_before(book: Path) -> None:
    editions = []
    for _ in range(2):
        with previewing(book) as (server, _said):
            assert server.board.state.edition == 1
            editions.append(json.loads(ask(server, "/desk/beside")[1])["edition"])
    assert editions[0] != editions[1]


def test_news_is_sent_as_it_comes_and_the_stream_ends_with_the_preview(book: Path) -> None:
    with previewing(book) as (server, _):
        connection = HTTPConnection("127.0.0.1", server.server_port, timeout=DEADLINE)
        connection.request("GET", "/desk/news")
        answer = connection.getresponse()
        assert answer.headers["Content-Type"] == "text/event-stream"
        assert answer.readline() == f"data: {server.board.state.news}\n".encode()
        answer.readline()
        (book / "site.yaml").write_text("title: [")
        assert answer.readline() == f"data: {server.board.state.news}\n".encode()
    rest = answer.read()
    assert b"data" not in rest
    connection.close()


def preview_apart(folder: Path, *words: str) -> subprocess.Popen[str]:
    return subprocess.Popen(
        [sys.executable, "-m", "plateset", "preview", str(folder), "--no-open", *words],
        stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, env=os.environ | {"PYTHONUNBUFFERED": "1"},
    )  # fmt: skip


@pytest.mark.parametrize("sign", [signal.SIGINT, signal.SIGTERM])
def test_ctrl_c_ends_it_cleanly(book: Path, sign: signal.Signals) -> None:
    process = preview_apart(book, "--port", "0")
    assert process.stdout is not None
    first = process.stdout.readline()
    assert re.fullmatch(rf"http://127\.0\.0\.1:\d+/ shows {re.escape(str(book))}\. Ctrl-C ends it\.\n", first)
    process.stdout.readline()
    process.send_signal(sign)
    out, err = process.communicate(timeout=DEADLINE)
    assert (process.returncode, err) == (0, "")
    assert out.endswith("The preview has ended.\n")


def test_a_port_that_is_taken_is_told(book: Path) -> None:
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = taken.getsockname()[1]
        process = preview_apart(book, "--port", str(port))
        out, err = process.communicate(timeout=DEADLINE)
    assert (process.returncode, out) == (4, "")
    assert err == f"plateset: port {port} is taken; name another with --port, or --port 0 for any that is free\n"


def test_what_is_no_folder_is_told(tmp_path: Path) -> None:
    process = preview_apart(tmp_path / "nowhere")
    _, err = process.communicate(timeout=DEADLINE)
    assert process.returncode == 3
    assert "there is no folder" in err
