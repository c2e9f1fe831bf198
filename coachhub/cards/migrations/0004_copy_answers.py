import django.db.models.deletion
from django.conf import settings
from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [
        ("cards", "0003_at_the_door"),
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
    ]

    operations = [
        migrations.CreateModel(
            name="CopyAnswer",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                (
                    "kind",
                    models.CharField(
                        choices=[
                            ("seen", "seen: they know what changed"),
                            ("collected", "collected: the old copy is back"),
                        ],
                        max_length=10,
                    ),
                ),
                ("said_at", models.DateTimeField()),
                (
                    "copy",
                    models.OneToOneField(
                        on_delete=django.db.models.deletion.PROTECT, related_name="answer", to="cards.cardcopy"
                    ),
                ),
                (
                    "said_by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="+", to=settings.AUTH_USER_MODEL
                    ),
                ),
            ],
            options={
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(("kind__in", ["seen", "collected"])), name="copy_answer_kind"
                    )
                ],
            },
        ),
    ]
