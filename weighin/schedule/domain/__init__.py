"""Plain facts and arithmetic of the app."""
