"""Whole rule sheets: those to start from, two side by side, and what changed in one after the first slip."""
