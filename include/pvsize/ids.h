/* pvsize/ids.h - every number of the interface. Part of libpvsize; include
 * <pvsize/pvsize.h>. Generated from lib/tables; do not edit.
 * SPDX-License-Identifier: MIT */
#ifndef PVSIZE_IDS_H
#define PVSIZE_IDS_H

/* results of calls */
enum {
    PVSIZE_OK = 0, /* success */
    PVSIZE_E_NULL_POINTER = 101, /* a pointer that must be given is null */
    PVSIZE_E_BAD_HANDLE = 102, /* not a live handle of the type this call takes */
    PVSIZE_E_UNKNOWN_NUMBER = 103, /* no row of any table has this number */
    PVSIZE_E_UNKNOWN_NAME = 104, /* no row of the table has this name */
    PVSIZE_E_WRONG_KIND = 105, /* of another kind than this call takes */
    PVSIZE_E_WRONG_TYPE = 106, /* the parameter holds another type of value */
    PVSIZE_E_BAD_INDEX = 107, /* index outside the list */
    PVSIZE_E_NOT_FINITE = 201, /* not a finite number */
    PVSIZE_E_OUT_OF_RANGE = 202, /* outside the allowed range */
    PVSIZE_E_NOT_WHOLE = 203, /* must be a whole number */
    PVSIZE_E_BAD_CHOICE = 204, /* not one of the choices */
    PVSIZE_E_BAD_TEXT = 205, /* not UTF-8, or holds control characters */
    PVSIZE_E_TOO_LONG = 206, /* text has too many bytes */
    PVSIZE_E_BAD_NAME = 207, /* a name is a word of a to z, 0 to 9 and _, of 1 to 63 bytes */
    PVSIZE_E_NAME_TAKEN = 208, /* the name is in use */
    PVSIZE_E_WRONG_UNIT = 209, /* the two sides have unlike units */
    PVSIZE_E_NEEDS_VALUE = 210, /* must have a value: none is no answer here */
    PVSIZE_E_NOT_SET = 301, /* has no value */
    PVSIZE_E_MISSING_PART = 302, /* a part that this object must have was not added */
    PVSIZE_E_BROKEN_REFERENCE = 303, /* refers to a part that is not there */
    PVSIZE_E_TOO_MANY = 304, /* more parts than this object may have */
    PVSIZE_E_CAPACITY = 401, /* the caller's buffer is too small */
    PVSIZE_E_NO_MEMORY = 501, /* the allocator returned null */
    PVSIZE_E_INTERNAL = 901, /* a fault in the library itself */
    /* numbers are never reused */
};

/* kinds */
enum {
    PVSIZE_KIND_MODULE = 1000, /* PV module type, as its data sheet states it at STC */
    PVSIZE_KIND_INPUT = 2000, /* d.c. input of an inverter with its own maximum-power-point tracker */
    PVSIZE_KIND_INVERTER = 3000, /* inverter (power conversion equipment) */
    PVSIZE_KIND_EFFICIENCY_POINT = 4000, /* one measured point of the inverter's conversion efficiency */
    PVSIZE_KIND_SITE = 5000, /* place, building and supply */
    PVSIZE_KIND_PLANE = 6000, /* roof face or other surface that carries modules */
    PVSIZE_KIND_ARRAY = 7000, /* equal strings of one module type, on one plane, on one input */
    PVSIZE_KIND_SYSTEM = 8000, /* inverters and their arrays on one site */
    PVSIZE_KIND_FIGURE = 20000, /* figure of a rule set */
    PVSIZE_KIND_QUANTITY = 30000, /* quantity the library computes */
    PVSIZE_KIND_RULE = 40000, /* rule of a rule set */
    /* numbers are never reused */
};

/* sets of named values */
enum {
    PVSIZE_SET_ANSWER = 1,
    PVSIZE_SET_CELL = 2,
    PVSIZE_SET_ISOLATOR = 3,
    PVSIZE_SET_COOLING = 4,
    PVSIZE_SET_BUILDING = 5,
    PVSIZE_SET_MOUNTING = 6,
    PVSIZE_SET_EXPORT_CONTROL = 7,
    PVSIZE_SET_SEVERITY = 8,
    PVSIZE_SET_VERDICT = 9,
    PVSIZE_SET_KNOWN = 10,
    PVSIZE_SET_COMPARE = 11,
    PVSIZE_SET_FORMAT = 12,
    PVSIZE_SET_TYPE = 13,
    PVSIZE_SET_NEED = 14,
    PVSIZE_SET_STATE = 15,
    PVSIZE_SET_TEXT = 16,
    PVSIZE_SET_OUTCOME = 17,
    PVSIZE_SET_DIFFERS = 18,
    /* numbers are never reused */
};

