"""What a rule sheet means: pure, exact, explained. Standard library only; no clock, database or settings."""
