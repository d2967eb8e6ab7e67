"""The invented clubs, waters, teams and fishing days that the demo shows."""