/* named values */
enum {
    PVSIZE_ANSWER_NO = 0, /* no */
    PVSIZE_ANSWER_YES = 1, /* yes */
    PVSIZE_CELL_CRYSTALLINE_SILICON = 1, /* mono- or multicrystalline silicon */
    PVSIZE_CELL_CADMIUM_TELLURIDE = 2, /* cadmium telluride thin film */
    PVSIZE_CELL_CIGS = 3, /* copper indium gallium selenide thin film */
    PVSIZE_CELL_AMORPHOUS_SILICON = 4, /* amorphous silicon thin film */
    PVSIZE_CELL_OTHER = 9, /* another technology */
    PVSIZE_ISOLATOR_NONE = 0, /* no isolator in the inverter */
    PVSIZE_ISOLATOR_BUILT_IN = 1, /* load-break d.c. isolator inside the inverter */
    PVSIZE_COOLING_NATURAL = 1, /* natural convection */
    PVSIZE_COOLING_FAN = 2, /* fan */
    PVSIZE_BUILDING_DWELLING = 1, /* domestic dwelling */
    PVSIZE_BUILDING_OTHER_BUILDING = 2, /* any other building */
    PVSIZE_BUILDING_NOT_ON_BUILDING = 3, /* array neither on nor in a building */
    PVSIZE_MOUNTING_OPEN_RACK = 1, /* free-standing rack, both sides ventilated */
    PVSIZE_MOUNTING_RAISED = 2, /* parallel to the roof, 150 mm of air or more behind */
    PVSIZE_MOUNTING_CLOSE = 3, /* parallel to the roof, less than 150 mm of air behind */
    PVSIZE_MOUNTING_INTEGRATED = 4, /* built into the roof, no air behind */
    PVSIZE_EXPORT_CONTROL_NONE = 0, /* none fitted */
    PVSIZE_EXPORT_CONTROL_CURRENT_SENSOR = 1, /* current sensor round the main conductor at the connection point */
    PVSIZE_EXPORT_CONTROL_METER = 2, /* meter at the connection point */
    PVSIZE_SEVERITY_OFF = 0, /* not evaluated */
    PVSIZE_SEVERITY_NOTE = 1, /* worth knowing; nothing is broken */
    PVSIZE_SEVERITY_SHOULD = 2, /* good practice */
    PVSIZE_SEVERITY_MUST = 3, /* a limit of the standard, the scheme or the maker */
    PVSIZE_VERDICT_MEETS = 1, /* within the limit */
    PVSIZE_VERDICT_MARGINAL = 2, /* within the limit by less than the rule set's marginal band */
    PVSIZE_VERDICT_EXCEEDS = 3, /* on the wrong side of the limit */
    PVSIZE_VERDICT_NOT_ASSESSED = 4, /* data are missing */
    PVSIZE_KNOWN_READ = 1, /* read in a source */
    PVSIZE_KNOWN_MEMORY = 2, /* from memory */
    PVSIZE_KNOWN_UNCERTAIN = 3, /* from memory, uncertain */
    PVSIZE_KNOWN_PRACTICE = 4, /* common practice */
    PVSIZE_KNOWN_HOUSE = 5, /* this library's own choice */
    PVSIZE_KNOWN_MAKER = 6, /* the maker's own limit */
    PVSIZE_KNOWN_USER = 7, /* given by the caller */
    PVSIZE_COMPARE_AT_MOST = 1, /* the value may be as high as the limit */
    PVSIZE_COMPARE_AT_LEAST = 2, /* the value may be as low as the limit */
    PVSIZE_COMPARE_MORE_THAN = 3, /* the value must lie above the limit */
    PVSIZE_FORMAT_PLAIN = 1, /* plain text */
    PVSIZE_FORMAT_MARKDOWN = 2, /* Markdown */
    PVSIZE_TYPE_NUMBER = 1, /* a real number in the term's unit */
    PVSIZE_TYPE_COUNT = 2, /* a whole number */
    PVSIZE_TYPE_INDEX = 3, /* place of a part in its list, from 0 */
    PVSIZE_TYPE_CHOICE = 4, /* one of a set of named values */
    PVSIZE_TYPE_TEXT = 5, /* text */
    PVSIZE_TYPE_RULE = 6, /* a rule */
    PVSIZE_NEED_REQUIRED = 1, /* no sizing without it */
    PVSIZE_NEED_OPTIONAL = 2, /* rules that need it are not assessed without it */
    PVSIZE_NEED_DEFAULT = 3, /* a stated default serves where it is not given */
    PVSIZE_STATE_UNSET = 0, /* no value */
    PVSIZE_STATE_SET = 1, /* a value was set */
    PVSIZE_STATE_DEFAULT = 2, /* the default serves */
    PVSIZE_STATE_NONE = 3, /* the maker or the network states that there is none */
    PVSIZE_TEXT_SENTENCE = 1, /* the finding in one line */
    PVSIZE_TEXT_NAME = 2, /* name of the rule */
    PVSIZE_TEXT_TITLE = 3, /* title of the rule */
    PVSIZE_TEXT_SUBJECT = 4, /* what the finding speaks of */
    PVSIZE_TEXT_UNIT = 5, /* unit of value, limit and margin */
    PVSIZE_TEXT_SOURCE = 6, /* where the limit is written and how it is known */
    PVSIZE_TEXT_CONSEQUENCE = 7, /* what a breach means */
    PVSIZE_TEXT_REASON = 8, /* why the finding was not assessed; empty otherwise */
    PVSIZE_TEXT_WORKING = 9, /* steps that lead to the value and the limit, plain text */
    PVSIZE_TEXT_WORKING_MARKDOWN = 10, /* the same in Markdown */
    PVSIZE_OUTCOME_NOTHING = 0, /* no rule found anything to judge */
    PVSIZE_OUTCOME_HOLDS = 1, /* every limit that must hold was assessed and holds */
    PVSIZE_OUTCOME_INCOMPLETE = 2, /* no limit that must hold is known to be broken, but some were not assessed */
    PVSIZE_OUTCOME_BROKEN = 3, /* a limit that must hold is broken */
    PVSIZE_DIFFERS_PRESENCE = 1, /* only one of the two has it */
    PVSIZE_DIFFERS_SEVERITY = 2, /* how severely the rule holds */
    PVSIZE_DIFFERS_VERDICT = 4, /* what the finding comes to */
    PVSIZE_DIFFERS_VALUE = 8, /* the value of the figure or of the finding */
    PVSIZE_DIFFERS_LIMIT = 16, /* the limit of the own rule or of the finding */
    PVSIZE_DIFFERS_DEFINITION = 32, /* which terms the own rule compares, and how */
    PVSIZE_DIFFERS_SOURCE = 64, /* where it is written, and how that is known; only on request */
    /* numbers are never reused */
};

