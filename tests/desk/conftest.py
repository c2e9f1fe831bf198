"""The evening in the gym, for the pages about cards."""

from __future__ import annotations

from tests.cards.conftest import evening

__all__ = ["evening"]
