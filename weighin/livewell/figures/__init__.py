"""What the others are written with: estimates with their ends, courses over hours, mixing, ranges, units."""
