"""Packing: the same document in fewer bytes, as a library of another hand reads both."""

from __future__ import annotations

import io
import json

import pikepdf
import pytest
import typst
from plateset.publishing.pdf_packing import IN_A_STREAM, packed
from plateset.publishing.sheets import program_order
from plateset.publishing.typesetting import UNREAD

from tests.publishing.paper import PROGRAM, TEMPLATE, a_site, set_on


def plain_pdf() -> bytes:
    """A whole program as the typesetter gives it."""
    order = program_order(PROGRAM, a_site(), set_on("a4"))
    files = {**dict(TEMPLATE.own), "main.typ": TEMPLATE.main, "data.txt": UNREAD + json.dumps(order.data).encode()}
    pdf: bytes = typst.compile(files, root=TEMPLATE.folder, format="pdf", pdf_standards="ua-1")  # type: ignore[call-overload]
    return pdf


@pytest.fixture(scope="module")
def plain() -> bytes:
    return plain_pdf()


def spelt_out(pdf: bytes) -> bytes:
    """The document written anew, without object streams."""
    written = io.BytesIO()
    with pikepdf.open(io.BytesIO(pdf)) as document:
        document.save(written, object_stream_mode=pikepdf.ObjectStreamMode.disable, static_id=True)
    return written.getvalue()


def test_a_packed_document_is_the_same_document(plain: bytes) -> None:
    assert plain.count(b" 0 obj") > 2 * IN_A_STREAM
    assert spelt_out(packed(plain)) == spelt_out(plain)


def test_a_packed_document_is_less_than_half_as_large(plain: bytes) -> None:
    assert len(packed(plain)) < len(plain) / 2
    assert packed(plain) == packed(plain)


def test_a_packed_document_has_no_faults_to_find(plain: bytes) -> None:
    with pikepdf.open(io.BytesIO(packed(plain)), attempt_recovery=False) as document:
        assert document.check_pdf_syntax() == []


@pytest.mark.parametrize(
    "spoil",
    [
        lambda pdf: b"",
        lambda pdf: pdf[:-10],
        lambda pdf: pdf.replace(b"xref\n0 ", b"xref\n1 "),
        lambda pdf: pdf.replace(b"trailer", b"trouble"),
        lambda pdf: pdf.replace(b"1 0 obj", b"1 0 job", 1),
    ],
)
def test_what_is_laid_out_otherwise_is_refused(plain: bytes, spoil: object) -> None:
    with pytest.raises(ValueError, match="not a PDF of the kind"):
        packed(spoil(plain))  # type: ignore[operator]


def test_what_was_packed_is_not_packed_again(plain: bytes) -> None:
    with pytest.raises(ValueError, match="no table"):
        packed(packed(plain))
