import django.db.models.deletion
from django.conf import settings
from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('cards', '0002_loads_and_stock'),
        ('library', '0003_families'),
        ('people', '0001_initial'),
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
    ]

    operations = [
        migrations.CreateModel(
            name='BarHeight',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('hole', models.PositiveSmallIntegerField(verbose_name='rack hole')),
                ('noted_at', models.DateTimeField()),
                ('athlete', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='bar_heights', to='people.athlete')),
                ('exercise', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='+', to='library.exercise')),
                ('noted_by', models.ForeignKey(null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
                ('venue', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='+', to='library.venue')),
            ],
            options={
                'ordering': ('-pk',),
                'constraints': [models.CheckConstraint(condition=models.Q(('hole__range', (1, 60))), name='bar_height_hole')],
                'indexes': [models.Index(fields=['athlete', 'exercise', 'venue'], name='bar_height_of')],
            },
        ),
        migrations.CreateModel(
            name='DoorChange',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('uuid', models.UUIDField(unique=True)),
                ('steps', models.JSONField()),
                ('made_at', models.DateTimeField()),
                ('undone_at', models.DateTimeField(blank=True, null=True)),
                ('assignment', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='door_changes', to='cards.assignment')),
                ('card', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='door_changes', to='cards.card')),
                ('made_by', models.ForeignKey(null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
                ('undone_by', models.ForeignKey(null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
                ('venue_before', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to='library.venue')),
            ],
            options={
                'ordering': ('pk',),
            },
        ),
        migrations.CreateModel(
            name='PairWish',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('kind', models.CharField(choices=[('together', 'together'), ('apart', 'apart')], max_length=8, verbose_name='kept')),
                ('word', models.CharField(blank=True, max_length=30, verbose_name='a word on it')),
                ('from_on', models.DateField()),
                ('ended_on', models.DateField(blank=True, null=True)),
                ('athlete', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='+', to='people.athlete')),
                ('other', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='+', to='people.athlete')),
                ('set_by', models.ForeignKey(null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
            ],
            options={
                'ordering': ('pk',),
                'constraints': [models.CheckConstraint(condition=models.Q(('kind__in', ['together', 'apart'])), name='wish_kind'), models.CheckConstraint(condition=models.Q(('athlete__lt', models.F('other'))), name='wish_pair_in_order'), models.CheckConstraint(condition=models.Q(('ended_on', None), ('ended_on__gte', models.F('from_on')), _connector='OR'), name='wish_ends_after'), models.UniqueConstraint(condition=models.Q(('ended_on', None)), fields=('athlete', 'other'), name='one_standing_wish_a_pair')],
            },
        ),
        migrations.CreateModel(
            name='StationPlace',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('number', models.PositiveSmallIntegerField(blank=True, null=True, verbose_name='station')),
                ('placed_at', models.DateTimeField()),
                ('card', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='station_places', to='cards.card')),
                ('placed_by', models.ForeignKey(null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
            ],
            options={
                'ordering': ('-pk',),
                'constraints': [models.CheckConstraint(condition=models.Q(('number', None), ('number__range', (1, 99)), _connector='OR'), name='station_number')],
            },
        ),
        migrations.RemoveConstraint(
            model_name='attendance',
            name='attendance_status',
        ),
        migrations.RemoveConstraint(
            model_name='cardrevision',
            name='revision_reason',
        ),
        migrations.AddField(
            model_name='attendance',
            name='minutes_left',
            field=models.PositiveSmallIntegerField(blank=True, null=True),
        ),
        migrations.AddField(
            model_name='card',
            name='is_guest',
            field=models.BooleanField(default=False),
        ),
        migrations.AddField(
            model_name='card',
            name='venue',
            field=models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to='library.venue'),
        ),
        migrations.AlterField(
            model_name='attendance',
            name='status',
            field=models.CharField(choices=[('present', 'present'), ('absent', 'absent'), ('late', 'late')], max_length=8),
        ),
        migrations.AlterField(
            model_name='cardrevision',
            name='reason',
            field=models.CharField(choices=[('first', 'made'), ('renewed', 'renewed from the session'), ('restricted', 'changed by a restriction'), ('pain', 'changed because something hurts'), ('swapped', 'one exercise swapped'), ('door', 'changed at the door'), ('door_undone', 'a change at the door undone')], default='first', max_length=12),
        ),
        migrations.AddConstraint(
            model_name='attendance',
            constraint=models.CheckConstraint(condition=models.Q(('status__in', ['present', 'absent', 'late'])), name='attendance_status'),
        ),
        migrations.AddConstraint(
            model_name='attendance',
            constraint=models.CheckConstraint(condition=models.Q(('minutes_left', None), models.Q(('minutes_left__range', (1, 300)), ('status', 'late')), _connector='OR'), name='attendance_minutes_left'),
        ),
        migrations.AddField(
            model_name='cardrevision',
            name='change',
            field=models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='revisions', to='cards.doorchange'),
        ),
        migrations.AddConstraint(
            model_name='cardrevision',
            constraint=models.CheckConstraint(condition=models.Q(('reason__in', ['first', 'renewed', 'restricted', 'pain', 'swapped', 'door', 'door_undone'])), name='revision_reason'),
        ),
    ]
