from django.apps import AppConfig


class FrontConfig(AppConfig):
    name = "coachhub.front"
    label = "front"
    default_auto_field = "django.db.models.BigAutoField"
