# SPDX-License-Identifier: MIT
"""Years made from monthly means against what was measured or published for the place."""

import pytest

import pvsize

DAYS = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31]

# TMY3 (United States, public domain): latitude, longitude, zone; global irradiation of the
# mean day of each month, kWh/m2; the year's diffuse and beam, kWh/m2.
TMY3 = {
    "Phoenix": (33.450, -111.980, -7, [3.29, 4.16, 5.34, 7.09, 7.84, 8.32, 7.62, 7.13, 6.34,
                                       4.82, 3.77, 3.07], 564, 2524),
    "Miami": (25.820, -80.300, -5, [3.48, 4.24, 5.16, 5.92, 5.81, 5.54, 6.01, 5.49, 4.88, 4.32,
                                    3.55, 3.22], 811, 1454),
    "Denver": (39.830, -104.650, -7, [2.50, 3.17, 4.66, 4.79, 6.33, 7.27, 6.72, 5.99, 5.18, 3.68,
                                      2.46, 2.08], 556, 1978),
    "Chicago": (41.980, -87.920, -6, [1.76, 2.49, 3.44, 4.39, 5.98, 6.29, 6.18, 5.16, 4.19, 2.94,
                                      1.82, 1.50], 660, 1294),
    "Boston": (42.370, -71.020, -5, [1.79, 2.78, 3.61, 4.51, 5.57, 5.76, 6.07, 5.35, 4.26, 2.98,
                                     2.01, 1.53], 652, 1336),
    "Fairbanks": (64.820, -147.850, -9, [0.15, 0.75, 2.26, 4.27, 5.33, 5.64, 5.12, 3.93, 2.21,
                                         1.01, 0.26, 0.05], 467, 1142),
}


def year_of(latitude, longitude, zone, irradiation):
    months = [dict(irradiation=h, temp_mean=15) for h in irradiation]
    return pvsize.Weather.from_months(pvsize.Site(latitude=latitude, longitude=longitude,
                                                  time_zone=zone, months=months))


@pytest.mark.parametrize("name", sorted(TMY3))
def test_beam_and_diffuse_are_near_those_of_the_typical_year(name):
    """The correlations are for the mean of many places; on high plains, clear days have
    less diffuse light: Denver is the worst of those tried."""
    latitude, longitude, zone, irradiation, diffuse, beam = TMY3[name]
    year = year_of(latitude, longitude, zone, irradiation)
    assert sum(year.column("diffuse")) / 1000 == pytest.approx(diffuse, rel=0.2)
    assert sum(year.column("beam")) / 1000 == pytest.approx(beam, rel=0.12)


def test_a_published_plane_is_met():
    """Latitude 42.075, longitude 1.821, satellite means of 22 years (NASA SSE, public domain)
    on the horizontal and on a plane tilted 42 to the south, kWh/m2 a day, as published by a
    project at that place. Theirs is the even sky; ours has more light round the sun."""
    flat = [1.81, 2.77, 3.92, 4.66, 5.44, 6.28, 6.56, 5.67, 4.51, 2.96, 2.00, 1.56]
    tilted = [3.20, 4.07, 4.84, 4.78, 4.99, 5.46, 5.83, 5.59, 5.21, 4.10, 3.35, 2.95]
    plane = year_of(42.075, 1.821, 1, flat).on_plane(42, 180)
    assert sum(plane) / 365000 == pytest.approx(4.53, rel=0.035)
    first = 0
    for days, published in zip(DAYS, tilted):
        rows = plane[first * 24:(first + days) * 24]
        assert sum(rows) / days / 1000 == pytest.approx(published, rel=0.055)
        first += days
