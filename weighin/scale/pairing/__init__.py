"""Pairing on the page: stations made with a code to photograph, and withdrawn."""
