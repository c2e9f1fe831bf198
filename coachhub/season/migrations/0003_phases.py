import django.db.models.deletion
from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('people', '0004_levels_and_returns'),
        ('season', '0002_dates_series_and_feeds'),
    ]

    operations = [
        migrations.CreateModel(
            name='SeasonPhase',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('code', models.CharField(choices=[('general', 'general preparation'), ('strength', 'strength'), ('power', 'power'), ('in_season', 'in season'), ('deload', 'deload')], max_length=9, verbose_name='phase')),
                ('from_on', models.DateField(verbose_name='from')),
                ('to_on', models.DateField(verbose_name='to')),
                ('squad', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='season_phases', to='people.squad')),
            ],
            options={
                'ordering': ('from_on', 'pk'),
                'constraints': [models.CheckConstraint(condition=models.Q(('code__in', ['general', 'strength', 'power', 'in_season', 'deload'])), name='phase_code'), models.CheckConstraint(condition=models.Q(('to_on__gte', models.F('from_on'))), name='phase_ends_after_start')],
            },
        ),
        migrations.CreateModel(
            name='PhaseTarget',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('pattern', models.CharField(choices=[('hinge', 'hinge'), ('squat', 'squat'), ('lunge', 'lunge'), ('push', 'push'), ('pull', 'pull')], max_length=12)),
                ('low', models.PositiveSmallIntegerField()),
                ('high', models.PositiveSmallIntegerField()),
                ('phase', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='targets', to='season.seasonphase')),
            ],
            options={
                'ordering': ('pk',),
                'constraints': [models.UniqueConstraint(fields=('phase', 'pattern'), name='phase_target_once'), models.CheckConstraint(condition=models.Q(('pattern__in', ('hinge', 'squat', 'lunge', 'push', 'pull'))), name='phase_target_pattern'), models.CheckConstraint(condition=models.Q(('high__gte', models.F('low')), ('high__lte', 60)), name='phase_target_range')],
            },
        ),
    ]
