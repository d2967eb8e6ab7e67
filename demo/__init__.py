"""The demo: an invented club's season, and the script that starts it."""
