"""Release by bag: each boat's fish from the table to the water, and the account in which no fish is lost."""
