/* Base and tables from inside: numbers as text, the rounding guard, status
 * codes, the shape of the tables. Links the static library. */
#include "../../lib/physics/temperature.h"
#include "../../lib/equipment/spec.h"
#include "../../lib/rules/rules.h"
#include "../../lib/tables/needs.h"
#include "../../lib/wiring/ratings.h"
#include "../support/pv_test.h"

static const char *exact(double value)
{
    static char buffer[64];
    pvsz_text text;

    pvsz_text_begin(&text, buffer, sizeof buffer, NULL);
    pvsz_put_exact(&text, value);
    pvsz_text_end(&text, NULL, NULL);
    return buffer;
}

static const char *rounded(double value, int32_t digits)
{
    static char buffer[64];
    pvsz_text text;

    pvsz_text_begin(&text, buffer, sizeof buffer, NULL);
    pvsz_put_rounded(&text, value, digits);
    pvsz_text_end(&text, NULL, NULL);
    return buffer;
}

static const char *fixed(double value, int32_t decimals)
{
    static char buffer[64];
    pvsz_text text;

    pvsz_text_begin(&text, buffer, sizeof buffer, NULL);
    pvsz_put_fixed(&text, value, decimals);
    pvsz_text_end(&text, NULL, NULL);
    return buffer;
}

START_TEST(exact_numbers_read_back)
{
    static const double values[] = {0,     1,       -1,     49.5,     -0.27, 0.1,     1500,
                                    9.975, 9999999, 1e-5,   13.2,     0.045, 1.33,    6.0 / 7,
                                    1e-7,  1e300,   -2e-20, 26.4 / 3, 1e15,  1e14 / 3};

    for (size_t i = 0; i < sizeof values / sizeof values[0]; i++) {
        double back = strtod(exact(values[i]), NULL); /* libc as the reference */
        double most = fabs(values[i]) * 1e-14;

        ck_assert_msg(fabs(back - values[i]) <= most, "%s for %.17g", exact(values[i]), values[i]);
    }
    ck_assert_str_eq(exact(49.5), "49.5");
    ck_assert_str_eq(exact(-0.27), "-0.27");
    ck_assert_str_eq(exact(-0.0), "0");
    ck_assert_str_eq(exact(1e6), "1000000");
}
END_TEST

START_TEST(exact_numbers_of_data_sheets_are_identical)
{
    srand(1);
    for (int i = 0; i < 200000; i++) {
        int decimals = rand() % 6;
        double value = (rand() % 2000001 - 1000000) / pow(10, decimals);

        ck_assert_msg(strtod(exact(value), NULL) == value, "%s for %.17g", exact(value), value);
    }
}
END_TEST

START_TEST(rounded_numbers_agree_with_libc)
{
    char want[64];

    srand(2);
    for (int i = 0; i < 200000; i++) {
        double value = ldexp(rand() + 1.0, rand() % 40 - 45) * (rand() % 2 ? 1 : -1);
        double got = strtod(rounded(value, 6), NULL);

        snprintf(want, sizeof want, "%.5e", value);
        if (fabs(value) < 1e5) /* larger whole numbers are never rounded */
            ck_assert_msg(fabs(got - strtod(want, NULL)) <= fabs(value) * 1.1e-5, "%s against %s",
                          rounded(value, 6), want);
        ck_assert_msg(fabs(got - value) <= fabs(value) * 5.1e-6, "%s for %.17g", rounded(value, 6),
                      value);
    }
    ck_assert_str_eq(rounded(595.955, 5), "595.96");
    ck_assert_str_eq(rounded(9975, 5), "9975");
    ck_assert_str_eq(rounded(123456789, 5), "123456789");
    ck_assert_str_eq(rounded(0.05, 5), "0.05");
    ck_assert_str_eq(rounded(99.99999, 5), "100");
    ck_assert_str_eq(rounded(0.0999999999, 5), "0.1");
    ck_assert_str_eq(rounded(9.9999999e-20, 5), "1e-19");
    ck_assert_str_eq(rounded(9.9999999e25, 5), "1e26");
    ck_assert_str_eq(fixed(2.5, 2), "2.50");
    ck_assert_str_eq(fixed(0.5, 99), "0.500000000000000");
    ck_assert_str_eq(fixed(NAN, 1), "not a number");
    ck_assert_str_eq(rounded(NAN, 5), "not a number");
    ck_assert_str_eq(rounded(-INFINITY, 5), "-infinity");
}
END_TEST

