import django.core.validators
import django.db.models.deletion
from django.db import migrations, models


class Migration(migrations.Migration):

    initial = True

    dependencies = [
        ('clubs', '0001_initial'),
        ('events', '0001_initial'),
    ]

    operations = [
        migrations.CreateModel(
            name='Team',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('folded_name', models.CharField(max_length=120)),
                ('name', models.CharField(max_length=120)),
                ('season', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='teams', to='clubs.season')),
            ],
            options={
                'ordering': ('name',),
            },
        ),
        migrations.CreateModel(
            name='Entry',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('boat', models.PositiveIntegerField(validators=[django.core.validators.MinValueValidator(1)])),
                ('name', models.CharField(max_length=120)),
                ('youth', models.BooleanField(blank=True, null=True)),
                ('flight_name', models.CharField(blank=True, max_length=40)),
                ('paid', models.BooleanField(default=False)),
                ('big_fish_pot', models.BooleanField(default=False)),
                ('status', models.CharField(choices=[('entered', 'Entered'), ('withdrawn', 'Withdrawn'), ('absent', 'Absent'), ('disqualified', 'Disqualified')], default='entered', max_length=20)),
                ('lot', models.PositiveIntegerField(blank=True, null=True)),
                ('note', models.TextField(blank=True, max_length=500)),
                ('event', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='entries', to='events.event')),
                ('team', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='entries', to='roster.team')),
            ],
            options={
                'ordering': ('boat',),
            },
        ),
        migrations.CreateModel(
            name='Angler',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('position', models.PositiveSmallIntegerField()),
                ('name', models.CharField(max_length=120)),
                ('entry', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='anglers', to='roster.entry')),
            ],
            options={
                'ordering': ('position',),
                'constraints': [models.UniqueConstraint(fields=('entry', 'position'), name='one_angler_a_line')],
            },
        ),
        migrations.AddConstraint(
            model_name='team',
            constraint=models.UniqueConstraint(fields=('season', 'folded_name'), name='one_team_of_a_name'),
        ),
        migrations.AddConstraint(
            model_name='entry',
            constraint=models.UniqueConstraint(fields=('event', 'boat'), name='one_entry_a_boat'),
        ),
    ]
