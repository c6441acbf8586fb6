/* Runs a harness without a fuzzer: on files, to look at a finding; on standard input; or, with
 * the word random=COUNT, on so many texts of bytes, the same ones each time. */
#include "fuzz.h"

enum { MOST = 1 << 20 };

static void run(FILE *stream)
{
    uint8_t *bytes = malloc(MOST);
    size_t count = bytes ? fread(bytes, 1, MOST, stream) : 0;
    /* a block of its own length, so that one byte too far is seen */
    uint8_t *exact = malloc(count ? count : 1);

    if (bytes && exact) {
        memcpy(exact, bytes, count);
        LLVMFuzzerTestOneInput(exact, count);
    }
    free(exact);
    free(bytes);
}

static void run_random(long count)
{
    enum { LENGTH = 2000 };
    uint8_t bytes[LENGTH];
    draw d = draw_from_seed(2026);

    for (long i = 0; i < count; i++) {
        for (int k = 0; k < LENGTH; k++)
            bytes[k] = (uint8_t)(draw_word(&d) >> 24);
        LLVMFuzzerTestOneInput(bytes, LENGTH);
    }
    printf("%ld inputs\n", count);
}

int main(int count, char **files)
{
    if (count < 2)
        run(stdin);
    if (count == 2 && strncmp(files[1], "random=", 7) == 0) {
        run_random(strtol(files[1] + 7, NULL, 10));
        return 0;
    }
    for (int i = 1; i < count; i++) {
        FILE *stream = fopen(files[i], "rb");

        if (!stream) {
            perror(files[i]);
            return 1;
        }
        run(stream);
        fclose(stream);
    }
    return 0;
}
