"""What a written row is, and the one door through which every one of them is written."""
