/* A year of which something is not known: what it takes for granted, and what its text tells of
 * it, also where memory fails. */
#include "../support/pv_day.h"

static int32_t granted(const pvsize_year *year, int32_t wanted)
{
    int32_t count, what, seen = 0;

    OK(pvsize_year_assumption_count(year, &count, diag));
    for (int32_t i = 0; i < count; i++) {
        OK(pvsize_year_assumption(year, i, &what, NULL, NULL, diag));
        seen += what == wanted;
    }
    return seen;
}

/* Without a Pmax the rating is Vmp times Imp, and is told as taken for granted. */
START_TEST(a_module_without_pmax)
{
    pvsize_spec *system = small_system(NULL, NULL, NULL), *array, *module;
    pvsize_year *year;
    double rated;
    int32_t count, what, seen = 0;

    OK(pvsize_spec_part(system, PVSIZE_KIND_ARRAY, 0, NULL, &array, diag));
    OK(pvsize_spec_part(array, PVSIZE_KIND_MODULE, 0, NULL, &module, diag));
    OK(pvsize_spec_unset(module, PVSIZE_MODULE_PMAX, diag));
    OK(pvsize_spec_replace(array, 0, module, diag));
    OK(pvsize_spec_replace(system, 0, array, diag));
    pvsize_spec_free(module);
    pvsize_spec_free(array);
    stc_all_day();
    year = year_of(system, plain, NULL);
    OK(pvsize_year_yield(year, subject(year, PVSIZE_KIND_SYSTEM), &rated, NULL, diag));
    NEAR(rated, pmp / 1000, 1e-12);
    OK(pvsize_year_assumption_count(year, &count, diag));
    for (int32_t i = 0; i < count; i++) {
        OK(pvsize_year_assumption(year, i, &what, NULL, NULL, diag));
        seen += what == PVSIZE_YEAR_ASSUMPTION_PMAX;
    }
    ck_assert_int_eq(seen, 1);
    pvsize_year_free(year);
}
END_TEST

/* An a.c. cable of an inverter whose voltage nothing tells loses nothing, and that is told; an
 * export limit needs something that measures. */
START_TEST(what_is_not_known_is_told)
{
    const double rating[] = {PVSIZE_INVERTER_RATED_AC_POWER, 4000, PVSIZE_INVERTER_PHASES, 1, 0};
    pvsize_spec *system = small_system(NULL, rating, NULL), *site;
    pvsize_year *year;

    stc_all_day();
    OK(pvsize_spec_part(system, PVSIZE_KIND_SITE, 0, NULL, &site, diag));
    OK(pvsize_spec_unset(site, PVSIZE_SITE_SUPPLY_VOLTAGE, diag));
    OK(pvsize_spec_replace(system, 0, site, diag));
    pvsize_spec_free(site);
    give(system,
         SPEC(PVSIZE_KIND_CABLE, PVSIZE_CABLE_CIRCUIT, PVSIZE_CIRCUIT_AC, PVSIZE_CABLE_INVERTER, 0,
              PVSIZE_CABLE_CONDUCTOR, PVSIZE_CONDUCTOR_CLASS5_TINNED, PVSIZE_CABLE_SECTION, 6,
              PVSIZE_CABLE_LENGTH, 10, PVSIZE_CABLE_CONDUCTOR_TEMP, 20));
    year = year_of(system, plain, NULL);
    ck_assert_int_eq(granted(year, PVSIZE_YEAR_ASSUMPTION_CABLE_LEFT_OUT), 1);
    ck_assert(loss(year, PVSIZE_LOSS_AC_WIRING) == 0);
    NEAR(output(year), day(4000), 1e-9);
    pvsize_year_free(year);
    for (int32_t control = PVSIZE_EXPORT_CONTROL_NONE; control <= PVSIZE_EXPORT_CONTROL_METER;
         control++) {
        year = year_of(small_system(NULL, NULL,
                                    PAIRS(PVSIZE_SITE_EXPORT_LIMIT, 3000,
                                          PVSIZE_SITE_EXPORT_CONTROL, control)),
                       plain, NULL);
        ck_assert_int_eq(granted(year, PVSIZE_YEAR_ASSUMPTION_EXPORT_NOT_MEASURED),
                         control == PVSIZE_EXPORT_CONTROL_NONE);
        NEAR(output(year), day(3000), 1e-9);
        pvsize_year_free(year);
    }
}
END_TEST