START_TEST(terms_without_a_name_are_numbers)
{
    char buffer[40];
    pvsz_text text;

    pvsz_text_begin(&text, buffer, sizeof buffer, NULL);
    pvsz_put_term(&text, PVSIZE_MODULE_VOC);
    pvsz_put(&text, " ");
    pvsz_put_term(&text, 424242);
    OK(pvsz_text_end(&text, NULL, diag));
    ck_assert_str_eq(buffer, "module.voc 424242");
}
END_TEST

START_TEST(text_is_cut_between_characters)
{
    char buffer[8];
    size_t length;
    pvsz_text text;

    pvsz_text_begin(&text, buffer, sizeof buffer, NULL);
    pvsz_put(&text, "Voc °C βα");
    ck_assert_int_eq(pvsz_text_end(&text, &length, diag), PVSIZE_E_CAPACITY);
    ck_assert_uint_eq(length, strlen("Voc °C βα"));
    ck_assert_str_eq(buffer, "Voc °C");
    pvsz_text_begin(&text, buffer, 6, NULL);
    pvsz_put(&text, "Voc °C βα");
    ck_assert_int_eq(pvsz_text_end(&text, &length, diag), PVSIZE_E_CAPACITY);
    ck_assert_str_eq(buffer, "Voc ");
    ck_assert_int_eq(pvsz_text_begin(&text, NULL, 5, diag), PVSIZE_E_NULL_POINTER);
}
END_TEST

START_TEST(plain_text_is_utf8_without_controls)
{
    /* on both sides of each range that is refused, too */
    static const char *const good[] = {
        "",       "Hall",   "Äußere Fläche", "屋根",   "β −0.25 %/K", "😀",      "\u200a", "\u2010",
        "\u2027", "\u202f", "\u205f",        "\u206a", "\u061b",      "\u061d", "\ufefe", "\uff00"};
    static const char *const bad[] = {
        "a\n",    "\x7f",     "\xc3",         "\xc0\xaf",     "\xed\xa0\x80", "\xf5\x80\x80\x80",
        "\xff",   "\xc2\x85", "\xe2\x80\xa8", "\xe0\x80\x80", "\u200b",       "\u200f",
        "\u2028", "\u202e",   "\u2060",       "\u2069",       "\u061c",       "\ufeff"};

    for (size_t i = 0; i < sizeof good / sizeof good[0]; i++)
        ck_assert_msg(pvsz_is_plain_text(good[i], 200), "%s", good[i]);
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++)
        ck_assert_msg(!pvsz_is_plain_text(bad[i], 200), "bad %zu", i);
    ck_assert(pvsz_is_plain_text("abc", 3));
    ck_assert(!pvsz_is_plain_text("abcd", 3));
}
END_TEST

START_TEST(the_guard_forgives_rounding_only)
{
    ck_assert(pvsz_at_most(13.2, 13.2));
    ck_assert(pvsz_at_most(10.56 * 1.25, 13.2)); /* 13.200000000000001 */
    ck_assert(!pvsz_at_most(13.2001, 13.2));
    ck_assert(pvsz_at_most(-10, -10));
    ck_assert(!pvsz_at_most(-9.9, -10));
    ck_assert(pvsz_at_most(1e-12, 0));
    ck_assert(!pvsz_at_most(1e-6, 0));
}
END_TEST

/* Counting up by one is the reference. */
START_TEST(counts_that_fit_agree_with_counting)
{
    srand(3);
    for (int i = 0; i < 100000; i++) {
        double unit = (rand() % 10000 + 1) / 100.0;
        double limit = rand() % 4 ? (rand() % 150000) / 100.0 : unit * (rand() % 40);
        int most = 0, fewest = 0;

        while (pvsz_at_most((most + 1) * unit, limit))
            most++;
        while (limit > 0 && !pvsz_at_most(limit, fewest * unit))
            fewest++;
        ck_assert_msg(pvsz_most_that_fit(unit, limit) == most, "%g into %g", unit, limit);
        ck_assert_msg(pvsz_fewest_that_reach(unit, limit) == fewest, "%g up to %g", unit, limit);
    }
    ck_assert(pvsz_most_that_fit(0, 5) == 0);
    ck_assert(pvsz_most_that_fit(-1, 5) == 0);
    ck_assert(pvsz_most_that_fit(1e-300, 1e300) == 1e9);
    ck_assert(pvsz_fewest_that_reach(1e-300, 1e300) == 1e9);
    ck_assert(pvsz_fewest_that_reach(1e300, 1e-300) == 0); /* which is nothing by the guard */
}
END_TEST

