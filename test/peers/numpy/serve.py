"""The numpy peer as a program: same files, same protocol as main.c beside it.

serve.py SETUP DRAWS [ANSWERS]: writes the answers, or evaluates once for each line of standard input.
"""

import sys
import time

import numpy as np
from model import answers
from question import read_draws, read_setup

BLOCK = 256
"""Runs at a time: larger arrays leave the cache."""

TABLE = 2.5
"""Degrees between the points of the table; a finer one finds the same peaks more slowly, at 5 degrees a few are lost."""


def evaluate(setup, columns, degrees):
    parts = []
    for at in range(0, setup["runs"], BLOCK):
        block = [None if c is None else {name: v[at : at + BLOCK] for name, v in c.items()} for c in columns]
        parts.append(answers(setup, *block, degrees=degrees))
    return [np.concatenate(part, axis=1) for part in zip(*parts)]


def main():
    setup = read_setup(sys.argv[1])
    columns = read_draws(sys.argv[2], setup)
    if len(sys.argv) > 3:
        np.concatenate([table.ravel() for table in evaluate(setup, columns, 1.0)]).tofile(sys.argv[3])
        return
    for _ in sys.stdin:
        before = time.process_time()
        required, contact = evaluate(setup, columns, TABLE)
        spent = time.process_time() - before
        total = sum(table[np.isfinite(table)].sum() for table in (required, contact))
        print(f"{spent:.6f} {total:.9f}", flush=True)


main()
