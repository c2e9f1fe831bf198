from django.apps import AppConfig


class CardsConfig(AppConfig):
    name = "coachhub.cards"
    label = "cards"
    default_auto_field = "django.db.models.BigAutoField"
