from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('clubs', '0002_invitations'),
    ]

    operations = [
        migrations.AlterField(
            model_name='club',
            name='asks_second_factor',
            field=models.BooleanField(db_default=False, default=False),
        ),
    ]
