"""The scales of an event: their settings, the tests with weights, and the readings that went into slips."""
