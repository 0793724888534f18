"""References of core/class/pooling.rs: shares pooled over a fine grid, ends over the exact mixture.

    python3 -m venv V && V/bin/pip install scipy==1.17.1 && V/bin/python tests/outside/pooling.py
"""

import numpy as np
from scipy import stats
from scipy.special import betaln

MIDDLES, SPREADS, SPREAD_MOST = 400, 200, 2.0


def grid(shown):
    middle = (np.arange(MIDDLES) + 0.5) / MIDDLES
    u = (np.arange(SPREADS) + 0.5) / SPREADS * SPREAD_MOST
    m, u = np.meshgrid(middle, u, indexing="ij")
    a, b = m * u**-2, (1 - m) * u**-2
    log = sum(betaln(a + r, b + n - r) - betaln(a, b) for r, n in shown)
    weight = np.exp(log - log.max())
    return weight / weight.sum(), a, b


def ends(weight, a, b, r, n):
    kept = weight > 1e-10 * weight.max()
    w, a, b = weight[kept] / weight[kept].sum(), a[kept] + r, b[kept] + n - r
    for part in (0.025, 0.975):
        low, high = 0.0, 1.0
        for _ in range(45):
            middle = (low + high) / 2
            if (w * stats.beta.cdf(middle, a, b)).sum() < part:
                low = middle
            else:
                high = middle
        yield round(low, 5)


for shown in (
    [(h, 45) for h in (18, 17, 16, 15, 14, 14, 13, 12, 11, 11, 10, 10, 10, 10, 10, 9, 8, 7)],
    [(9, 10), (12, 12), (3, 10), (20, 21), (0, 4), (7, 9), (5, 5)],
    [(5, 5), (8, 8), (10, 10)],
    [(5, 50), (40, 50), (1, 2)],
):
    weight, a, b = grid(shown)
    for r, n in dict.fromkeys(shown):
        value = (weight * (a + r) / (a + b + n)).sum()
        print(f"{r}/{n}: {value:.5f}", *ends(weight, a, b, r, n))
