/* Runs a harness on files, or on standard input: for AFL++ (afl-cc, then
 * afl-fuzz -i seeds/NAME -o out ./NAME @@), and to look at a finding without libFuzzer. */
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

int main(int count, char **files)
{
    if (count < 2)
        run(stdin);
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