START_TEST(status_codes_are_known_by_number)
{
    ck_assert_int_eq(pvsize_status_at(0), PVSIZE_OK);
    ck_assert_int_eq(pvsize_status_at(-1), -1);
    ck_assert_int_eq(pvsize_status_at(pvsize_status_count()), -1);
    for (int32_t i = 0; i < pvsize_status_count(); i++) {
        ck_assert_ptr_nonnull(pvsize_status_name(pvsize_status_at(i)));
        ck_assert_ptr_nonnull(pvsize_status_text(pvsize_status_at(i)));
        if (i > 0)
            ck_assert_int_gt(pvsize_status_at(i), pvsize_status_at(i - 1));
    }
    ck_assert_ptr_null(pvsize_status_name(7));
    ck_assert_ptr_null(pvsize_status_text(7));
    ck_assert_int_eq(pvsize_version(), 100);
    ck_assert_str_eq(pvsize_version_text(), "0.1.0");
    ck_assert_ptr_nonnull(strstr(pvsize_caution(), "licensed person"));
}
END_TEST

static void check_row(const pvsz_kind *kind, const pvsz_term *row, int32_t i)
{
    ck_assert_msg(row->number > kind->number && row->number < kind->number + 1000, "%s", row->name);
    ck_assert_msg(i == 0 || row->number > row[-1].number, "%s is out of order", row->name);
    ck_assert_ptr_eq(pvsz_term_find(row->number), row);
    ck_assert_ptr_eq(pvsz_term_named(kind, row->name), row);
    ck_assert_msg(strspn(row->name, "abcdefghijklmnopqrstuvwxyz0123456789_") == strlen(row->name),
                  "%s", row->name);
    ck_assert_msg(row->text[0] != '\0' && !strchr(row->text, '\n'), "%s", row->name);
    if (row->kind < PVSZ_SCOPES)
        ck_assert_msg(row->number == kind->number + 1 + i, "%s leaves a gap", row->name);
    if (row->type == PVSIZE_TYPE_CHOICE)
        ck_assert_int_gt(pvsize_set_count(row->set), 1);
    if (row->need == PVSIZE_NEED_DEFAULT && row->type == PVSIZE_TYPE_CHOICE)
        ck_assert(pvsz_set_has(row->set, row->deflt));
    else if (row->need == PVSIZE_NEED_DEFAULT)
        ck_assert(row->deflt >= row->low && row->deflt <= row->high);
}

START_TEST(tables_are_sound)
{
    for (int32_t k = 0; k < PVSZ_KINDS; k++) {
        const pvsz_kind *kind = &pvsz_kinds[k];

        ck_assert_int_gt(kind->count, 0);
        for (int32_t i = 0; i < kind->count; i++)
            check_row(kind, &kind->rows[i], i);
        if (k < PVSZ_SCOPES) {
            ck_assert_int_le(kind->count, 64);              /* bits of a spec */
            ck_assert_int_eq(kind->number, (k + 1) * 1000); /* found by division */
        }
        ck_assert_int_le(pvsize_kind_part_count(kind->number), PVSZ_MOST_PART_KINDS);
    }
}
END_TEST

/* the plain search */
static const pvsz_term *looked_for(int32_t number)
{
    for (int32_t k = 0; k < PVSZ_KINDS; k++)
        for (int32_t i = 0; i < pvsz_kinds[k].count; i++)
            if (pvsz_kinds[k].rows[i].number == number)
                return &pvsz_kinds[k].rows[i];
    return NULL;
}

START_TEST(rows_are_found_by_number)
{
    for (int32_t number = -2001; number < 70000; number++)
        ck_assert_msg(pvsz_term_find(number) == looked_for(number), "%d", (int)number);
    for (int32_t k = 0; k < PVSZ_KINDS; k++)
        ck_assert_ptr_eq(pvsz_kind_find(pvsz_kinds[k].number), &pvsz_kinds[k]);
    ck_assert_ptr_null(pvsz_kind_find(0));
    ck_assert_ptr_null(pvsz_kind_find(-1000));
    ck_assert_ptr_null(pvsz_kind_find(1001));
    ck_assert_ptr_null(pvsz_kind_find(INT32_MAX / 1000 * 1000));
    ck_assert_ptr_null(pvsz_term_find(INT32_MAX));
    ck_assert_ptr_null(pvsz_term_find(INT32_MIN));
}
END_TEST

