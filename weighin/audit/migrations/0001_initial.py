import django.utils.timezone
import uuid
from django.db import migrations, models


class Migration(migrations.Migration):

    initial = True

    dependencies = [
    ]

    operations = [
        migrations.CreateModel(
            name='DatabaseLife',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('key', models.UUIDField(default=uuid.uuid4)),
            ],
        ),
        migrations.CreateModel(
            name='HistoryEntry',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('at', models.DateTimeField(default=django.utils.timezone.now)),
                ('actor', models.CharField(max_length=150)),
                ('act', models.CharField(max_length=60)),
                ('club_id', models.BigIntegerField(blank=True, db_index=True, null=True)),
                ('event_id', models.BigIntegerField(blank=True, db_index=True, null=True)),
                ('subject', models.CharField(blank=True, max_length=120)),
                ('sentence', models.TextField()),
                ('details', models.JSONField(blank=True, default=dict)),
            ],
            options={
                'verbose_name': 'history entry',
                'verbose_name_plural': 'history entries',
                'ordering': ('id',),
            },
        ),
    ]
