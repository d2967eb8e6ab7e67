import datetime
import django.core.validators
import django.db.models.deletion
from django.db import migrations, models


class Migration(migrations.Migration):

    initial = True

    dependencies = [
        ('clubs', '0001_initial'),
    ]

    operations = [
        migrations.CreateModel(
            name='Event',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('name', models.CharField(max_length=120)),
                ('slug', models.SlugField(max_length=140, unique=True)),
                ('date', models.DateField(help_text='First day')),
                ('weight_unit', models.CharField(choices=[('lb', 'lb'), ('lb-oz', 'lb-oz'), ('kg', 'kg')], max_length=5)),
                ('start_time', models.TimeField(default=datetime.time(6, 0))),
                ('due_time', models.TimeField(default=datetime.time(15, 0))),
                ('time_zone', models.CharField(default='America/Chicago', max_length=60)),
                ('handling', models.CharField(choices=[('hold_release', 'Held, weighed and released'), ('immediate_release', 'Measured and released at once'), ('harvest', 'Kept')], default='hold_release', max_length=20)),
                ('elevation_ft', models.CharField(blank=True, max_length=20)),
                ('lake_temp', models.CharField(blank=True, max_length=20)),
                ('entry_fee', models.DecimalField(decimal_places=2, default=0, max_digits=12, validators=[django.core.validators.MinValueValidator(0)])),
                ('added_money', models.DecimalField(decimal_places=2, default=0, max_digits=12, validators=[django.core.validators.MinValueValidator(0)])),
                ('permit', models.CharField(blank=True, max_length=500)),
                ('ramp', models.CharField(blank=True, max_length=120)),
                ('dead_fish', models.CharField(blank=True, choices=[('given', 'Given away to eat'), ('kept', 'Kept by the anglers'), ('buried', 'Buried'), ('rendered', 'Taken to a rendering or compost plant'), ('agency', 'Handed to the agency'), ('none', 'No fish died'), ('other', 'Something else')], max_length=10)),
                ('dead_fish_words', models.CharField(blank=True, max_length=200)),
                ('note', models.TextField(blank=True, max_length=2000)),
                ('is_public', models.BooleanField(default=False)),
                ('closed_at', models.DateTimeField(blank=True, null=True)),
                ('revision', models.PositiveIntegerField(default=0, help_text='Goes up with every write that concerns the event')),
                ('season', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='events', to='clubs.season')),
                ('water', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='events', to='clubs.water')),
            ],
            options={
                'ordering': ('-date', '-id'),
            },
        ),
        migrations.CreateModel(
            name='EventDay',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('number', models.PositiveSmallIntegerField()),
                ('date', models.DateField(default=datetime.date.today)),
                ('start_time', models.TimeField(blank=True, null=True)),
                ('due_time', models.TimeField(blank=True, null=True)),
                ('lake_temp', models.CharField(blank=True, max_length=20)),
                ('air_temp', models.CharField(blank=True, max_length=20)),
                ('weather', models.CharField(blank=True, max_length=200)),
                ('status', models.CharField(choices=[('fished', 'Fished'), ('shortened', 'Shortened'), ('cancelled', 'Cancelled')], default='fished', max_length=10)),
                ('note', models.TextField(blank=True, max_length=2000)),
                ('event', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='event_days', to='events.event')),
            ],
            options={
                'ordering': ('number',),
            },
        ),
        migrations.CreateModel(
            name='Flight',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('name', models.CharField(max_length=40)),
                ('day', models.PositiveSmallIntegerField(blank=True, null=True)),
                ('launch', models.TimeField(blank=True, null=True)),
                ('due_time', models.TimeField()),
                ('event', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='flights', to='events.event')),
            ],
            options={
                'ordering': ('name', 'day'),
            },
        ),
        migrations.CreateModel(
            name='RuleSheet',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('written', models.JSONField(default=dict)),
                ('event', models.OneToOneField(on_delete=django.db.models.deletion.CASCADE, related_name='rule_sheet', to='events.event')),
            ],
        ),
        migrations.AddConstraint(
            model_name='event',
            constraint=models.UniqueConstraint(fields=('season', 'name'), name='one_event_of_a_name'),
        ),
        migrations.AddConstraint(
            model_name='eventday',
            constraint=models.UniqueConstraint(fields=('event', 'number'), name='one_day_of_a_number'),
        ),
        migrations.AddConstraint(
            model_name='flight',
            constraint=models.UniqueConstraint(fields=('event', 'name', 'day'), name='one_due_time_a_flight_and_day'),
        ),
        migrations.AddConstraint(
            model_name='flight',
            constraint=models.UniqueConstraint(condition=models.Q(('day__isnull', True)), fields=('event', 'name'), name='one_due_time_a_flight'),
        ),
    ]
