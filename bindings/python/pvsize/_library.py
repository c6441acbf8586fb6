"""Finding libpvsize and declaring its calls.

SPDX-License-Identifier: MIT
"""

import ctypes
import ctypes.util
import os
import pathlib
import subprocess

from ctypes import POINTER, c_char_p, c_double, c_int32, c_size_t, c_void_p

# One letter an argument: h handle, H place for a handle, i number, I place
# for a number, d double, D place for a double, s text, b buffer and its size
# and the place for the length, n count, N place for a count.
_TYPES = {
    "h": [c_void_p],
    "H": [POINTER(c_void_p)],
    "i": [c_int32],
    "I": [POINTER(c_int32)],
    "d": [c_double],
    "D": [POINTER(c_double)],
    "s": [c_char_p],
    "b": [c_char_p, c_size_t, POINTER(c_size_t)],
    "n": [c_size_t],
    "N": [POINTER(c_size_t)],
}

# name: (result, arguments). Result: i number, s static text, - nothing.
SIGNATURES = {
    "status_name": ("s", "i"), "status_text": ("s", "i"),
    "status_count": ("i", ""), "status_at": ("i", "i"),
    "version": ("i", ""), "version_text": ("s", ""), "caution": ("s", ""),
    "diag_new": ("i", "hH"), "diag_free": ("-", "h"), "diag_clear": ("i", "h"),
    "diag_status": ("i", "h"), "diag_term": ("i", "h"), "diag_index": ("i", "h"),
    "diag_value": ("i", "hD"), "diag_range": ("i", "hDD"), "diag_text": ("i", "hb"),
    "diag_reason": ("i", "hb"),
    "kind_count": ("i", ""), "kind_at": ("i", "i"), "kind_by_name": ("i", "s"),
    "kind_name": ("s", "i"), "kind_plural": ("s", "i"), "kind_text": ("s", "i"),
    "kind_is_spec": ("i", "i"), "kind_part_count": ("i", "i"), "kind_part_at": ("i", "ii"),
    "kind_part_fewest": ("i", "ii"), "kind_part_most": ("i", "ii"),
    "term_count": ("i", "i"), "term_at": ("i", "ii"), "term_by_name": ("i", "is"),
    "term_kind": ("i", "i"), "term_name": ("s", "i"), "term_unit": ("s", "i"),
    "term_text": ("s", "i"), "term_type": ("i", "i"), "term_need": ("i", "i"),
    "term_range": ("i", "iDD"), "term_default": ("i", "iD"), "term_refers_to": ("i", "i"),
    "term_scope": ("i", "i"), "term_rule_value": ("i", "i"),
    "term_rule_compare": ("i", "i"), "term_rule_limit": ("i", "i"),
    "choice_count": ("i", "i"), "choice_at": ("i", "ii"), "choice_by_name": ("i", "is"),
    "choice_name": ("s", "ii"), "choice_text": ("s", "ii"),
    "set_number": ("i", "s"), "set_count": ("i", "i"), "set_at": ("i", "ii"), "set_by_name": ("i", "is"),
    "set_name": ("s", "ii"), "set_text": ("s", "ii"),
    "spec_new": ("i", "ihHh"), "spec_clone": ("i", "hhHh"), "spec_free": ("-", "h"),
    "spec_kind": ("i", "h"), "spec_set_number": ("i", "hidh"),
    "spec_set_numbers": ("i", "hIDnh"), "spec_set_text": ("i", "hish"),
    "spec_unset": ("i", "hih"), "spec_get_number": ("i", "hiDh"),
    "spec_get_text": ("i", "hibh"), "spec_state": ("i", "hiIh"),
    "spec_add": ("i", "hhIh"), "spec_part_count": ("i", "hiIh"),
    "spec_part": ("i", "hiihHh"), "spec_set_none": ("i", "hih"), "spec_replace": ("i", "hihh"),
    "spec_remove": ("i", "hiih"), "spec_set_part_number": ("i", "hiidh"),
    "spec_get_part_number": ("i", "hiiDh"),
    "preset_count": ("i", ""), "preset_name": ("s", "i"), "preset_title": ("s", "i"),
    "rules_new": ("i", "shHh"), "rules_clone": ("i", "hhHh"), "rules_free": ("-", "h"),
    "rules_set_title": ("i", "hsh"), "rules_get_title": ("i", "hbh"),
    "rules_set_figure": ("i", "hidsh"), "rules_unset_figure": ("i", "hih"),
    "rules_get_figure": ("i", "hiDh"), "rules_set_severity": ("i", "hiih"),
    "rules_get_severity": ("i", "hiIh"), "rules_add": ("i", "hssiiidisIh"),
    "rules_count": ("i", "h"), "rules_at": ("i", "hi"), "rules_by_name": ("i", "hs"),
    "rules_rule_name": ("i", "hibh"), "rules_rule_title": ("i", "hibh"),
    "rules_definition": ("i", "hiIIIDh"), "rules_source": ("i", "hibh"), "rules_known": ("i", "hiIh"),
    "report_new": ("i", "hHh"), "report_free": ("-", "h"), "check": ("i", "hhhh"),
    "report_outcome": ("i", "hIh"), "report_count": ("i", "hiiIh"), "report_finding": ("i", "hiIIIIh"),
    "report_numbers": ("i", "hiDDDh"), "report_subject_count": ("i", "hIh"), "report_subject": ("i", "hiIIIh"),
    "report_subject_text": ("i", "hibh"), "report_find": ("i", "hiiiIh"),
    "report_governs": ("i", "hiIh"), "report_missing": ("i", "hiIh"),
    "report_text": ("i", "hiibh"), "report_quantity": ("i", "hiiDh"),
    "report_working": ("i", "hiiiibh"), "report_assumption_count": ("i", "hIh"),
    "report_assumption": ("i", "hiIDh"), "report_assumption_text": ("i", "hibh"),
    "report_render": ("i", "hiibh"),
    "comparison_new": ("i", "hHh"), "comparison_free": ("-", "h"),
    "compare_rules": ("i", "hhihh"), "compare_reports": ("i", "hhihh"),
    "comparison_count": ("i", "hIh"), "comparison_difference": ("i", "hiIIh"),
    "comparison_side": ("i", "hiiIIh"), "comparison_number": ("i", "hiiiDh"),
    "comparison_figure": ("i", "hiiIh"), "comparison_text": ("i", "hibh"),
    "bill_new": ("i", "hHh"), "bill_free": ("-", "h"), "bill_fill": ("i", "hhhh"),
    "bill_outcome": ("i", "hIh"), "bill_count": ("i", "hIh"), "bill_row": ("i", "hiIIIIh"),
    "bill_quantity": ("i", "hiDDIh"), "bill_attribute_count": ("i", "hiIh"),
    "bill_attribute": ("i", "hiiIDIh"), "bill_share_count": ("i", "hiIh"),
    "bill_share": ("i", "hiiIDIh"), "bill_subject_text": ("i", "hibh"),
    "bill_assumption_count": ("i", "hIh"), "bill_assumption": ("i", "hiIDIh"),
    "bill_assumption_text": ("i", "hibh"), "bill_text": ("i", "hibh"), "bill_render": ("i", "hibh"),
    "curve_new": ("i", "hhHh"), "curve_free": ("-", "h"), "curve_model": ("i", "hddhHh"),
    "curve_check": ("i", "hiDh"), "curve_assumption_count": ("i", "hIh"),
    "curve_assumption": ("i", "hiIDh"), "curve_mpp": ("i", "hddDDh"),
    "curve_ends": ("i", "hddDDh"), "curve_current": ("i", "hdddDh"),
    "curve_voltage": ("i", "hdddDh"), "curve_sample": ("i", "hddnDDh"),
    "curve_mpps": ("i", "hDDnDDh"), "parallel_mpp": ("i", "HDDIIniDDh"),
    "parallel_current": ("i", "HDDIInidDh"), "parallel_voltage": ("i", "HDDIInidDh"),
    "weather_from_series": ("i", "hhDDDDDnnhHh"), "weather_from_months": ("i", "hihHh"),
    "weather_free": ("-", "h"), "weather_size": ("i", "hIIh"),
    "weather_time": ("i", "hiIIIDh"), "weather_value": ("i", "hiiDh"),
    "weather_origin": ("i", "hiiIh"), "weather_column": ("i", "hidDnNh"),
    "weather_count": ("i", "hiiIIh"), "weather_run": ("i", "hiiiIIh"),
    "weather_closure": ("i", "hIDDIh"), "weather_on_plane": ("i", "hdddDnNh"),
    "light_new": ("i", "hhhHh"), "light_free": ("-", "h"), "light_yield": ("i", "hhhDh"),
    "year_new": ("i", "hHh"), "year_free": ("-", "h"), "year_fill": ("i", "hhDnhh"),
    "year_size": ("i", "hIIIIh"), "year_energy": ("i", "hiiiDh"), "year_loss": ("i", "hiiiDh"),
    "year_active": ("i", "hiiDh"), "year_irradiation": ("i", "hiiDDh"),
    "year_yield": ("i", "hiDDh"), "year_power": ("i", "hidDnNh"),
    "year_subject": ("i", "hiiIh"), "year_subject_text": ("i", "hibh"),
    "year_assumption_count": ("i", "hIh"), "year_assumption": ("i", "hiIIDh"),
    "year_assumption_text": ("i", "hibh"), "year_render": ("i", "hibh"),
    "julian_day": ("i", "iidDh"), "sun_position": ("i", "dddddDDh"),
    "split_global": ("i", "ddddDDh"), "plane_irradiance": ("i", "ddddddddDDDDh"),
    "review_new": ("i", "hHh"), "review_free": ("-", "h"), "review_inverter": ("i", "hhhhhh"),
    "review_bound_count": ("i", "hIh"), "review_bound": ("i", "hiIIIh"),
    "review_bound_rule": ("i", "hiIIIIh"), "review_bound_numbers": ("i", "hiDDh"),
    "review_bound_text": ("i", "hibh"), "review_module_count": ("i", "hIh"),
    "review_module": ("i", "hiIIIIh"), "review_module_room": ("i", "hiiIh"),
    "review_module_stop": ("i", "hiiIDDDh"), "review_module_text": ("i", "hibh"),
    "review_remark_count": ("i", "hIh"), "review_remark": ("i", "hiIIIIh"),
    "review_remark_number": ("i", "hiiDh"), "review_remark_text": ("i", "hibh"),
    "remark_condition": ("s", "i"), "remark_sentence": ("s", "i"), "review_render": ("i", "hibh"),
    "judgement_new": ("i", "hHh"), "judgement_free": ("-", "h"), "judge": ("i", "hhhh"),
    "judgement_count": ("i", "hiIh"), "judgement_row": ("i", "hiIIIIh"),
    "judgement_numbers": ("i", "hiDDDDh"), "judgement_alike": ("i", "hiDh"),
    "judgement_cause_count": ("i", "hiIh"), "judgement_cause": ("i", "hiiIDDDDh"),
    "judgement_text": ("i", "hibh"), "judgement_render": ("i", "hibh"),
    "exercise_new": ("i", "iishHh"), "exercise_free": ("-", "h"),
    "exercise_origin": ("i", "hIIh"), "exercise_system": ("i", "hhHh"),
    "exercise_rules": ("i", "hhHh"), "exercise_sheet": ("i", "hiibh"),
    "exercise_question_count": ("i", "hIh"), "exercise_question": ("i", "hiIIIh"),
    "exercise_text": ("i", "hiiibh"), "exercise_answer": ("i", "hiDDh"),
    "exercise_mistake_count": ("i", "hiIh"), "exercise_mistake": ("i", "hiiIDh"),
    "exercise_mark": ("i", "hidIInNh"),
    "certificate_first_year": ("i", ""), "certificate_last_year": ("i", ""),
    "certificate_rating": ("i", "iDh"), "certificate_years": ("i", "iiIh"),
    "certificate_count": ("i", "diiiDh"), "certificate_value": ("i", "ddDh"),
    "certificate_working": ("i", "diiidibh"),
    "layouts_new": ("i", "hHh"), "layouts_free": ("-", "h"), "search": ("i", "hhhhh"),
    "layouts_ending": ("i", "hIh"), "layouts_complete": ("i", "hIh"), "layouts_bound": ("i", "hDh"),
    "layouts_nodes": ("i", "hDh"), "layouts_count": ("i", "hIh"), "layouts_number": ("i", "hiiDh"),
    "layouts_array_count": ("i", "hiIh"), "layouts_array": ("i", "hiiIIIIIIh"),
    "layouts_system": ("i", "hihHh"), "layouts_report": ("i", "hihh"), "layouts_text": ("i", "hibh"),
    "layouts_obstacle_count": ("i", "hIh"), "layouts_obstacle": ("i", "hiIIIIIIIIIh"),
    "layouts_obstacle_numbers": ("i", "hiDDDh"), "layouts_obstacle_text": ("i", "hibh"),
    "ranking_new": ("i", "hhihHh"), "ranking_free": ("-", "h"), "ranking_add": ("i", "hhhiihIh"),
    "ranking_add_shard": ("i", "hiihDh"), "ranking_merge": ("i", "hhh"),
    "ranking_judged": ("i", "hDDDh"), "ranking_count": ("i", "hIh"), "ranking_pair": ("i", "hiIIh"),
    "ranking_number": ("i", "hiiDh"),
}

