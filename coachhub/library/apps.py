from django.apps import AppConfig


class LibraryConfig(AppConfig):
    name = "coachhub.library"
    label = "library"
    default_auto_field = "django.db.models.BigAutoField"
