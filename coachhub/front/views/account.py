"""Staff in and out, by the account library's views."""

from __future__ import annotations

from typing import Any

from allauth.account import views
from django import forms
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect

from coachhub.base.actor import STAFF
from coachhub.base.gates import open_to_all, roles


class LoginView(views.LoginView):  # type: ignore[misc]  # the library is untyped
    def dispatch(self, request: HttpRequest, *args: Any, **kwargs: Any) -> HttpResponse:
        if request.actor.is_staff:  # type: ignore[attr-defined]
            return redirect(self.get_success_url() or "front:home")
        response: HttpResponse = super().dispatch(request, *args, **kwargs)
        return response

    def form_invalid(self, form: forms.Form) -> HttpResponse:
        response: HttpResponse = self.render_to_response(self.get_context_data(form=form), status=422)
        return response


class ChangePasswordView(views.PasswordChangeView):  # type: ignore[misc]
    def form_invalid(self, form: forms.Form) -> HttpResponse:
        response: HttpResponse = self.render_to_response(self.get_context_data(form=form), status=422)
        return response

    def get_default_success_url(self) -> str:
        return "/"


login = open_to_all(LoginView.as_view())
logout = open_to_all(views.LogoutView.as_view())
change_password = roles(STAFF)(ChangePasswordView.as_view())
