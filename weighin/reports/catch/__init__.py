"""The catch report that fisheries agencies ask for after an event, and the same for a season."""
