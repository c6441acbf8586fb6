"""What pictures draw is what the report says. The jobs are invented.

SPDX-License-Identifier: MIT
"""

import io
import itertools
import pathlib
import runpy
import subprocess
import sys

import pytest

pytest.importorskip("matplotlib")

from matplotlib.backends.backend_agg import FigureCanvasAgg  # noqa: E402
from matplotlib.text import Text  # noqa: E402

import pvsize  # noqa: E402
from pvsize import pictures  # noqa: E402

ROOT = pathlib.Path(__file__).resolve().parents[3]
MODULE = dict(name="invented", pmax=440, voc=39.2, isc=14.2, vmp=32.6, imp=13.5, voc_coefficient=-0.25,
              isc_coefficient=0.045, pmax_coefficient=-0.3, max_system_voltage=1500)


def entry(**changes):
    return {**dict(max_voltage=600, tracking_min=90, tracking_max=560, start_voltage=120,
                   max_operating_current=26, max_short_circuit_current=36), **changes}


def job(modules_per_string=12, strings=2, **changes):
    return pvsize.System(
        name="invented house",
        site=dict(building="dwelling", temp_min=-2, temp_max=41,
                  planes=[dict(name="north", mounting="raised", capacity=26), dict(name="west")]),
        inverters=[dict(name="eight", rated_ac_power=8000, inputs=[entry(**changes), entry(name="B")])],
        arrays=[dict(input=0, plane=0, modules_per_string=modules_per_string, strings=strings,
                     module=MODULE)])


def drawn(figure):
    """Artists by the names they carry: a list each."""
    found = {}
    for artist in [*figure.texts, *(a for axes in figure.axes for a in axes.get_children())]:
        if artist.get_gid():
            found.setdefault(artist.get_gid(), []).append(artist)
    return found


def numbers(line):
    return [list(map(float, row)) for row in line.get_data()]


def rendered(figure):
    """The picture as PNG, and that no text reaches over its edge, or another text."""
    buffer = io.BytesIO()
    figure.savefig(buffer, format="png")
    assert buffer.getvalue().startswith(b"\x89PNG") and len(buffer.getvalue()) > 10000
    renderer = FigureCanvasAgg(figure).get_renderer()
    width, height = figure.canvas.get_width_height()
    texts = [text for axes in figure.axes for text in [
        *axes.texts, axes._left_title, axes.xaxis.label, axes.yaxis.label]]
    boxes = [(text.get_text(), Text.get_window_extent(text, renderer))
             for text in [*texts, *figure.texts] if text.get_text()]
    for words, box in boxes:
        assert box.x0 >= 0 and box.y0 >= 0 and box.x1 <= width and box.y1 <= height, words
    for (words, box), (others, other) in itertools.combinations(boxes, 2):
        assert not box.overlaps(other), (words, others)
    return buffer.getvalue()


def test_string_voltages_are_those_of_the_report():
    system = job()
    report = pvsize.check(system)
    figure = pictures.string_voltage(system)
    rendered(figure)
    found = drawn(figure)
    hot = report.quantity("cell_temp_hot")
    for name, temp in [("string_voc_cold", -2), ("string_voc_hot", hot),
                       ("string_vmp_cold", -2), ("string_vmp_hot", hot)]:
        assert numbers(found[name][0]) == [[temp], [report.quantity(name)]]
    assert numbers(found["voc"][0]) == [[-2, 25, hot], [report.quantity("string_voc_cold"), 12 * 39.2,
                                                        report.quantity("string_voc_hot")]]
    limits = {f.rule: f.limit for f in report if f.where == "array 1" and f.unit == "V"}
    for rule in ("voc_cold_input", "vmp_hot_tracking", "voc_hot_start"):
        assert numbers(found[f"limit:{rule}"][0])[1] == [limits[rule]] * 2
    assert "limit:voc_cold_module" not in found  # far above: told in words
    caution = found["caution"][0].get_text().replace("\n", " ").replace("\xa0", " ")
    assert pvsize.caution() in caution and "1500 V" in caution
    box = found["tracking_window"][0].get_extents()
    to_data = figure.axes[0].transData.inverted().transform(box)
    assert to_data[:, 1] == pytest.approx([90, 560])


