"""What a station can be let do."""

CANS = {"weigh": "write weigh slips", "checkin": "check boats in", "care": "write care notes"}
