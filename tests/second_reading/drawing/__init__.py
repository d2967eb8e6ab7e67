"""Events drawn at random, with faults planted in them, as workbooks for both readings."""
