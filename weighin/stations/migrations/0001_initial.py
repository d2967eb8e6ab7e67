import django.db.models.deletion
import django.utils.timezone
from django.db import migrations, models


class Migration(migrations.Migration):

    initial = True

    dependencies = [
        ('events', '0001_initial'),
    ]

    operations = [
        migrations.CreateModel(
            name='Station',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('name', models.CharField(max_length=80)),
                ('token_digest', models.CharField(max_length=64, unique=True)),
                ('can', models.CharField(max_length=40)),
                ('made_at', models.DateTimeField(default=django.utils.timezone.now)),
                ('made_by', models.CharField(max_length=150)),
                ('withdrawn_at', models.DateTimeField(blank=True, null=True)),
                ('withdrawn_by', models.CharField(blank=True, max_length=150)),
                ('event', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='stations', to='events.event')),
            ],
            options={
                'ordering': ('name', 'made_at'),
                'constraints': [models.UniqueConstraint(condition=models.Q(('withdrawn_at__isnull', True)), fields=('event', 'name'), name='one_live_station_of_a_name')],
            },
        ),
    ]
