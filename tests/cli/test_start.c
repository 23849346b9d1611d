/* test_start.c - src/start finds its tree from anywhere, through links too. The packages it asks
 * for first are answered by a script here, so that nothing is installed or built. */
#include "near.h"

#include <stdio.h>
#include <stdlib.h>
#include <sys/wait.h>

enum { FOUND = 7 };

static int status_of(const char *how)
{
    char command[1024];
    snprintf(command, sizeof command,
             "d=$(mktemp -d) && mkdir -p $d/tree/src $d/bin && cp '%s/src/start' $d/tree/src/ &&"
             "printf '#!/bin/sh\\nexit %d\\n' >$d/tree/src/packages &&"
             "chmod +x $d/tree/src/packages && ln -s $d/tree/src/start $d/one &&"
             "ln -s ../one $d/bin/two && cd $d/bin && { %s; s=$?; rm -rf $d; exit $s; }",
             SETTEE_SOURCE_DIR, FOUND, how);
    int status = system(command);
    return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

static void start_finds_its_tree(void **state)
{
    (void)state;
    assert_int_equal(status_of("$d/tree/src/start"), FOUND);
    assert_int_equal(status_of("../tree/src/start"), FOUND);
    assert_int_equal(status_of("$d/one"), FOUND);
    assert_int_equal(status_of("./two"), FOUND);
    assert_int_equal(status_of("PATH=$d/bin:$PATH two"), FOUND);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(start_finds_its_tree)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
