import django.db.models.deletion
from django.conf import settings
from django.db import migrations, models


class Migration(migrations.Migration):

    initial = True

    dependencies = [
        ('cards', '0001_initial'),
        ('people', '0001_initial'),
        ('people', '__first__'),
    ]

    operations = [
        migrations.CreateModel(
            name='Trial',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('name', models.CharField(max_length=80, verbose_name='name')),
                ('unit', models.CharField(max_length=12, verbose_name='unit')),
                ('is_lower_better', models.BooleanField(default=False, verbose_name='lower is better')),
                ('on_date', models.DateField(verbose_name='date')),
                ('squad', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='trials', to='people.squad')),
            ],
            options={
                'ordering': ('-on_date', 'pk'),
                'constraints': [models.UniqueConstraint(fields=('squad', 'name', 'on_date'), name='trial_once')],
            },
        ),
        migrations.CreateModel(
            name='TrialResult',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('attempt', models.PositiveSmallIntegerField(default=1)),
                ('value', models.DecimalField(decimal_places=3, max_digits=9)),
                ('athlete', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='trial_results', to='people.athlete')),
                ('trial', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='results', to='insight.trial')),
            ],
            options={
                'constraints': [models.UniqueConstraint(fields=('trial', 'athlete', 'attempt'), name='trial_result_once'), models.CheckConstraint(condition=models.Q(('value__gt', 0)), name='trial_value_positive')],
            },
        ),
        migrations.CreateModel(
            name='WellnessEntry',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('on_date', models.DateField()),
                ('fatigue', models.PositiveSmallIntegerField()),
                ('sleep', models.PositiveSmallIntegerField()),
                ('soreness', models.PositiveSmallIntegerField()),
                ('stress', models.PositiveSmallIntegerField()),
                ('mood', models.PositiveSmallIntegerField()),
                ('received_at', models.DateTimeField()),
                ('athlete', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='wellness', to='people.athlete')),
            ],
            options={
                'constraints': [models.UniqueConstraint(fields=('athlete', 'on_date'), name='wellness_once_a_day'), models.CheckConstraint(condition=models.Q(('fatigue__range', (1, 5)), ('sleep__range', (1, 5)), ('soreness__range', (1, 5)), ('mood__range', (1, 5)), ('stress__range', (1, 5))), name='wellness_1_5')],
            },
        ),
        migrations.CreateModel(
            name='EffortLoad',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('effort', models.PositiveSmallIntegerField(verbose_name='how hard, 0 to 10')),
                ('minutes', models.PositiveSmallIntegerField(verbose_name='minutes')),
                ('received_at', models.DateTimeField()),
                ('card', models.OneToOneField(on_delete=django.db.models.deletion.PROTECT, related_name='effort_load', to='cards.card')),
            ],
            options={
                'constraints': [models.CheckConstraint(condition=models.Q(('effort__lte', 10)), name='effort_0_10'), models.CheckConstraint(condition=models.Q(('minutes__range', (1, 600))), name='effort_minutes_plausible')],
            },
        ),
        migrations.CreateModel(
            name='Flag',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('code', models.SlugField(max_length=40)),
                ('params', models.JSONField(default=dict)),
                ('severity', models.CharField(choices=[('note', 'note'), ('warning', 'warning')], max_length=8)),
                ('raised_on', models.DateField()),
                ('accepted_at', models.DateTimeField(blank=True, null=True)),
                ('accepted_word', models.CharField(blank=True, max_length=200)),
                ('accepted_by', models.ForeignKey(null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
                ('athlete', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='flags', to='people.athlete')),
            ],
            options={
                'constraints': [models.UniqueConstraint(fields=('athlete', 'code', 'raised_on'), name='flag_once_a_day'), models.CheckConstraint(condition=models.Q(('severity__in', ['note', 'warning'])), name='flag_severity')],
            },
        ),
    ]
