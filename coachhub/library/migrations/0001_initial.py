import coachhub.library.models_media
import django.db.models.deletion
from decimal import Decimal
from django.db import migrations, models


class Migration(migrations.Migration):

    initial = True

    dependencies = [
    ]

    operations = [
        migrations.CreateModel(
            name='Exercise',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('archived_at', models.DateTimeField(blank=True, editable=False, null=True)),
                ('search_key', models.CharField(db_index=True, editable=False, max_length=200)),
                ('origin_key', models.SlugField(blank=True, max_length=80, null=True, unique=True)),
                ('edited_at', models.DateTimeField(blank=True, editable=False, null=True)),
                ('starting_digest', models.CharField(blank=True, editable=False, max_length=64)),
                ('newer_text', models.JSONField(blank=True, editable=False, null=True)),
                ('name', models.CharField(max_length=60, unique=True, verbose_name='name')),
                ('segment', models.CharField(choices=[('warm_up', 'Warm-up'), ('activation', 'Activation'), ('athleticism', 'Athleticism'), ('strength', 'Strength'), ('conditioning', 'Conditioning'), ('cool_down', 'Cool-down')], max_length=12, verbose_name='part of the session')),
                ('laterality', models.CharField(choices=[('bilateral', 'both sides together'), ('unilateral', 'one side at a time'), ('alternating', 'side by side in turn')], max_length=12, verbose_name='sides')),
                ('measure', models.CharField(choices=[('reps', 'repetitions'), ('time', 'time'), ('distance', 'distance'), ('contacts', 'ground contacts'), ('height', 'height')], max_length=10, verbose_name='measured by')),
                ('load_meaning', models.CharField(choices=[('bar_total', 'total with the bar'), ('per_hand', 'in each hand'), ('single', 'the one weight held'), ('added', 'added to the body'), ('assistance', 'assistance'), ('machine', 'machine setting'), ('none', 'no load')], max_length=12, verbose_name='the load means')),
                ('spotting', models.CharField(choices=[('none', 'No spotter needed.'), ('head', 'A trained spotter stands at the head, hands near the bar from the first rep to the rack.'), ('safety_arms', 'Safety arms set just below the deepest point first; else two spotters, one at each end of the bar.'), ('clear_space', 'Nobody spots. Clear space all round; learn to let go of the bar.'), ('wrists', 'The spotter guards the wrists, not the elbows.'), ('partner', 'A partner holds or helps; agree on the stop word first.')], default='none', max_length=12, verbose_name='spotting')),
                ('directions', models.JSONField(default=list, help_text='Direction codes, in the order of the cues.')),
                ('why', models.CharField(blank=True, max_length=160, verbose_name='what it is for')),
                ('faults', models.CharField(blank=True, max_length=300, verbose_name='common faults')),
                ('is_impact', models.BooleanField(default=False, verbose_name='impact')),
                ('is_overhead', models.BooleanField(default=False, verbose_name='overhead')),
                ('is_grip', models.BooleanField(default=False, verbose_name='heavy grip')),
                ('is_deep_range', models.BooleanField(default=False, verbose_name='near the end of range')),
                ('is_regions_reviewed', models.BooleanField(default=False, verbose_name='loaded regions reviewed')),
                ('needs_supervision', models.BooleanField(default=True, verbose_name='not unsupervised')),
                ('video_url', models.CharField(blank=True, max_length=300, verbose_name='film elsewhere')),
            ],
            options={
                'ordering': ('search_key', 'pk'),
                'constraints': [models.CheckConstraint(condition=models.Q(('segment__in', ['warm_up', 'activation', 'athleticism', 'strength', 'conditioning', 'cool_down'])), name='exercise_segment'), models.CheckConstraint(condition=models.Q(('laterality__in', ['bilateral', 'unilateral', 'alternating'])), name='exercise_laterality'), models.CheckConstraint(condition=models.Q(('measure__in', ['reps', 'time', 'distance', 'contacts', 'height'])), name='exercise_measure'), models.CheckConstraint(condition=models.Q(('load_meaning__in', ['bar_total', 'per_hand', 'single', 'added', 'assistance', 'machine', 'none'])), name='exercise_load_meaning'), models.CheckConstraint(condition=models.Q(('spotting__in', ['none', 'head', 'safety_arms', 'clear_space', 'wrists', 'partner'])), name='exercise_spotting'), models.CheckConstraint(condition=models.Q(('video_url', ''), ('video_url__startswith', 'https://'), _connector='OR'), name='exercise_video_https')],
            },
        ),
        migrations.CreateModel(
            name='Venue',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('archived_at', models.DateTimeField(blank=True, editable=False, null=True)),
                ('search_key', models.CharField(db_index=True, editable=False, max_length=200)),
                ('name', models.CharField(max_length=60, unique=True, verbose_name='name')),
                ('unit', models.CharField(choices=[('kg', 'kilograms (kg)'), ('lb', 'pounds (lb)')], default='kg', max_length=2, verbose_name='unit on the plates')),
                ('is_supervised', models.BooleanField(default=True, help_text='Where no coach is present, under-18s get only exercises cleared for it.', verbose_name='a coach is present')),
                ('note', models.CharField(blank=True, max_length=200, verbose_name='note')),
            ],
            options={
                'ordering': ('search_key', 'pk'),
                'constraints': [models.CheckConstraint(condition=models.Q(('unit__in', ['kg', 'lb'])), name='venue_unit')],
            },
        ),
        migrations.CreateModel(
            name='EquipmentNeed',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('group', models.PositiveSmallIntegerField()),
                ('kind', models.CharField(choices=[('barbell', 'barbell'), ('plates', 'plates'), ('rack', 'rack'), ('safety_arms', 'safety arms'), ('bench', 'bench'), ('incline_bench', 'incline bench'), ('hex_bar', 'hex bar'), ('landmine', 'landmine or corner'), ('dumbbell', 'dumbbell'), ('kettlebell', 'kettlebell'), ('cable', 'cable'), ('machine', 'machine'), ('mini_band', 'mini-band'), ('long_band', 'long band'), ('anchor', 'anchor point'), ('box', 'box'), ('low_box', 'low box'), ('medicine_ball', 'medicine ball'), ('slam_ball', 'slam ball'), ('cones', 'cones or marks'), ('agility_ladder', 'agility ladder'), ('pull_up_bar', 'pull-up bar'), ('suspension', 'suspension straps'), ('sled', 'sled'), ('wall', 'wall'), ('step', 'step'), ('partner', 'partner'), ('pad', 'pad'), ('stick', 'stick'), ('mat', 'mat'), ('slider', 'slider or towel')], max_length=14)),
                ('exercise', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='needs', to='library.exercise')),
            ],
            options={
                'ordering': ('group', 'pk'),
                'constraints': [models.UniqueConstraint(fields=('exercise', 'group', 'kind'), name='need_once'), models.CheckConstraint(condition=models.Q(('kind__in', ['barbell', 'plates', 'rack', 'safety_arms', 'bench', 'incline_bench', 'hex_bar', 'landmine', 'dumbbell', 'kettlebell', 'cable', 'machine', 'mini_band', 'long_band', 'anchor', 'box', 'low_box', 'medicine_ball', 'slam_ball', 'cones', 'agility_ladder', 'pull_up_bar', 'suspension', 'sled', 'wall', 'step', 'partner', 'pad', 'stick', 'mat', 'slider'])), name='need_kind_code')],
            },
        ),
        migrations.CreateModel(
            name='ExerciseAlias',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('search_key', models.CharField(db_index=True, editable=False, max_length=200)),
                ('name', models.CharField(max_length=60)),
                ('exercise', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='aliases', to='library.exercise')),
            ],
            options={
                'ordering': ('pk',),
                'constraints': [models.UniqueConstraint(fields=('exercise', 'name'), name='alias_once')],
            },
        ),
        migrations.CreateModel(
            name='ExerciseCue',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('direction', models.CharField(blank=True, choices=[('forward', 'forward'), ('backward', 'backward'), ('lateral', 'to the side'), ('diagonal', 'diagonal'), ('crossover', 'crossover'), ('vertical', 'vertical'), ('horizontal', 'horizontal'), ('incline', 'incline'), ('rotational', 'rotational'), ('in_place', 'in place')], max_length=12)),
                ('text', models.CharField(max_length=80)),
                ('position', models.PositiveSmallIntegerField(default=0)),
                ('exercise', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='cues', to='library.exercise')),
            ],
            options={
                'ordering': ('position', 'pk'),
                'constraints': [models.CheckConstraint(condition=models.Q(('direction__in', ['', 'forward', 'backward', 'lateral', 'diagonal', 'crossover', 'vertical', 'horizontal', 'incline', 'rotational', 'in_place'])), name='cue_direction_code')],
            },
        ),
        migrations.CreateModel(
            name='ExerciseFile',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('kind', models.CharField(choices=[('picture', 'picture'), ('film', 'film')], max_length=8)),
                ('media_type', models.CharField(max_length=12)),
                ('file', models.FileField(max_length=80, upload_to=coachhub.library.models_media.random_name)),
                ('size', models.PositiveIntegerField()),
                ('shows', models.CharField(max_length=160, verbose_name='what it shows')),
                ('added_at', models.DateTimeField()),
                ('exercise', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='files', to='library.exercise')),
            ],
            options={
                'ordering': ('kind', 'pk'),
                'constraints': [models.UniqueConstraint(fields=('exercise', 'kind'), name='file_once'), models.CheckConstraint(condition=models.Q(('kind__in', ['picture', 'film'])), name='file_kind'), models.CheckConstraint(condition=models.Q(('media_type__in', ['image/jpeg', 'image/png', 'image/webp', 'video/mp4'])), name='file_media_type')],
            },
        ),
        migrations.CreateModel(
            name='ExercisePattern',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('pattern', models.CharField(choices=[('hinge', 'hinge'), ('squat', 'squat'), ('lunge', 'lunge'), ('push', 'push'), ('pull', 'pull'), ('carry', 'carry'), ('trunk', 'trunk'), ('jump', 'jump'), ('landing', 'landing'), ('sprint', 'sprint'), ('agility', 'agility'), ('rotation', 'rotation'), ('locomotion', 'locomotion'), ('mobility', 'mobility'), ('hip', 'hip control'), ('shoulder', 'shoulder control'), ('ankle', 'ankle'), ('knee_flexion', 'knee flexion'), ('recovery', 'recovery')], max_length=14)),
                ('position', models.PositiveSmallIntegerField(default=0)),
                ('exercise', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='patterns', to='library.exercise')),
            ],
            options={
                'ordering': ('position', 'pk'),
                'constraints': [models.UniqueConstraint(fields=('exercise', 'pattern'), name='pattern_once'), models.CheckConstraint(condition=models.Q(('pattern__in', ['hinge', 'squat', 'lunge', 'push', 'pull', 'carry', 'trunk', 'jump', 'landing', 'sprint', 'agility', 'rotation', 'locomotion', 'mobility', 'hip', 'shoulder', 'ankle', 'knee_flexion', 'recovery'])), name='exercise_pattern_code')],
            },
        ),
        migrations.CreateModel(
            name='ExerciseRegion',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('region', models.CharField(choices=[('neck', 'neck'), ('shoulder', 'shoulder'), ('elbow', 'elbow'), ('wrist_hand', 'wrist or hand'), ('chest', 'chest'), ('upper_back', 'upper back'), ('low_back', 'lower back'), ('abdomen', 'abdomen'), ('hip', 'hip'), ('groin', 'groin'), ('thigh_front', 'front of the thigh'), ('thigh_back', 'back of the thigh'), ('knee', 'knee'), ('lower_leg', 'lower leg'), ('ankle', 'ankle'), ('foot', 'foot')], max_length=12)),
                ('side_sense', models.CharField(choices=[('both', 'both sides'), ('working', 'the working side'), ('other', 'the other side')], max_length=8)),
                ('exercise', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='regions', to='library.exercise')),
            ],
            options={
                'ordering': ('pk',),
                'constraints': [models.UniqueConstraint(fields=('exercise', 'region'), name='region_once'), models.CheckConstraint(condition=models.Q(('region__in', ['neck', 'shoulder', 'elbow', 'wrist_hand', 'chest', 'upper_back', 'low_back', 'abdomen', 'hip', 'groin', 'thigh_front', 'thigh_back', 'knee', 'lower_leg', 'ankle', 'foot'])), name='exercise_region_code'), models.CheckConstraint(condition=models.Q(('side_sense__in', ['both', 'working', 'other'])), name='exercise_region_side')],
            },
        ),
        migrations.CreateModel(
            name='Swap',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('reason', models.CharField(choices=[('equipment', 'no equipment'), ('easier', 'easier'), ('harder', 'harder'), ('preference', 'preference'), ('build', 'builds toward it'), ('spares', 'spares a body region')], max_length=12)),
                ('region', models.CharField(blank=True, choices=[('neck', 'neck'), ('shoulder', 'shoulder'), ('elbow', 'elbow'), ('wrist_hand', 'wrist or hand'), ('chest', 'chest'), ('upper_back', 'upper back'), ('low_back', 'lower back'), ('abdomen', 'abdomen'), ('hip', 'hip'), ('groin', 'groin'), ('thigh_front', 'front of the thigh'), ('thigh_back', 'back of the thigh'), ('knee', 'knee'), ('lower_leg', 'lower leg'), ('ankle', 'ankle'), ('foot', 'foot')], max_length=12)),
                ('position', models.PositiveSmallIntegerField(default=0)),
                ('exercise', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='swaps', to='library.exercise')),
                ('to', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='swapped_from', to='library.exercise')),
            ],
            options={
                'ordering': ('position', 'pk'),
                'constraints': [models.UniqueConstraint(fields=('exercise', 'to', 'reason', 'region'), name='swap_once'), models.CheckConstraint(condition=models.Q(('exercise', models.F('to')), _negated=True), name='swap_to_another'), models.CheckConstraint(condition=models.Q(('reason__in', ['equipment', 'easier', 'harder', 'preference', 'build', 'spares'])), name='swap_reason_code'), models.CheckConstraint(condition=models.Q(models.Q(('reason', 'spares'), ('region__in', ['neck', 'shoulder', 'elbow', 'wrist_hand', 'chest', 'upper_back', 'low_back', 'abdomen', 'hip', 'groin', 'thigh_front', 'thigh_back', 'knee', 'lower_leg', 'ankle', 'foot'])), models.Q(models.Q(('reason', 'spares'), _negated=True), ('region', '')), _connector='OR'), name='swap_region_when_sparing')],
            },
        ),
        migrations.CreateModel(
            name='StockWeight',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('kind', models.CharField(choices=[('dumbbell', 'dumbbell'), ('kettlebell', 'kettlebell'), ('medicine_ball', 'medicine ball'), ('slam_ball', 'slam ball')], default='dumbbell', max_length=14, verbose_name='kind')),
                ('mass_value', models.DecimalField(decimal_places=2, max_digits=6, verbose_name='mass')),
                ('mass_unit', models.CharField(choices=[('kg', 'kilograms (kg)'), ('lb', 'pounds (lb)')], default='kg', max_length=2, verbose_name='unit')),
                ('count', models.PositiveSmallIntegerField(default=2, verbose_name='pieces')),
                ('venue', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='weights', to='library.venue')),
            ],
            options={
                'ordering': ('kind', 'mass_value', 'pk'),
                'constraints': [models.UniqueConstraint(fields=('venue', 'kind', 'mass_value', 'mass_unit'), name='weight_once'), models.CheckConstraint(condition=models.Q(('mass_value__gt', 0)), name='weight_mass_positive'), models.CheckConstraint(condition=models.Q(('kind__in', ['dumbbell', 'kettlebell', 'medicine_ball', 'slam_ball'])), name='weight_kind'), models.CheckConstraint(condition=models.Q(('mass_unit__in', ['kg', 'lb'])), name='weight_unit')],
            },
        ),
        migrations.CreateModel(
            name='StockPlate',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('mass_value', models.DecimalField(decimal_places=2, max_digits=6, verbose_name='mass of one')),
                ('mass_unit', models.CharField(choices=[('kg', 'kilograms (kg)'), ('lb', 'pounds (lb)')], default='kg', max_length=2, verbose_name='unit')),
                ('pairs', models.PositiveSmallIntegerField(default=1, verbose_name='pairs')),
                ('venue', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='plates', to='library.venue')),
            ],
            options={
                'ordering': ('-mass_value', 'pk'),
                'constraints': [models.UniqueConstraint(fields=('venue', 'mass_value', 'mass_unit'), name='plate_once'), models.CheckConstraint(condition=models.Q(('mass_value__gt', 0)), name='plate_mass_positive'), models.CheckConstraint(condition=models.Q(('mass_unit__in', ['kg', 'lb'])), name='plate_unit')],
            },
        ),
        migrations.CreateModel(
            name='StockItem',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('kind', models.CharField(choices=[('barbell', 'barbell'), ('plates', 'plates'), ('rack', 'rack'), ('safety_arms', 'safety arms'), ('bench', 'bench'), ('incline_bench', 'incline bench'), ('hex_bar', 'hex bar'), ('landmine', 'landmine or corner'), ('dumbbell', 'dumbbell'), ('kettlebell', 'kettlebell'), ('cable', 'cable'), ('machine', 'machine'), ('mini_band', 'mini-band'), ('long_band', 'long band'), ('anchor', 'anchor point'), ('box', 'box'), ('low_box', 'low box'), ('medicine_ball', 'medicine ball'), ('slam_ball', 'slam ball'), ('cones', 'cones or marks'), ('agility_ladder', 'agility ladder'), ('pull_up_bar', 'pull-up bar'), ('suspension', 'suspension straps'), ('sled', 'sled'), ('wall', 'wall'), ('step', 'step'), ('partner', 'partner'), ('pad', 'pad'), ('stick', 'stick'), ('mat', 'mat'), ('slider', 'slider or towel')], max_length=14, verbose_name='kind')),
                ('count', models.PositiveSmallIntegerField(default=1, verbose_name='how many')),
                ('venue', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='items', to='library.venue')),
            ],
            options={
                'ordering': ('kind', 'pk'),
                'constraints': [models.UniqueConstraint(fields=('venue', 'kind'), name='item_once'), models.CheckConstraint(condition=models.Q(('kind__in', ['barbell', 'plates', 'rack', 'safety_arms', 'bench', 'incline_bench', 'hex_bar', 'landmine', 'dumbbell', 'kettlebell', 'cable', 'machine', 'mini_band', 'long_band', 'anchor', 'box', 'low_box', 'medicine_ball', 'slam_ball', 'cones', 'agility_ladder', 'pull_up_bar', 'suspension', 'sled', 'wall', 'step', 'partner', 'pad', 'stick', 'mat', 'slider'])), name='item_kind')],
            },
        ),
        migrations.CreateModel(
            name='StockBar',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('kind', models.CharField(choices=[('barbell', 'barbell'), ('hex_bar', 'hex bar')], default='barbell', max_length=12, verbose_name='kind')),
                ('mass_value', models.DecimalField(decimal_places=2, max_digits=6, verbose_name='mass')),
                ('mass_unit', models.CharField(choices=[('kg', 'kilograms (kg)'), ('lb', 'pounds (lb)')], default='kg', max_length=2, verbose_name='unit')),
                ('collar_value', models.DecimalField(decimal_places=2, default=Decimal('0'), max_digits=5, verbose_name='each collar')),
                ('count', models.PositiveSmallIntegerField(default=1, verbose_name='how many')),
                ('venue', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='bars', to='library.venue')),
            ],
            options={
                'ordering': ('kind', '-mass_value', 'pk'),
                'constraints': [models.UniqueConstraint(fields=('venue', 'kind', 'mass_value', 'mass_unit'), name='bar_once'), models.CheckConstraint(condition=models.Q(('mass_value__gt', 0), ('collar_value__gte', 0)), name='bar_mass_positive'), models.CheckConstraint(condition=models.Q(('kind__in', ['barbell', 'hex_bar'])), name='bar_kind'), models.CheckConstraint(condition=models.Q(('mass_unit__in', ['kg', 'lb'])), name='bar_unit')],
            },
        ),
    ]
