import django.db.models.deletion
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
            name='FloaterWalk',
            fields=[
                ('id', models.UUIDField(default=uuid.uuid4, editable=False, primary_key=True, serialize=False)),
                ('hours', models.PositiveSmallIntegerField(choices=[(24, '24 hours'), (48, '48 hours'), (72, '72 hours')])),
                ('walked', models.DateTimeField()),
                ('shore', models.CharField(max_length=120)),
                ('length_mi', models.CharField(blank=True, max_length=40)),
                ('dead', models.PositiveIntegerField()),
                ('note', models.CharField(blank=True, max_length=500)),
                ('event', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='floater_walks', to='events.event')),
            ],
            options={
                'ordering': ('walked', 'id'),
            },
        ),
        migrations.CreateModel(
            name='KeptFish',
            fields=[
                ('id', models.UUIDField(default=uuid.uuid4, editable=False, primary_key=True, serialize=False)),
                ('day', models.PositiveSmallIntegerField()),
                ('went', models.CharField(choices=[('kept', 'Kept by the anglers'), ('given', 'Given away'), ('disposed', 'Disposed of as the agency says'), ('lent', 'Lent to a display or a photo')], max_length=10)),
                ('boat', models.PositiveIntegerField(blank=True, null=True)),
                ('fish', models.PositiveIntegerField()),
                ('alive', models.BooleanField()),
                ('came_back', models.PositiveIntegerField(default=0)),
                ('receiver', models.CharField(blank=True, max_length=120)),
                ('note', models.CharField(blank=True, max_length=500)),
                ('event', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='kept_fish', to='events.event')),
            ],
            options={
                'ordering': ('day', 'went', 'id'),
            },
        ),
        migrations.CreateModel(
            name='Release',
            fields=[
                ('id', models.UUIDField(default=uuid.uuid4, editable=False, primary_key=True, serialize=False)),
                ('day', models.PositiveSmallIntegerField()),
                ('time', models.DateTimeField()),
                ('by', models.CharField(choices=[('boat', 'Boat trip'), ('batch', 'Batch from the tanks')], max_length=10)),
                ('place', models.CharField(max_length=80)),
                ('depth_ft', models.CharField(blank=True, max_length=40)),
                ('water_temp', models.CharField(blank=True, max_length=20)),
                ('tank_temp', models.CharField(blank=True, max_length=20)),
                ('distance_mi', models.CharField(blank=True, max_length=40)),
                ('fish', models.PositiveIntegerField()),
                ('dead', models.PositiveIntegerField(default=0)),
                ('note', models.CharField(blank=True, max_length=500)),
                ('event', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='releases', to='events.event')),
            ],
            options={
                'ordering': ('day', 'time', 'id'),
            },
        ),
        migrations.CreateModel(
            name='TankReading',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('day', models.PositiveSmallIntegerField()),
                ('tank', models.CharField(max_length=80)),
                ('volume_gal', models.CharField(blank=True, max_length=40)),
                ('time', models.DateTimeField()),
                ('temp', models.CharField(blank=True, max_length=20)),
                ('do', models.CharField(blank=True, max_length=40)),
                ('ph', models.CharField(blank=True, max_length=40)),
                ('total_ammonia', models.CharField(blank=True, max_length=40)),
                ('salt_percent', models.CharField(blank=True, max_length=40)),
                ('fish_lb', models.CharField(blank=True, max_length=40)),
                ('note', models.CharField(blank=True, max_length=500)),
                ('sent_id', models.UUIDField(blank=True, editable=False, help_text='Of the form or device that sent it', null=True, unique=True)),
                ('event', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='tank_readings', to='events.event')),
            ],
            options={
                'ordering': ('day', 'time', 'id'),
            },
        ),
        migrations.CreateModel(
            name='Treatment',
            fields=[
                ('id', models.UUIDField(default=uuid.uuid4, editable=False, primary_key=True, serialize=False)),
                ('day', models.PositiveSmallIntegerField()),
                ('tank', models.CharField(max_length=80)),
                ('what', models.CharField(choices=[('water', 'Water changed'), ('ice', 'Ice'), ('salt', 'Salt'), ('oxygen', 'Oxygen'), ('conditioner', 'Water conditioner'), ('other', 'Another product')], max_length=20)),
                ('product', models.CharField(blank=True, max_length=120)),
                ('dose', models.CharField(max_length=80)),
                ('started', models.DateTimeField()),
                ('ended', models.DateTimeField(blank=True, null=True)),
                ('label_seen', models.BooleanField(blank=True, null=True)),
                ('note', models.CharField(blank=True, max_length=500)),
                ('event', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='treatments', to='events.event')),
            ],
            options={
                'ordering': ('day', 'started', 'id'),
            },
        ),
        migrations.CreateModel(
            name='HandedBag',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('day', models.PositiveSmallIntegerField()),
                ('fish', models.PositiveIntegerField()),
                ('handed', models.DateTimeField()),
                ('handed_by', models.CharField(max_length=150)),
                ('entry', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='handed_bags', to='roster.entry')),
                ('event', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='handed_bags', to='events.event')),
                ('release', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.SET_NULL, related_name='bags', to='tanks.release')),
            ],
            options={
                'ordering': ('day', 'handed', 'id'),
                'constraints': [models.UniqueConstraint(fields=('entry', 'day'), name='one_handed_bag_a_boat_and_day')],
            },
        ),
    ]
