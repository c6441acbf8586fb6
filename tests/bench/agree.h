/* See agree.c. Returns 0 where everything agrees. */
#ifndef AGREE_H
#define AGREE_H

int agree(void);

#endif
