/* main.c - a command, or the screen. */
#include <locale.h>
#include <string.h>

#include "app/app.h"
#include "cli/cli.h"

int main(int argc, char **argv)
{
    setlocale(LC_CTYPE, ""); /* numbers stay in the C locale */
    const char *event, *bag;
    unsigned long seed;
    if (cli_rehearses(argc, argv, &event, &seed))
        return app_run_rehearse(event, seed);
    if (cli_teach_screen(argc, argv, &bag) && stage_ready(NULL))
        return app_run_teach(bag);
    if (argc > 1 && (cli_knows(argv[1]) || strcmp(argv[1], "-") == 0))
        return cli_run(argc, argv);
    if (!cli_screen(argc, argv, &event, &bag))
        return 2;
    return event ? app_run_event(event, bag) : app_run_home();
}
