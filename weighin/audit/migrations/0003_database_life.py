import uuid

from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [("audit", "0002_sentences_of_any_length")]

    operations = [
        migrations.CreateModel(
            name="DatabaseLife",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("key", models.UUIDField(default=uuid.uuid4)),
            ],
        )
    ]
