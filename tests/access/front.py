"""The door: open to everyone, and each is sent to where they belong."""

from __future__ import annotations

from tests.access import Row
from tests.cast import Cast


def a_link(_cast: Cast) -> dict[str, object]:
    return {"token": "not-a-token-that-is-known"}


TABLE = {
    # anonymous owner coach other-coach assistant clinician head-coach athlete team-mate guardian outsider
    "front:home": Row(
        get="200 302 302 302 302 302 302 302 302 200 200",
        post="405",
        htmx="200 302 302 302 302 302 302 302 302 200 200",
    ),
    "front:enrol": Row(get="200", post="422", htmx="200"),
    "front:enrol_link": Row(get="302", post="405", htmx="302", args=a_link),
    "front:enrol_phone": Row(get="410", post="410", htmx="410"),
    "account_login": Row(
        get="200 302 302 302 302 302 302 200 200 200 200",
        post="422 302 302 302 302 302 302 422 422 422 422",
        htmx="200 302 302 302 302 302 302 200 200 200 200",
    ),
    "account_logout": Row(
        get="login 200 200 200 200 200 200 login login login 200",
        post="login",
        htmx="login 200 200 200 200 200 200 login login login 200",
    ),
    "account_change_password": Row(
        get="login 200 200 200 200 200 200 404 404 login login",
        post="login 422 422 422 422 422 422 404 404 login login",
        htmx="login 200 200 200 200 200 200 404 404 login login",
    ),
}
