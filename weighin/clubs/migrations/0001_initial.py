import django.db.models.deletion
from django.conf import settings
from django.db import migrations, models


class Migration(migrations.Migration):

    initial = True

    dependencies = [
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
    ]

    operations = [
        migrations.CreateModel(
            name='Club',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('name', models.CharField(max_length=120, unique=True)),
                ('slug', models.SlugField(max_length=120, unique=True)),
                ('contact', models.CharField(blank=True, help_text="Who answers the agency, and how; in members' files only, never public", max_length=200)),
            ],
            options={
                'ordering': ('name',),
            },
        ),
        migrations.CreateModel(
            name='Membership',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('role', models.CharField(choices=[('director', 'Director'), ('weigh_official', 'Weigh official'), ('fish_care_official', 'Fish-care official'), ('club_reviewer', 'Club reviewer')], max_length=30)),
                ('club', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='memberships', to='clubs.club')),
                ('user', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='memberships', to=settings.AUTH_USER_MODEL)),
            ],
            options={
                'ordering': ('user__username',),
                'constraints': [models.UniqueConstraint(fields=('user', 'club'), name='one_role_a_club')],
            },
        ),
        migrations.CreateModel(
            name='Season',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('name', models.CharField(max_length=80)),
                ('slug', models.SlugField(max_length=80)),
                ('club', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='seasons', to='clubs.club')),
            ],
            options={
                'ordering': ('-name',),
                'constraints': [models.UniqueConstraint(fields=('club', 'name'), name='one_season_of_a_name'), models.UniqueConstraint(fields=('club', 'slug'), name='one_season_of_a_slug')],
            },
        ),
        migrations.CreateModel(
            name='Water',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('name', models.CharField(max_length=120)),
                ('elevation_ft', models.IntegerField(blank=True, null=True)),
                ('county', models.CharField(blank=True, max_length=80)),
                ('club', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='waters', to='clubs.club')),
            ],
            options={
                'ordering': ('name',),
                'constraints': [models.UniqueConstraint(fields=('club', 'name'), name='one_water_of_a_name')],
            },
        ),
    ]
