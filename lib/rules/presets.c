/* The presets, from their rows. */
#include <string.h>

#include "rules.h"

#define SETS(FIGURE, value, KNOWN, source) \
    {PVSIZE_FIGURE_##FIGURE, value, PVSIZE_KNOWN_##KNOWN, source},
#define APPLIES(RULE, SEVERITY, KNOWN, source) \
    {PVSIZE_RULE_##RULE, PVSIZE_SEVERITY_##SEVERITY, PVSIZE_KNOWN_##KNOWN, source},
#define PRESET(name, title) static const pvsz_preset_row rows_of_##name[] = {
#define END(name) \
    }             \
    ;
#include "../tables/presets/list.def"
#undef SETS
#undef APPLIES
#undef PRESET
#undef END

static const pvsz_preset presets[] = {
#define SETS(FIGURE, value, KNOWN, source)
#define APPLIES(RULE, SEVERITY, KNOWN, source)
#define PRESET(name, title) {#name, title, rows_of_##name, PVSZ_COUNT(rows_of_##name)},
#define END(name)
#include "../tables/presets/list.def"
#undef SETS
#undef APPLIES
#undef PRESET
#undef END
};

static const char names[] =
#define SETS(FIGURE, value, KNOWN, source)
#define APPLIES(RULE, SEVERITY, KNOWN, source)
#define PRESET(name, title) ", " #name
#define END(name)
#include "../tables/presets/list.def"
#undef SETS
#undef APPLIES
#undef PRESET
#undef END
    ;

const char *pvsz_preset_names(void)
{
    return names + 2;
}

const pvsz_preset *pvsz_preset_named(const char *name)
{
    for (int32_t i = 0; i < PVSZ_COUNT(presets); i++)
        if (strcmp(presets[i].name, name) == 0)
            return &presets[i];
    return NULL;
}

int32_t pvsize_preset_count(void)
{
    return PVSZ_COUNT(presets);
}

const char *pvsize_preset_name(int32_t i)
{
    return i >= 0 && i < PVSZ_COUNT(presets) ? presets[i].name : NULL;
}

const char *pvsize_preset_title(int32_t i)
{
    return i >= 0 && i < PVSZ_COUNT(presets) ? presets[i].title : NULL;
}
