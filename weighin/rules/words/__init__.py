"""Rules, scores and amounts in words."""
