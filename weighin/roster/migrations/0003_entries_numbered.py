from django.db import migrations, models

NUMBER_BY_KEY = """
    UPDATE roster_entry SET number = (
        SELECT COUNT(*) FROM roster_entry other WHERE other.event_id = roster_entry.event_id AND other.id <= roster_entry.id
    )
"""


class Migration(migrations.Migration):
    """Number each event's entries in the order in which they were entered."""

    dependencies = [
        ("roster", "0002_anglers_marks"),
    ]

    operations = [
        migrations.AddField(
            model_name="entry",
            name="number",
            field=models.PositiveIntegerField(default=0, editable=False),
            preserve_default=False,
        ),
        migrations.RunSQL(NUMBER_BY_KEY, migrations.RunSQL.noop),
        migrations.AddConstraint(
            model_name="entry",
            constraint=models.UniqueConstraint(fields=("event", "number"), name="one_entry_a_number"),
        ),
    ]
