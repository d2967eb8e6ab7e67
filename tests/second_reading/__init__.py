"""A second, independent reading of the scoring and workbook contracts, compared with the product."""