/* parameters */
enum {
    PVSIZE_MODULE_NAME = 1001, /* label of the module type */
    PVSIZE_MODULE_CELL = 1002, /* cell technology */
    PVSIZE_MODULE_PMAX = 1003, /* maximum power at STC, W */
    PVSIZE_MODULE_VOC = 1004, /* open-circuit voltage at STC, V */
    PVSIZE_MODULE_ISC = 1005, /* short-circuit current at STC, A */
    PVSIZE_MODULE_VMP = 1006, /* voltage at maximum power at STC, V */
    PVSIZE_MODULE_IMP = 1007, /* current at maximum power at STC, A */
    PVSIZE_MODULE_VOC_COEFFICIENT = 1008, /* temperature coefficient of Voc, %/K */
    PVSIZE_MODULE_VOC_COEFFICIENT_ABSOLUTE = 1009, /* temperature coefficient of Voc where the data sheet gives it in V/K, V/K */
    PVSIZE_MODULE_ISC_COEFFICIENT = 1010, /* temperature coefficient of Isc, %/K */
    PVSIZE_MODULE_ISC_COEFFICIENT_ABSOLUTE = 1011, /* temperature coefficient of Isc where the data sheet gives it in A/K, A/K */
    PVSIZE_MODULE_PMAX_COEFFICIENT = 1012, /* temperature coefficient of maximum power, %/K */
    PVSIZE_MODULE_VMP_COEFFICIENT = 1013, /* temperature coefficient of Vmp, where the maker states one, %/K */
    PVSIZE_MODULE_VMP_COEFFICIENT_ABSOLUTE = 1014, /* temperature coefficient of Vmp where the data sheet gives it in V/K, V/K */
    PVSIZE_MODULE_NMOT = 1015, /* nominal module operating temperature, °C */
    PVSIZE_MODULE_CELLS = 1016, /* cells in series */
    PVSIZE_MODULE_BIFACIALITY = 1017, /* bifaciality of Isc; 0 for a monofacial module */
    PVSIZE_MODULE_MAX_SYSTEM_VOLTAGE = 1018, /* maximum system voltage (IEC 61730-1), V */
    PVSIZE_MODULE_MAX_SERIES_FUSE = 1019, /* maximum overcurrent protection rating (maximum series fuse), A */
    PVSIZE_MODULE_LENGTH = 1020, /* length of the frame, mm */
    PVSIZE_MODULE_WIDTH = 1021, /* width of the frame, mm */
    PVSIZE_MODULE_MASS = 1022, /* mass, kg */
    PVSIZE_MODULE_POWER_TOLERANCE_MINUS = 1023, /* how far Pmax may fall below the rating, % */
    PVSIZE_MODULE_POWER_TOLERANCE_PLUS = 1024, /* how far Pmax may lie above the rating, % */
    PVSIZE_MODULE_VOC_TOLERANCE = 1025, /* production tolerance of Voc, plus or minus; the voltage rules take the rated Voc, % */
    PVSIZE_MODULE_ISC_TOLERANCE = 1026, /* production tolerance of Isc, plus or minus; the current rules take the rated Isc, % */
    PVSIZE_MODULE_THICKNESS = 1027, /* thickness of the frame, for clamps, mm */
    PVSIZE_INPUT_NAME = 2001, /* label of the input, as marked on the inverter */
    PVSIZE_INPUT_MAX_VOLTAGE = 2002, /* absolute maximum d.c. voltage, V */
    PVSIZE_INPUT_TRACKING_MIN = 2003, /* lower end of the tracking window, V */
    PVSIZE_INPUT_TRACKING_MAX = 2004, /* upper end of the tracking window, V */
    PVSIZE_INPUT_FULL_POWER_MIN = 2005, /* lower end of the window in which full power is reached, V */
    PVSIZE_INPUT_FULL_POWER_MAX = 2006, /* upper end of the window in which full power is reached, V */
    PVSIZE_INPUT_START_VOLTAGE = 2007, /* voltage at which the input starts to feed in, V */
    PVSIZE_INPUT_MAX_OPERATING_CURRENT = 2008, /* largest operating current; beyond it energy is lost, A */
    PVSIZE_INPUT_MAX_SHORT_CIRCUIT_CURRENT = 2009, /* short-circuit rating (Isc PV of IEC 62109-1), A */
    PVSIZE_INPUT_TERMINALS = 2010, /* pairs of string terminals */
    PVSIZE_INPUT_TERMINAL_CURRENT = 2011, /* rated current of one pair of terminals, A */
    PVSIZE_INPUT_MAX_POWER = 2012, /* largest array power at STC that the maker allows on this input, W */
    PVSIZE_INPUT_ISOLATOR = 2013, /* d.c. isolator in the inverter */
    PVSIZE_INPUT_ISOLATOR_MEETS_STANDARD = 2014, /* the built-in isolator meets IEC 60947-3 */
    PVSIZE_INPUT_ISOLATOR_LOCKS_OFF = 2015, /* the built-in isolator can be locked in the off position */
    PVSIZE_INPUT_ISOLATOR_VOLTAGE = 2016, /* rated voltage of the built-in isolator, V */
    PVSIZE_INPUT_ISOLATOR_CURRENT = 2017, /* rated current of the built-in isolator at that voltage, A */
    PVSIZE_INVERTER_NAME = 3001, /* label of the inverter */
    PVSIZE_INVERTER_RATED_AC_POWER = 3002, /* rated a.c. active power, W */
    PVSIZE_INVERTER_RATED_APPARENT_POWER = 3003, /* rated a.c. apparent power, VA */
    PVSIZE_INVERTER_MAX_AC_CURRENT = 3004, /* largest continuous a.c. current, per phase, A */
    PVSIZE_INVERTER_PHASES = 3005, /* a.c. phases */
    PVSIZE_INVERTER_AC_VOLTAGE = 3006, /* nominal a.c. voltage, phase to neutral, V */
    PVSIZE_INVERTER_MAX_PV_POWER = 3007, /* largest array power at STC that the maker allows, W */
    PVSIZE_INVERTER_SEPARATED = 3008, /* d.c. and a.c. sides are galvanically separated */
    PVSIZE_INVERTER_BACKFEED_CURRENT = 3009, /* largest current fed back into the array (IEC 62109-1), A */
    PVSIZE_INVERTER_COOLING = 3010, /* cooling of the enclosure */
    PVSIZE_INVERTER_NIGHT_CONSUMPTION = 3011, /* power drawn from the supply at night, W */
    PVSIZE_EFFICIENCY_POINT_LOAD = 4001, /* a.c. power as a share of the rating, % */
    PVSIZE_EFFICIENCY_POINT_VOLTAGE = 4002, /* d.c. voltage at the point, V */
    PVSIZE_EFFICIENCY_POINT_EFFICIENCY = 4003, /* conversion efficiency at the point, % */
    PVSIZE_SITE_NAME = 5001, /* label of the site */
    PVSIZE_SITE_TEMP_MIN = 5002, /* lowest expected temperature: the mean of the yearly minima, not the minimum of a typical year, °C */
    PVSIZE_SITE_TEMP_MAX = 5003, /* highest expected ambient temperature, °C */
    PVSIZE_SITE_BUILDING = 5004, /* class of building that carries the array */
    PVSIZE_SITE_SUPPLY_PHASES = 5005, /* phases of the supply */
    PVSIZE_SITE_SUPPLY_VOLTAGE = 5006, /* nominal voltage of the supply, phase to neutral, V */
    PVSIZE_SITE_CONNECTION_LIMIT = 5007, /* largest total inverter rating that the network agreed to, VA */
    PVSIZE_SITE_EXPORT_LIMIT = 5008, /* largest export that the network agreed to, W */
    PVSIZE_SITE_EXPORT_CONTROL = 5009, /* what measures the export at the connection point */
    PVSIZE_PLANE_NAME = 6001, /* label of the plane */
    PVSIZE_PLANE_TILT = 6002, /* tilt from horizontal, deg */
    PVSIZE_PLANE_AZIMUTH = 6003, /* direction faced, clockwise from true north, deg */
    PVSIZE_PLANE_CAPACITY = 6004, /* modules that fit on the plane */
    PVSIZE_PLANE_MOUNTING = 6005, /* how the modules are mounted */
    PVSIZE_PLANE_CELL_RISE = 6006, /* cell temperature above ambient on a hot afternoon; overrides the rule set's figure for the mounting, K */
    PVSIZE_PLANE_CURRENT_CORRECTION = 6007, /* factor on Isc for bifacial, tracked or vertical arrays, snow or altitude; where none is given, what a bifacial module calls for, else 1 */
    PVSIZE_ARRAY_NAME = 7001, /* label of the array */
    PVSIZE_ARRAY_INVERTER = 7002, /* inverter the strings go to */
    PVSIZE_ARRAY_INPUT = 7003, /* input of that inverter */
    PVSIZE_ARRAY_PLANE = 7004, /* plane that carries the modules */
    PVSIZE_ARRAY_MODULES_PER_STRING = 7005, /* modules in series in each string */
    PVSIZE_ARRAY_STRINGS = 7006, /* strings in parallel */
    PVSIZE_ARRAY_EXTERNAL_ISOLATOR = 7007, /* a load-break d.c. isolator is fitted beside the inverter */
    PVSIZE_ARRAY_STRING_DEVICE = 7008, /* rating of the overcurrent device in the strings; none: there is no device, A */
    PVSIZE_ARRAY_STRING_DEVICE_VOLTAGE = 7009, /* rated d.c. voltage of that device, V */
    PVSIZE_ARRAY_STRINGS_PER_DEVICE = 7010, /* strings grouped under one device */
    PVSIZE_SYSTEM_NAME = 8001, /* label of the job */
    /* numbers are never reused */
};