/* What code takes for granted to be fast: bits of needs, labels, lists of parts. */
START_TEST(tables_have_the_shape_that_is_relied_on)
{
    int32_t lists[PVSZ_SPECS] = {0};

    for (int32_t k = 0; k < PVSZ_SPECS; k++)
        for (int32_t i = 0; i < pvsz_kinds[k].count; i++) {
            const pvsz_term *row = &pvsz_kinds[k].rows[i];

            ck_assert_msg(row->type != PVSIZE_TYPE_TEXT || i == 0, "%s", row->name);
            if (k >= PVSZ_SCOPES || k == PVSZ_KIND_EFFICIENCY_POINT)
                continue;
            ck_assert_int_eq(pvsz_required[k] >> i & 1, row->need == PVSIZE_NEED_REQUIRED);
            ck_assert_int_eq(pvsz_defaulted[k] >> i & 1, row->need == PVSIZE_NEED_DEFAULT);
        }
    for (int32_t i = 0; i < PVSZ_PARTS; i++) {
        int32_t bit = 1 << pvsz_list_of(pvsz_parts[i].owner, pvsz_parts[i].part);

        ck_assert_msg(!(lists[pvsz_parts[i].owner] & bit), "part row %d shares a list", (int)i);
        lists[pvsz_parts[i].owner] |= bit;
    }
    ck_assert_int_eq(pvsz_list_of(PVSZ_KIND_MODULE, PVSZ_KIND_MODULE), -1);
    ck_assert_int_eq(pvsz_list_of(PVSZ_KIND_SYSTEM, PVSZ_KINDS - 1), -1);
}
END_TEST

static const double all_ratings[] = {
#define SERIES(ID, text, KNOWN, source) 0,
#define RATING(amps) amps,
#include "../../lib/tables/device_ratings.def"
#undef SERIES
#undef RATING
};

/* the plain search over all rows of all series */
static double smallest_rating(int32_t series, double low, bool strict, double high)
{
    int32_t at = 0;

    for (int32_t i = 0; i < PVSZ_COUNT(all_ratings); i++) {
        double amps = all_ratings[i];

        at += amps == 0;
        if (at == series && amps != 0 && (strict ? amps > low : amps >= low))
            return amps <= high ? amps : 0;
    }
    return 0;
}

START_TEST(ratings_are_the_smallest_that_do)
{
    for (int32_t series = -1; series <= PVSZ_SERIES_END; series++)
        for (int32_t strict = 0; strict < 2; strict++)
            for (double low = 0.5; low < 7000; low += low < 130 ? 0.5 : 25) {
                double high = low * 1.6, rating = 0;

                pvsz_smallest_rating(series, low, strict, high, &rating);
                ck_assert_msg(rating == smallest_rating(series, low, strict, high), "%d %g",
                              (int)series, low);
            }
}
END_TEST

/* A rule can only compare what is within its reach, and in one unit. */
START_TEST(rules_compare_like_with_like)
{
    const pvsz_kind *rules = &pvsz_kinds[PVSZ_KIND_RULE];

    for (int32_t i = 0; i < rules->count; i++) {
        const pvsz_term *value = pvsz_term_find(rules->rows[i].value);
        const pvsz_term *limit = pvsz_term_find(rules->rows[i].limit);

        ck_assert_ptr_nonnull(value);
        ck_assert_ptr_nonnull(limit);
        ck_assert_msg(pvsz_reaches(rules->rows[i].scope, value->scope) &&
                          pvsz_reaches(rules->rows[i].scope, limit->scope),
                      "%s", rules->rows[i].name);
        /* which the check for what is clear of a limit takes for granted */
        ck_assert_msg(rules->rows[i].manner != PVSZ_QUIET ||
                          rules->rows[i].compare != PVSIZE_COMPARE_MORE_THAN,
                      "%s", rules->rows[i].name);
        ck_assert_msg(pvsz_same_unit(value->unit, limit->unit) || limit->low == limit->high,
                      "%s: %s against %s", rules->rows[i].name, value->unit, limit->unit);
    }
}
END_TEST

