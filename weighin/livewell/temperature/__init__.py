"""How a livewell warms, how it is cooled, and the ice for it by the hour."""
