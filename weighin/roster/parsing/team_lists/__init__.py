"""Read lists of teams in the shapes that clubs keep."""
