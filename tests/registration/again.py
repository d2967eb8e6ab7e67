"""Draw again from a printed draw, knowing nothing of the site: python again.py < draw.json. Prints the entries in order."""

import hashlib
import json
import sys

draw = json.load(sys.stdin)
text = "{}|{}|{}".format
hashes = {
    row["entry"]: hashlib.sha256(text(draw["seed"], draw["purpose"], row["entry"]).encode("utf-8")).hexdigest()
    for row in draw["order"]
}
print(json.dumps([[entry, hashes[entry]] for entry in sorted(hashes, key=lambda entry: hashes[entry])]))
