"""What an indicator says over its serial line, read without Django: layouts, lines, readings."""