/* figures of a rule set */
enum {
    PVSIZE_FIGURE_ISC_FACTOR = 20001, /* factor on module Isc for cables, protection and inverter inputs */
    PVSIZE_FIGURE_VOC_MULTIPLIER = 20002, /* factor on Voc at STC where neither a coefficient nor the table serves */
    PVSIZE_FIGURE_VOC_TABLE = 20003, /* whether the correction table for crystalline silicon may stand in for a missing coefficient */
    PVSIZE_FIGURE_ARRAY_RATIO_MAX = 20004, /* largest array power over rated a.c. power */
    PVSIZE_FIGURE_ARRAY_RATIO_MIN = 20005, /* array power over rated a.c. power below which the inverter is underloaded */
    PVSIZE_FIGURE_VOLTAGE_LIMIT_DWELLING = 20006, /* largest array voltage on a domestic dwelling, V */
    PVSIZE_FIGURE_VOLTAGE_LIMIT_OTHER_BUILDING = 20007, /* largest array voltage on any other building, V */
    PVSIZE_FIGURE_VOLTAGE_LIMIT_NOT_ON_BUILDING = 20008, /* largest array voltage off buildings, V */
    PVSIZE_FIGURE_TRACKING_RESERVE = 20009, /* factor on the lower end of the tracking window, as a reserve for ageing and low supply */
    PVSIZE_FIGURE_DC_DROP = 20010, /* d.c. voltage drop allowed for on a hot afternoon, % */
    PVSIZE_FIGURE_CELL_RISE_OPEN_RACK = 20011, /* cell temperature above ambient on a hot afternoon, open rack, K */
    PVSIZE_FIGURE_CELL_RISE_RAISED = 20012, /* cell temperature above ambient on a hot afternoon, parallel to the roof, 150 mm of air or more behind, K */
    PVSIZE_FIGURE_CELL_RISE_CLOSE = 20013, /* cell temperature above ambient on a hot afternoon, parallel to the roof, less air behind, K */
    PVSIZE_FIGURE_CELL_RISE_INTEGRATED = 20014, /* cell temperature above ambient on a hot afternoon, built into the roof, K */
    PVSIZE_FIGURE_PARALLEL_VOC_DIFFERENCE = 20015, /* largest difference in open-circuit voltage among strings in parallel, % */
    PVSIZE_FIGURE_PLANES_PER_INPUT = 20016, /* planes whose strings may share an input */
    PVSIZE_FIGURE_MARGINAL_BAND = 20017, /* a value closer to its limit than this share of it is called marginal, % */
    PVSIZE_FIGURE_DATA_POWER_TOLERANCE = 20018, /* how far Imp x Vmp may lie from Pmax before the data sheet contradicts itself, % */
    PVSIZE_FIGURE_DATA_VOC_COEFFICIENT_HIGH = 20019, /* highest believable temperature coefficient of Voc, %/K */
    PVSIZE_FIGURE_DATA_VOC_COEFFICIENT_LOW = 20020, /* lowest believable temperature coefficient of Voc, %/K */
    PVSIZE_FIGURE_DATA_COEFFICIENT_TOLERANCE = 20021, /* how far two statements of one coefficient may differ, %/K */
    PVSIZE_FIGURE_DATA_ISC_COEFFICIENT_HIGH = 20022, /* highest believable temperature coefficient of Isc, %/K */
    PVSIZE_FIGURE_DATA_PMAX_COEFFICIENT_HIGH = 20023, /* highest believable temperature coefficient of maximum power, %/K */
    PVSIZE_FIGURE_REQUIRED_YES = 20024, /* the answer yes, as the limit of a yes-or-no rule */
    PVSIZE_FIGURE_NO_DIFFERENCE = 20025, /* no difference at all, as a limit */
    PVSIZE_FIGURE_ONE = 20026, /* one, as a limit */
    PVSIZE_FIGURE_DATA_CURRENT_TOLERANCE = 20027, /* how far the a.c. current at the rating may lie above the stated maximum before the data sheet contradicts itself, % */
    PVSIZE_FIGURE_DATA_SILICON_COEFFICIENT_HIGH = 20028, /* the same as data_voc_coefficient_high for crystalline silicon, %/K */
    PVSIZE_FIGURE_DATA_SILICON_COEFFICIENT_LOW = 20029, /* the same as data_voc_coefficient_low for crystalline silicon, %/K */
    PVSIZE_FIGURE_DATA_VMP_COEFFICIENT_HIGH = 20030, /* highest believable temperature coefficient of Vmp, %/K */
    PVSIZE_FIGURE_DATA_VMP_COEFFICIENT_LOW = 20031, /* lowest believable temperature coefficient of Vmp, %/K */
    PVSIZE_FIGURE_DATA_ISC_COEFFICIENT_LOW = 20032, /* lowest believable temperature coefficient of Isc, %/K */
    PVSIZE_FIGURE_DATA_SUPPLY_TOLERANCE = 20033, /* how far the inverter's nominal voltage may lie from the supply's, % */
    PVSIZE_FIGURE_VOC_FIXED = 20034, /* whether the fixed factor is that of crystalline silicon alone and holds there whatever the coefficient */
    PVSIZE_FIGURE_DEVICE_TRIGGER_FACTOR = 20101, /* factor on the Isc of the other strings in the current that can flow back into a string */
    PVSIZE_FIGURE_DEVICE_TRIGGER_SHARE = 20102, /* share of the module's overcurrent protection rating that this current may reach without a device */
    PVSIZE_FIGURE_DEVICE_TRIGGER_BACKFEED = 20103, /* whether the inverter's backfeed current counts as well */
    PVSIZE_FIGURE_DEVICE_FREE_STRINGS = 20104, /* strings in parallel that need no device, whatever the current */
    PVSIZE_FIGURE_DEVICE_LOW_FACTOR = 20105, /* lowest rating of a string device over module Isc */
    PVSIZE_FIGURE_DEVICE_LOW_STRICT = 20106, /* whether the rating must lie above that, not at it */
    PVSIZE_FIGURE_DEVICE_HIGH_FACTOR = 20107, /* highest rating of a string device over module Isc; where the rule set has none, the module's rating alone limits */
    PVSIZE_FIGURE_DEVICE_SERIES = 20108, /* standard ratings of devices: 1 IEC gPV, 2 NFPA 70 240.6, 3 the same with steps of 1 A */
    /* numbers are never reused */
};