START_TEST(the_text_cautions_and_tells_what_it_took_for_granted)
{
    char text[12000];
    pvsize_spec *system = small_system(NULL, NULL, PAIRS(PVSIZE_SITE_EXPORT_LIMIT, 3000));
    pvsize_year *year;
    int32_t count, what, of;

    stc_all_day();
    OK(pvsize_spec_set_text(system, PVSIZE_SYSTEM_NAME, "Shed", diag));
    year = year_of(system, plain, NULL);
    for (int32_t format = PVSIZE_FORMAT_PLAIN; format <= PVSIZE_FORMAT_MARKDOWN; format++) {
        OK(pvsize_year_render(year, format, text, sizeof text, NULL, diag));
        ck_assert_ptr_nonnull(strstr(text, "licensed person"));
        ck_assert_ptr_nonnull(strstr(text, "ac_rating"));
        ck_assert_ptr_nonnull(strstr(text, "Energy: Shed\n\n"));
        ck_assert_ptr_nonnull(strstr(text, "array 1: no cable of its strings is given"));
        ck_assert_ptr_nonnull(strstr(text, "no load is given: all is exported, W of limit: 3000"));
    }
    OK(pvsize_year_assumption_count(year, &count, diag));
    OK(pvsize_year_assumption(year, 0, &what, &of, NULL, diag));
    ck_assert_int_eq(what, PVSIZE_YEAR_ASSUMPTION_NO_STRING_CABLE);
    OK(pvsize_year_assumption_text(year, 0, text, sizeof text, NULL, diag));
    ck_assert_str_eq(text, "array 1: no cable of its strings is given: none is counted");
    OK(pvsize_year_subject_text(year, of, text, sizeof text, NULL, diag));
    ck_assert_str_eq(text, "array 1");
    pvsize_year_free(year);
}
END_TEST

/* Numbers wider than their column push the next one on, by a blank: 1.3 GWh an hour. */
START_TEST(numbers_wider_than_their_column)
{
    pvsize_spec *system = small_system(NULL, NULL, NULL);
    pvsize_year *year;
    char text[12000];

    OK(pvsize_spec_set_part_number(system, 0, PVSIZE_ARRAY_MODULES_PER_STRING, 10000, diag));
    OK(pvsize_spec_set_part_number(system, 0, PVSIZE_ARRAY_STRINGS, 10000, diag));
    stc_all_day();
    for (int i = 0; i < ROWS; i++)
        diffuse[i] = 1300;
    year = year_of(system, plain, NULL);
    OK(pvsize_year_render(year, PVSIZE_FORMAT_PLAIN, text, sizeof text, NULL, diag));
    ck_assert_ptr_nonnull(strstr(text, "1341522000.0 \n")); /* 429.975 W x 1.3 x 1e8 x 24 h */
    pvsize_year_free(year);
}
END_TEST

/* A system without strings, of an inverter with a name longer than its column: a year of nothing. */
START_TEST(a_year_of_nothing)
{
    static const char name[] = "the inverter behind the shed, next to the large water tank";
    pvsize_spec *system = small_system(NULL, PAIRS(PVSIZE_INVERTER_NIGHT_CONSUMPTION, 5), NULL);
    pvsize_spec *inverter;
    pvsize_year *year;
    double rated = 7, yield = 7;
    char text[12000];

    OK(pvsize_spec_part(system, PVSIZE_KIND_INVERTER, 0, NULL, &inverter, diag));
    OK(pvsize_spec_set_text(inverter, PVSIZE_INVERTER_NAME, name, diag));
    OK(pvsize_spec_replace(system, 0, inverter, diag));
    pvsize_spec_free(inverter);
    OK(pvsize_spec_remove(system, PVSIZE_KIND_ARRAY, 0, diag));
    stc_all_day();
    year = year_of(system, plain, NULL);
    NEAR(energy(year, PVSIZE_KIND_SYSTEM, PVSIZE_ENERGY_REFERENCE), 0, 0);
    OK(pvsize_year_yield(year, subject(year, PVSIZE_KIND_SYSTEM), &rated, &yield, diag));
    ck_assert(rated == 0 && yield == 0);
    OK(pvsize_year_render(year, PVSIZE_FORMAT_PLAIN, text, sizeof text, NULL, diag));
    ck_assert_ptr_nonnull(strstr(text, name));
    ck_assert_ptr_nonnull(strstr(text, " kWh in 24 intervals of 60 minutes; not computed"));
    pvsize_year_free(year);
}
END_TEST

