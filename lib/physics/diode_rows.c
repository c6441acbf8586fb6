/* Rows of points: short loops over arrays, which compilers turn into vector instructions, as
 * wide as the processor has them. Nothing but width differs: there is no fused
 * multiply-add (-ffp-contract=off), so the bits are the same. */
#include "diode_rows.h"

#include "diode_mpp.h"

#if defined(__GNUC__) && defined(__x86_64__)
#define HAS_WIDTHS 1
#else
#define HAS_WIDTHS 0
#endif

enum { ROW = 32 };

typedef struct row {
    double irradiance[ROW], cell_temp[ROW];
    double light[ROW], saturation[ROW], ideality[ROW], shunt[ROW];
    double u[ROW];
    double voltage[ROW], current[ROW], sure[ROW];
} row;

PVSZ_INLINE pvsz_diode diode_of(const row *r, double series, int i)
{
    return (pvsz_diode){r->light[i], r->saturation[i], r->ideality[i], series, r->shunt[i]};
}

PVSZ_INLINE void quick_row(const pvsz_module *module, row *r)
{
    pvsz_module m = *module; /* of its own: not changed by what is written below */

    for (int i = 0; i < ROW; i++) {
        pvsz_diode d = pvsz_shift(&m, r->irradiance[i], r->cell_temp[i]);

        r->light[i] = d.light;
        r->saturation[i] = d.saturation;
        r->ideality[i] = d.ideality;
        r->shunt[i] = d.shunt;
    }
    for (int i = 0; i < ROW; i++) {
        pvsz_diode d = diode_of(r, m.stc.series, i);

        r->u[i] = pvsz_quick_start(&d);
    }
    for (int i = 0; i < ROW; i++) {
        pvsz_diode d = diode_of(r, m.stc.series, i);

        r->u[i] = pvsz_quick_step(&d, r->u[i]);
    }
    for (int i = 0; i < ROW; i++) {
        pvsz_diode d = diode_of(r, m.stc.series, i);
        pvsz_point point = pvsz_quick_end(&d, r->u[i], &r->sure[i]);

        r->voltage[i] = point.voltage;
        r->current[i] = point.current;
    }
}

typedef void row_function(const pvsz_module *module, row *r);

static void row_plain(const pvsz_module *module, row *r)
{
    quick_row(module, r);
}

#if HAS_WIDTHS
__attribute__((target("avx2"))) static void row_avx2(const pvsz_module *module, row *r)
{
    quick_row(module, r);
}

__attribute__((target("avx512f"))) static void row_avx512(const pvsz_module *module, row *r)
{
    quick_row(module, r);
}

static row_function *const rows[] = {row_plain, row_avx2, row_avx512};

int pvsz_widest(void)
{
    if (__builtin_cpu_supports("avx512f"))
        return 2;
    return __builtin_cpu_supports("avx2") ? 1 : 0;
}
#else
static row_function *const rows[] = {row_plain};

int pvsz_widest(void)
{
    return 0;
}
#endif

/* Those that the quick way is not sure of, one by one. */
static void mend_row(const pvsz_module *module, row *r)
{
    for (int i = 0; i < ROW; i++) {
        if (r->sure[i] > 0 && r->light[i] > 0)
            continue;
        pvsz_diode d = diode_of(r, module->stc.series, i);
        pvsz_point point = pvsz_diode_mpp(&d);

        r->voltage[i] = point.voltage;
        r->current[i] = point.current;
    }
}

void pvsz_module_mpps_by(int width, const pvsz_module *module, size_t n, const double *irradiance,
                         const double *cell_temp, double *voltage, double *current)
{
    row r;

    for (size_t done = 0; done < n; done += ROW) {
        size_t count = n - done < ROW ? n - done : ROW;

        for (size_t i = 0; i < ROW; i++) {
            r.irradiance[i] = i < count ? irradiance[done + i] : PVSZ_STC_IRRADIANCE;
            r.cell_temp[i] = i < count ? cell_temp[done + i] : 25;
        }
        rows[width](module, &r);
        mend_row(module, &r);
        for (size_t i = 0; i < count; i++) {
            voltage[done + i] = r.voltage[i];
            current[done + i] = r.current[i];
        }
    }
}

void pvsz_module_mpps(const pvsz_module *module, size_t n, const double *irradiance,
                      const double *cell_temp, double *voltage, double *current)
{
    pvsz_module_mpps_by(pvsz_widest(), module, n, irradiance, cell_temp, voltage, current);
}
