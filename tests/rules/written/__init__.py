"""What is written on a rule sheet, and what is said of it."""
