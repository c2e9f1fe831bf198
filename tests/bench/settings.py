"""The demo's settings with two more addresses: the yardsticks."""

from coachhub.settings import *  # noqa: F403

ROOT_URLCONF = "tests.bench.yardsticks"
