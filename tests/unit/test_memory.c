#include "../support/pv_test.h"
int main(void)
{
    return 0;
}
