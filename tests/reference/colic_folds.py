"""Ten folds over the horses of colic.R (read from standard input; horse i is in fold i mod 10): for
each horse the chance of a surgical lesion by scikit-learn's GaussianNB, BernoulliNB and
LogisticRegression, fitted on the other nine folds, one line a horse."""

import sys

import numpy
from sklearn.linear_model import LogisticRegression
from sklearn.naive_bayes import BernoulliNB, GaussianNB

signs, surgical, answers = [], [], []
for line in sys.stdin:
    row = line.split()
    if row[:1] == ["sign"]:
        signs.append((row[2] == "bands", [float(cut) for cut in row[3:]]))
    elif row[:1] == ["case"]:
        surgical.append(row[2] == "yes")
        answers.append([numpy.nan if word == "NA" else float(word) for word in row[3:]])
surgical, answers = numpy.array(surgical), numpy.array(answers)

columns = []  # one for each band or level; what is missing is in none of them
for number, (is_number, details) in enumerate(signs):
    values = answers[:, number]
    if is_number:
        edges = [-numpy.inf, *details, numpy.inf]
        columns += [(values >= low) & (values < high) for low, high in zip(edges, edges[1:])]
    else:
        columns += [values == level for level in range(1, int(details[0]) + 1)]
indicators = numpy.column_stack(columns).astype(float)

scores = numpy.zeros((len(surgical), 3))
folds = numpy.arange(len(surgical)) % 10
for fold in range(10):
    train, test = folds != fold, folds == fold
    medians = numpy.nanmedian(answers[train], axis=0)
    filled = numpy.where(numpy.isnan(answers), medians, answers)
    for model, data, place in ((GaussianNB(), filled, 0), (BernoulliNB(), indicators, 1),
                               (LogisticRegression(max_iter=1000), indicators, 2)):
        model.fit(data[train], surgical[train])
        scores[test, place] = model.predict_proba(data[test])[:, 1]
for row in scores:
    print(" ".join(f"{score:.17g}" for score in row))
