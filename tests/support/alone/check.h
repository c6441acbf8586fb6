/* The few words of Check that the tests use, where there is no Check: other machines, and
 * sanitizers that want every library built with them. A failure ends the program. */
#ifndef ALONE_CHECK_H
#define ALONE_CHECK_H

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

typedef struct Suite Suite;
typedef struct TCase TCase;
typedef struct SRunner SRunner;
typedef void check_call(void);
typedef struct TTest {
    const char *name;
    check_call *run;
} TTest;

#define START_TEST(test)                                 \
    static void test##_run(void);                        \
    static const TTest test##_row = {#test, test##_run}; \
    static const TTest *const test = &test##_row;        \
    static void test##_run(void)
#define END_TEST

enum { CK_NORMAL };

Suite *suite_create(const char *name);
void suite_add_tcase(Suite *suite, TCase *one);
TCase *tcase_create(const char *name);
void tcase_add_checked_fixture(TCase *one, check_call *before, check_call *after);
void tcase_set_timeout(TCase *one, double seconds);
void tcase_add_test(TCase *one, const TTest *test);
SRunner *srunner_create(Suite *suite);
void srunner_run_all(SRunner *runner, int how);
int srunner_ntests_failed(SRunner *runner);
void srunner_free(SRunner *runner);

#if defined(__GNUC__)
__attribute__((noreturn, format(printf, 3, 4)))
#endif
void check_broken(const char *file, int line, const char *format, ...);

#define ck_abort_msg(...) check_broken(__FILE__, __LINE__, __VA_ARGS__)
#define ck_assert(claim) ((claim) ? (void)0 : ck_abort_msg("not so: %s", #claim))
#define ck_assert_msg(claim, ...) ((claim) ? (void)0 : ck_abort_msg(__VA_ARGS__))

#define ALONE_COMPARE(type, format, a, sign, b)                                                  \
    do {                                                                                         \
        type left_ = (a), right_ = (b);                                                          \
        if (!(left_ sign right_))                                                                \
            ck_abort_msg("not so: %s " #sign " %s: " format ", " format, #a, #b, left_, right_); \
    } while (0)
#define ALONE_INT(a, sign, b) ALONE_COMPARE(long long, "%lld", a, sign, b)
#define ALONE_UINT(a, sign, b) ALONE_COMPARE(unsigned long long, "%llu", a, sign, b)
#define ALONE_DOUBLE(a, sign, b) ALONE_COMPARE(double, "%.17g", a, sign, b)

#define ck_assert_int_eq(a, b) ALONE_INT(a, ==, b)
#define ck_assert_int_ne(a, b) ALONE_INT(a, !=, b)
#define ck_assert_int_lt(a, b) ALONE_INT(a, <, b)
#define ck_assert_int_le(a, b) ALONE_INT(a, <=, b)
#define ck_assert_int_gt(a, b) ALONE_INT(a, >, b)
#define ck_assert_int_ge(a, b) ALONE_INT(a, >=, b)
#define ck_assert_uint_eq(a, b) ALONE_UINT(a, ==, b)
#define ck_assert_uint_lt(a, b) ALONE_UINT(a, <, b)
#define ck_assert_uint_gt(a, b) ALONE_UINT(a, >, b)
#define ck_assert_double_lt(a, b) ALONE_DOUBLE(a, <, b)
#define ck_assert_double_le(a, b) ALONE_DOUBLE(a, <=, b)
#define ck_assert_double_gt(a, b) ALONE_DOUBLE(a, >, b)
#define ck_assert_double_ge(a, b) ALONE_DOUBLE(a, >=, b)
#define ck_assert_ptr_eq(a, b) ck_assert((a) == (b))
#define ck_assert_ptr_ne(a, b) ck_assert((a) != (b))
#define ck_assert_ptr_null(a) ck_assert(!(a))
#define ck_assert_ptr_nonnull(a) ck_assert(a)
#define ck_assert_str_eq(a, b)                                                                 \
    do {                                                                                       \
        const char *left_ = (a), *right_ = (b);                                                \
        if (!left_ || !right_ || strcmp(left_, right_) != 0)                                   \
            ck_abort_msg("not so: %s is %s: \"%s\", \"%s\"", #a, #b, left_ ? left_ : "(null)", \
                         right_ ? right_ : "(null)");                                          \
    } while (0)

#endif
