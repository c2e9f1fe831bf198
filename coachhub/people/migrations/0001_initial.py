import datetime
import django.contrib.auth.models
import django.contrib.auth.validators
import django.db.models.deletion
import django.db.models.functions.text
import django.utils.timezone
from django.conf import settings
from django.db import migrations, models


class Migration(migrations.Migration):

    initial = True

    dependencies = [
        ('auth', '0012_alter_user_first_name_max_length'),
        ('library', '0001_initial'),
    ]

    operations = [
        migrations.CreateModel(
            name='Guardian',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('archived_at', models.DateTimeField(blank=True, editable=False, null=True)),
                ('search_key', models.CharField(db_index=True, editable=False, max_length=200)),
                ('name', models.CharField(max_length=120, verbose_name='name')),
                ('phone', models.CharField(blank=True, max_length=40, verbose_name='phone')),
                ('email', models.EmailField(blank=True, max_length=254, verbose_name='e-mail')),
            ],
            options={
                'ordering': ('search_key', 'pk'),
            },
        ),
        migrations.CreateModel(
            name='Squad',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('archived_at', models.DateTimeField(blank=True, editable=False, null=True)),
                ('search_key', models.CharField(db_index=True, editable=False, max_length=200)),
                ('name', models.CharField(max_length=60, unique=True, verbose_name='name')),
                ('note', models.CharField(blank=True, max_length=200, verbose_name='note')),
            ],
            options={
                'ordering': ('search_key', 'pk'),
            },
        ),
        migrations.CreateModel(
            name='User',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('password', models.CharField(max_length=128, verbose_name='password')),
                ('last_login', models.DateTimeField(blank=True, null=True, verbose_name='last login')),
                ('is_superuser', models.BooleanField(default=False, help_text='Designates that this user has all permissions without explicitly assigning them.', verbose_name='superuser status')),
                ('username', models.CharField(error_messages={'unique': 'A user with that username already exists.'}, help_text='Required. 150 characters or fewer. Letters, digits and @/./+/-/_ only.', max_length=150, unique=True, validators=[django.contrib.auth.validators.UnicodeUsernameValidator()], verbose_name='username')),
                ('first_name', models.CharField(blank=True, max_length=150, verbose_name='first name')),
                ('last_name', models.CharField(blank=True, max_length=150, verbose_name='last name')),
                ('email', models.EmailField(blank=True, max_length=254, verbose_name='email address')),
                ('is_staff', models.BooleanField(default=False, help_text='Designates whether the user can log into this admin site.', verbose_name='staff status')),
                ('is_active', models.BooleanField(default=True, help_text='Designates whether this user should be treated as active. Unselect this instead of deleting accounts.', verbose_name='active')),
                ('date_joined', models.DateTimeField(default=django.utils.timezone.now, verbose_name='date joined')),
                ('groups', models.ManyToManyField(blank=True, help_text='The groups this user belongs to. A user will get all permissions granted to each of their groups.', related_name='user_set', related_query_name='user', to='auth.group', verbose_name='groups')),
                ('user_permissions', models.ManyToManyField(blank=True, help_text='Specific permissions for this user.', related_name='user_set', related_query_name='user', to='auth.permission', verbose_name='user permissions')),
            ],
            options={
                'verbose_name': 'user',
                'verbose_name_plural': 'users',
                'abstract': False,
                'constraints': [models.UniqueConstraint(django.db.models.functions.text.Lower('email'), condition=models.Q(('email', ''), _negated=True), name='user_email_once')],
            },
            managers=[
                ('objects', django.contrib.auth.models.UserManager()),
            ],
        ),
        migrations.CreateModel(
            name='Athlete',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('archived_at', models.DateTimeField(blank=True, editable=False, null=True)),
                ('search_key', models.CharField(db_index=True, editable=False, max_length=200)),
                ('given_name', models.CharField(max_length=60, verbose_name='given name')),
                ('family_name', models.CharField(max_length=60, verbose_name='family name')),
                ('born_on', models.DateField(verbose_name='date of birth')),
                ('unit', models.CharField(choices=[('kg', 'kilograms (kg)'), ('lb', 'pounds (lb)')], default='kg', max_length=2, verbose_name='reads loads in')),
                ('level', models.CharField(choices=[('novice', 'novice'), ('intermediate', 'intermediate'), ('advanced', 'advanced')], default='novice', max_length=12, verbose_name='level')),
                ('is_rir_taught', models.BooleanField(default=False, help_text='Until then nobody asks for reps in reserve, and no load is set by them.', verbose_name='has been taught reps in reserve')),
                ('position', models.CharField(blank=True, max_length=40, verbose_name='position')),
                ('dominant_side', models.CharField(blank=True, choices=[('', 'not noted'), ('left', 'left'), ('right', 'right'), ('both', 'both')], max_length=5, verbose_name='dominant side')),
                ('note', models.TextField(blank=True, max_length=1000, verbose_name='note')),
                ('emergency_contact', models.CharField(blank=True, max_length=120, verbose_name='emergency contact')),
                ('health_alert', models.CharField(blank=True, max_length=200, verbose_name='asthma, allergy or other alert')),
            ],
            options={
                'ordering': ('search_key', 'pk'),
                'constraints': [models.CheckConstraint(condition=models.Q(('unit__in', ['kg', 'lb'])), name='athlete_unit'), models.CheckConstraint(condition=models.Q(('level__in', ['novice', 'intermediate', 'advanced'])), name='athlete_level'), models.CheckConstraint(condition=models.Q(('dominant_side__in', ['', 'left', 'right', 'both'])), name='athlete_side'), models.CheckConstraint(condition=models.Q(('born_on__gte', datetime.date(1900, 1, 1))), name='athlete_born_plausible')],
            },
        ),
        migrations.CreateModel(
            name='Availability',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('status', models.CharField(choices=[('full', 'full'), ('modified', 'modified'), ('out', 'out')], max_length=8, verbose_name='availability')),
                ('from_on', models.DateField(verbose_name='from')),
                ('can_do', models.CharField(blank=True, max_length=200, verbose_name='can do')),
                ('set_at', models.DateTimeField()),
                ('athlete', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='availabilities', to='people.athlete')),
                ('set_by', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
            ],
            options={
                'ordering': ('-from_on', '-pk'),
                'constraints': [models.CheckConstraint(condition=models.Q(('status__in', ['full', 'modified', 'out'])), name='availability_status')],
            },
        ),
        migrations.CreateModel(
            name='Club',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('name', models.CharField(max_length=80, verbose_name='club name')),
                ('unit', models.CharField(choices=[('kg', 'kilograms (kg)'), ('lb', 'pounds (lb)')], default='kg', max_length=2, verbose_name='unit')),
                ('time_zone', models.CharField(default='UTC', max_length=60, verbose_name='time zone')),
                ('accent', models.CharField(default='#0b5d4a', max_length=7, verbose_name='accent colour')),
                ('is_demo', models.BooleanField(default=False, editable=False)),
            ],
            options={
                'constraints': [models.CheckConstraint(condition=models.Q(('pk', 1)), name='one_club'), models.CheckConstraint(condition=models.Q(('unit__in', ['kg', 'lb'])), name='club_unit')],
            },
        ),
        migrations.CreateModel(
            name='Consent',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('kind', models.CharField(choices=[('training', 'strength training'), ('data', 'keeping training data'), ('phone', 'own phone in training')], max_length=10, verbose_name='for')),
                ('given_by', models.CharField(max_length=120, verbose_name='given by')),
                ('given_on', models.DateField(verbose_name='on')),
                ('withdrawn_on', models.DateField(blank=True, null=True, verbose_name='withdrawn on')),
                ('athlete', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='consents', to='people.athlete')),
            ],
            options={
                'ordering': ('given_on', 'pk'),
                'constraints': [models.CheckConstraint(condition=models.Q(('kind__in', ['training', 'data', 'phone'])), name='consent_kind'), models.UniqueConstraint(condition=models.Q(('withdrawn_on', None)), fields=('athlete', 'kind'), name='one_standing_consent')],
            },
        ),
        migrations.CreateModel(
            name='EnrolmentCode',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('code_hash', models.CharField(max_length=64, unique=True)),
                ('token_hash', models.CharField(max_length=64, unique=True)),
                ('created_at', models.DateTimeField()),
                ('expires_at', models.DateTimeField()),
                ('used_at', models.DateTimeField(blank=True, null=True)),
                ('revoked_at', models.DateTimeField(blank=True, null=True)),
                ('athlete', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='enrolment_codes', to='people.athlete')),
                ('created_by', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
            ],
            options={
                'constraints': [models.CheckConstraint(condition=models.Q(('expires_at__gt', models.F('created_at'))), name='code_expires_later')],
            },
        ),
        migrations.CreateModel(
            name='Device',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('token_hash', models.CharField(max_length=64, unique=True)),
                ('label', models.CharField(blank=True, max_length=80, verbose_name='phone')),
                ('bound_at', models.DateTimeField()),
                ('last_seen_on', models.DateField(blank=True, null=True)),
                ('revoked_at', models.DateTimeField(blank=True, null=True)),
                ('athlete', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='devices', to='people.athlete')),
                ('enrolment', models.OneToOneField(on_delete=django.db.models.deletion.PROTECT, related_name='device', to='people.enrolmentcode')),
            ],
            options={
                'ordering': ('-bound_at', 'pk'),
            },
        ),
        migrations.CreateModel(
            name='Guardianship',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('relation', models.CharField(blank=True, max_length=40, verbose_name='relation')),
                ('athlete', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='guardianships', to='people.athlete')),
                ('guardian', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='guardianships', to='people.guardian')),
            ],
            options={
                'constraints': [models.UniqueConstraint(fields=('guardian', 'athlete'), name='guardianship_once')],
            },
        ),
        migrations.CreateModel(
            name='ImportDraft',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('kind', models.CharField(choices=[('roster', 'roster'), ('bests', 'bests')], max_length=8)),
                ('file_name', models.CharField(max_length=120)),
                ('table', models.JSONField()),
                ('reading', models.JSONField(null=True)),
                ('created_at', models.DateTimeField()),
                ('expires_at', models.DateTimeField(db_index=True)),
                ('owner', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='import_drafts', to=settings.AUTH_USER_MODEL)),
            ],
            options={
                'constraints': [models.CheckConstraint(condition=models.Q(('kind__in', ['roster', 'bests'])), name='import_kind'), models.UniqueConstraint(fields=('owner', 'kind'), name='one_import_at_a_time'), models.CheckConstraint(condition=models.Q(('expires_at__gt', models.F('created_at'))), name='import_expires_later')],
            },
        ),
        migrations.CreateModel(
            name='PainReport',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('uuid', models.UUIDField(unique=True)),
                ('region', models.CharField(choices=[('neck', 'neck'), ('shoulder', 'shoulder'), ('elbow', 'elbow'), ('wrist_hand', 'wrist or hand'), ('chest', 'chest'), ('upper_back', 'upper back'), ('low_back', 'lower back'), ('abdomen', 'abdomen'), ('hip', 'hip'), ('groin', 'groin'), ('thigh_front', 'front of the thigh'), ('thigh_back', 'back of the thigh'), ('knee', 'knee'), ('lower_leg', 'lower leg'), ('ankle', 'ankle'), ('foot', 'foot')], max_length=12, verbose_name='where')),
                ('side', models.CharField(choices=[('both', 'both sides'), ('left', 'left'), ('right', 'right')], default='both', max_length=5, verbose_name='side')),
                ('score', models.PositiveSmallIntegerField(verbose_name='how much, 0 to 10')),
                ('is_sore_only', models.BooleanField(default=False, verbose_name='muscle sore only')),
                ('note', models.CharField(blank=True, max_length=300, verbose_name='note')),
                ('on_date', models.DateField()),
                ('reported_at', models.DateTimeField()),
                ('cleared_at', models.DateTimeField(blank=True, null=True)),
                ('cleared_note', models.CharField(blank=True, max_length=200)),
                ('athlete', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='pain_reports', to='people.athlete')),
                ('cleared_by', models.ForeignKey(null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
                ('device', models.ForeignKey(null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to='people.device')),
                ('reported_by', models.ForeignKey(null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
            ],
            options={
                'ordering': ('-reported_at', '-pk'),
                'constraints': [models.CheckConstraint(condition=models.Q(('region__in', ['neck', 'shoulder', 'elbow', 'wrist_hand', 'chest', 'upper_back', 'low_back', 'abdomen', 'hip', 'groin', 'thigh_front', 'thigh_back', 'knee', 'lower_leg', 'ankle', 'foot'])), name='pain_region'), models.CheckConstraint(condition=models.Q(('side__in', ['both', 'left', 'right'])), name='pain_side'), models.CheckConstraint(condition=models.Q(('score__lte', 10)), name='pain_score_0_10'), models.CheckConstraint(condition=models.Q(models.Q(('cleared_at', None), ('cleared_by', None)), models.Q(('cleared_at__isnull', False), ('cleared_by__isnull', False)), _connector='OR'), name='pain_cleared_by_someone')],
            },
        ),
        migrations.CreateModel(
            name='RedFlag',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('uuid', models.UUIDField(unique=True)),
                ('kind', models.CharField(choices=[('head_knock', 'a knock to the head'), ('chest_pain', 'chest pain'), ('faint', 'fainted or nearly'), ('numbness', 'numbness or weakness'), ('giving_way', 'a joint gave way'), ('pop', 'a pop was felt or heard')], max_length=12, verbose_name='what happened')),
                ('note', models.CharField(blank=True, max_length=300, verbose_name='note')),
                ('on_date', models.DateField()),
                ('reported_at', models.DateTimeField()),
                ('cleared_on', models.DateField(blank=True, null=True, verbose_name='cleared on')),
                ('cleared_by_name', models.CharField(blank=True, max_length=120, verbose_name='cleared by')),
                ('cleared_at', models.DateTimeField(blank=True, null=True)),
                ('athlete', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='red_flags', to='people.athlete')),
                ('cleared_by', models.ForeignKey(null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
                ('device', models.ForeignKey(null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to='people.device')),
                ('reported_by', models.ForeignKey(null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
            ],
            options={
                'ordering': ('-reported_at', '-pk'),
                'constraints': [models.CheckConstraint(condition=models.Q(('kind__in', ['head_knock', 'chest_pain', 'faint', 'numbness', 'giving_way', 'pop'])), name='red_flag_kind'), models.CheckConstraint(condition=models.Q(models.Q(('cleared_at', None), ('cleared_by', None), ('cleared_by_name', ''), ('cleared_on', None)), models.Q(('cleared_at__isnull', False), ('cleared_by__isnull', False), ('cleared_on__isnull', False), models.Q(('cleared_by_name', ''), _negated=True)), _connector='OR'), name='red_flag_cleared_by_name_and_date')],
            },
        ),
        migrations.CreateModel(
            name='Restriction',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('kind', models.CharField(choices=[('region', 'a body region'), ('pattern', 'a movement pattern'), ('exercise', 'an exercise'), ('impact', 'impact'), ('overhead', 'overhead work'), ('grip', 'heavy grip'), ('range', 'end of range'), ('load_cap', 'a load cap')], max_length=10, verbose_name='restricts')),
                ('region', models.CharField(blank=True, choices=[('neck', 'neck'), ('shoulder', 'shoulder'), ('elbow', 'elbow'), ('wrist_hand', 'wrist or hand'), ('chest', 'chest'), ('upper_back', 'upper back'), ('low_back', 'lower back'), ('abdomen', 'abdomen'), ('hip', 'hip'), ('groin', 'groin'), ('thigh_front', 'front of the thigh'), ('thigh_back', 'back of the thigh'), ('knee', 'knee'), ('lower_leg', 'lower leg'), ('ankle', 'ankle'), ('foot', 'foot')], max_length=12, verbose_name='body region')),
                ('side', models.CharField(choices=[('both', 'both sides'), ('left', 'left'), ('right', 'right')], default='both', max_length=5, verbose_name='side')),
                ('pattern', models.CharField(blank=True, choices=[('hinge', 'hinge'), ('squat', 'squat'), ('lunge', 'lunge'), ('push', 'push'), ('pull', 'pull'), ('carry', 'carry'), ('trunk', 'trunk'), ('jump', 'jump'), ('landing', 'landing'), ('sprint', 'sprint'), ('agility', 'agility'), ('rotation', 'rotation'), ('locomotion', 'locomotion'), ('mobility', 'mobility'), ('hip', 'hip control'), ('shoulder', 'shoulder control'), ('ankle', 'ankle'), ('knee_flexion', 'knee flexion'), ('recovery', 'recovery')], max_length=14, verbose_name='movement pattern')),
                ('cap_value', models.DecimalField(blank=True, decimal_places=2, max_digits=7, null=True, verbose_name='at most')),
                ('cap_unit', models.CharField(blank=True, choices=[('kg', 'kilograms (kg)'), ('lb', 'pounds (lb)')], max_length=2, verbose_name='unit')),
                ('can_do', models.CharField(blank=True, max_length=200, verbose_name='can do instead')),
                ('diagnosis', models.CharField(blank=True, max_length=200, verbose_name='diagnosis')),
                ('on_word_of', models.CharField(max_length=120, verbose_name='on whose word')),
                ('is_clinical', models.BooleanField(default=False, verbose_name="a clinician's hold")),
                ('starts_on', models.DateField(verbose_name='from')),
                ('review_on', models.DateField(blank=True, null=True, verbose_name='look at again on')),
                ('set_at', models.DateTimeField()),
                ('lifted_at', models.DateTimeField(blank=True, null=True)),
                ('lifted_on_word_of', models.CharField(blank=True, max_length=120, verbose_name='lifted on whose word')),
                ('athlete', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='restrictions', to='people.athlete')),
                ('exercise', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to='library.exercise')),
                ('lifted_by', models.ForeignKey(null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
                ('set_by', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
            ],
            options={
                'ordering': ('starts_on', 'pk'),
                'constraints': [models.CheckConstraint(condition=models.Q(('kind__in', ['region', 'pattern', 'exercise', 'impact', 'overhead', 'grip', 'range', 'load_cap'])), name='restriction_kind'), models.CheckConstraint(condition=models.Q(('side__in', ['both', 'left', 'right'])), name='restriction_side'), models.CheckConstraint(condition=models.Q(models.Q(models.Q(('kind', 'region'), ('region__in', ['neck', 'shoulder', 'elbow', 'wrist_hand', 'chest', 'upper_back', 'low_back', 'abdomen', 'hip', 'groin', 'thigh_front', 'thigh_back', 'knee', 'lower_leg', 'ankle', 'foot'])), models.Q(models.Q(('kind', 'region'), _negated=True), ('region', '')), _connector='OR'), models.Q(models.Q(('kind', 'pattern'), ('pattern__in', ['hinge', 'squat', 'lunge', 'push', 'pull', 'carry', 'trunk', 'jump', 'landing', 'sprint', 'agility', 'rotation', 'locomotion', 'mobility', 'hip', 'shoulder', 'ankle', 'knee_flexion', 'recovery'])), models.Q(models.Q(('kind', 'pattern'), _negated=True), ('pattern', '')), _connector='OR'), models.Q(models.Q(('exercise__isnull', False), ('kind', 'exercise')), models.Q(('kind', 'exercise'), _negated=True), _connector='OR'), models.Q(models.Q(('cap_unit__in', ['kg', 'lb']), ('cap_value__gt', 0), ('cap_value__isnull', False), ('kind', 'load_cap')), models.Q(('kind', 'load_cap'), _negated=True), _connector='OR')), name='restriction_says_what'), models.CheckConstraint(condition=models.Q(models.Q(('lifted_at', None), ('lifted_by', None)), models.Q(('lifted_at__isnull', False), ('lifted_by__isnull', False), models.Q(('lifted_on_word_of', ''), _negated=True)), _connector='OR'), name='restriction_lifted_on_word'), models.CheckConstraint(condition=models.Q(('review_on', None), ('review_on__gte', models.F('starts_on')), _connector='OR'), name='restriction_review_after_start')],
            },
        ),
        migrations.CreateModel(
            name='RestrictionException',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('cap_value', models.DecimalField(blank=True, decimal_places=2, max_digits=7, null=True, verbose_name='at most')),
                ('cap_unit', models.CharField(blank=True, choices=[('kg', 'kilograms (kg)'), ('lb', 'pounds (lb)')], max_length=2, verbose_name='unit')),
                ('on_word_of', models.CharField(max_length=120, verbose_name='on whose word')),
                ('added_at', models.DateTimeField()),
                ('exercise', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='+', to='library.exercise')),
                ('restriction', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='exceptions', to='people.restriction')),
            ],
            options={
                'constraints': [models.UniqueConstraint(fields=('restriction', 'exercise'), name='exception_once'), models.CheckConstraint(condition=models.Q(models.Q(('cap_unit', ''), ('cap_value', None)), models.Q(('cap_unit__in', ['kg', 'lb']), ('cap_value__gt', 0), ('cap_value__isnull', False)), _connector='OR'), name='exception_cap_with_unit')],
            },
        ),
        migrations.CreateModel(
            name='Membership',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('started_on', models.DateField(verbose_name='from')),
                ('ended_on', models.DateField(blank=True, null=True, verbose_name='to')),
                ('athlete', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='memberships', to='people.athlete')),
                ('squad', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='memberships', to='people.squad')),
            ],
            options={
                'ordering': ('started_on', 'pk'),
                'constraints': [models.UniqueConstraint(condition=models.Q(('ended_on', None)), fields=('squad', 'athlete'), name='one_open_membership'), models.CheckConstraint(condition=models.Q(('ended_on', None), ('ended_on__gte', models.F('started_on')), _connector='OR'), name='membership_ends_after_start')],
            },
        ),
        migrations.CreateModel(
            name='Staff',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('archived_at', models.DateTimeField(blank=True, editable=False, null=True)),
                ('name', models.CharField(max_length=120, verbose_name='name')),
                ('role', models.CharField(choices=[('owner', 'owner'), ('coach', 'coach'), ('assistant', 'assistant'), ('clinician', 'clinician'), ('head_coach', 'head coach')], max_length=12, verbose_name='role')),
                ('user', models.OneToOneField(on_delete=django.db.models.deletion.PROTECT, related_name='staff', to=settings.AUTH_USER_MODEL)),
            ],
            options={
                'ordering': ('name', 'pk'),
            },
        ),
        migrations.CreateModel(
            name='StaffSquad',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('squad', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='staff_squads', to='people.squad')),
                ('staff', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='staff_squads', to='people.staff')),
            ],
            options={
                'constraints': [models.UniqueConstraint(fields=('staff', 'squad'), name='staff_squad_once')],
            },
        ),
        migrations.AddField(
            model_name='staff',
            name='squads',
            field=models.ManyToManyField(related_name='staff', through='people.StaffSquad', to='people.squad'),
        ),
        migrations.AddConstraint(
            model_name='staff',
            constraint=models.CheckConstraint(condition=models.Q(('role__in', ['owner', 'coach', 'assistant', 'clinician', 'head_coach'])), name='staff_role'),
        ),
    ]
