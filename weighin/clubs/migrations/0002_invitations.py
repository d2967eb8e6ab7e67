import django.db.models.deletion
import django.utils.timezone
from django.conf import settings
from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('clubs', '0001_initial'),
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
    ]

    operations = [
        migrations.AddField(
            model_name='club',
            name='asks_second_factor',
            field=models.BooleanField(default=False),
        ),
        migrations.CreateModel(
            name='Invitation',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('role', models.CharField(choices=[('director', 'Director'), ('weigh_official', 'Weigh official'), ('fish_care_official', 'Fish-care official'), ('club_reviewer', 'Club reviewer')], max_length=30)),
                ('name', models.CharField(max_length=120)),
                ('digest', models.CharField(blank=True, max_length=64, null=True, unique=True)),
                ('made_at', models.DateTimeField(default=django.utils.timezone.now)),
                ('made_by', models.CharField(max_length=150)),
                ('ends_at', models.DateTimeField()),
                ('closed_at', models.DateTimeField(blank=True, null=True)),
                ('club', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='invitations', to='clubs.club')),
                ('user', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.CASCADE, related_name='invitations', to=settings.AUTH_USER_MODEL)),
            ],
            options={
                'ordering': ('-made_at',),
            },
        ),
    ]
