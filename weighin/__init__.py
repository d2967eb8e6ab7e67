"""weighin: live-release fishing tournaments, from the rule sheet to the fish that swam away."""
