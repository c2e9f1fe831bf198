"""A brake on guessing: wrong tries are counted in the cache that all processes share."""

from __future__ import annotations

import hashlib
import ipaddress
from dataclasses import dataclass

from allauth.account.adapter import get_adapter
from django.core.cache import cache
from django.http import HttpRequest


@dataclass(frozen=True, slots=True)
class Brake:
    """At most `tries` in any `window_s` seconds for one key.

    Each try takes a slot of its own by an atomic insert, so that tries at the same moment are all counted,
    and frees it after the window.
    """

    name: str
    tries: int
    window_s: int

    def slots(self, key: str) -> list[str]:
        digest = hashlib.sha256(key.encode()).hexdigest()
        return [f"brake:{self.name}:{digest}:{number}" for number in range(self.tries)]

    def take(self, key: str) -> str | None:
        """A free slot, now taken; None if the brake is on."""
        slots = self.slots(key)
        taken = cache.get_many(slots)
        return next((slot for slot in slots if slot not in taken and cache.add(slot, 1, self.window_s)), None)

    def give_back(self, slot: str) -> None:
        """The try was right after all."""
        cache.delete(slot)

    def is_on(self, key: str) -> bool:
        return len(cache.get_many(self.slots(key))) >= self.tries


def address_of(request: HttpRequest) -> str:
    """The client's address as the outermost trusted proxy saw it; of IPv6 the /64 that one line holds as a whole."""
    address = str(get_adapter().get_client_ip(request))
    if ":" in address:
        return str(ipaddress.IPv6Network(f"{address}/64", strict=False))
    return address
