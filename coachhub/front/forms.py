"""What is typed to get in."""

from __future__ import annotations

from datetime import date
from typing import Any

from allauth.account import forms as account_forms
from django import forms
from django.utils.translation import gettext_lazy as _


class LoginForm(account_forms.LoginForm):  # type: ignore[misc]  # the library is untyped
    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        login, password = self.fields["login"], self.fields["password"]
        login.label = _("User name or e-mail")
        login.widget.attrs = {"autocomplete": "username", "autocapitalize": "none", "spellcheck": "false"}
        password.label = _("Password")
        password.widget.attrs = {"autocomplete": "current-password"}


class ChangePasswordForm(account_forms.ChangePasswordForm):  # type: ignore[misc]
    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        for name, label, autocomplete in (
            ("oldpassword", _("Password until now"), "current-password"),
            ("password1", _("New password"), "new-password"),
            ("password2", _("New password again"), "new-password"),
        ):
            self.fields[name].label = label
            self.fields[name].widget.attrs = {"autocomplete": autocomplete}
        self.fields["password1"].help_text = _("15 characters or more: a few words that nobody would put together.")


class CodeForm(forms.Form):
    """`asks_birthday`: many wrong codes came in, so a right code alone is not enough for now."""

    code = forms.CharField(
        label=_("Your code"),
        max_length=20,
        widget=forms.TextInput(
            attrs={"autocomplete": "one-time-code", "autocapitalize": "characters", "spellcheck": "false"}
        ),
        help_text=_("Eight letters and digits, from your coach."),
    )
    born_on = forms.DateField(
        label=_("Your date of birth"), widget=forms.DateInput(format="%Y-%m-%d", attrs={"type": "date"})
    )

    def __init__(self, *args: Any, asks_birthday: bool, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        if not asks_birthday:
            del self.fields["born_on"]

    @property
    def birthday(self) -> date | None:
        value: date | None = self.cleaned_data.get("born_on")
        return value
