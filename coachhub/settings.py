"""Settings, driven by the environment. Production by default; DEVELOPERS.md lists every variable."""

import os
from pathlib import Path
from typing import Any

from csp.constants import NONE, SELF
from django.utils.translation import gettext_lazy as _

from coachhub.environment import Environment, SettingError

BASE_DIR = Path(__file__).resolve().parent.parent
env = Environment(os.environ)

# What this start is: the demo (own database, this machine only) or a club's installation.
DEMO = env.flag("COACHHUB_DEMO", default=False)
DEBUG = env.flag("COACHHUB_DEBUG", default=False)
TLS = env.flag("COACHHUB_TLS", default=not DEMO)
VAR_DIR = env.folder("COACHHUB_VAR", BASE_DIR / "var")
SECRET_KEY = env.secret_key("COACHHUB_SECRET_KEY", VAR_DIR / "secret_key")

# Who may ask: the club's own names, and this machine itself (health checks, a first look).
ALLOWED_HOSTS = [*env.hosts("COACHHUB_HOSTS"), "localhost", "127.0.0.1", "[::1]"]
CSRF_TRUSTED_ORIGINS = env.origins("COACHHUB_TRUSTED_ORIGINS")

# How many proxies of ours stand in front; sign-in limits count by the address that the outermost one saw.
ALLAUTH_TRUSTED_PROXY_COUNT = env.number("COACHHUB_PROXIES", 1 if TLS else 0, low=0, high=5)

INSTALLED_APPS = [
    "coachhub.base",
    "coachhub.library",
    "coachhub.people",
    "coachhub.season",
    "coachhub.plans",
    "coachhub.cards",
    "coachhub.insight",
    "coachhub.desk",
    "coachhub.gym",
    "coachhub.paper",
    "coachhub.front",
    "coachhub.demo",
    "allauth",
    "allauth.account",
    "csp",
    "django_htmx",
    "django_tasks",
    "django_tasks_db",
    "template_partials",
    "django.contrib.auth",
    "django.contrib.contenttypes",
    "django.contrib.sessions",
    "django.contrib.messages",
    "django.contrib.staticfiles",
]

MIDDLEWARE = [
    "django.middleware.security.SecurityMiddleware",
    "csp.middleware.CSPMiddleware",
    "whitenoise.middleware.WhiteNoiseMiddleware",
    "django.contrib.sessions.middleware.SessionMiddleware",
    "django.middleware.common.CommonMiddleware",
    "django.middleware.csrf.CsrfViewMiddleware",
    "django.contrib.auth.middleware.AuthenticationMiddleware",
    "allauth.account.middleware.AccountMiddleware",
    "django.contrib.messages.middleware.MessageMiddleware",
    "django.middleware.clickjacking.XFrameOptionsMiddleware",
    "django_htmx.middleware.HtmxMiddleware",
    "coachhub.people.middleware.ActorMiddleware",
]

ROOT_URLCONF = "coachhub.urls"
WSGI_APPLICATION = "coachhub.wsgi.application"

TEMPLATES = [
    {
        "BACKEND": "django.template.backends.django.DjangoTemplates",
        "DIRS": [BASE_DIR / "templates"],
        "APP_DIRS": True,
        "OPTIONS": {
            "context_processors": [
                "django.template.context_processors.request",
                "django.contrib.auth.context_processors.auth",
                "django.contrib.messages.context_processors.messages",
                "coachhub.people.context.club_and_nav",
            ],
        },
    },
]

# The club's records.
SQLITE: dict[str, Any] = {
    "ENGINE": "django.db.backends.sqlite3",
    "NAME": VAR_DIR / ("demo.sqlite3" if DEMO else "club.sqlite3"),
    "OPTIONS": {
        "timeout": 10,
        "transaction_mode": "IMMEDIATE",
        # FULL: in WAL, NORMAL may lose acknowledged commits at power loss.
        "init_command": "PRAGMA journal_mode=WAL; PRAGMA synchronous=FULL; PRAGMA foreign_keys=ON;",
    },
}
POSTGRESQL = env.database("DATABASE_URL")
if DEMO and POSTGRESQL:
    raise SettingError("The demo keeps to its own database: unset DATABASE_URL, or start with “serve”.")
DATABASES = {"default": (POSTGRESQL or SQLITE) | {"CONN_MAX_AGE": None, "CONN_HEALTH_CHECKS": bool(POSTGRESQL)}}
DEFAULT_AUTO_FIELD = "django.db.models.BigAutoField"

# Sign-in limits are counted here: shared by all processes, kept over restarts.
CACHES = {
    "default": {"BACKEND": "django.core.cache.backends.db.DatabaseCache", "LOCATION": "coachhub_cache"},
}

# What takes longer than a page may is left to the worker that `serve` starts beside the web server.
TASKS = {"default": {"BACKEND": "django_tasks_db.DatabaseBackend"}}

