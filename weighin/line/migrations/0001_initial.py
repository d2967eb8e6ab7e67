import django.core.validators
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
            name='LineTerms',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('scales', models.PositiveSmallIntegerField(validators=[django.core.validators.MinValueValidator(1), django.core.validators.MaxValueValidator(10)])),
                ('bags', models.PositiveSmallIntegerField(validators=[django.core.validators.MinValueValidator(1), django.core.validators.MaxValueValidator(500)])),
                ('walk_seconds', models.PositiveSmallIntegerField(validators=[django.core.validators.MaxValueValidator(3600)])),
                ('boat_seconds', models.PositiveSmallIntegerField(help_text='A boat at one scale, before any is weighed', validators=[django.core.validators.MinValueValidator(10), django.core.validators.MaxValueValidator(3600)])),
                ('at', models.DateTimeField(default=django.utils.timezone.now)),
                ('recorded_by', models.CharField(max_length=150)),
                ('event', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='line_terms', to='events.event')),
            ],
            options={
                'verbose_name': 'terms of the line',
                'ordering': ('id',),
            },
        ),
        migrations.CreateModel(
            name='LineWord',
            fields=[
                ('id', models.UUIDField(default=uuid.uuid4, editable=False, primary_key=True, serialize=False)),
                ('day', models.PositiveSmallIntegerField()),
                ('said', models.CharField(choices=[('bag_issued', 'Bag given'), ('at_scales', 'At the scales'), ('bag_back', 'Bag taken back unused'), ('left', 'Out of the line'), ('returned', 'Back in the line'), ('hold', 'Line held'), ('oxygen', 'Oxygen checked'), ('resume', 'Line goes on')], max_length=20)),
                ('at', models.DateTimeField(default=django.utils.timezone.now)),
                ('person', models.CharField(blank=True, help_text='Who resumes a held line, or resumed it', max_length=80)),
                ('oxygen_minutes', models.PositiveSmallIntegerField(blank=True, null=True)),
                ('note', models.CharField(blank=True, max_length=500)),
                ('recorded_by', models.CharField(max_length=150)),
                ('entry', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='line_words', to='roster.entry')),
                ('event', models.ForeignKey(db_index=False, on_delete=django.db.models.deletion.PROTECT, related_name='line_words', to='events.event')),
            ],
            options={
                'verbose_name': 'word of the line',
                'ordering': ('at', 'id'),
                'indexes': [models.Index(fields=['event', 'day', 'at'], name='words_of_a_days_line')],
            },
        ),
    ]
