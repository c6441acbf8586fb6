"""The package around the binding: calls, types, rows, and a wheel that installs.

SPDX-License-Identifier: MIT
"""

import importlib.util
import os
import pathlib
import re
import shutil
import subprocess
import sys
import zipfile

import pytest

import pvsize
from pvsize import _library

PACKAGE = pathlib.Path(pvsize.__file__).parent
PYTHON = PACKAGE.parent
ROOT = PYTHON.parents[1]


def script(path):
    """A script as a module."""
    found = importlib.util.spec_from_file_location(path.stem, path)
    module = importlib.util.module_from_spec(found)
    found.loader.exec_module(module)
    return module


def test_calls_are_those_of_the_headers():
    page = script(ROOT / "bindings" / "print_calls.py").page()
    assert (PACKAGE / "calls.txt").read_text(encoding="utf-8") == page
    assert (ROOT / "bindings" / "node" / "calls.txt").read_text(encoding="utf-8") == page
    # a few read by eye from the headers, so that the printer itself is tried
    for name, result, arguments in [
            ("caution", "s", ""), ("diag_new", "i", "mH"), ("spec_free", "-", "h"),
            ("spec_set_numbers", "i", "hJEng"), ("term_range", "i", "iDD"),
            ("rules_add", "i", "hssiiidisIg"), ("search", "i", "hhJhg"),
            ("weather_from_series", "i", "hhEEEEEnnmHg"), ("weather_column", "i", "hidDnNg"),
            ("parallel_mpp", "i", "LEEJJniDDg"), ("certificate_working", "i", "diiidibg")]:
        assert _library.SIGNATURES[name] == (result, arguments), name


def test_the_printer_refuses_what_no_binding_can_call():
    printer = script(ROOT / "bindings" / "print_calls.py")
    assert printer.arguments("const pvsize_spec *spec, char *buffer, size_t capacity, "
                             "size_t *length, pvsize_diag *diag") == "hbg"
    for bad in ("float x", "int x", "long n", "pvsize_point p", "char *buffer, size_t capacity"):
        with pytest.raises(SystemExit):
            printer.arguments(bad)


# Of use to callers of C only, or looked up in tables that are read once.
UNUSED = {"version", "diag_clear", "diag_status", "term_by_name", "choice_by_name", "spec_kind",
          "year_fill"}


def test_every_public_call_is_reached():
    text = "".join(path.read_text(encoding="utf-8") for path in PACKAGE.glob("*.py"))
    missing = {name for name in _library.SIGNATURES
               if not re.search(rf'(["`]|pvsize_){name}\b', text)}
    made = re.findall(r'_calls = "(\w+)"', text)  # whose names are put together
    missing -= {f"{calls}_{what}" for calls in made for what in ("new", "render")}
    assert missing - {f"review_{part}_count" for part in ("bound", "module", "remark")} == UNUSED


def test_types_of_the_kinds_are_what_the_tables_print():
    printed = script(PYTHON / "print_kinds.py").page()
    assert (PACKAGE / "_kinds.pyi").read_text(encoding="utf-8") == printed
    assert "class Module(Spec):" in printed


def test_a_typed_program():
    pytest.importorskip("mypy")
    sample = PYTHON / "tests" / "typed_sample.py"
    found = subprocess.run([sys.executable, "-m", "mypy", "--cache-dir", os.devnull, str(sample)],
                           env={**os.environ, "MYPYPATH": str(PYTHON)}, capture_output=True, text=True)
    lines = sample.read_text(encoding="utf-8").splitlines()
    wrong = {i for i, line in enumerate(lines, 1) if line.endswith("# wrong")}
    refused = re.findall(r"^(.*?):(\d+): error", found.stdout, re.M)
    assert {(pathlib.Path(path).name, int(line)) for path, line in refused} == {
        ("typed_sample.py", line) for line in wrong}, found.stdout + found.stderr


def job():
    module = dict(pmax=430, voc=38.8, isc=13.9, vmp=32.5, imp=13.23, voc_coefficient=-0.25)
    return pvsize.System(site=dict(temp_min=-3, planes=[{}]),
                         inverters=[dict(rated_ac_power=9000, inputs=[dict(max_voltage=600)])],
                         arrays=[dict(input=0, plane=0, modules_per_string=9, module=module)])


def test_rows_are_dicts():
    report = pvsize.check(job())
    found = pvsize.rows(report)
    assert len(found) == len(report)
    assert [row["value"] for row in found] == [finding.value for finding in report]
    bill = pvsize.rows(pvsize.bill(job()))
    assert bill[0]["attributes.power"] == 430 and "attributes" not in bill[0]
    assert len({tuple(row) for row in bill}) == 1
    assert pvsize.rows([]) == []


