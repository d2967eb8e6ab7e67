from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [("clubs", "0006_season_rules")]

    operations = [
        migrations.AddField(
            model_name="club",
            name="is_open",
            field=models.BooleanField(
                db_default=False,
                default=False,
                help_text="Whether the public sees its calendar: name, water, dates and times of every event",
            ),
        ),
    ]
