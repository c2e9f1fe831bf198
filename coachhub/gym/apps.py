from django.apps import AppConfig


class GymConfig(AppConfig):
    name = "coachhub.gym"
    label = "gym"
    default_auto_field = "django.db.models.BigAutoField"
