import coachhub.base.clock
import django.db.models.deletion
from django.conf import settings
from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('people', '0002_paper_only_and_last_days'),
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
        ('season', '0001_initial'),
    ]

    operations = [
        migrations.CreateModel(
            name='FeedLink',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('token_hash', models.CharField(max_length=64, unique=True)),
                ('made_at', models.DateTimeField()),
                ('revoked_at', models.DateTimeField(blank=True, null=True)),
                ('athlete', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='feed_links', to='people.athlete')),
                ('made_by', models.ForeignKey(null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
                ('squad', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='feed_links', to='people.squad')),
            ],
            options={
                'ordering': ('pk',),
                'constraints': [models.CheckConstraint(condition=models.Q(models.Q(('athlete__isnull', False), ('squad', None)), models.Q(('athlete', None), ('squad__isnull', False)), _connector='OR'), name='feed_of_squad_or_athlete'), models.UniqueConstraint(condition=models.Q(('revoked_at', None)), fields=('squad',), name='one_feed_a_squad'), models.UniqueConstraint(condition=models.Q(('revoked_at', None)), fields=('athlete',), name='one_feed_an_athlete')],
            },
        ),
        migrations.CreateModel(
            name='Happening',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('changed_at', models.DateTimeField(default=coachhub.base.clock.now, editable=False)),
                ('sequence', models.PositiveIntegerField(default=0, editable=False)),
                ('kind', models.CharField(choices=[('training', 'training'), ('holiday', 'holiday'), ('test', 'test'), ('other', 'other'), ('school', 'school'), ('sport', 'other sport')], max_length=8, verbose_name='what')),
                ('name', models.CharField(blank=True, max_length=80, verbose_name='name')),
                ('place', models.CharField(blank=True, max_length=80, verbose_name='place')),
                ('from_on', models.DateField(verbose_name='from')),
                ('to_on', models.DateField(blank=True, null=True, verbose_name='to')),
                ('weekdays', models.PositiveSmallIntegerField(default=0)),
                ('every_weeks', models.PositiveSmallIntegerField(default=1, verbose_name='every … weeks')),
                ('starts_at', models.TimeField(blank=True, null=True, verbose_name='starts at')),
                ('minutes', models.PositiveSmallIntegerField(blank=True, null=True, verbose_name='minutes')),
                ('uid', models.CharField(blank=True, editable=False, max_length=200)),
                ('cancelled_at', models.DateTimeField(blank=True, editable=False, null=True)),
                ('athlete', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='happenings', to='people.athlete')),
                ('squad', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='happenings', to='people.squad')),
            ],
            options={
                'ordering': ('from_on', 'starts_at', 'pk'),
                'constraints': [models.CheckConstraint(condition=models.Q(models.Q(('athlete__isnull', False), ('kind__in', ('sport', 'school')), ('squad', None)), models.Q(('athlete', None), ('kind__in', ('training', 'holiday', 'test', 'other')), ('squad__isnull', False)), _connector='OR'), name='happening_of_squad_or_athlete'), models.CheckConstraint(condition=models.Q(('to_on', None), ('to_on__gte', models.F('from_on')), _connector='OR'), name='happening_ends_after_start'), models.CheckConstraint(condition=models.Q(('weekdays__gt', 0), ('to_on__isnull', False), _connector='OR'), name='happening_ends_or_repeats'), models.CheckConstraint(condition=models.Q(('weekdays__lte', 127)), name='happening_weekdays'), models.CheckConstraint(condition=models.Q(('every_weeks__range', (1, 8))), name='happening_every_weeks'), models.CheckConstraint(condition=models.Q(('minutes', None), ('minutes__range', (5, 1440)), _connector='OR'), name='happening_minutes'), models.UniqueConstraint(condition=models.Q(('uid', ''), _negated=True), fields=('squad', 'uid'), name='happening_uid_once')],
            },
        ),
        migrations.CreateModel(
            name='SkippedDay',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('on_date', models.DateField()),
                ('is_cancelled', models.BooleanField(default=True)),
                ('happening', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.CASCADE, related_name='skipped_days', to='season.happening')),
                ('slot', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.CASCADE, related_name='skipped_days', to='season.gymslot')),
            ],
            options={
                'ordering': ('on_date', 'pk'),
                'constraints': [models.CheckConstraint(condition=models.Q(models.Q(('happening', None), ('slot__isnull', False)), models.Q(('happening__isnull', False), ('slot', None)), _connector='OR'), name='skipped_day_of_one_series'), models.UniqueConstraint(fields=('happening', 'on_date'), name='happening_skipped_once'), models.UniqueConstraint(fields=('slot', 'on_date'), name='slot_skipped_once')],
            },
        ),
        migrations.AddField(
            model_name='gymslot',
            name='changed_at',
            field=models.DateTimeField(default=coachhub.base.clock.now, editable=False),
        ),
        migrations.AddField(
            model_name='gymslot',
            name='sequence',
            field=models.PositiveIntegerField(default=0, editable=False),
        ),
        migrations.AddField(
            model_name='matchday',
            name='changed_at',
            field=models.DateTimeField(default=coachhub.base.clock.now, editable=False),
        ),
        migrations.AddField(
            model_name='matchday',
            name='sequence',
            field=models.PositiveIntegerField(default=0, editable=False),
        ),
        migrations.AddField(
            model_name='matchday',
            name='uid',
            field=models.CharField(blank=True, editable=False, max_length=200),
        ),
        migrations.AlterField(
            model_name='matchday',
            name='cancelled_at',
            field=models.DateTimeField(blank=True, editable=False, null=True),
        ),
        migrations.AddConstraint(
            model_name='matchday',
            constraint=models.UniqueConstraint(condition=models.Q(('uid', ''), _negated=True), fields=('squad', 'uid'), name='match_uid_once'),
        ),
    ]