/* quantities */
enum {
    PVSIZE_QUANTITY_MODULE_VOC_COEFFICIENT = 30001, /* temperature coefficient of Voc, from either form of the data sheet, %/K */
    PVSIZE_QUANTITY_MODULE_VMP_COEFFICIENT = 30002, /* temperature coefficient of Vmp, stated or estimated as that of Pmax less that of Isc, %/K */
    PVSIZE_QUANTITY_MODULE_ISC_COEFFICIENT = 30003, /* temperature coefficient of Isc, from either form of the data sheet, %/K */
    PVSIZE_QUANTITY_MODULE_POWER_DEVIATION = 30004, /* how far Imp x Vmp lies from Pmax, % */
    PVSIZE_QUANTITY_MODULE_COEFFICIENT_DEVIATION = 30005, /* how far the two statements of the coefficient of Voc differ, %/K */
    PVSIZE_QUANTITY_MODULE_GIVEN = 30006, /* every required value of the module is there */
    PVSIZE_QUANTITY_MODULE_ISC_DEVIATION = 30007, /* how far the two statements of the coefficient of Isc differ, %/K */
    PVSIZE_QUANTITY_MODULE_VMP_DEVIATION = 30008, /* how far the two statements of the coefficient of Vmp differ, %/K */
    PVSIZE_QUANTITY_MODULE_VOC_COEFFICIENT_HIGH = 30009, /* highest believable coefficient of Voc for the cell, %/K */
    PVSIZE_QUANTITY_MODULE_VOC_COEFFICIENT_LOW = 30010, /* lowest believable coefficient of Voc for the cell, %/K */
    PVSIZE_QUANTITY_CELL_TEMP_HOT = 30101, /* cell temperature on a hot afternoon, °C */
    PVSIZE_QUANTITY_MODULE_VOC_COLD = 30102, /* open-circuit voltage of one module on the coldest morning: by its coefficient, else by the table, else by the fixed factor, V */
    PVSIZE_QUANTITY_MODULE_VMP_HOT = 30103, /* maximum-power voltage of one module on a hot afternoon, V */
    PVSIZE_QUANTITY_STRING_VOC_COLD = 30104, /* open-circuit voltage of the string on the coldest morning, V */
    PVSIZE_QUANTITY_STRING_VMP_HOT = 30105, /* maximum-power voltage of the string on a hot afternoon, V */
    PVSIZE_QUANTITY_STRING_VMP_HOT_AFTER_DROP = 30106, /* the same at the input, after the d.c. drop, V */
    PVSIZE_QUANTITY_STRING_VOC_HOT = 30107, /* open-circuit voltage of the string on a hot afternoon, V */
    PVSIZE_QUANTITY_STRING_VMP_COLD = 30108, /* maximum-power voltage of the string on the coldest morning, V */
    PVSIZE_QUANTITY_BUILDING_VOLTAGE_LIMIT = 30109, /* largest array voltage for the class of building, V */
    PVSIZE_QUANTITY_STRING_VOLTAGE_LIMIT = 30110, /* voltage limit of the string: the input's, or the module's or the building's where known and lower, V */
    PVSIZE_QUANTITY_TRACKING_FLOOR = 30111, /* lower end of the tracking window with reserve, V */
    PVSIZE_QUANTITY_STRING_MODULES_MAX = 30112, /* most modules in a string within the known limits on its cold voltage */
    PVSIZE_QUANTITY_STRING_MODULES_MIN = 30113, /* fewest modules in a string that stay in the tracking window on a hot afternoon */
    PVSIZE_QUANTITY_ARRAY_MODULES = 30114, /* modules of the array */
    PVSIZE_QUANTITY_ARRAY_POWER = 30115, /* power of the array at STC, W */
    PVSIZE_QUANTITY_ARRAY_ISC_MAX = 30116, /* largest short-circuit current of the array, A */
    PVSIZE_QUANTITY_ARRAY_IMP = 30117, /* operating current of the array at STC, A */
    PVSIZE_QUANTITY_MODULE_ISC_LIMIT = 30118, /* largest module Isc for this number of strings, alone on the input, A */
    PVSIZE_QUANTITY_INPUT_STRINGS_MAX = 30119, /* most strings like these, alone on the input, within its short-circuit rating */
    PVSIZE_QUANTITY_INPUT_STRINGS_LOSSLESS = 30120, /* most strings like these, alone on the input, within its operating current */
    PVSIZE_QUANTITY_STRING_ISC_MAX = 30121, /* largest short-circuit current of one string, A */
    PVSIZE_QUANTITY_ARRAY_GIVEN = 30122, /* every required value of the array is there */
    PVSIZE_QUANTITY_BIFACIAL_CORRECTION = 30123, /* factor on Isc that a bifacial module calls for: 1 + 0.135 x bifaciality; none where no bifaciality is given */
    PVSIZE_QUANTITY_CURRENT_CORRECTION = 30124, /* factor on Isc beside the rule set's: the plane's, else what a bifacial module calls for, else 1 */
    PVSIZE_QUANTITY_ARRAY_ISC = 30131, /* short-circuit current of the array with its correction, without the rule set's factor, A */
    PVSIZE_QUANTITY_STRING_REVERSE_CURRENT = 30132, /* current that the other strings on the input, and the inverter where it counts, can drive into a string at fault, A */
    PVSIZE_QUANTITY_STRING_REVERSE_LIMIT = 30133, /* current that a string withstands without a device, A */
    PVSIZE_QUANTITY_STRING_DEVICE_NEEDED = 30134, /* overcurrent devices in the strings are needed */
    PVSIZE_QUANTITY_STRINGS_WITHOUT_DEVICE = 30135, /* most strings like these in parallel without devices */
    PVSIZE_QUANTITY_STRING_DEVICE_LOW = 30136, /* lowest rating of a string device, A */
    PVSIZE_QUANTITY_STRING_DEVICE_HIGH = 30137, /* highest rating of a string device, A */
    PVSIZE_QUANTITY_STRING_DEVICE_RATING = 30138, /* smallest standard rating of a string device; 0: no standard rating fits, A */
    PVSIZE_QUANTITY_STRING_DEVICE_EXISTS = 30139, /* a standard rating fits, where a device is needed */
    PVSIZE_QUANTITY_STRING_UNPROTECTED_CURRENT = 30140, /* reverse current into a string that has no device, A */
    PVSIZE_QUANTITY_STRING_DEVICE_DUTY_VOLTAGE = 30141, /* voltage that a string device must break, V */
    PVSIZE_QUANTITY_INPUT_STRINGS = 30201, /* strings on the input */
    PVSIZE_QUANTITY_INPUT_ISC_MAX = 30202, /* largest short-circuit current into the input, A */
    PVSIZE_QUANTITY_INPUT_IMP = 30203, /* operating current into the input at STC, A */
    PVSIZE_QUANTITY_INPUT_POWER = 30204, /* array power at STC on the input, W */
    PVSIZE_QUANTITY_INPUT_TERMINAL_CURRENT = 30205, /* largest current of one pair of terminals, A */
    PVSIZE_QUANTITY_INPUT_VOC_HIGHEST = 30206, /* highest cold open-circuit voltage among the strings on the input, V */
    PVSIZE_QUANTITY_INPUT_VOC_LOWEST = 30207, /* lowest cold open-circuit voltage among the strings on the input, V */
    PVSIZE_QUANTITY_INPUT_VOC_DIFFERENCE = 30208, /* difference in open-circuit voltage among the strings on the input, % */
    PVSIZE_QUANTITY_INPUT_LENGTH_DIFFERENCE = 30209, /* longest less shortest string on the input, in modules */
    PVSIZE_QUANTITY_INPUT_MODULE_TYPES = 30210, /* module types on the input */
    PVSIZE_QUANTITY_INPUT_PLANES = 30211, /* planes that feed the input */
    PVSIZE_QUANTITY_INPUT_ISOLATED = 30212, /* a load-break d.c. isolator serves the input: a built-in one that meets IEC 60947-3 and locks off, or an external one */
    PVSIZE_QUANTITY_INPUT_STRING_ISC_HIGHEST = 30213, /* largest short-circuit current of one string among those on the input, A */
    PVSIZE_QUANTITY_INPUT_ARRAYS = 30214, /* arrays on the input */
    PVSIZE_QUANTITY_ISOLATOR_VOLTAGE_DUTY = 30215, /* voltage that the built-in isolator must break, where it is relied on, V */
    PVSIZE_QUANTITY_ISOLATOR_CURRENT_DUTY = 30216, /* current that the built-in isolator must break, where it is relied on, A */
    PVSIZE_QUANTITY_INPUT_GIVEN = 30217, /* every required value of the input is there */
    PVSIZE_QUANTITY_INPUT_ISC = 30218, /* short-circuit current of all strings on the input with their corrections, without the rule set's factor, A */
    PVSIZE_QUANTITY_INVERTER_PV_POWER = 30301, /* array power at STC on the inverter, W */
    PVSIZE_QUANTITY_PV_LIMIT_RATIO = 30302, /* largest array power by the array ratio, W */
    PVSIZE_QUANTITY_PV_LIMIT = 30303, /* largest array power: the lower of the ratio's and the maker's limit, W */
    PVSIZE_QUANTITY_ARRAY_RATIO = 30304, /* array power over rated a.c. power */
    PVSIZE_QUANTITY_INVERTER_AC_CURRENT = 30305, /* a.c. current at rated apparent power, per phase, A */
    PVSIZE_QUANTITY_INVERTER_AC_CURRENT_STATED = 30306, /* stated largest a.c. current, with the rounding of data sheets, A */
    PVSIZE_QUANTITY_INVERTER_GIVEN = 30307, /* every required value of the inverter is there */
    PVSIZE_QUANTITY_SUPPLY_DEVIATION = 30308, /* how far the inverter's nominal voltage lies from the supply's, % */
    PVSIZE_QUANTITY_PLANE_MODULES = 30401, /* modules on the plane */
    PVSIZE_QUANTITY_SITE_GIVEN = 30451, /* every required value of the site is there */
    PVSIZE_QUANTITY_SYSTEM_PV_POWER = 30501, /* array power at STC of the whole system, W */
    PVSIZE_QUANTITY_SYSTEM_AC_POWER = 30502, /* rated a.c. power of the whole system, W */
    PVSIZE_QUANTITY_SYSTEM_APPARENT_POWER = 30503, /* rated a.c. apparent power of the whole system, VA */
    PVSIZE_QUANTITY_SYSTEM_EXPORT = 30504, /* largest export into the supply, as controlled, W */
    PVSIZE_QUANTITY_SYSTEM_MODULES = 30505, /* modules of the whole system */
    /* numbers are never reused */
};

