"""What a proxy asks."""

from __future__ import annotations

from tests.access import Row

TABLE = {
    "healthz": Row(get="200", post="405", htmx="200"),
    "readyz": Row(get="200", post="405", htmx="200"),
}
