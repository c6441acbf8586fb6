"""Writes a file as a C array: embed.py INPUT OUTPUT."""
import sys

with open(sys.argv[1], "rb") as source:
    data = source.read()
lines = [", ".join(str(byte) for byte in data[i : i + 16]) for i in range(0, len(data), 16)]
with open(sys.argv[2], "w", encoding="ascii") as target:
    target.write("/* Generated from the job file; do not edit. */\n")
    target.write("static const unsigned char built_in_job[] = {\n    ")
    target.write(",\n    ".join(lines))
    target.write(",\n    0};\n")