# Accounts of staff. Athletes' phones are bound by enrolment, not by a password.
AUTH_USER_MODEL = "people.User"
AUTHENTICATION_BACKENDS = ["allauth.account.auth_backends.AuthenticationBackend"]
PASSWORD_HASHERS = ["django.contrib.auth.hashers.Argon2PasswordHasher"]
AUTH_PASSWORD_VALIDATORS = [
    {"NAME": "django.contrib.auth.password_validation.MinimumLengthValidator", "OPTIONS": {"min_length": 15}},
    {"NAME": "coachhub.people.passwords.StretchedPasswordValidator"},
    {"NAME": "django.contrib.auth.password_validation.UserAttributeSimilarityValidator"},
]
LOGIN_URL = "/login/"
LOGIN_REDIRECT_URL = "/"
LOGOUT_REDIRECT_URL = "/login/"
ACCOUNT_LOGIN_METHODS = {"username", "email"}
ACCOUNT_EMAIL_VERIFICATION = "none"
ACCOUNT_SIGNUP_FIELDS = ["username*", "email", "password1*"]
ACCOUNT_ADAPTER = "coachhub.front.adapter.AccountAdapter"
ACCOUNT_FORMS = {
    "login": "coachhub.front.forms.LoginForm",
    "change_password": "coachhub.front.forms.ChangePasswordForm",
}
ACCOUNT_SESSION_REMEMBER = True
ACCOUNT_AUTHENTICATED_LOGIN_REDIRECTS = False  # our own view knows who belongs to the staff
# By user and address together, in the adapter: never by one of the two alone.
ACCOUNT_RATE_LIMITS = {"login": None, "login_failed": None}
EMAIL_BACKEND = "django.core.mail.backends.dummy.EmailBackend"  # nothing is sent by e-mail

# In the browser.
CONTENT_SECURITY_POLICY = {
    "DIRECTIVES": {
        "default-src": [NONE],
        "script-src": [SELF],
        "style-src": [SELF],
        "img-src": [SELF, "data:"],
        "media-src": [SELF],
        "font-src": [SELF],
        "connect-src": [SELF],
        "manifest-src": [SELF],
        "worker-src": [SELF],
        "form-action": [SELF],
        "object-src": [NONE],
        "base-uri": [NONE],
        "frame-ancestors": [NONE],
    },
}
SECURE_REFERRER_POLICY = "same-origin"
X_FRAME_OPTIONS = "DENY"
SESSION_COOKIE_HTTPONLY = True
SESSION_COOKIE_SAMESITE = "Lax"
CSRF_COOKIE_SAMESITE = "Lax"
SESSION_COOKIE_SECURE = CSRF_COOKIE_SECURE = TLS
if TLS:
    # The prefix makes browsers refuse these cookies from a neighbouring host or an unsafe line.
    SESSION_COOKIE_NAME = "__Host-sessionid"
    CSRF_COOKIE_NAME = "__Host-csrftoken"
    SECURE_PROXY_SSL_HEADER = ("HTTP_X_FORWARDED_PROTO", "https")
    SECURE_SSL_REDIRECT = True
    SECURE_REDIRECT_EXEMPT = [r"^healthz$", r"^readyz$"]
    SECURE_HSTS_SECONDS = 31_536_000
# Sub-domains and the browsers' preload list are the club's own decision: other services may live there.
SILENCED_SYSTEM_CHECKS = ["security.W005", "security.W021"]

# Language and time. The club's own zone, kept with the club, is made current for each request.
LANGUAGE_CODE = "en-gb"
LANGUAGES = [("en-gb", _("English"))]
LOCALE_PATHS = [BASE_DIR / "coachhub" / "locale"]
USE_I18N = True
USE_TZ = True
TIME_ZONE = env.time_zone("COACHHUB_TIME_ZONE", "UTC")

# What people upload. Views give it out, to those who may see it; nothing else does.
MEDIA_ROOT = VAR_DIR / ("demo_media" if DEMO else "media")
FILE_UPLOAD_PERMISSIONS = 0o600

STATIC_URL = "/static/"
STATIC_ROOT = VAR_DIR / "staticfiles"
STATICFILES_DIRS = [BASE_DIR / "static"]
STORAGES = {
    "default": {"BACKEND": "django.core.files.storage.FileSystemStorage"},
    "staticfiles": {"BACKEND": "whitenoise.storage.CompressedManifestStaticFilesStorage"},
}
if DEBUG:
    STORAGES["staticfiles"] = {"BACKEND": "django.contrib.staticfiles.storage.StaticFilesStorage"}

LOGGING = {
    "version": 1,
    "disable_existing_loggers": False,
    "formatters": {"plain": {"format": "{asctime} {levelname} {name}: {message}", "style": "{"}},
    "handlers": {"console": {"class": "logging.StreamHandler", "formatter": "plain"}},
    "root": {"handlers": ["console"], "level": env.log_level("COACHHUB_LOG_LEVEL", "INFO")},
    # Without this, Django's own handlers would print each line twice.
    "loggers": {"django": {"handlers": [], "level": "NOTSET", "propagate": True}},
}
