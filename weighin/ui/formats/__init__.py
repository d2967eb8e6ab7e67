"""How numbers are written and dates typed, by language."""
