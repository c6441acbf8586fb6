"""Curves through the binding: with lists, with buffers, with NumPy in place."""

import array

import pytest

import pvsize

np = pytest.importorskip("numpy")


def module(**changes):
    """Data sheet of the 200 W module of Villalva, Gazoli and Filho, IEEE Trans. Power
    Electronics 24 (2009) 1198-1208, table I."""
    values = dict(name="published", pmax=200.143, voc=32.9, isc=8.21, vmp=26.3, imp=7.61,
                  voc_coefficient_absolute=-0.123, isc_coefficient_absolute=0.00318, cells=54)
    return pvsize.Module(**{**values, **changes})


def test_points():
    curve = pvsize.Curve(module())
    assert curve.mpp() == pytest.approx((26.3, 7.61), rel=1e-9)
    assert curve.mpp().power == pytest.approx(200.143, rel=1e-9)
    assert curve.voc() == pytest.approx(32.9, rel=1e-9)
    assert curve.isc() == pytest.approx(8.21, rel=1e-9)
    assert curve.current(26.3) == pytest.approx(7.61, rel=1e-9)
    assert curve.voltage(7.61) == pytest.approx(26.3, rel=1e-9)
    assert curve.voc(cell_temp=-10) == pytest.approx(37.170, abs=1e-3)  # computed in SciPy
    voltage, current = curve.sample(11, 500, 40)
    assert voltage[0] == 0 and current[10] == 0 and len(voltage) == 11


def test_what_the_fit_says():
    curve = pvsize.Curve(module())
    assert curve.check("vmp") == pytest.approx(0, abs=1e-9)
    assert curve.check("pmax_coefficient") is None
    assert curve.assumptions == []
    model = curve.model()
    assert model.name == "published" and model.cells == 54
    assert model.light_current == pytest.approx(8.21, rel=0.01)
    again = pvsize.Curve(model)
    assert again.mpp(300, 50) == pytest.approx(curve.mpp(300, 50), rel=1e-12)
    assumptions = pvsize.Curve(module(cells=None, voc_coefficient_absolute=None)).assumptions
    assert [a.name for a in assumptions] == ["cells", "ideality"]
    assert all(a.text for a in assumptions)


def test_rows_of_any_kind():
    curve = pvsize.Curve(module())
    sun, temp = [0, 0.1, 200, 1000], [5, -10, 30, 60]
    single = [curve.mpp(s, t) for s, t in zip(sun, temp)]
    voltage, current = curve.mpps(sun, temp)
    assert list(zip(voltage, current)) == single
    assert isinstance(voltage, array.array)
    given = np.array(sun, float), np.array(temp, float)
    given[0].flags.writeable = False
    out = np.full(4, 7.0), np.full(4, 7.0)
    back = curve.mpps(*given, out=out)
    assert back[0] is out[0] and list(zip(*out)) == single
    # every second one: copied
    assert list(zip(*curve.mpps(given[0][::2], given[1][::2]))) == single[::2]
    assert len(curve.mpps([], [])[0]) == 0


def test_wrong_rows():
    curve = pvsize.Curve(module())
    with pytest.raises(ValueError):
        curve.mpps([1, 2], [3])
    with pytest.raises(ValueError):
        curve.mpps([1], [3], out=(array.array("d", [0, 0]), array.array("d", [0, 0])))
    with pytest.raises(TypeError):
        curve.mpps([1], [3], out=([0.0], [0.0]))
    with pytest.raises(TypeError):
        curve.mpps([1], [3], out=(np.zeros(1, np.float32), np.zeros(1, np.float32)))
    with pytest.raises(pvsize.RangeError, match=r"cell_temp\[1\]"):
        curve.mpps([1, 1], [3, 999])
    with pytest.raises(pvsize.RangeError):
        curve.mpp(float("nan"))
    with pytest.raises(TypeError):
        pvsize.Curve(3)
    with pytest.raises(pvsize.ArgumentError):
        pvsize.Curve(pvsize.Inverter())
    with pytest.raises(pvsize.RangeError, match="module.vmp"):
        pvsize.Curve(module(vmp=10))
    curve.close()
    with pytest.raises(pvsize.ArgumentError):
        curve.mpp()


def test_parallel():
    long, short = pvsize.Curve(module()), pvsize.Curve(module())
    both = pvsize.Parallel([(long, 12, 1, 900, 50), (short, 11, 1, 900, 50)])
    peak = both.mpp()
    alone = 12 * long.mpp(900, 50).power + 11 * short.mpp(900, 50).power
    assert 0.97 * alone < peak.power < alone
    assert both.current(peak.voltage) == pytest.approx(peak.current)
    assert both.voltage(peak.current) == pytest.approx(peak.voltage)
    blocked = pvsize.Parallel(both.branches, blocked=True)
    assert blocked.current(385) > both.current(385)
    with pytest.raises(pvsize.RangeError, match=r"strings\[0\]"):
        pvsize.Parallel([(long, 12, 0)]).mpp()
    with pytest.raises(pvsize.RangeError):
        pvsize.Parallel([]).mpp()
    short.close()
    with pytest.raises(pvsize.ArgumentError):
        both.mpp()
