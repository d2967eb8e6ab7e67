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
            name='PaperPad',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('name', models.CharField(help_text='Its colour or mark', max_length=40)),
                ('first', models.PositiveIntegerField()),
                ('last', models.PositiveIntegerField()),
                ('handed_to', models.CharField(max_length=120)),
                ('handed_at', models.DateTimeField(default=django.utils.timezone.now)),
                ('recorded_by', models.CharField(max_length=150)),
                ('event', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='paper_pads', to='events.event')),
            ],
            options={
                'verbose_name': 'pad of paper slips',
                'ordering': ('first',),
            },
        ),
        migrations.CreateModel(
            name='PaperNumber',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('number', models.PositiveIntegerField()),
                ('became', models.CharField(choices=[('entered', 'Entered'), ('spoiled', 'Spoiled'), ('blank', 'Came back blank')], max_length=10)),
                ('slip_id', models.UUIDField(blank=True, db_index=True, null=True)),
                ('reason', models.CharField(blank=True, max_length=500)),
                ('void', models.BooleanField(default=False)),
                ('recorded_at', models.DateTimeField(default=django.utils.timezone.now)),
                ('recorded_by', models.CharField(max_length=150)),
                ('event', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='paper_numbers', to='events.event')),
                ('replaces', models.OneToOneField(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='replaced_by', to='slips.papernumber')),
            ],
            options={
                'verbose_name': 'number of a paper slip',
                'ordering': ('number', 'id'),
                'indexes': [models.Index(fields=['event', 'number'], name='paper_numbers_of_an_event')],
            },
        ),
        migrations.CreateModel(
            name='WeighSlip',
            fields=[
                ('id', models.UUIDField(default=uuid.uuid4, editable=False, primary_key=True, serialize=False)),
                ('number', models.PositiveIntegerField()),
                ('day', models.PositiveSmallIntegerField()),
                ('fish', models.PositiveIntegerField(default=0)),
                ('alive', models.PositiveIntegerField(default=0)),
                ('dead', models.PositiveIntegerField(default=0)),
                ('short', models.PositiveIntegerField(default=0)),
                ('gross', models.CharField(blank=True, max_length=40)),
                ('tare', models.CharField(blank=True, max_length=40)),
                ('big_fish', models.CharField(blank=True, max_length=40)),
                ('big_fish_alive', models.BooleanField(blank=True, null=True)),
                ('largest_weights', models.CharField(blank=True, max_length=500)),
                ('black_crappie', models.PositiveIntegerField(blank=True, null=True)),
                ('white_crappie', models.PositiveIntegerField(blank=True, null=True)),
                ('other_species', models.PositiveIntegerField(blank=True, null=True)),
                ('well_boat', models.PositiveIntegerField(blank=True, null=True)),
                ('checked_in', models.DateTimeField(blank=True, null=True)),
                ('minutes_late', models.PositiveIntegerField(blank=True, null=True)),
                ('excused_minutes', models.CharField(blank=True, max_length=40)),
                ('bag_issued', models.DateTimeField(blank=True, null=True)),
                ('weighed', models.DateTimeField(blank=True, null=True)),
                ('bag_emptied', models.DateTimeField(blank=True, null=True)),
                ('released', models.DateTimeField(blank=True, null=True)),
                ('dead_at_release', models.PositiveIntegerField(blank=True, null=True)),
                ('kept', models.PositiveIntegerField(blank=True, null=True)),
                ('extra_penalty', models.CharField(blank=True, max_length=40)),
                ('extra_penalty_reason', models.CharField(blank=True, max_length=500)),
                ('disqualified_reason', models.CharField(blank=True, max_length=500)),
                ('official', models.CharField(blank=True, max_length=500)),
                ('note', models.CharField(blank=True, max_length=500)),
                ('reason', models.CharField(blank=True, max_length=500)),
                ('void', models.BooleanField(default=False)),
                ('sent_at', models.DateTimeField(blank=True, help_text='By the clock of the device that sent it', null=True)),
                ('received_at', models.DateTimeField(default=django.utils.timezone.now)),
                ('recorded_by', models.CharField(max_length=150)),
                ('position', models.PositiveIntegerField()),
                ('version', models.PositiveSmallIntegerField(default=1, help_text='Of the content that is chained')),
                ('link', models.CharField(max_length=64)),
                ('entry', models.ForeignKey(db_index=False, on_delete=django.db.models.deletion.PROTECT, related_name='slips', to='roster.entry')),
                ('event', models.ForeignKey(db_index=False, on_delete=django.db.models.deletion.PROTECT, related_name='slips', to='events.event')),
                ('replaces', models.OneToOneField(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='replaced_by', to='slips.weighslip')),
            ],
            options={
                'verbose_name': 'weigh slip',
                'ordering': ('position',),
                'indexes': [models.Index(fields=['entry', 'day'], name='slips_of_an_entry_and_day')],
                'constraints': [models.UniqueConstraint(fields=('event', 'number'), name='one_slip_of_a_number'), models.UniqueConstraint(fields=('event', 'position'), name='one_slip_a_position')],
            },
        ),
    ]
