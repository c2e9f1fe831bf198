import django.db.models.deletion
from decimal import Decimal
from django.conf import settings
from django.db import migrations, models


class Migration(migrations.Migration):

    initial = True

    dependencies = [
        ('library', '0001_initial'),
        ('people', '0001_initial'),
        ('people', '__first__'),
    ]

    operations = [
        migrations.CreateModel(
            name='CircuitGroup',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('position', models.PositiveSmallIntegerField()),
                ('is_optional', models.BooleanField(default=False, verbose_name='optional')),
                ('rounds_min', models.PositiveSmallIntegerField(default=1, verbose_name='rounds')),
                ('rounds_max', models.PositiveSmallIntegerField(default=1, verbose_name='to')),
                ('rest_min_s', models.PositiveSmallIntegerField(blank=True, null=True, verbose_name='rest between rounds, s')),
                ('rest_max_s', models.PositiveSmallIntegerField(blank=True, null=True, verbose_name='to')),
                ('rest_note', models.CharField(blank=True, max_length=80, verbose_name='heart-rate note')),
                ('rest_after_s', models.PositiveSmallIntegerField(blank=True, null=True, verbose_name='rest after the block, s')),
                ('intent', models.CharField(blank=True, max_length=120, verbose_name='intent')),
            ],
            options={
                'ordering': ('position', 'pk'),
            },
        ),
        migrations.CreateModel(
            name='Segment',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('kind', models.CharField(choices=[('warm_up', 'Warm-up'), ('activation', 'Activation'), ('athleticism', 'Athleticism'), ('strength', 'Strength'), ('conditioning', 'Conditioning'), ('cool_down', 'Cool-down')], max_length=12, verbose_name='part')),
                ('position', models.PositiveSmallIntegerField()),
                ('minutes', models.PositiveSmallIntegerField(blank=True, null=True, verbose_name='minutes')),
            ],
            options={
                'ordering': ('position', 'pk'),
            },
        ),
        migrations.CreateModel(
            name='Plan',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('archived_at', models.DateTimeField(blank=True, editable=False, null=True)),
                ('search_key', models.CharField(db_index=True, editable=False, max_length=200)),
                ('name', models.CharField(max_length=80, verbose_name='name')),
                ('weeks', models.PositiveSmallIntegerField(default=1, verbose_name='weeks')),
                ('note', models.CharField(blank=True, max_length=300, verbose_name='note')),
                ('copied_from', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='copies', to='plans.plan')),
                ('created_by', models.ForeignKey(null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
                ('squad', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='plans', to='people.squad')),
            ],
            options={
                'ordering': ('search_key', 'pk'),
                'constraints': [models.CheckConstraint(condition=models.Q(('weeks__range', (1, 52))), name='plan_weeks')],
            },
        ),
        migrations.CreateModel(
            name='Prescription',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('dose_kind', models.CharField(choices=[('reps', 'repetitions'), ('time', 'time'), ('distance', 'distance'), ('contacts', 'contacts'), ('hold', 'hold')], default='reps', max_length=8)),
                ('low', models.DecimalField(decimal_places=2, max_digits=6)),
                ('high', models.DecimalField(blank=True, decimal_places=2, max_digits=6, null=True)),
                ('per', models.CharField(blank=True, choices=[('', 'in all'), ('side', 'each side'), ('direction', 'each direction')], max_length=9)),
                ('load_rule', models.CharField(choices=[('none', 'none, bodyweight'), ('fixed', 'fixed'), ('percent', '% of known best'), ('rir', 'by reps in reserve'), ('last', 'as last time'), ('find', 'find it'), ('words', 'in words')], default='none', max_length=7)),
                ('load', models.DecimalField(blank=True, decimal_places=2, max_digits=7, null=True)),
                ('load_high', models.DecimalField(blank=True, decimal_places=2, max_digits=7, null=True)),
                ('ceiling', models.DecimalField(blank=True, decimal_places=2, max_digits=7, null=True)),
                ('load_unit', models.CharField(blank=True, choices=[('kg', 'kilograms (kg)'), ('lb', 'pounds (lb)')], max_length=2)),
                ('hands', models.PositiveSmallIntegerField(default=1)),
                ('percent', models.DecimalField(blank=True, decimal_places=2, max_digits=5, null=True)),
                ('percent_high', models.DecimalField(blank=True, decimal_places=2, max_digits=5, null=True)),
                ('rir_half', models.PositiveSmallIntegerField(blank=True, null=True)),
                ('tempo', models.CharField(blank=True, max_length=4)),
                ('words', models.CharField(blank=True, max_length=120)),
                ('position', models.PositiveSmallIntegerField()),
                ('sets', models.PositiveSmallIntegerField(blank=True, null=True, verbose_name='sets, where fewer than the rounds')),
                ('ramp_up_sets', models.PositiveSmallIntegerField(default=0, verbose_name='ramp-up sets')),
                ('directions', models.JSONField(blank=True, default=list)),
                ('cue', models.CharField(blank=True, max_length=120, verbose_name='cue')),
                ('rest_after_s', models.PositiveSmallIntegerField(default=0, verbose_name='rest after the exercise, s')),
                ('exercise', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='+', to='library.exercise')),
                ('group', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='prescriptions', to='plans.circuitgroup')),
                ('pair_with', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.SET_NULL, related_name='+', to='plans.prescription')),
            ],
            options={
                'ordering': ('position', 'pk'),
                'constraints': [models.CheckConstraint(condition=models.Q(('ramp_up_sets__lte', 6)), name='prescription_ramp_ups'), models.CheckConstraint(condition=models.Q(('sets', None), ('sets__range', (1, 20)), _connector='OR'), name='prescription_sets'), models.CheckConstraint(condition=models.Q(('rest_after_s__lte', 900)), name='prescription_rest'), models.CheckConstraint(condition=models.Q(('dose_kind__in', ['reps', 'time', 'distance', 'contacts', 'hold'])), name='prescription_kind'), models.CheckConstraint(condition=models.Q(('per__in', ['', 'side', 'direction'])), name='prescription_per'), models.CheckConstraint(condition=models.Q(('low__gte', 1), models.Q(('high', None), ('high__gte', models.F('low')), _connector='OR')), name='prescription_range'), models.CheckConstraint(condition=models.Q(models.Q(('load__isnull', True), ('load__gt', Decimal('0')), _connector='OR'), models.Q(('load', None), ('load_unit__in', ['kg', 'lb']), _connector='OR'), ('hands__in', [1, 2])), name='prescription_load'), models.CheckConstraint(condition=models.Q(models.Q(models.Q(('load__isnull', False), ('load_rule', 'fixed')), models.Q(('load_rule', 'fixed'), _negated=True), _connector='OR'), models.Q(models.Q(('load_rule', 'percent'), ('percent__gt', 0), ('percent__isnull', False), ('percent__lte', 100)), models.Q(('load_rule', 'percent'), _negated=True), _connector='OR'), models.Q(models.Q(('load_rule', 'rir'), ('rir_half__isnull', False)), models.Q(('load_rule', 'rir'), _negated=True), _connector='OR'), models.Q(models.Q(('load_rule', 'words'), models.Q(('words', ''), _negated=True)), models.Q(('load_rule', 'words'), _negated=True), _connector='OR'), ('load_rule__in', ['none', 'fixed', 'percent', 'rir', 'last', 'find', 'words'])), name='prescription_rule'), models.CheckConstraint(condition=models.Q(('rir_half', None), ('rir_half__lte', 12), _connector='OR'), name='prescription_rir')],
            },
        ),
        migrations.CreateModel(
            name='PrescriptionSwap',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('position', models.PositiveSmallIntegerField(default=0)),
                ('exercise', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='+', to='library.exercise')),
                ('prescription', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='swaps', to='plans.prescription')),
            ],
            options={
                'ordering': ('position', 'pk'),
                'constraints': [models.UniqueConstraint(fields=('prescription', 'exercise'), name='prescription_swap_once')],
            },
        ),
        migrations.CreateModel(
            name='PrescriptionWeek',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('week', models.PositiveSmallIntegerField()),
                ('sets', models.PositiveSmallIntegerField(blank=True, null=True)),
                ('low', models.DecimalField(blank=True, decimal_places=2, max_digits=6, null=True)),
                ('high', models.DecimalField(blank=True, decimal_places=2, max_digits=6, null=True)),
                ('load', models.DecimalField(blank=True, decimal_places=2, max_digits=7, null=True)),
                ('load_high', models.DecimalField(blank=True, decimal_places=2, max_digits=7, null=True)),
                ('percent', models.DecimalField(blank=True, decimal_places=2, max_digits=5, null=True)),
                ('percent_high', models.DecimalField(blank=True, decimal_places=2, max_digits=5, null=True)),
                ('rir_half', models.PositiveSmallIntegerField(blank=True, null=True)),
                ('prescription', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='week_values', to='plans.prescription')),
            ],
            options={
                'ordering': ('week',),
                'constraints': [models.UniqueConstraint(fields=('prescription', 'week'), name='week_once'), models.CheckConstraint(condition=models.Q(('week__range', (1, 52))), name='week_range'), models.CheckConstraint(condition=models.Q(('percent', None), models.Q(('percent__gt', 0), ('percent__lte', 100)), _connector='OR'), name='week_percent')],
            },
        ),
        migrations.AddField(
            model_name='circuitgroup',
            name='segment',
            field=models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='groups', to='plans.segment'),
        ),
        migrations.CreateModel(
            name='Session',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('archived_at', models.DateTimeField(blank=True, editable=False, null=True)),
                ('name', models.CharField(max_length=80, verbose_name='name')),
                ('day', models.PositiveSmallIntegerField(default=1, verbose_name='day')),
                ('week_from', models.PositiveSmallIntegerField(default=1, verbose_name='from week')),
                ('week_to', models.PositiveSmallIntegerField(default=1, verbose_name='to week')),
                ('slot_minutes', models.PositiveSmallIntegerField(default=60, verbose_name='minutes of the slot')),
                ('revision', models.PositiveIntegerField(default=1, editable=False)),
                ('note', models.CharField(blank=True, max_length=300, verbose_name='note')),
                ('plan', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='sessions', to='plans.plan')),
            ],
            options={
                'ordering': ('plan', 'week_from', 'day', 'pk'),
                'constraints': [models.CheckConstraint(condition=models.Q(('week_from__gte', 1), ('week_to__gte', models.F('week_from'))), name='session_weeks'), models.CheckConstraint(condition=models.Q(('day__range', (1, 14))), name='session_day'), models.CheckConstraint(condition=models.Q(('slot_minutes__range', (10, 300))), name='session_slot')],
            },
        ),
        migrations.AddField(
            model_name='segment',
            name='session',
            field=models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='segments', to='plans.session'),
        ),
        migrations.CreateModel(
            name='Removal',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('title', models.CharField(max_length=120)),
                ('rows', models.JSONField()),
                ('pairs', models.JSONField(default=list)),
                ('removed_at', models.DateTimeField()),
                ('session', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='removals', to='plans.session')),
            ],
            options={
                'ordering': ('-removed_at', '-pk'),
            },
        ),
        migrations.AddConstraint(
            model_name='circuitgroup',
            constraint=models.CheckConstraint(condition=models.Q(('rounds_max__gte', models.F('rounds_min')), ('rounds_max__lte', 20), ('rounds_min__gte', 1)), name='group_rounds'),
        ),
        migrations.AddConstraint(
            model_name='circuitgroup',
            constraint=models.CheckConstraint(condition=models.Q(models.Q(('rest_max_s', None), ('rest_min_s', None)), models.Q(('rest_max_s', None), ('rest_min_s__isnull', False)), models.Q(('rest_max_s__gte', models.F('rest_min_s')), ('rest_max_s__lte', 1800), ('rest_min_s__isnull', False)), _connector='OR'), name='group_rest'),
        ),
        migrations.AddConstraint(
            model_name='segment',
            constraint=models.CheckConstraint(condition=models.Q(('kind__in', ['warm_up', 'activation', 'athleticism', 'strength', 'conditioning', 'cool_down'])), name='segment_kind'),
        ),
    ]
