from django.apps import AppConfig


class PlansConfig(AppConfig):
    name = "coachhub.plans"
    label = "plans"
    default_auto_field = "django.db.models.BigAutoField"