def test_a_broken_limit_is_marked():
    found = drawn(pictures.string_voltage(job(15, 1)))
    assert found["limit:voc_cold_input"][0].get_color() == pictures.ALERT
    words = [text.get_text() for text in pictures.string_voltage(job(15, 1)).axes[0].texts]
    assert "≤ 600 V  input: max voltage, exceeded" in words
    rules = pvsize.Rules()
    rules.add("own", "own limit", "quantity.string_voc_cold", "at_most", 480)
    figure = pictures.string_voltage(job(), rules)
    assert numbers(drawn(figure)["limit:own"][0])[1] == [480, 480]
    rendered(figure)


def test_what_is_not_known_is_not_drawn():
    system = pvsize.System(site={}, inverters=[dict(inputs=[{}])],
                           arrays=[dict(input=0, modules_per_string=9, strings=1, module=dict(voc=40))])
    figure = pictures.string_voltage(system)
    found = drawn(figure)
    assert "string_voc_cold" not in found and numbers(found["voc"][0]) == [[25], [360]]
    rendered(figure)
    with pytest.raises(pvsize.StateError, match="module"):
        pictures.input_curve(system)


def test_an_input_is_drawn_by_its_curves():
    system = job()
    report = pvsize.check(system)
    figure = pictures.input_curve(system)
    rendered(figure)
    found = drawn(figure)
    curve = pvsize.Curve(pvsize.Module(**MODULE))
    for temp in (25, -2, report.quantity("cell_temp_hot")):
        volts, amperes = numbers(found[f"curve:{temp:g}"][0])
        assert amperes[0] == pytest.approx(2 * curve.current(0, 1000, temp))
        assert volts[-1] == pytest.approx(12 * curve.voc(1000, temp)) and amperes[-1] < 1e-6
        assert amperes[50] == pytest.approx(2 * curve.current(volts[50] / 12, 1000, temp))
        peak = curve.mpp(1000, temp)
        (x,), (y,) = numbers(found[f"mpp:{temp:g}"][0])
        assert (x, y) == (pytest.approx(12 * peak.voltage), pytest.approx(2 * peak.current))
    assert numbers(found["input_isc_max"][0])[1] == [report.quantity("input_isc_max")] * 2
    assert numbers(found["max_operating_current"][0])[1] == [26, 26]
    assert numbers(found["max_voltage"][0])[0] == [600, 600]
    over = drawn(pictures.input_curve(job(max_short_circuit_current=30)))
    assert over["input_isc_max"][0].get_color() == pictures.ALERT
    with pytest.raises(ValueError, match="no strings"):
        pictures.input_curve(system, input=1)
    with pytest.raises(pvsize.ArgumentError, match="input: index outside"):
        pictures.input_curve(system, input=7)


def test_wrong_places_are_named():
    empty = pvsize.System(site={}, inverters=[{}])
    rendered(pictures.wiring(empty))
    with pytest.raises(pvsize.ArgumentError, match="array: index outside"):
        pictures.string_voltage(empty)
    with pytest.raises(pvsize.StateError, match="module"):
        pictures.wiring(pvsize.System(site={}, inverters=[{}], arrays=[{}]))
    short = pvsize.System(site={}, inverters=[dict(inputs=[{}])], arrays=[dict(input=0, module=MODULE)])
    for draw in (pictures.string_voltage, pictures.wiring, pictures.input_curve):
        with pytest.raises(ValueError, match="array.modules_per_string has no value"):
            draw(short)
    with pytest.raises(pvsize.RangeError, match="month"):
        pictures.year_losses(year(), month=13)


def test_many_limits_with_long_names():
    rules = pvsize.Rules()
    for i in range(8):
        rules.add(f"own_with_a_very_long_name_for_a_rule_{i}", "own", "quantity.string_voc_cold",
                  "at_most", 400 + 5 * i)
    rendered(pictures.string_voltage(job(), rules))


