"""Whole rule sheets: those to start from, and two side by side."""
