/* main.c - writes the manual page or a shell's completions to standard output, when settee is
 * built: settee_manual man VERSION | bash | zsh | fish. */
#include <string.h>

#include "tools/manual/manual.h"

int main(int argc, char **argv)
{
    const char *what = argc > 1 ? argv[1] : "";
    if (strcmp(what, "man") == 0 && argc == 3) {
        manual_page(stdout, argv[2]);
    } else if (strcmp(what, "bash") == 0 && argc == 2) {
        manual_bash(stdout);
    } else if (strcmp(what, "zsh") == 0 && argc == 2) {
        manual_zsh(stdout);
    } else if (strcmp(what, "fish") == 0 && argc == 2) {
        manual_fish(stdout);
    } else {
        fputs("usage: settee_manual man VERSION | bash | zsh | fish\n", stderr);
        return 2;
    }
    return fflush(stdout) != 0 || ferror(stdout);
}
