"""What more array on the same inverter brings: 100, 120 and 133 % of its rating, with and
without an export limit. Place, weather, load, module and inverter are invented.

    compare_ratios.py [PICTURE]    draws them side by side, where matplotlib is installed

SPDX-License-Identifier: MIT
"""

import sys

import pvsize

RATED, EXPORT_LIMIT = 6650, 3000
# invented monthly means: kWh/m2 a day on the horizontal, degC, m/s
MONTHS = [dict(irradiation=h, temp_mean=t, wind=2.5) for h, t in (
    (7.2, 25), (6.3, 24), (5.2, 22), (3.9, 18), (2.9, 14), (2.4, 12),
    (2.7, 11), (3.6, 13), (4.8, 16), (5.9, 19), (6.7, 21), (7.3, 24))]
PLACE = dict(latitude=-32.5, longitude=148, time_zone=10)
MODULE = pvsize.Module(name="Quoll 440", pmax=440, voc=39.2, isc=14.1, vmp=32.9, imp=13.37,
                       voc_coefficient=-0.26, isc_coefficient=0.045, pmax_coefficient=-0.32)
CABLE = dict(conductor="class5_tinned", section=4, length=25, conductor_temp=60)
STRINGS = {"100 %": (8, 7), "120 %": (9, 9), "133 %": (10, 10)}


def system(modules, export_limit):
    """Two strings, one facing north and one west."""
    site = pvsize.Site(**PLACE, export_limit=export_limit, export_control="current_sensor",
                       planes=[pvsize.Plane(name="north", tilt=22, azimuth=0, mounting="raised"),
                               pvsize.Plane(name="west", tilt=22, azimuth=270, mounting="raised")])
    inverter = pvsize.Inverter(
        name="Bilby 6.65", rated_ac_power=RATED, phases=1, ac_voltage=230, night_consumption=3,
        inputs=[pvsize.Input(tracking_min=80, tracking_max=560, start_voltage=100,
                             max_operating_current=14) for _ in modules],
        efficiency_points=[pvsize.EfficiencyPoint(load=load, efficiency=efficiency)
                           for load, efficiency in ((5, 92), (10, 95), (30, 97.2), (100, 97))])
    return pvsize.System(
        site=site, inverters=[inverter],
        arrays=[pvsize.Array(input=i, plane=i, modules_per_string=n, strings=1, module=MODULE)
                for i, n in enumerate(modules)],
        cables=[pvsize.Cable(circuit="string", array=i, **CABLE) for i in range(len(modules))])


def household(hours):
    """Invented: 300 W, and 900 W more from 17 to 22 h."""
    return [300 + (900 if 17 <= hour % 24 < 22 else 0) for hour in range(hours)]


def years():
    weather = pvsize.Weather.from_months(pvsize.Site(**PLACE, months=MONTHS))
    light = pvsize.Light(weather, pvsize.Outlook(soiling=2, power_loss=2))
    load = household(len(weather))
    for limit in ("none", EXPORT_LIMIT):
        for name, modules in STRINGS.items():
            yield name, limit, pvsize.Year(system(modules, limit), light, load)


def shares(whole):
    """Per cent that each loss takes of what those before it left."""
    left, found = whole.reference, {}
    for name, lost in whole.losses().items():
        found[name] = 100 * lost / left
        left -= lost
    return found


def words(limit):
    return "none" if limit == "none" else f"{limit / 1000:g} kW"


def row_of(name, limit, year):
    whole = year.system
    lost = shares(whole)
    return (name, words(limit), whole.output, whole.specific_yield, lost["ac_rating"],
            year.inverter().active("ac_rating"), lost["export"], whole.energy("used"))


def draw(found, path):
    try:
        from pvsize import pictures
    except ImportError as error:
        print(f"no picture: {error}", file=sys.stderr)
        return
    pictures.years_side_by_side({f"{name}, export limit {words(limit)}": year
                                 for name, limit, year in found}).savefig(path)


def main():
    found = list(years())
    table = [row_of(*row) for row in found]
    print(f"A year of an invented place and load, inverter of {RATED} W")
    print(f"{'array':8}{'export':>8}{'kWh':>9}{'kWh/kW':>8}{'rating':>9}{'hours':>7}{'export':>9}"
          f"{'used kWh':>10}")
    for row in table:
        print("{:8}{:>8}{:9.0f}{:8.0f}{:8.2f}%{:7.0f}{:8.2f}%{:10.0f}".format(*row))
    print("rating, export: what the a.c. rating and the export limit take, of what got to them.")
    print("\n" + pvsize.caution())
    if len(sys.argv) > 1:
        draw(found, sys.argv[1])


if __name__ == "__main__":
    main()
