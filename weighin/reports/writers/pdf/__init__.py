"""PDF documents in the look of the log book, with every font embedded."""
