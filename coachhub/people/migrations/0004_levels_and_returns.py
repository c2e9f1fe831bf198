import django.db.models.deletion
from django.conf import settings
from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('library', '0003_families'),
        ('people', '0003_import_of_dates'),
    ]

    operations = [
        migrations.CreateModel(
            name='AthleteLevel',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('family', models.CharField(max_length=40, verbose_name='family')),
                ('from_on', models.DateField(verbose_name='from')),
                ('reason', models.CharField(max_length=200, verbose_name='why')),
                ('set_at', models.DateTimeField()),
                ('athlete', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='levels', to='people.athlete')),
                ('exercise', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to='library.exercise')),
                ('set_by', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
            ],
            options={
                'ordering': ('-from_on', '-pk'),
                'constraints': [models.CheckConstraint(condition=models.Q(('family', ''), _negated=True), name='level_of_a_family'), models.CheckConstraint(condition=models.Q(('reason', ''), _negated=True), name='level_with_reason')],
                'indexes': [models.Index(fields=['athlete', 'family'], name='level_by_family')],
            },
        ),
        migrations.CreateModel(
            name='ReturnStage',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('stage', models.PositiveSmallIntegerField(verbose_name='stage')),
                ('from_on', models.DateField(verbose_name='from')),
                ('on_word_of', models.CharField(max_length=120, verbose_name='on whose word')),
                ('set_at', models.DateTimeField()),
                ('athlete', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='return_stages', to='people.athlete')),
                ('set_by', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
            ],
            options={
                'ordering': ('-from_on', '-pk'),
                'constraints': [models.CheckConstraint(condition=models.Q(('stage__lte', 3)), name='return_stage_known'), models.CheckConstraint(condition=models.Q(('on_word_of', ''), _negated=True), name='return_stage_on_word')],
            },
        ),
        migrations.AddField(
            model_name='club',
            name='gap_days',
            field=models.PositiveSmallIntegerField(default=14, help_text='After so many days without a movement pattern the first cards are eased, fewer sets first.', verbose_name='a break that is eased, days'),
        ),
        migrations.AddConstraint(
            model_name='club',
            constraint=models.CheckConstraint(condition=models.Q(('gap_days__range', (7, 90))), name='club_gap_days'),
        ),
    ]