def test_rows_in_a_data_frame():
    pandas = pytest.importorskip("pandas")
    frame = pandas.DataFrame(pvsize.rows(pvsize.check(job())))
    voc = frame.set_index("rule").loc["voc_cold_input"]
    assert voc["value"] == pytest.approx(9 * 38.8 * 1.07) and voc["verdict"] == "meets"


def test_sequences():
    report = pvsize.check(job())
    assert report[-1] == report[len(report) - 1] and report[1:3] == [report[1], report[2]]
    assert list(report) == report[:]
    with pytest.raises(IndexError):
        report[len(report)]


def test_what_the_tables_say():
    rule = pvsize.terms("rule")["voc_cold_input"].rule
    assert rule == ("quantity.string_voc_cold", "at_most", "input.max_voltage")
    kind = pvsize.describe_kind("system")
    assert kind.text and ("site", "sites", 1, 1) in kind.parts
    cell = pvsize.terms("module")["cell"]
    assert len(cell.choices) == len(cell.choice_texts) and all(cell.choice_texts)
    assert (202, "out_of_range") in [status[:2] for status in pvsize.statuses()]
    assert pvsize.Rules().rule_title("voc_cold_input")
    with pytest.raises(KeyError, match="no kind"):
        pvsize.describe_kind("roof")


def test_what_was_assumed_has_numbers():
    for result in (pvsize.check(job()), pvsize.bill(job())):
        assert [row.text for row in result.assumed] == result.assumptions
        assert all("." in row.term for row in result.assumed)


def test_numbers_are_set_together_or_not_at_all():
    module = pvsize.Module(voc=38.8)
    module.set_numbers(voc=40, vmp=33)
    assert (module.voc, module.vmp) == (40, 33)
    with pytest.raises(pvsize.RangeError) as caught:
        module.set_numbers(voc=41, vmp=-1)
    assert caught.value.term == "module.vmp" and not caught.value.reason.startswith("module")
    assert module.voc == 40
    with pytest.raises(AttributeError, match="no parameter 'volts'"):
        module.set_numbers(volts=3)


def test_what_a_call_would_cut_short_is_refused():
    with pytest.raises(ValueError, match="null"):
        pvsize.Module(name="a\0b")
    with pytest.raises(TypeError, match="spec_replace: a whole number of 32 bits is needed, not 4"):
        job().replace(2**32, pvsize.Array())
    with pytest.raises(TypeError, match="not 0.5"):
        job().replace(0.5, pvsize.Array())


@pytest.fixture(scope="module")
def wheel(tmp_path_factory):
    """A wheel made without network, of a copy: building leaves folders behind."""
    pytest.importorskip("wheel")
    pytest.importorskip("pip")
    folder = tmp_path_factory.mktemp("wheel")
    shutil.copytree(PYTHON, folder / "source", ignore=shutil.ignore_patterns("__pycache__"))
    subprocess.run([sys.executable, "-m", "pip", "wheel", "-q", "--no-index", "--no-deps",
                    "--no-build-isolation", "-w", str(folder), str(folder / "source")], check=True,
                   capture_output=True)
    (made,) = folder.glob("*.whl")
    return made


def test_the_wheel_holds_the_package(wheel):
    names = zipfile.ZipFile(wheel).namelist()
    packed = {name.split("/", 1)[1] for name in names if name.startswith("pvsize/")}
    assert packed == {path.name for path in PACKAGE.iterdir() if path.is_file()}
    assert wheel.name.split("-")[1] == pvsize.version()
    meson = (ROOT / "meson.build").read_text(encoding="utf-8")
    assert f"version: '{pvsize.version()}'" in meson


def test_the_wheel_installs_and_sizes(wheel, tmp_path):
    subprocess.run([sys.executable, "-m", "pip", "install", "-q", "--no-index", "--no-deps",
                    "--target", str(tmp_path), str(wheel)], check=True, capture_output=True)
    library = os.environ.get("PVSIZE_STAGED_LIBRARY") or pvsize._base._lib._name
    program = "import pvsize; print(pvsize.__file__, pvsize.Module(voc=40).voc)"
    found = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True,
                           cwd=tmp_path, env={"PYTHONPATH": str(tmp_path), "PVSIZE_LIBRARY": library})
    assert found.stdout.split() == [str(tmp_path / "pvsize" / "__init__.py"), "40.0"]
