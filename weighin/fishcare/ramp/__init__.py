"""Boat checks at the ramp and care notes at the table, on a phone that may have no link."""
