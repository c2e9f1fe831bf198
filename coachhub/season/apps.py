from django.apps import AppConfig


class SeasonConfig(AppConfig):
    name = "coachhub.season"
    label = "season"
    default_auto_field = "django.db.models.BigAutoField"
