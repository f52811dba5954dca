"""The same cases through Python: json, then scikit-learn's naive Bayes over yes-or-no answers, 10,000
lines at a time. bernoulli_lines.py FILE ANSWERS; ANSWERS is what `flinch batch` said of the file, whose
first causes the classifier is fitted to (on its first 20,000 lines, in the time measured)."""

import itertools
import json
import sys

import numpy
from sklearn.naive_bayes import BernoulliNB

AT_ONCE, FITTED = 10_000, 20_000


def matrix(lines, columns, grow):
    rows, cols = [], []
    for row, line in enumerate(lines):
        for sign, answer in json.loads(line)["answers"].items():
            if answer == "yes":
                column = columns.setdefault(sign, len(columns)) if grow else columns.get(sign)
                if column is not None:
                    rows.append(row)
                    cols.append(column)
    out = numpy.zeros((len(lines), len(columns)), dtype=numpy.float32)
    out[rows, cols] = 1
    return out


columns = {}
with open(sys.argv[1], encoding="utf-8") as cases, open(sys.argv[2], encoding="utf-8") as answers:
    causes = [json.loads(line)["causes"][0]["name"] or "none" for line in itertools.islice(answers, FITTED)]
    model = BernoulliNB().fit(matrix(list(itertools.islice(cases, len(causes))), columns, True), causes)
    cases.seek(0)
    count = 0
    while lines := list(itertools.islice(cases, AT_ONCE)):
        best = model.predict_proba(matrix(lines, columns, False)).argsort(axis=1)[:, ::-1][:, :5]
        count += len(best)
print(count, "documents")
