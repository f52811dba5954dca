"""Grades and forecasts drawn with a fixed seed, and what scikit-learn makes of them: kappa, Brier
score, ROC area and log loss, as plain text for the test that compares them with the engine."""

import numpy
from sklearn.metrics import brier_score_loss, cohen_kappa_score, log_loss, roc_auc_score, roc_curve

random = numpy.random.default_rng(20240611)


def show(values):
    return " ".join(f"{value:.17g}" for value in values)


for grades in (2, 3, 5, 7):
    for agreement in (0.0, 0.3, 0.8):
        needed = random.integers(0, grades, 200)
        other = random.integers(0, grades, 200)
        given = numpy.where(random.random(200) < agreement, needed, other)
        labels = list(range(grades))
        kappas = [cohen_kappa_score(needed, given, labels=labels, weights=w) for w in ("linear", "quadratic")]
        print("grades", grades, show(kappas), show(needed), show(given))

for case in range(12):
    truth = random.random(150) < random.uniform(0.1, 0.9)
    forecasts = random.random(150)
    if case % 3 == 1:
        forecasts = numpy.round(forecasts, 1)  # many ties, and certainty
    if case % 3 == 2:
        forecasts = numpy.clip(0.6 * truth + 0.5 * forecasts, 0, 1)  # forecasts that tell something
    scores = [brier_score_loss(truth, forecasts), log_loss(truth, forecasts), roc_auc_score(truth, forecasts)]
    points = len(roc_curve(truth, forecasts, drop_intermediate=False)[0]) - 1
    print("forecasts", show(scores), points, show(truth), show(forecasts))
