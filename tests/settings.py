"""The project's settings for tests: untouched by the caller's environment, in a folder of their own, quick."""

import atexit
import os
import shutil
import tempfile

VAR = tempfile.mkdtemp(prefix="coachhub-tests-")
atexit.register(shutil.rmtree, VAR, ignore_errors=True)

for name in [name for name in os.environ if name.startswith("COACHHUB_") and name != "COACHHUB_TEST_DATABASE_URL"]:
    del os.environ[name]
os.environ["DATABASE_URL"] = os.environ.get("COACHHUB_TEST_DATABASE_URL", "")
os.environ["COACHHUB_VAR"] = VAR
os.environ["COACHHUB_TLS"] = "off"

from coachhub.settings import *  # noqa: E402, F403
from coachhub.settings import DATABASES, STORAGES  # noqa: E402

# A file, as in a club: threads of the live server share it the way processes do.
if DATABASES["default"]["ENGINE"] == "django.db.backends.sqlite3":
    DATABASES["default"]["TEST"] = {"NAME": f"{VAR}/test.sqlite3"}
STORAGES["staticfiles"] = {"BACKEND": "django.contrib.staticfiles.storage.StaticFilesStorage"}
STORAGES["default"] = {"BACKEND": "django.core.files.storage.InMemoryStorage"}
WHITENOISE_AUTOREFRESH = True  # nothing is collected before tests
PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]
EMAIL_BACKEND = "django.core.mail.backends.locmem.EmailBackend"
