import django.db.models.deletion
import django.utils.timezone
import uuid
from django.db import migrations, models


class Migration(migrations.Migration):

    initial = True

    dependencies = [
        ('events', '0001_initial'),
        ('roster', '0001_initial'),
    ]

    operations = [
        migrations.CreateModel(
            name='CareNote',
            fields=[
                ('id', models.UUIDField(default=uuid.uuid4, editable=False, primary_key=True, serialize=False)),
                ('day', models.PositiveSmallIntegerField()),
                ('pump_ok', models.BooleanField(blank=True, null=True)),
                ('aeration', models.CharField(blank=True, choices=[('recirculated', 'Recirculated'), ('pumped', 'Pumped from the lake'), ('oxygen', 'Oxygen'), ('none', 'None')], max_length=20)),
                ('livewell_gal', models.CharField(blank=True, max_length=40)),
                ('ice_lb', models.CharField(blank=True, max_length=40)),
                ('thermometer_ok', models.BooleanField(blank=True, null=True)),
                ('launched', models.DateTimeField(blank=True, null=True)),
                ('first_fish', models.DateTimeField(blank=True, null=True)),
                ('livewell_temp', models.CharField(blank=True, max_length=20)),
                ('livewell_do', models.CharField(blank=True, max_length=40)),
                ('most_on_board', models.PositiveIntegerField(blank=True, null=True)),
                ('culled', models.PositiveIntegerField(blank=True, help_text='Fish put back alive for larger ones', null=True)),
                ('catch_depth_ft', models.CharField(blank=True, help_text='The deepest water that fish came from', max_length=40)),
                ('deep_hooked', models.PositiveIntegerField(blank=True, null=True)),
                ('barotrauma', models.PositiveIntegerField(blank=True, null=True)),
                ('reflexes_absent', models.PositiveIntegerField(blank=True, null=True)),
                ('reflexes_checked', models.PositiveIntegerField(blank=True, null=True)),
                ('note', models.CharField(blank=True, max_length=500)),
                ('entry', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='care_notes', to='roster.entry')),
                ('event', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='care_notes', to='events.event')),
            ],
            options={
                'ordering': ('day', 'entry__boat'),
                'constraints': [models.UniqueConstraint(fields=('entry', 'day'), name='one_note_a_boat_and_day')],
            },
        ),
        migrations.CreateModel(
            name='SentNote',
            fields=[
                ('id', models.UUIDField(default=uuid.uuid4, editable=False, primary_key=True, serialize=False)),
                ('number', models.PositiveIntegerField()),
                ('day', models.PositiveSmallIntegerField()),
                ('said', models.JSONField(default=dict)),
                ('stands', models.BooleanField()),
                ('official', models.CharField(blank=True, max_length=500)),
                ('reason', models.CharField(blank=True, max_length=500)),
                ('void', models.BooleanField(default=False)),
                ('sent_at', models.DateTimeField(blank=True, help_text='By the clock of the device that sent it', null=True)),
                ('received_at', models.DateTimeField(default=django.utils.timezone.now)),
                ('recorded_by', models.CharField(max_length=150)),
                ('entry', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='sent_notes', to='roster.entry')),
                ('event', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='sent_notes', to='events.event')),
                ('replaces', models.OneToOneField(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='replaced_by', to='care.sentnote')),
            ],
            options={
                'verbose_name': 'sent care note',
                'ordering': ('number',),
                'indexes': [models.Index(fields=['event', 'entry', 'day'], name='sent_notes_of_a_boat_and_day')],
                'constraints': [models.UniqueConstraint(fields=('event', 'number'), name='one_sent_note_of_a_number')],
            },
        ),
    ]