_RESULTS = {"i": c_int32, "s": c_char_p, "-": None}


def _from_pkg_config():
    try:
        found = subprocess.run(["pkg-config", "--variable=libdir", "pvsize"],
                               capture_output=True, text=True, check=True)
    except (OSError, subprocess.CalledProcessError):
        return None
    return pathlib.Path(found.stdout.strip()) / "libpvsize.so.0"


def _candidates():
    """PVSIZE_LIBRARY; a build folder of the source tree; the system."""
    if os.environ.get("PVSIZE_LIBRARY"):
        yield os.environ["PVSIZE_LIBRARY"]
        return
    for folder in pathlib.Path(__file__).resolve().parents:
        if (folder / "lib" / "pvsize.map").exists():
            builds = sorted(folder.glob("build*/lib/libpvsize.so"),
                            key=lambda path: path.stat().st_mtime, reverse=True)
            yield from (str(path) for path in builds)
    yield "libpvsize.so.0"
    path = _from_pkg_config()
    if path:
        yield str(path)
    name = ctypes.util.find_library("pvsize")
    if name:
        yield name


def load():
    """The library, every call declared. Raises ImportError where none is found."""
    tried = []
    for path in _candidates():
        try:
            library = ctypes.CDLL(path)
        except OSError as error:
            tried.append(str(error))
            continue
        for name, (result, arguments) in SIGNATURES.items():
            call = getattr(library, "pvsize_" + name)
            call.restype = _RESULTS[result]
            call.argtypes = [t for letter in arguments for t in _TYPES[letter]]
        return library
    raise ImportError("libpvsize not found; set PVSIZE_LIBRARY to its path. " + "; ".join(tried))
