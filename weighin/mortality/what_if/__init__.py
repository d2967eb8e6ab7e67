"""What if: a season's events under another rule sheet, exactly; and its dead fish under another plan, if the rates held."""
