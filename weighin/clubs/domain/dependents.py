"""What is shown of a club, a water or a member stands on the pages of events too: they are told when one is changed."""

from django.dispatch import Signal

# Sent with ``club_id``, and ``water_id`` where only its events are meant, inside the write
changed = Signal()
