"""Bring an event in from its workbook: open it safely, read every row, name every fault by its cell, keep all or nothing."""
