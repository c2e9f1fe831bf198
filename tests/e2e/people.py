"""Whoever opens a browser in these tests, let in by the cookies of their session or their phone."""

from __future__ import annotations

from django.test import Client
from playwright.sync_api import BrowserContext

from coachhub.people.access import PHONE_COOKIE
from coachhub.people.models import User


def let_in(context: BrowserContext, server: str, client: Client) -> BrowserContext:
    """Give the browser what the client holds."""
    for name, morsel in client.cookies.items():
        context.add_cookies([{"name": name, "value": morsel.value, "url": server, "httpOnly": True}])
    return context


def staff_client(username: str) -> Client:
    client = Client()
    client.force_login(User.objects.get(username=username))
    return client


def phone_client(token: str) -> Client:
    client = Client()
    client.cookies[PHONE_COOKIE] = token
    return client