START_TEST(memory_of_no_size_and_of_too_much)
{
    counter c = {0, 0, -1};
    pvsz_memory memory = {counted, released, &c};
    char *block;

    ck_assert_ptr_null(pvsz_new(&memory, SIZE_MAX / 4, 8));
    ck_assert_ptr_null(pvsz_new_unset(&memory, SIZE_MAX, 1));
    ck_assert_int_eq(c.made, 0); /* nobody was asked for so much */
    for (int i = 0; i < 3; i++) {
        block = pvsz_new(&memory, i == 0 ? 0 : 3, i == 1 ? 0 : 3);
        ck_assert_ptr_nonnull(block);
        ck_assert_int_eq(block[0], 0);
        pvsz_release(&memory, block);
    }
    ck_assert(c.made == 3 && c.live == 0);
}
END_TEST

/* Whatever a failure holds is told, and nothing that it does not. */
START_TEST(a_failure_of_no_choices_lists_none)
{
    char text[200];

    pvsz_fail_term(diag, PVSIZE_E_BAD_CHOICE, 0);
    OK(pvsize_diag_text(diag, text, sizeof text, NULL));
    ck_assert_str_eq(text, pvsize_status_text(PVSIZE_E_BAD_CHOICE));
    pvsz_fail_term(diag, PVSIZE_E_BAD_CHOICE, PVSIZE_SITE_BUILDING);
    OK(pvsize_diag_text(diag, text, sizeof text, NULL));
    ck_assert_ptr_nonnull(strstr(text, "; allowed dwelling"));
}
END_TEST

/* The place of a number within its set is where it is listed; -1 elsewhere. */
START_TEST(choices_have_a_place)
{
    for (int32_t i = 0; i < pvsize_set_count(PVSIZE_SET_LAYING); i++)
        ck_assert_int_eq(pvsz_set_place(PVSIZE_SET_LAYING, pvsize_set_at(PVSIZE_SET_LAYING, i)), i);
    ck_assert_int_eq(pvsz_set_place(PVSIZE_SET_LAYING, 999), -1);
    ck_assert_int_eq(pvsz_set_place(999, PVSIZE_LAYING_NFPA_60), -1);
}
END_TEST

/* What cannot be held has no list, and is none; other kinds are never the same. */
START_TEST(parts_and_kinds)
{
    pvsize_spec *module = invented_module(), *other = invented_module(), *site = invented_site();
    const pvsz_part_list *planes = pvsz_spec_parts(site, PVSZ_KIND_PLANE);

    ck_assert_uint_eq(planes->count, 2);
    ck_assert_ptr_eq(pvsz_spec_list(site, PVSZ_KIND_PLANE), planes);
    ck_assert_uint_eq(pvsz_spec_parts(module, PVSZ_KIND_PLANE)->count, 0);
    ck_assert_ptr_null(pvsz_spec_list(module, PVSZ_KIND_PLANE));
    ck_assert(pvsz_spec_same_numbers(module, other));
    ck_assert(!pvsz_spec_same_numbers(module, site));
    OK(pvsize_spec_set_none(other, PVSIZE_MODULE_MAX_SERIES_FUSE, diag));
    ck_assert(!pvsz_spec_same_numbers(module, other));
    pvsize_spec_free(module);
    pvsize_spec_free(other);
    pvsize_spec_free(site);
}
END_TEST

static void add(Suite *suite)
{
    add_test(suite, "terms", terms_without_a_name_are_numbers);
    add_test(suite, "exact", exact_numbers_read_back);
    add_test(suite, "data sheet numbers", exact_numbers_of_data_sheets_are_identical);
    add_test(suite, "rounded", rounded_numbers_agree_with_libc);
    add_test(suite, "cut", text_is_cut_between_characters);
    add_test(suite, "plain text", plain_text_is_utf8_without_controls);
    add_test(suite, "guard", the_guard_forgives_rounding_only);
    add_test(suite, "counts", counts_that_fit_agree_with_counting);
    add_test(suite, "status", status_codes_are_known_by_number);
    add_test(suite, "tables", tables_are_sound);
    add_test(suite, "found", rows_are_found_by_number);
    add_test(suite, "shape", tables_have_the_shape_that_is_relied_on);
    add_test(suite, "parts", parts_and_kinds);
    add_test(suite, "ratings", ratings_are_the_smallest_that_do);
    add_test(suite, "rules", rules_compare_like_with_like);
    add_test(suite, "memory", memory_of_no_size_and_of_too_much);
    add_test(suite, "no choices", a_failure_of_no_choices_lists_none);
    add_test(suite, "places of choices", choices_have_a_place);
}

int main(void)
{
    return run_cases("base", add);
}
