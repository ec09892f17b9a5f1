"""A pressed folder is whole, or it is told what is not: files, bytes, links, places."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from plateset.collating import Finding, NotPressedError, collate
from plateset.publishing.marker import MARKER, entry_of, marker_text, read_marker
from plateset.publishing.press import check_target, write_site

from tests.pressed import pressed_demo

HOME = b'<link href="assets/style.css"><a href="a/b.html#there">b</a> <a href="a/">a</a> <a href="#top">up</a>'
FILES = {
    "index.html": HOME,
    "a/index.html": b'<a href="../index.html">home</a> <a href="https://barn.example/x">away</a>',
    "a/b.html": b'<h1 id="there">B</h1><a href="mailto:a@barn.example">m</a><a href="../assets/a%20b.pdf">p</a>',
    "404.html": b'<link href="/people/osla/assets/style.css"><a href="/people/osla/a/b.html#there">b</a>',
    "assets/style.css": b"p {}",
    "assets/a b.pdf": b"%PDF",
}


@pytest.fixture
def site(tmp_path: Path) -> Path:
    write_site(FILES.items(), tmp_path / "site")
    return tmp_path / "site"


def found(site: Path) -> list[tuple[str, str]]:
    return [(finding.fault, finding.path) for finding in collate(site).findings]


@pytest.mark.parametrize("damaged", [b"{", b"\xff", b"", b"This folder was pressed by Plateset"])
def test_a_list_that_is_damaged_makes_nothing_whole(damaged: bytes, site: Path) -> None:
    (site / MARKER).write_bytes(damaged)
    with pytest.raises(NotPressedError, match="is damaged"):
        collate(site)


def test_a_pressed_folder_is_whole(site: Path) -> None:
    whole = collate(site)
    assert (whole.files, whole.findings, whole.is_whole) == (len(FILES), (), True)
    assert whole.links == 8


def test_the_demo_is_whole(tmp_path_factory: pytest.TempPathFactory) -> None:
    whole = collate(pressed_demo(tmp_path_factory.getbasetemp()))
    assert whole.findings == ()
    assert whole.links > 1000


def shorten(site: Path) -> None:
    *lines, last = (site / MARKER).read_text().splitlines(keepends=True)
    (site / MARKER).write_text("".join(lines))
    (site / last.rstrip("\n").split(" ", 2)[2]).unlink()


def test_a_list_without_its_number_is_one_of_an_earlier_press(site: Path) -> None:
    text = (site / MARKER).read_text()
    assert f", {len(FILES)} in all;" in text
    (site / MARKER).write_text(text.replace(f", {len(FILES)} in all;", ";"))
    assert collate(site).is_whole


def lose(site: Path) -> None:
    (site / "assets" / "a b.pdf").unlink()


def cut(site: Path) -> None:
    (site / "assets" / "style.css").write_bytes(b"p")


def swap(site: Path) -> None:
    (site / "assets" / "style.css").write_bytes(b"q {}")


def unname(site: Path) -> None:
    (site / "a" / "b.html").write_bytes(FILES["a/b.html"].replace(b"there", b"their"))


@pytest.mark.parametrize(
    ("spoil", "told"),
    [
        (shorten, [("broken link", "a/index.html"), ("changed", MARKER)]),
        (lose, [("broken link", "a/b.html"), ("missing", "assets/a b.pdf")]),
        (cut, [("changed", "assets/style.css")]),
        (swap, [("changed", "assets/style.css")]),
        (unname, [("broken link", "404.html"), ("broken link", "index.html"), ("changed", "a/b.html")]),
    ],
)
def test_what_is_not_whole_is_told(site: Path, spoil: Callable[[Path], None], told: list[tuple[str, str]]) -> None:
    spoil(site)
    assert found(site) == told
    assert not collate(site).is_whole


def test_the_words_say_what_is_wrong(site: Path) -> None:
    cut(site)
    assert collate(site).findings == (Finding("changed", "assets/style.css", "4 bytes pressed, 1 there"),)
    swap(site)
    assert collate(site).findings[0].words == "the same size, but other bytes"


@pytest.mark.parametrize("link", ["nowhere.html", "a/b.html#nowhere", "#nowhere", "/people/nowhere.html", "a", "../x"])
def test_a_link_to_nowhere_is_told(tmp_path: Path, link: str) -> None:
    write_site({**FILES, "index.html": f'<a href="{link}">x</a>'.encode()}.items(), tmp_path / "site")
    findings = collate(tmp_path / "site").findings
    assert [(finding.fault, finding.path) for finding in findings] == [("broken link", "index.html")]
    assert link in findings[0].words


def test_a_file_of_the_host_is_told_and_does_no_harm(site: Path) -> None:
    (site / "CNAME").write_text("barn.example")
    assert found(site) == [("foreign", "CNAME")]
    assert collate(site).is_whole


def test_a_folder_that_was_not_pressed_is_refused(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("x")
    for name, told in (("", "was not pressed"), ("nowhere", "there is no folder"), ("file", "is not a folder")):
        with pytest.raises(NotPressedError, match=told):
            collate(tmp_path / name)


def test_a_list_that_names_what_lies_elsewhere_makes_nothing_there_be_read(site: Path, tmp_path: Path) -> None:
    (tmp_path / "elsewhere").write_text("mine")
    with (site / MARKER).open("a") as marker:
        marker.write(f"{'0' * 64} 9 ../elsewhere\n{'0' * 64} 9 {tmp_path / 'elsewhere'}\n")
    found = collate(site).findings
    assert [finding.words for finding in found if "elsewhere" in finding.path] == ["listed, and not there"] * 2


def test_the_list_is_read_as_it_is_written(tmp_path: Path) -> None:
    entries = [entry_of("b c.html", b"1"), entry_of("a.html", b"")]
    (tmp_path / MARKER).write_text(marker_text(entries))
    assert read_marker(tmp_path) == {entry.path: entry for entry in entries}
    assert marker_text(entries) == marker_text(reversed(entries))


def test_a_folder_pressed_before_sizes_were_listed_can_be_checked_and_pressed_again(site: Path, tmp_path: Path) -> None:
    (site / MARKER).write_text("This folder was pressed by Plateset.\n\n" + "".join(f"{path}\n" for path in FILES))
    assert found(site) == []
    lose(site)
    assert ("missing", "assets/a b.pdf") in found(site)
    check_target(site, tmp_path / "manuscript")
