from __future__ import annotations

from django.db import migrations


class Migration(migrations.Migration):

    dependencies = [
        ('plans', '0003_checks_of_a_coach'),
    ]

    operations = [
        migrations.RenameField('prescription', 'by_level', 'is_by_level'),
    ]
