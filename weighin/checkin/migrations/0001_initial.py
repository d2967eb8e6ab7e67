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
            name='CheckIn',
            fields=[
                ('id', models.UUIDField(default=uuid.uuid4, editable=False, primary_key=True, serialize=False)),
                ('number', models.PositiveIntegerField()),
                ('day', models.PositiveSmallIntegerField()),
                ('checked_in', models.DateTimeField(blank=True, null=True)),
                ('minutes_late', models.PositiveIntegerField(blank=True, null=True)),
                ('excused_minutes', models.CharField(blank=True, max_length=40)),
                ('whereabouts', models.CharField(blank=True, choices=[('launched', 'Launched'), ('in_by_water', 'In by water'), ('in_by_road', 'In by road'), ('phoned', 'Phoned'), ('unaccounted', 'Unaccounted for')], max_length=20)),
                ('word', models.CharField(blank=True, help_text='The last word, from whom and where', max_length=500)),
                ('told_at', models.DateTimeField(blank=True, null=True)),
                ('official', models.CharField(blank=True, max_length=500)),
                ('note', models.CharField(blank=True, max_length=500)),
                ('reason', models.CharField(blank=True, max_length=500)),
                ('void', models.BooleanField(default=False)),
                ('sent_at', models.DateTimeField(blank=True, null=True)),
                ('received_at', models.DateTimeField(default=django.utils.timezone.now)),
                ('recorded_by', models.CharField(max_length=150)),
                ('entry', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='checkins', to='roster.entry')),
                ('event', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='checkins', to='events.event')),
                ('replaces', models.OneToOneField(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='replaced_by', to='checkin.checkin')),
            ],
            options={
                'verbose_name': 'check-in',
                'ordering': ('number',),
                'indexes': [models.Index(fields=['event', 'entry', 'day'], name='check_ins_of_a_boat_and_day')],
                'constraints': [models.UniqueConstraint(fields=('event', 'number'), name='one_check_in_of_a_number')],
            },
        ),
        migrations.CreateModel(
            name='DueNotice',
            fields=[
                ('id', models.UUIDField(default=uuid.uuid4, editable=False, primary_key=True, serialize=False)),
                ('number', models.PositiveIntegerField()),
                ('day', models.PositiveSmallIntegerField()),
                ('moved', models.JSONField(default=dict)),
                ('shortened', models.BooleanField(default=False)),
                ('given_at', models.DateTimeField(help_text='When the boats were told')),
                ('given_by', models.CharField(max_length=120)),
                ('how', models.CharField(choices=[('horn', 'Horn'), ('radio', 'Radio'), ('phone', 'Telephone'), ('boat', 'By boat'), ('board', 'On the board')], max_length=10)),
                ('reason', models.CharField(max_length=500)),
                ('received_at', models.DateTimeField(default=django.utils.timezone.now)),
                ('recorded_by', models.CharField(max_length=150)),
                ('event', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='due_notices', to='events.event')),
            ],
            options={
                'verbose_name': 'due notice',
                'ordering': ('number',),
                'constraints': [models.UniqueConstraint(fields=('event', 'number'), name='one_due_notice_of_a_number')],
            },
        ),
    ]
