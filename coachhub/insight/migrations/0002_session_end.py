import uuid

import django.db.models.deletion
from django.conf import settings
from django.db import migrations, models


def name_each(apps, schema_editor):
    """Every answer of before gets a uuid of its own."""
    EffortLoad = apps.get_model("insight", "EffortLoad")
    for row in EffortLoad.objects.iterator():
        row.uuid = uuid.uuid4()
        row.save(update_fields=["uuid"])


class Migration(migrations.Migration):

    dependencies = [
        ("cards", "0002_loads_and_stock"),
        ("people", "0001_initial"),
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
        ("insight", "0001_initial"),
    ]

    operations = [
        migrations.AlterModelOptions(name="effortload", options={"ordering": ("-pk",)}),
        migrations.AlterField(
            model_name="effortload",
            name="card",
            field=models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name="efforts", to="cards.card"),
        ),
        migrations.AddField(model_name="effortload", name="uuid", field=models.UUIDField(null=True)),
        migrations.RunPython(name_each, migrations.RunPython.noop, elidable=True),
        migrations.AlterField(
            model_name="effortload", name="uuid", field=models.UUIDField(default=uuid.uuid4, unique=True)
        ),
        migrations.AddField(
            model_name="effortload",
            name="author",
            field=models.ForeignKey(null=True, on_delete=django.db.models.deletion.PROTECT, related_name="+", to=settings.AUTH_USER_MODEL),
        ),
        migrations.AddField(
            model_name="effortload",
            name="device",
            field=models.ForeignKey(null=True, on_delete=django.db.models.deletion.PROTECT, related_name="+", to="people.device"),
        ),
        migrations.CreateModel(
            name="SessionNote",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("uuid", models.UUIDField(unique=True)),
                ("text", models.CharField(blank=True, max_length=500, verbose_name="note to the coach")),
                ("received_at", models.DateTimeField()),
                ("read_at", models.DateTimeField(blank=True, null=True)),
                ("author", models.ForeignKey(null=True, on_delete=django.db.models.deletion.PROTECT, related_name="+", to=settings.AUTH_USER_MODEL)),
                ("card", models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name="notes", to="cards.card")),
                ("device", models.ForeignKey(null=True, on_delete=django.db.models.deletion.PROTECT, related_name="+", to="people.device")),
                ("read_by", models.ForeignKey(null=True, on_delete=django.db.models.deletion.PROTECT, related_name="+", to=settings.AUTH_USER_MODEL)),
            ],
            options={
                "ordering": ("-pk",),
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(("read_at", None), ("read_by", None))
                        | models.Q(("read_at__isnull", False), ("read_by__isnull", False)),
                        name="note_read_by_someone",
                    )
                ],
            },
        ),
    ]
