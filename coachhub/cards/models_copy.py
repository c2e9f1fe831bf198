"""What became of a copy that a card has left behind."""

from __future__ import annotations

from django.conf import settings
from django.db import models
from django.utils.translation import gettext_lazy as _

from coachhub.base.models import choice_check
from coachhub.cards.models_card import CardCopy


class CopyAnswerKind(models.TextChoices):
    SEEN = "seen", _("seen: they know what changed")
    COLLECTED = "collected", _("collected: the old copy is back")


class CopyAnswer(models.Model):
    """Who said so, and when. Until there is one, an old copy that health has overtaken is asked for."""

    copy = models.OneToOneField(CardCopy, on_delete=models.PROTECT, related_name="answer")
    kind = models.CharField(max_length=10, choices=CopyAnswerKind)
    said_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    said_at = models.DateTimeField()

    class Meta:
        constraints = [choice_check("kind", CopyAnswerKind, "copy_answer_kind")]
