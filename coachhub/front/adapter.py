"""How staff log in: the account library's flow, with our own brake."""

from __future__ import annotations

import logging
from typing import Any

from allauth.account.adapter import DefaultAccountAdapter
from django.db.models import Q
from django.http import HttpRequest

from coachhub.front.brake import Brake, address_of
from coachhub.people.models import Staff, User

log = logging.getLogger("coachhub.audit")

# By user and address together: an attacker in the gym shuts nobody else out there, nor the user anywhere else.
LOGIN_BRAKE = Brake("login", tries=5, window_s=300)


class AccountAdapter(DefaultAccountAdapter):  # type: ignore[misc]  # the library is untyped
    def is_open_for_signup(self, request: HttpRequest) -> bool:
        return False

    def authenticate(self, request: HttpRequest, **credentials: Any) -> User | None:
        """A user of today's staff, by the right password; the same answer for every other reason."""
        account, address = account_of(credentials), address_of(request)
        slot = LOGIN_BRAKE.take(f"{account} at {address}")
        if slot is None:
            log.warning("log-in braked from %s", address)
            raise self.validation_error("too_many_login_attempts")
        user: User | None = super().authenticate(request, **credentials)
        if user is None or not Staff.objects.filter(user=user, archived_at=None, user__is_active=True).exists():
            log.warning("log-in refused from %s", address)
            return None
        LOGIN_BRAKE.give_back(slot)
        return user


def account_of(credentials: dict[str, Any]) -> str:
    """One key for an account, whether its user name or its address was typed."""
    typed = str(credentials.get("email") or credentials.get("username") or "")
    pk = User.objects.filter(Q(username__iexact=typed) | Q(email__iexact=typed)).values_list("pk", flat=True).first()
    return f"user {pk}" if pk else f"name {typed.casefold()}"
