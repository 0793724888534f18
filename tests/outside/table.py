"""Reads a CSV table from the standard input as Python does and writes it as JSON: a list of lines of cells."""

import csv
import io
import json
import sys

text = sys.stdin.buffer.read().decode("utf-8")
json.dump(list(csv.reader(io.StringIO(text, newline=""), strict=True)), sys.stdout)
