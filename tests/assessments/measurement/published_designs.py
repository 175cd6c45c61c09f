"""Small sets of scores as printed, with the results printed for them."""

import numpy as np

from assessments.measurement.rasch.design import rasch_design
from assessments.measurement.variance_design import variance_design


def _rows(text):
    return np.array([[float(cell) for cell in row.split()] for row in text.strip().splitlines()])


# Brennan RL (2001) Generalizability Theory, table 2.2 (synthetic data set 1): 10 persons x 12 items.
PERSONS_ITEMS = _rows("""
1 0 1 0 0 0 0 0 0 0 0 0
1 1 1 0 0 1 0 0 0 0 0 0
1 1 1 1 1 0 0 0 0 0 0 0
1 1 0 1 1 0 0 1 0 0 0 0
1 1 1 1 1 0 1 0 0 0 0 0
1 1 1 0 1 1 1 0 0 0 0 0
1 1 1 1 1 1 1 0 0 0 0 0
1 1 1 1 0 1 1 1 1 1 0 0
1 1 1 1 1 1 1 1 1 1 1 0
1 1 1 1 1 1 1 1 1 1 1 1
""")

# Brennan (2001) table 3.1 (synthetic data set 3): 10 persons x 4 items on occasion 1, then on occasion 2.
PERSONS_ITEMS_OCCASIONS = _rows("""
2 6 7 5 2 5 5 5
4 5 6 7 6 7 5 7
5 5 4 6 5 4 5 5
5 9 8 6 5 7 7 6
4 3 5 6 4 5 6 4
4 4 4 7 6 4 7 8
2 6 6 5 2 7 7 5
3 4 4 5 6 6 6 4
0 5 4 5 5 5 5 3
6 8 7 6 6 8 8 6
""")

# Brennan (2001) table 3.2 (synthetic data set 4): 10 persons x 3 tasks, 4 raters within each task.
PERSONS_RATERS_IN_TASKS = _rows("""
5 6 5 5 5 3 4 5 6 7 3 3
9 3 7 7 7 5 5 5 7 7 5 2
3 4 3 3 5 3 3 5 6 5 1 6
7 5 5 3 3 1 4 3 5 3 3 5
9 2 9 7 7 7 3 7 2 7 5 3
3 4 3 5 3 3 6 3 4 5 1 2
7 3 7 7 7 5 5 7 5 5 5 4
5 8 5 7 7 5 5 4 3 2 1 1
9 9 8 8 6 6 6 5 5 8 1 1
4 4 4 3 3 5 6 5 5 7 1 1
""")

# Bock RD, Lieberman M (1970) Psychometrika 35:179-197: 1000 answers to LSAT section 6, by pattern.
LSAT6 = """00000 3 00001 6 00010 2 00011 11 00100 1 00101 1 00110 3 00111 4 01000 1 01001 8 01011 16 01101 3 01110 2
01111 15 10000 10 10001 29 10010 14 10011 81 10100 3 10101 28 10110 15 10111 80 11000 16 11001 56 11010 21 11011 173
11100 11 11101 61 11110 28 11111 298"""


def crossed(scores):
    people, items = scores.shape
    codes = [np.repeat(np.arange(people), items), np.tile(np.arange(items), people)]
    return variance_design(["p", "i"], codes, scores.ravel())


def twice_crossed(scores):
    people = np.repeat(np.arange(len(scores)), 8)
    item, occasion = (np.tile(code, len(scores)) for code in (np.tile(np.arange(4), 2), np.repeat([0, 1], 4)))
    return variance_design(["p", "i", "o"], [people, item, occasion], scores.ravel())


def nested(scores, kept=slice(None)):
    people = np.repeat(np.arange(len(scores)), 12)
    task, rater = (np.tile(code, len(scores)) for code in (np.repeat(np.arange(3), 4), np.tile(np.arange(4), 3)))
    codes = [people[kept], task[kept], rater[kept]]
    return variance_design(["p", "t", "r"], codes, scores.ravel()[kept], {"r": ["t"]})


def lsat6():
    words = LSAT6.split()
    answers = np.array([[int(mark) for mark in pattern] for pattern in words[::2]])
    answers = np.repeat(answers, [int(count) for count in words[1::2]], axis=0)
    people, items = answers.shape
    names = tuple(str(number) for number in range(people))
    item = ("item", ("1", "2", "3", "4", "5"), np.tile(np.arange(items), people))
    return rasch_design((names, np.repeat(np.arange(people), items)), [item], answers.ravel())
