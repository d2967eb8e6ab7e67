from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('audit', '0002_names_kept_aside'),
    ]

    operations = [
        migrations.AddField(
            model_name='historyentry',
            name='bound',
            field=models.JSONField(blank=True, null=True),
        ),
        migrations.AddField(
            model_name='historyentry',
            name='digest',
            field=models.CharField(blank=True, default='', max_length=64),
        ),
        migrations.AddField(
            model_name='historyentry',
            name='link',
            field=models.CharField(blank=True, default='', max_length=64),
        ),
        migrations.AddField(
            model_name='historyentry',
            name='position',
            field=models.PositiveIntegerField(blank=True, null=True),
        ),
        migrations.AlterField(
            model_name='historyentry',
            name='event_id',
            field=models.BigIntegerField(blank=True, null=True),
        ),
        migrations.AddConstraint(
            model_name='historyentry',
            constraint=models.UniqueConstraint(fields=('event_id', 'position'), name='one_line_a_position_of_an_event'),
        ),
        migrations.AddConstraint(
            model_name='historyentry',
            constraint=models.UniqueConstraint(condition=models.Q(('event_id__isnull', True)), fields=('club_id', 'position'), name='one_line_a_position_of_a_club'),
        ),
        migrations.AddConstraint(
            model_name='historyentry',
            constraint=models.UniqueConstraint(condition=models.Q(('club_id__isnull', True), ('event_id__isnull', True)), fields=('position',), name='one_line_a_position_of_the_site'),
        ),
    ]