def test_wiring_draws_every_module():
    figure = pictures.wiring(job())
    rendered(figure)
    found = drawn(figure)
    assert len(found["module"]) == 24 and len(found["input"]) == 1 and len(found["line:0:0"]) == 1
    assert [text.get_text() for text in found["plane"]] == ["north: 24 of 26 modules", "west: 0 modules"]
    assert [text.get_text() for text in found["array"]] == ["2 × 12"]
    assert "Nothing is on B of eight." in found["caution"][0].get_text().replace("\n", " ")


def test_wiring_of_many_strings_and_long_ones():
    system = job(50, 12)
    system.add(pvsize.Array(input=1, modules_per_string=8, strings=3, module=MODULE))
    figure = pictures.wiring(system)
    rendered(figure)
    found = drawn(figure)
    assert len(found["string:50"]) == 3  # two, a gap, the last
    assert any(text.get_text() == "…  9 more strings" for text in figure.axes[0].texts)
    assert len(found["module"]) == 24
    assert found["plane"][-1].get_text() == "no plane stated: 24 modules"
    assert len(found["input"]) == 2


def test_wiring_of_a_layout():
    site = dict(temp_min=-2, temp_max=41, building="dwelling",
                planes=[dict(name="north", mounting="raised", capacity=26)])
    question = pvsize.Search(system=pvsize.System(site=site, inverters=job().inverters), modules=[MODULE])
    best = pvsize.search(question)[0]
    found = drawn(pictures.wiring(best.system()))
    assert len(found["module"]) == best.modules


def year():
    months = [dict(irradiation=h, temp_mean=m, wind=2) for h, m in zip(
        (6.5, 5.8, 4.8, 3.6, 2.7, 2.3, 2.6, 3.5, 4.6, 5.6, 6.3, 6.8), (22, 21, 19, 14, 8, 3) * 2)]
    place = dict(latitude=-33.9, longitude=151.2, time_zone=10)
    system = pvsize.System(
        name="invented", site=dict(**place, planes=[dict(tilt=22, azimuth=0, mounting="raised")]),
        inverters=[dict(rated_ac_power=5000, inputs=[entry(max_operating_current=20)])],
        arrays=[dict(input=0, plane=0, modules_per_string=8, strings=2, module=MODULE)])
    weather = pvsize.Weather.from_months(pvsize.Site(**place, months=months))
    return pvsize.Year(system, pvsize.Light(weather, pvsize.Outlook(soiling=2)))


def test_losses_of_a_year_are_those_of_its_ledger():
    ledger = year()
    for part, month in [(ledger.system, 0), (ledger.array(0), 6)]:
        figure = pictures.year_losses(ledger, part, month)
        rendered(figure)
        found = drawn(figure)
        losses = part.losses(month)
        shown = {gid[5:]: bars[0] for gid, bars in found.items() if gid.startswith("loss:")}
        assert list(shown) == [name for name, kwh in losses.items()
                               if abs(kwh) > 5e-4 * part.energy("reference", month)]
        for name, bar in shown.items():
            assert bar.get_width() == pytest.approx(-losses[name])
        assert numbers(found["reference"][0])[0] == [part.energy("reference", month)]
        assert numbers(found["output"][0])[0] == [part.energy("output", month)]
        note = found["caution"][0].get_text().replace("\n", " ")
        assert all(name.replace("_", " ") in note for name in losses if name not in shown)


class Ledger:
    """A part of a year that is made up."""

    rated = 2.0

    def __init__(self, **losses):
        self.lost = losses

    def __str__(self):
        return "nothing real"

    def energy(self, name, month):
        return {"reference": 200.0, "output": 150.0}[name]

    def losses(self, month):
        return self.lost


