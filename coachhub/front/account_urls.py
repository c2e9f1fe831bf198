"""The few addresses of the account library that are open here, under the names it looks for."""

from __future__ import annotations

from django.urls import URLPattern, path

from coachhub.front.views import account

urlpatterns: list[URLPattern] = [
    path("login/", account.login, name="account_login"),
    path("logout/", account.logout, name="account_logout"),
    path("password/", account.change_password, name="account_change_password"),
]
