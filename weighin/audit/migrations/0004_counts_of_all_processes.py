"""On PostgreSQL several processes serve one site: what each would count for itself, they count in this table."""

from django.core.management import call_command
from django.db import migrations

TABLE = "weighin_counts"


def make(apps, schema_editor):
    if schema_editor.connection.vendor == "postgresql":
        call_command("createcachetable", TABLE, database=schema_editor.connection.alias, verbosity=0)


def drop(apps, schema_editor):
    if schema_editor.connection.vendor == "postgresql":
        schema_editor.execute(f"DROP TABLE IF EXISTS {TABLE}")


class Migration(migrations.Migration):

    dependencies = [
        ('audit', '0003_history_chained'),
    ]

    operations = [
        migrations.RunPython(make, drop),
    ]
