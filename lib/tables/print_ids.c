/* Prints include/pvsize/ids.h from the tables. Run by `meson compile regenerate`;
 * a test fails when the header is stale. */
#include <stdio.h>
#include <string.h>

#define TERM(number, KIND, ID, name, TYPE, unit, low, high, NEED, deflt, link, text)               \
    printf("    PVSIZE_%s_%s = %d, /* %s%s%s */\n", #KIND, #ID, number, text, unit[0] ? ", " : "", \
           unit);
#define FIGURE(number, ID, name, symbol, TYPE, unit, low, high, text)                           \
    printf("    PVSIZE_FIGURE_%s = %d, /* %s%s%s */\n", #ID, number, text, unit[0] ? ", " : "", \
           unit);
#define QUANTITY(number, ID, name, SCOPE, symbol, TYPE, unit, HEAD, text)                         \
    printf("    PVSIZE_QUANTITY_%s = %d, /* %s%s%s */\n", #ID, number, text, unit[0] ? ", " : "", \
           unit);
#define RULE(number, ID, name, SCOPE, MANNER, VALUE, COMPARE, LIMIT, title, breach) \
    printf("    PVSIZE_RULE_%s = %d, /* %s */\n", #ID, number, title);
#define ATTRIBUTE(number, ID, name, TYPE, unit, low, high, link, text)                             \
    printf("    PVSIZE_ATTRIBUTE_%s = %d, /* %s%s%s */\n", #ID, number, text, unit[0] ? ", " : "", \
           unit);

static void open_enum(const char *what)
{
    printf("\n/* %s */\nenum {\n", what);
}

static void close_enum(void)
{
    printf("    /* numbers are never reused */\n};\n");
}

static void print_status(void)
{
    open_enum("results of calls");
#define STATUS(number, ID, name, text) \
    printf("    PVSIZE_%s%s = %d, /* %s */\n", strcmp(#ID, "OK") ? "E_" : "", #ID, number, text);
#include "status.def"
#undef STATUS
    close_enum();
}

static void print_kinds(void)
{
    open_enum("kinds");
#define KIND(number, ID, name, plural, text) \
    printf("    PVSIZE_KIND_%s = %d, /* %s */\n", #ID, number, text);
#define PART(owner, part, fewest, most)
#include "kinds.def"
#undef KIND
#undef PART
    close_enum();
}

static void print_choices(void)
{
    open_enum("sets of named values");
#define SET(number, ID, name) \
    printf("    PVSIZE_SET_%s = %d, /* the PVSIZE_%s_ numbers */\n", #ID, number, #ID);
#define CHOICE(SET, ID, number, name, text)
#include "choices.def"
#undef SET
#undef CHOICE
    close_enum();
    open_enum("named values");
#define SET(number, ID, name)
#define CHOICE(SET, ID, number, name, text) \
    printf("    PVSIZE_%s_%s = %d, /* %s */\n", #SET, #ID, number, text);
#include "choices.def"
#undef SET
#undef CHOICE
    close_enum();
}

static void print_terms(void)
{
    open_enum("parameters");
#include "module.def"
#include "input.def"
#include "inverter.def"
#include "efficiency_point.def"
#include "site.def"
#include "plane.def"
#include "array.def"
#include "system.def"
#include "cable.def"
#include "diode_model.def"
#include "month.def"
#include "series.def"
#include "interval.def"
#include "reading.def"
#include "enquiry.def"
#include "isolator.def"
#include "search.def"
#include "outlook.def"
    close_enum();
    open_enum("figures of a rule set");
#include "figures.def"
    close_enum();
    open_enum("quantities");
#include "quantities.def"
    close_enum();
    open_enum("rules");
#include "rules.def"
    close_enum();
    open_enum("attributes of what is bought");
#include "attributes.def"
    close_enum();
}

int main(void)
{
    printf("/* pvsize/ids.h - every number of the interface. Part of libpvsize; include\n"
           " * <pvsize/pvsize.h>. Generated from lib/tables; do not edit.\n"
           " * SPDX-License-Identifier: MIT */\n"
           "#ifndef PVSIZE_IDS_H\n"
           "#define PVSIZE_IDS_H\n");
    print_status();
    print_kinds();
    print_choices();
    print_terms();
    printf("\n#endif\n");
    return 0;
}
