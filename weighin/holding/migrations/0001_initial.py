import django.db.models.deletion
import uuid
from django.db import migrations, models


class Migration(migrations.Migration):

    initial = True

    dependencies = [
        ('events', '0001_initial'),
    ]

    operations = [
        migrations.CreateModel(
            name='HoldingPen',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('group', models.CharField(max_length=80)),
                ('kind', models.CharField(choices=[('tournament', 'Tournament fish'), ('reference', 'Reference fish')], max_length=20)),
                ('pen', models.CharField(blank=True, max_length=80)),
                ('source', models.CharField(blank=True, max_length=200)),
                ('species', models.CharField(blank=True, max_length=80)),
                ('started', models.CharField(blank=True, max_length=40)),
                ('hours', models.CharField(max_length=40)),
                ('held', models.PositiveIntegerField()),
                ('dead', models.PositiveIntegerField()),
                ('missing', models.PositiveIntegerField(default=0)),
                ('water_temp', models.CharField(blank=True, max_length=20)),
                ('note', models.CharField(blank=True, max_length=500)),
                ('sent_id', models.UUIDField(blank=True, editable=False, help_text='Of the form that sent it', null=True, unique=True)),
                ('event', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='holding_pens', to='events.event')),
            ],
            options={
                'ordering': ('id',),
            },
        ),
        migrations.CreateModel(
            name='StudyPen',
            fields=[
                ('id', models.UUIDField(default=uuid.uuid4, editable=False, primary_key=True, serialize=False)),
                ('group', models.CharField(max_length=80)),
                ('kind', models.CharField(choices=[('tournament', 'Tournament fish'), ('reference', 'Reference fish')], max_length=20)),
                ('pen', models.CharField(max_length=80)),
                ('source', models.CharField(blank=True, max_length=200)),
                ('species', models.CharField(blank=True, max_length=80)),
                ('started', models.DateTimeField()),
                ('planned_hours', models.PositiveSmallIntegerField()),
                ('held', models.PositiveIntegerField()),
                ('note', models.CharField(blank=True, max_length=500)),
                ('event', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='study_pens', to='events.event')),
                ('record', models.OneToOneField(blank=True, null=True, on_delete=django.db.models.deletion.SET_NULL, related_name='study_pen', to='holding.holdingpen')),
            ],
            options={
                'ordering': ('-kind', 'pen', 'id'),
            },
        ),
        migrations.CreateModel(
            name='PenCheck',
            fields=[
                ('id', models.UUIDField(default=uuid.uuid4, editable=False, primary_key=True, serialize=False)),
                ('at', models.DateTimeField()),
                ('dead', models.PositiveIntegerField(default=0)),
                ('missing', models.PositiveIntegerField(default=0)),
                ('escaped', models.PositiveIntegerField(default=0)),
                ('water_temp', models.CharField(blank=True, max_length=20)),
                ('do', models.CharField(blank=True, max_length=40)),
                ('note', models.CharField(blank=True, max_length=500)),
                ('pen', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='checks', to='holding.studypen')),
            ],
            options={
                'ordering': ('at', 'id'),
            },
        ),
        migrations.AddConstraint(
            model_name='studypen',
            constraint=models.UniqueConstraint(fields=('event', 'group', 'pen'), name='one_study_pen_of_a_name'),
        ),
    ]
