/* Memory through the object's own hooks. */
#include <stdlib.h>
#include <string.h>

#include "base.h"

static void *default_allocate(void *user, size_t size)
{
    (void)user;
    return malloc(size);
}

static void default_release(void *user, void *block)
{
    (void)user;
    free(block);
}

pvsize_status pvsz_take_memory(const pvsize_allocator *memory, pvsz_memory *out, pvsize_diag *diag)
{
    static const pvsize_allocator plain = {default_allocate, default_release, NULL};

    if (memory && !memory->allocate)
        return pvsz_fail_null(diag, "memory->allocate");
    if (memory && !memory->release)
        return pvsz_fail_null(diag, "memory->release");
    *out = memory ? *memory : plain;
    return PVSIZE_OK;
}

void *pvsz_new_unset(const pvsz_memory *memory, size_t n, size_t size)
{
    if (n == 0 || size == 0)
        n = size = 1;
    return n > SIZE_MAX / 2 / size ? NULL : memory->allocate(memory->user, n * size);
}

void *pvsz_new(const pvsz_memory *memory, size_t n, size_t size)
{
    void *block = pvsz_new_unset(memory, n, size);

    if (block)
        memset(block, 0, n && size ? n * size : 1);
    return block;
}

void pvsz_release(const pvsz_memory *memory, void *block)
{
    if (block)
        memory->release(memory->user, block);
}

bool pvsz_is(const void *object, uint32_t mark)
{
    return object && ((const pvsz_head *)object)->mark == mark;
}

pvsize_status pvsz_make(const pvsize_allocator *memory, size_t size, uint32_t mark, void **out,
                        pvsize_diag *diag)
{
    pvsz_memory hooks;
    pvsz_head *head;

    *out = NULL;
    if (pvsz_take_memory(memory, &hooks, diag))
        return PVSIZE_E_NULL_POINTER;
    head = pvsz_new(&hooks, 1, size);
    if (!head)
        return pvsz_fail(diag, PVSIZE_E_NO_MEMORY);
    head->mark = mark;
    head->memory = hooks;
    *out = head;
    return PVSIZE_OK;
}

void pvsz_unmake(void *object)
{
    pvsz_head *head = object;
    pvsz_memory memory = head->memory;

    head->mark = PVSZ_MARK_DEAD;
    pvsz_release(&memory, head);
}

char *pvsz_copy_text(const pvsz_memory *memory, const char *text)
{
    size_t size = strlen(text) + 1;
    char *copy = pvsz_new_unset(memory, size, 1);

    if (copy)
        memcpy(copy, text, size);
    return copy;
}

void *pvsz_grow(const pvsz_memory *memory, void *items, size_t count, size_t *capacity, size_t size)
{
    size_t wanted = *capacity ? 2 * *capacity : 4;
    void *larger;

    if (count < *capacity)
        return items;
    larger = pvsz_new(memory, wanted, size);
    if (!larger)
        return NULL;
    if (count)
        memcpy(larger, items, count * size);
    pvsz_release(memory, items);
    *capacity = wanted;
    return larger;
}
