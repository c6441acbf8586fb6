// The same library from C++11: handles in unique_ptr, and an own rule that holds.
#include <pvsize/pvsize.h>

#include <cstdio>
#include <memory>
#include <stdexcept>
#include <string>

namespace {

struct Free {
    void operator()(pvsize_spec *p) const { pvsize_spec_free(p); }
    void operator()(pvsize_rules *p) const { pvsize_rules_free(p); }
    void operator()(pvsize_report *p) const { pvsize_report_free(p); }
    void operator()(pvsize_diag *p) const { pvsize_diag_free(p); }
};
template <class T> using Handle = std::unique_ptr<T, Free>;

Handle<pvsize_diag> diag;

void ok(pvsize_status status)
{
    char text[300] = "";
    if (status == PVSIZE_OK)
        return;
    pvsize_diag_text(diag.get(), text, sizeof text, nullptr);
    throw std::runtime_error(text);
}

Handle<pvsize_spec> made(int32_t kind)
{
    pvsize_spec *spec = nullptr;
    ok(pvsize_spec_new(kind, nullptr, &spec, diag.get()));
    return Handle<pvsize_spec>(spec);
}

bool refuses_nonsense()
{
    auto module = made(PVSIZE_KIND_MODULE);
    try {
        ok(pvsize_spec_set_number(module.get(), PVSIZE_MODULE_VOC, -1, diag.get()));
    } catch (const std::runtime_error &e) {
        return std::string(e.what()).find("module.voc") == 0;
    }
    return false;
}

} // namespace

int main()
{
    pvsize_diag *d = nullptr;
    pvsize_rules *r = nullptr;
    pvsize_report *p = nullptr;
    int32_t outcome = 0;

    if (pvsize_diag_new(nullptr, &d) != PVSIZE_OK)
        return 1;
    diag.reset(d);
    ok(pvsize_rules_new(nullptr, nullptr, &r, d));
    Handle<pvsize_rules> rules(r);
    ok(pvsize_report_new(nullptr, &p, d));
    Handle<pvsize_report> report(p);
    auto module = made(PVSIZE_KIND_MODULE);
    ok(pvsize_spec_set_number(module.get(), PVSIZE_MODULE_MASS, 21.5, d));
    ok(pvsize_rules_add(rules.get(), "two_persons", "light enough for two", PVSIZE_MODULE_MASS,
                        PVSIZE_COMPARE_AT_MOST, 0, 25, PVSIZE_SEVERITY_MUST, nullptr, nullptr, d));
    ok(pvsize_check(module.get(), rules.get(), report.get(), d));
    ok(pvsize_report_outcome(report.get(), &outcome, d));
    std::printf("libpvsize %s\n", pvsize_version_text());
    return outcome == PVSIZE_OUTCOME_HOLDS && refuses_nonsense() ? 0 : 1;
}
