"""One lot of fish against another: practices, singly and adjusted for one another, and seasons."""
