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
            name='Holdback',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('since', models.DateTimeField(blank=True, null=True)),
                ('said_at', models.DateTimeField(default=django.utils.timezone.now)),
                ('by', models.CharField(max_length=150)),
                ('event', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='holdbacks', to='events.event')),
            ],
            options={
                'ordering': ('-id',),
            },
        ),
        migrations.CreateModel(
            name='OfficialResult',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('version', models.PositiveIntegerField()),
                ('published_at', models.DateTimeField(default=django.utils.timezone.now)),
                ('published_by', models.CharField(max_length=150)),
                ('reason', models.CharField(blank=True, max_length=500)),
                ('ledger_length', models.PositiveIntegerField()),
                ('ledger_head', models.CharField(max_length=64)),
                ('stage', models.CharField(blank=True, default='', max_length=120)),
                ('overruled', models.JSONField(blank=True, null=True)),
                ('document', models.JSONField()),
                ('event', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='official_results', to='events.event')),
            ],
            options={
                'verbose_name': 'official result',
                'ordering': ('-version',),
                'constraints': [models.UniqueConstraint(fields=('event', 'version'), name='one_result_a_version')],
            },
        ),
    ]
