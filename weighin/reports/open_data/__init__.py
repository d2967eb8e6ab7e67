"""Open data: a season's or an event's fish as CSV files with a CSVW description, nobody to be found again in them."""
