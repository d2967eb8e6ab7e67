"""Slips, cards and pads: small paper, drawn by hand."""