/* rules */
enum {
    PVSIZE_RULE_VOC_COLD_INPUT = 40001, /* cold open-circuit voltage within the input's maximum */
    PVSIZE_RULE_VOC_COLD_MODULE = 40002, /* cold open-circuit voltage within the module's system voltage */
    PVSIZE_RULE_VOC_COLD_BUILDING = 40003, /* cold open-circuit voltage within the limit for the building */
    PVSIZE_RULE_VMP_HOT_TRACKING = 40004, /* hot maximum-power voltage inside the tracking window */
    PVSIZE_RULE_VMP_HOT_RESERVE = 40005, /* hot maximum-power voltage inside the window with reserve */
    PVSIZE_RULE_VOC_HOT_START = 40006, /* hot open-circuit voltage above the start voltage */
    PVSIZE_RULE_VMP_COLD_TRACKING = 40007, /* cold maximum-power voltage inside the tracking window */
    PVSIZE_RULE_VMP_HOT_FULL_POWER = 40008, /* hot maximum-power voltage inside the full-power window */
    PVSIZE_RULE_VMP_COLD_FULL_POWER = 40009, /* cold maximum-power voltage inside the full-power window */
    PVSIZE_RULE_ISC_INPUT = 40101, /* short-circuit current within the input's rating */
    PVSIZE_RULE_OPERATING_CURRENT = 40102, /* operating current within the input's */
    PVSIZE_RULE_TERMINALS = 40103, /* a pair of terminals for every string */
    PVSIZE_RULE_TERMINAL_RATING = 40104, /* current of a pair of terminals within its rating */
    PVSIZE_RULE_INPUT_POWER = 40105, /* array power on the input within the maker's limit */
    PVSIZE_RULE_INPUT_USED = 40106, /* input in use */
    PVSIZE_RULE_BIFACIAL = 40107, /* correction on Isc for bifacial modules */
    PVSIZE_RULE_UNLIKE_VOLTAGE = 40201, /* like open-circuit voltages in parallel */
    PVSIZE_RULE_UNLIKE_LENGTH = 40202, /* strings of one length in parallel */
    PVSIZE_RULE_UNLIKE_MODULES = 40203, /* one module type in parallel */
    PVSIZE_RULE_UNLIKE_PLANES = 40204, /* planes that share an input */
    PVSIZE_RULE_REVERSE_CURRENT = 40251, /* reverse current withstood without a device */
    PVSIZE_RULE_DEVICE_EXISTS = 40252, /* a standard device fits where one is needed */
    PVSIZE_RULE_DEVICE_LOW = 40253, /* string device carries the string's current */
    PVSIZE_RULE_DEVICE_LOW_STRICT = 40254, /* string device rated above the string's current */
    PVSIZE_RULE_DEVICE_HIGH = 40255, /* string device protects the module */
    PVSIZE_RULE_DEVICE_VOLTAGE = 40256, /* cold open-circuit voltage within the string device's */
    PVSIZE_RULE_ISOLATOR = 40301, /* a load-break d.c. isolator that serves alone */
    PVSIZE_RULE_ISOLATOR_VOLTAGE = 40302, /* cold open-circuit voltage within the built-in isolator's */
    PVSIZE_RULE_ISOLATOR_CURRENT = 40303, /* short-circuit current within the built-in isolator's */
    PVSIZE_RULE_PV_RATIO = 40401, /* array power within the ratio to the a.c. rating */
    PVSIZE_RULE_PV_MAKER = 40402, /* array power within the maker's maximum */
    PVSIZE_RULE_PV_UNDERLOAD = 40403, /* inverter not underloaded */
    PVSIZE_RULE_PLANE_ROOM = 40501, /* modules fit on the plane */
    PVSIZE_RULE_PHASES = 40502, /* phases of the inverter within those of the supply */
    PVSIZE_RULE_CONNECTION = 40503, /* inverter rating within the connection agreement */
    PVSIZE_RULE_EXPORT = 40504, /* export within the network's limit */
    PVSIZE_RULE_DATA_VMP = 40601, /* Vmp not above Voc */
    PVSIZE_RULE_DATA_IMP = 40602, /* Imp not above Isc */
    PVSIZE_RULE_DATA_POWER = 40603, /* Imp x Vmp near Pmax */
    PVSIZE_RULE_DATA_VOC_COEFFICIENT_HIGH = 40604, /* temperature coefficient of Voc negative and not tiny */
    PVSIZE_RULE_DATA_VOC_COEFFICIENT_LOW = 40605, /* temperature coefficient of Voc not too large */
    PVSIZE_RULE_DATA_COEFFICIENTS_AGREE = 40606, /* both statements of the coefficient of Voc agree */
    PVSIZE_RULE_DATA_ISC_COEFFICIENT = 40607, /* temperature coefficient of Isc not too large */
    PVSIZE_RULE_DATA_PMAX_COEFFICIENT = 40608, /* temperature coefficient of maximum power negative */
    PVSIZE_RULE_DATA_ISC_COEFFICIENTS_AGREE = 40609, /* both statements of the coefficient of Isc agree */
    PVSIZE_RULE_DATA_VMP_COEFFICIENTS_AGREE = 40610, /* both statements of the coefficient of Vmp agree */
    PVSIZE_RULE_DATA_WINDOW = 40611, /* tracking window has its ends in order */
    PVSIZE_RULE_DATA_WINDOW_MAX = 40612, /* tracking window below the maximum voltage */
    PVSIZE_RULE_DATA_FULL_POWER_LOW = 40613, /* full-power window inside the tracking window, lower end */
    PVSIZE_RULE_DATA_FULL_POWER_HIGH = 40614, /* full-power window inside the tracking window, upper end */
    PVSIZE_RULE_DATA_FULL_POWER = 40615, /* full-power window has its ends in order */
    PVSIZE_RULE_DATA_START = 40616, /* start voltage below the maximum voltage */
    PVSIZE_RULE_DATA_CURRENTS = 40617, /* short-circuit rating not below the operating current */
    PVSIZE_RULE_DATA_APPARENT = 40621, /* active rating not above the apparent rating */
    PVSIZE_RULE_DATA_AC_CURRENT = 40622, /* a.c. current at the rating within the stated maximum */
    PVSIZE_RULE_DATA_SUPPLY = 40623, /* nominal voltage of the inverter near the supply's */
    PVSIZE_RULE_DATA_TEMPERATURES = 40631, /* lowest temperature below the highest */
    PVSIZE_RULE_DATA_VMP_COEFFICIENT_HIGH = 40641, /* temperature coefficient of Vmp negative and not tiny */
    PVSIZE_RULE_DATA_VMP_COEFFICIENT_LOW = 40642, /* temperature coefficient of Vmp not too large */
    PVSIZE_RULE_DATA_ISC_COEFFICIENT_LOW = 40643, /* temperature coefficient of Isc not negative */
    PVSIZE_RULE_GIVEN_MODULE = 40701, /* every required value of the module given */
    PVSIZE_RULE_GIVEN_INPUT = 40702, /* every required value of the input given */
    PVSIZE_RULE_GIVEN_INVERTER = 40703, /* every required value of the inverter given */
    PVSIZE_RULE_GIVEN_SITE = 40704, /* every required value of the site given */
    PVSIZE_RULE_GIVEN_ARRAY = 40705, /* every required value of the array given */
    /* numbers are never reused */
};

#endif
