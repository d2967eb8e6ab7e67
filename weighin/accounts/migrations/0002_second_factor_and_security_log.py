import django.db.models.deletion
import django.utils.timezone
from django.conf import settings
from django.db import migrations, models


def end_sessions(apps, schema_editor):
    """Sessions from before last two weeks and stand in no list: everybody signs in once more."""
    apps.get_model("sessions", "Session").objects.all().delete()


class Migration(migrations.Migration):

    dependencies = [
        ('sessions', '0001_initial'),
        ('accounts', '0001_initial'),
    ]

    operations = [
        migrations.CreateModel(
            name='SecurityEntry',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('at', models.DateTimeField(db_index=True, default=django.utils.timezone.now)),
                ('last_at', models.DateTimeField(default=django.utils.timezone.now)),
                ('times', models.PositiveIntegerField(default=1)),
                ('kind', models.CharField(max_length=30)),
                ('person_id', models.BigIntegerField(blank=True, db_index=True, null=True)),
                ('actor', models.CharField(blank=True, max_length=150)),
                ('club_id', models.BigIntegerField(blank=True, db_index=True, null=True)),
                ('address', models.CharField(blank=True, max_length=45)),
                ('about', models.CharField(blank=True, max_length=200)),
            ],
            options={
                'ordering': ('-id',),
            },
        ),
        migrations.AddField(
            model_name='user',
            name='first_password',
            field=models.BooleanField(default=False),
        ),
        migrations.CreateModel(
            name='Device',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('session_key', models.CharField(max_length=40, unique=True)),
                ('words', models.CharField(max_length=80)),
                ('address', models.CharField(max_length=45)),
                ('at', models.DateTimeField(default=django.utils.timezone.now)),
                ('user', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='devices', to=settings.AUTH_USER_MODEL)),
            ],
            options={
                'ordering': ('-at',),
            },
        ),
        migrations.CreateModel(
            name='SecondFactor',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('key', models.CharField(max_length=64)),
                ('step', models.BigIntegerField(default=0)),
                ('at', models.DateTimeField(default=django.utils.timezone.now)),
                ('user', models.OneToOneField(on_delete=django.db.models.deletion.CASCADE, related_name='second_factor', to=settings.AUTH_USER_MODEL)),
            ],
        ),
        migrations.CreateModel(
            name='RecoveryCode',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('digest', models.CharField(max_length=64)),
                ('used_at', models.DateTimeField(blank=True, null=True)),
                ('user', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='recovery_codes', to=settings.AUTH_USER_MODEL)),
            ],
            options={
                'constraints': [models.UniqueConstraint(fields=('user', 'digest'), name='one_recovery_code_of_a_digest')],
            },
        ),
        migrations.RunPython(end_sessions, migrations.RunPython.noop),
    ]
