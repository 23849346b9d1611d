/* cmd_check.c - settee check: are these files what the program can read? */
#include <stdio.h>

#include "cli/cmd.h"
#include "store/files.h"

int cmd_check(const Options *options)
{
    if (options->word_count == 0)
        return cmd_say(CMD_USAGE, "check needs at least one file: settee check FILE...");
    int status = CMD_DONE;
    JsonOut out = json_out_start();
    json_out_object(&out, NULL);
    json_out_array(&out, "files");
    for (int i = 0; i < options->word_count; i++) {
        const char *kind = "";
        Error error = {0};
        bool ok = files_check(options->words[i], &kind, &error);
        json_out_object(&out, NULL);
        json_out_string(&out, "file", options->words[i]);
        json_out_bool(&out, "ok", ok);
        if (ok) {
            json_out_string(&out, "kind", kind);
            if (!options->json)
                printf("%s: %s, ok\n", options->words[i], kind);
        } else {
            char line[ERROR_LINE_MAX];
            error_line(&error, line, sizeof line);
            json_out_string(&out, "fault", line);
            fflush(stdout); /* keep the order when both go to one place */
            status = cmd_fault(CMD_FAULT, &error);
        }
        json_out_end(&out);
    }
    json_out_end(&out);
    json_out_end(&out);
    if (options->json) {
        int written = cmd_json(&out);
        return written != CMD_DONE ? written : status;
    }
    json_out_free(&out);
    return status;
}