START_TEST(gaps_are_counted_and_not_filled)
{
    double power[ROWS], load[ROWS] = {0};
    int32_t gaps;
    pvsize_year *year;

    stc_all_day();
    diffuse[3] = -999;
    temp[4] = -999;
    wind[5] = -999;
    diffuse[6] = 0;
    temp[6] = -999; /* dark: no temperature is needed */
    for (int i = 0; i < ROWS; i++)
        load[i] = 100;
    year = year_of(small_system(NULL, NULL, NULL), plain, load);
    OK(pvsize_year_size(year, NULL, NULL, NULL, &gaps, diag));
    ck_assert_int_eq(gaps, 3);
    OK(pvsize_year_power(year, subject(year, PVSIZE_KIND_SYSTEM), -7, power, ROWS, NULL, diag));
    ck_assert(power[3] == -7 && power[4] == -7 && power[5] == -7 && power[6] == 0);
    NEAR(energy(year, PVSIZE_KIND_SYSTEM, PVSIZE_ENERGY_LOAD), 2.1, 1e-12);
    pvsize_year_free(year);
    /* a stated wind serves */
    year = year_of(small_system(NULL, NULL, NULL),
                   PAIRS(PVSIZE_OUTLOOK_SKY, PVSIZE_SKY_EVEN, PVSIZE_OUTLOOK_WIND, 1), NULL);
    OK(pvsize_year_size(year, NULL, NULL, NULL, &gaps, diag));
    ck_assert_int_eq(gaps, 2);
    pvsize_year_free(year);
}
END_TEST

/* Memory that runs out for good, from each allocation on: one failure, and all comes back. */
static void *dry(void *user, size_t size)
{
    counter *c = user;

    if (c->fail_at >= 0 && c->made >= c->fail_at)
        return NULL;
    return counted(user, size);
}

START_TEST(memory_that_runs_dry)
{
    pvsize_light *light;
    pvsize_spec *system = small_system(NULL, NULL, PAIRS(PVSIZE_SITE_EXPORT_LIMIT, 3000));
    pvsize_status status = PVSIZE_E_NO_MEMORY;
    counter c = {0, 0, -1};
    pvsize_allocator memory = {dry, released, &c};
    pvsize_year *year;

    stc_all_day();
    for (int i = 0; i < 5; i++) /* of which little is known: more is taken for granted */
        give(system, SPEC(PVSIZE_KIND_INVERTER, 0));
    give(system, invented_array(0, 0, 10, 1));
    light = light_with(plain);
    OK(pvsize_year_new(&memory, &year, diag));
    for (long n = 0; status; n++) {
        c.fail_at = c.made + n;
        status = pvsize_year_fill(system, light, NULL, 0, year, diag);
        ck_assert(!status || status == PVSIZE_E_NO_MEMORY);
        ck_assert(!status || c.live == 1);
    }
    NEAR(output(year), day(3000), 1e-9);
    pvsize_year_free(year);
    ck_assert_int_eq(c.live, 0);
    pvsize_light_free(light);
    pvsize_spec_free(system);
}
END_TEST

static void add(Suite *suite)
{
    add_test(suite, "no Pmax", a_module_without_pmax);
    add_test(suite, "not known", what_is_not_known_is_told);
    add_test(suite, "year of nothing", a_year_of_nothing);
    add_test(suite, "wide", numbers_wider_than_their_column);
    add_test(suite, "dry", memory_that_runs_dry);
    add_test(suite, "gaps", gaps_are_counted_and_not_filled);
    add_test(suite, "text", the_text_cautions_and_tells_what_it_took_for_granted);
}

int main(void)
{
    return run_cases("year_gaps", add);
}
