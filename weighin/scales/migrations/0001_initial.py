import django.db.models.deletion
import django.utils.timezone
import uuid
from django.db import migrations, models


class Migration(migrations.Migration):

    initial = True

    dependencies = [
        ('events', '0001_initial'),
    ]

    operations = [
        migrations.CreateModel(
            name='Scale',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('name', models.CharField(max_length=40)),
                ('made_by', models.CharField(blank=True, help_text='Maker and number', max_length=120)),
                ('unit', models.CharField(max_length=5)),
                ('division', models.CharField(max_length=40)),
                ('new', models.BooleanField(default=False, help_text='Acceptance tolerance')),
                ('in_use', models.BooleanField(default=True)),
                ('stations', models.CharField(blank=True, max_length=400)),
                ('layout', models.CharField(blank=True, max_length=20)),
                ('pattern', models.CharField(blank=True, max_length=200)),
                ('ask', models.CharField(blank=True, help_text='What it must be sent before it says its weight', max_length=10)),
                ('baud', models.PositiveIntegerField(default=9600)),
                ('data_bits', models.PositiveSmallIntegerField(default=8)),
                ('parity', models.CharField(choices=[('N', 'None'), ('E', 'Even'), ('O', 'Odd')], default='N', max_length=1)),
                ('stop_bits', models.PositiveSmallIntegerField(default=1)),
                ('event', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='scales', to='events.event')),
            ],
            options={
                'ordering': ('name',),
            },
        ),
        migrations.CreateModel(
            name='ScaleNow',
            fields=[
                ('scale', models.OneToOneField(on_delete=django.db.models.deletion.CASCADE, primary_key=True, related_name='now', serialize=False, to='scales.scale')),
                ('state', models.CharField(max_length=20)),
                ('text', models.CharField(blank=True, max_length=40)),
                ('unit', models.CharField(blank=True, max_length=10)),
                ('raw', models.CharField(blank=True, max_length=200)),
                ('at', models.DateTimeField(default=django.utils.timezone.now)),
                ('told_by', models.CharField(max_length=150)),
            ],
        ),
        migrations.CreateModel(
            name='ScaleCheck',
            fields=[
                ('id', models.UUIDField(default=uuid.uuid4, editable=False, primary_key=True, serialize=False)),
                ('moment', models.CharField(choices=[('before', 'Before the weigh-in'), ('during', 'During the weigh-in'), ('after', 'After the weigh-in')], max_length=10)),
                ('at', models.DateTimeField()),
                ('test_weight', models.CharField(max_length=40)),
                ('shown', models.CharField(max_length=40)),
                ('unit', models.CharField(max_length=5)),
                ('division', models.CharField(max_length=40)),
                ('new', models.BooleanField(default=False)),
                ('tested_by', models.CharField(max_length=120)),
                ('note', models.CharField(blank=True, max_length=500)),
                ('reason', models.CharField(blank=True, max_length=500)),
                ('void', models.BooleanField(default=False)),
                ('received_at', models.DateTimeField(default=django.utils.timezone.now)),
                ('recorded_by', models.CharField(max_length=150)),
                ('replaces', models.OneToOneField(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='replaced_by', to='scales.scalecheck')),
                ('scale', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='checks', to='scales.scale')),
            ],
            options={
                'verbose_name': 'scale check',
                'ordering': ('at', 'received_at'),
            },
        ),
        migrations.CreateModel(
            name='ScaleReading',
            fields=[
                ('id', models.UUIDField(default=uuid.uuid4, editable=False, primary_key=True, serialize=False)),
                ('slip_id', models.UUIDField(db_index=True)),
                ('field', models.CharField(max_length=20)),
                ('text', models.CharField(max_length=40)),
                ('unit', models.CharField(max_length=5)),
                ('raw', models.CharField(max_length=200)),
                ('taken_at', models.DateTimeField()),
                ('sent_at', models.DateTimeField(blank=True, null=True)),
                ('received_at', models.DateTimeField(default=django.utils.timezone.now)),
                ('recorded_by', models.CharField(max_length=150)),
                ('event', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='scale_readings', to='events.event')),
                ('scale', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='readings', to='scales.scale')),
            ],
            options={
                'verbose_name': 'reading of a scale',
                'ordering': ('taken_at', 'id'),
            },
        ),
        migrations.AddConstraint(
            model_name='scale',
            constraint=models.UniqueConstraint(fields=('event', 'name'), name='one_scale_of_a_name'),
        ),
    ]
