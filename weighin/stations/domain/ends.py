"""When a token ends by itself."""

from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo


def token_ends(last_day: date | None, made_at: datetime, time_zone: str) -> datetime:
    """The midnight after the day that follows the event's last one, by the event's clock.

    A token that is made later, for what was left over, ends after the day that follows the one it was made on.
    ``made_at`` without a zone is in UTC.
    """
    zone = ZoneInfo(time_zone)
    made_on = (made_at if made_at.tzinfo else made_at.replace(tzinfo=UTC)).astimezone(zone).date()
    return datetime.combine(max(made_on, last_day or made_on) + timedelta(days=2), time.min, zone)
