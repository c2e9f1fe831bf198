from django.apps import AppConfig


class PaperConfig(AppConfig):
    name = "coachhub.paper"
    label = "paper"
    default_auto_field = "django.db.models.BigAutoField"
