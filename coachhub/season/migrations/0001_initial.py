import django.db.models.deletion
from django.db import migrations, models


class Migration(migrations.Migration):

    initial = True

    dependencies = [
        ('library', '0001_initial'),
        ('people', '0001_initial'),
    ]

    operations = [
        migrations.CreateModel(
            name='MatchDay',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('on_date', models.DateField(verbose_name='date')),
                ('starts_at', models.TimeField(blank=True, null=True, verbose_name='starts at')),
                ('opponent', models.CharField(blank=True, max_length=80, verbose_name='against')),
                ('is_home', models.BooleanField(default=True, verbose_name='at home')),
                ('cancelled_at', models.DateTimeField(blank=True, null=True)),
                ('squad', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='match_days', to='people.squad')),
            ],
            options={
                'ordering': ('on_date', 'starts_at', 'pk'),
                'constraints': [models.UniqueConstraint(fields=('squad', 'on_date', 'starts_at', 'opponent'), name='match_once'), models.UniqueConstraint(condition=models.Q(('starts_at', None)), fields=('squad', 'on_date', 'opponent'), name='match_once_without_time')],
            },
        ),
        migrations.CreateModel(
            name='MatchMinutes',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('minutes', models.PositiveSmallIntegerField(verbose_name='minutes played')),
                ('athlete', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='match_minutes', to='people.athlete')),
                ('match_day', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='minutes_played', to='season.matchday')),
            ],
            options={
                'constraints': [models.UniqueConstraint(fields=('match_day', 'athlete'), name='match_minutes_once'), models.CheckConstraint(condition=models.Q(('minutes__lte', 240)), name='match_minutes_plausible')],
            },
        ),
        migrations.CreateModel(
            name='Absence',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('from_on', models.DateField(verbose_name='from')),
                ('to_on', models.DateField(verbose_name='to')),
                ('reason', models.CharField(choices=[('ill', 'ill'), ('away', 'away'), ('school', 'school or work'), ('other', 'other')], max_length=8, verbose_name='why')),
                ('athlete', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='absences', to='people.athlete')),
            ],
            options={
                'ordering': ('from_on', 'pk'),
                'constraints': [models.CheckConstraint(condition=models.Q(('to_on__gte', models.F('from_on'))), name='absence_ends_after_start'), models.CheckConstraint(condition=models.Q(('reason__in', ['ill', 'away', 'school', 'other'])), name='absence_reason')],
            },
        ),
        migrations.CreateModel(
            name='GymSlot',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('weekday', models.PositiveSmallIntegerField(choices=[(0, 'Monday'), (1, 'Tuesday'), (2, 'Wednesday'), (3, 'Thursday'), (4, 'Friday'), (5, 'Saturday'), (6, 'Sunday')], verbose_name='weekday')),
                ('starts_at', models.TimeField(verbose_name='starts at')),
                ('minutes', models.PositiveSmallIntegerField(verbose_name='minutes')),
                ('from_on', models.DateField(verbose_name='from')),
                ('to_on', models.DateField(blank=True, null=True, verbose_name='to')),
                ('squad', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='gym_slots', to='people.squad')),
                ('venue', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='gym_slots', to='library.venue')),
            ],
            options={
                'ordering': ('weekday', 'starts_at', 'pk'),
                'constraints': [models.CheckConstraint(condition=models.Q(('weekday__in', [0, 1, 2, 3, 4, 5, 6])), name='slot_weekday'), models.CheckConstraint(condition=models.Q(('minutes__gte', 10), ('minutes__lte', 300)), name='slot_minutes'), models.CheckConstraint(condition=models.Q(('to_on', None), ('to_on__gte', models.F('from_on')), _connector='OR'), name='slot_ends_after_start')],
            },
        ),
    ]
