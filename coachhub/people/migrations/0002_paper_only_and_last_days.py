from django.db import migrations, models
from django.db.models import F, Q


class Migration(migrations.Migration):
    dependencies = [("people", "0001_initial")]

    operations = [
        migrations.AddField(
            model_name="squad",
            name="is_paper_only",
            field=models.BooleanField(
                default=False,
                help_text=(
                    "Nobody is offered a code for a phone; cards are printed and typed in. "
                    "What was done is always taken."
                ),
                verbose_name="on paper only, no phones",
            ),
        ),
        migrations.AddField(
            model_name="consent",
            name="withdrawn_by",
            field=models.CharField(blank=True, default="", max_length=120, verbose_name="withdrawn by"),
            preserve_default=False,
        ),
        migrations.AddField(
            model_name="restrictionexception",
            name="until_on",
            field=models.DateField(blank=True, null=True, verbose_name="last day"),
        ),
        migrations.AddConstraint(
            model_name="consent",
            constraint=models.CheckConstraint(
                condition=Q(withdrawn_on=None, withdrawn_by="") | Q(withdrawn_on__gte=F("given_on")),
                name="consent_withdrawn_after_given",
            ),
        ),
    ]
