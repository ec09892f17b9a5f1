"""What the rest of a site knows of a program, written down and read again."""

from __future__ import annotations

from pydantic import TypeAdapter

from plateset.publishing.ledger import CardRecord, record_of
from plateset.publishing.views import ProgramCard

_CARDS = TypeAdapter(ProgramCard)


def card_record(card: ProgramCard) -> CardRecord:
    """A card to be written down."""
    return record_of(_CARDS.dump_json(card))


def card_in(record: CardRecord) -> ProgramCard:
    """The card that was written down."""
    return _CARDS.validate_json(record.written)