def test_years_side_by_side_are_those_of_their_ledgers():
    ledger = year()
    years = {"whole": ledger, "array": ledger.array(0), "inverter": ledger.inverter(0)}
    figure = pictures.years_side_by_side(years, 6)
    rendered(figure)
    found = drawn(figure)
    looks = set()
    for name, part in years.items():
        part = ledger.system if name == "whole" else part
        bar = found[f"output:{name}"][0]
        assert (bar.get_x(), bar.get_width()) == (0, part.energy("output", 6))
        looks.add((bar.get_facecolor(), bar.get_hatch()))
        for kind, kwh in part.losses(6).items():
            share = 100 * kwh / part.energy("reference", 6)
            bars = found.get(f"loss:{kind}:{name}", [])
            assert bars or abs(share) < 0.05, kind
            assert not bars or bars[0].get_width() == pytest.approx(share)
    assert len(looks) == 3
    figure = pictures.years_side_by_side({"all": Ledger(glass=6.0, export=20.0),
                                          "array": Ledger(glass=6.0)})
    assert "loss:export:all" in drawn(figure)  # an array's ledger ends before: no bar, not 0
    assert "loss:export:array" not in drawn(figure)
    assert [text.get_text() for text in figure.axes[1].texts] == ["3.0", "3.0", "10.0", "-"]


def test_nine_years_can_be_told_apart_in_grey():
    years = {f"a rather long name of year number {k}": Ledger(temperature=2.0 * k - 4, night=0.05)
             for k in range(9)}
    figure = pictures.years_side_by_side(years)
    rendered(figure)
    found = drawn(figure)
    bars = [found[f"loss:temperature:{name}"][0] for name in years]
    assert [bar.get_width() for bar in bars] == [k - 2.0 for k in range(9)]
    assert len({(bar.get_facecolor(), bar.get_hatch()) for bar in bars}) == 9
    for bar in bars:  # no colour carries anything
        red, green, blue, _ = bar.get_facecolor()
        assert red == green == blue
    assert "Less than 0.05 %: night." in found["caution"][0].get_text().replace("\n", " ")
    tops = [bar.get_y() for bar in bars]
    assert tops == sorted(tops)  # in the order given
    for wrong in ({}, {**years, "one more": Ledger()}):
        with pytest.raises(ValueError, match=f"1 to 9 years can be drawn, not {len(wrong)}"):
            pictures.years_side_by_side(wrong)
    rendered(pictures.years_side_by_side({"dark": Ledger()}))


def test_the_example_draws_its_years(tmp_path, capsys, monkeypatch):
    path = tmp_path / "years.png"
    monkeypatch.setattr(sys, "argv", ["compare_ratios.py", str(path)])
    runpy.run_path(str(ROOT / "examples" / "compare_ratios.py"), run_name="__main__")
    assert path.read_bytes().startswith(b"\x89PNG")
    assert "CAUTION" in capsys.readouterr().out


def test_a_gain_is_hatched_and_nothing_is_nothing():
    figure = pictures.year_losses(None, Ledger(low_light=3.0, temperature=-5.0, soiling=0.0))
    gain = drawn(figure)["loss:temperature"][0]
    assert (gain.get_width(), gain.get_hatch()) == (5, "////")

    class Dark(Ledger):
        def energy(self, name, month):
            return 0.0

    figure = pictures.year_losses(None, Dark(soiling=0.0))
    rendered(figure)
    assert not any(gid.startswith("loss:") for gid in drawn(figure))


def test_labels_move_apart_and_keep_their_order():
    places = pictures._spread([100, 101, 99, 300], 10)
    assert places[2] + 10 <= places[0] + 1e-3 and places[0] + 10 <= places[1] + 1e-3
    assert places[3] == 300


def test_pictures_are_the_same_each_time():
    assert rendered(pictures.wiring(job())) == rendered(pictures.wiring(job()))


def test_the_binding_needs_no_matplotlib():
    program = ("import sys; sys.modules['matplotlib'] = None; sys.modules['matplotlib.figure'] = None\n"
               "import pvsize\ntry:\n    import pvsize.pictures\n"
               "except ImportError as error:\n    print(error)")
    found = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True)
    assert "python3-matplotlib" in found.stdout
