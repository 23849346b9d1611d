/* form.c - fields to fill in, one to a line. */
#include "ui/form/form.h"

#include <string.h>

#include "base/text.h"

enum { VALUE_AT = 18, VALUE_WIDE = 26, HINT_AT = 46 };

Form form_begin(const FormKind *kind, int row) { return (Form){.kind = kind, .row = row}; }

JsonField form_field(const FormKind *kind, int row)
{
    return kind->holds ? kind->holds(row) : kind->fields[row];
}

void form_show(const FormKind *kind, const void *subject, int row, char *out, size_t size)
{
    JsonField field = form_field(kind, row);
    if (kind->show)
        kind->show(subject, row, out, size);
    else
        json_field_show(&field, subject, out, size);
}

bool form_put(const FormKind *kind, void *subject, int row, const char *typed, Error *error)
{
    JsonField field = form_field(kind, row);
    Error why = {0};
    if (kind->put)
        return kind->put(subject, row, typed, error);
    return json_field_typed(&field, typed, subject, &why) ||
           error_set(error, "%s: %s", kind->rows[row].name, why.text);
}

JsonKind form_holds(const Form *form) { return form_field(form->kind, form->row).kind; }

bool form_drop(Form *form)
{
    bool typed = form->typed_on;
    form->typed_on = false;
    form->typed[0] = '\0';
    return typed;
}

bool form_take(Form *form, void *subject, Error *error)
{
    if (form->typed_on && !form_put(form->kind, subject, form->row, form->typed, error))
        return false;
    form_drop(form);
    return true;
}

void form_go(Form *form, int step)
{
    int row = form->row + step;
    if (row >= 0 && row < form->kind->count)
        form->row = row;
}

static void begin_typing(Form *form, const void *subject, bool from_value)
{
    if (form->typed_on)
        return;
    form->typed[0] = '\0';
    if (from_value)
        form_show(form->kind, subject, form->row, form->typed, sizeof form->typed);
    form->typed_on = true;
}

void form_word(Form *form, const void *subject, int step)
{
    JsonField field = form_field(form->kind, form->row);
    const char *const *words = field.words;
    int count = 0, at = 0;
    begin_typing(form, subject, true);
    for (; words[count]; count++)
        if (strcmp(words[count], form->typed) == 0)
            at = count;
    do
        at = (at + step + count) % count;
    while (!words[at][0]); /* an empty word is not offered */
    text_copy(form->typed, sizeof form->typed, words[at]);
}

bool form_type(Form *form, const void *subject, uint32_t key)
{
    char bytes[8];
    JsonField field = form_field(form->kind, form->row);
    size_t room = field.size < sizeof form->typed ? field.size : sizeof form->typed;
    begin_typing(form, subject, false);
    return strlen(form->typed) + text_encode(key, bytes) < room &&
           text_append(form->typed, sizeof form->typed, "%s", bytes);
}

void form_back(Form *form, const void *subject)
{
    begin_typing(form, subject, true);
    size_t length = strlen(form->typed);
    while (length > 0 && ((unsigned char)form->typed[length - 1] & 0xc0) == 0x80)
        length--; /* the rest of a character of several bytes */
    form->typed[length > 0 ? length - 1 : 0] = '\0';
}

/* What may be typed or chosen for the current field, or what was there before. */
void form_hint(const Form *form, const void *subject, char *out, size_t size)
{
    const FormRow *field = &form->kind->rows[form->row];
    JsonField holds = form_field(form->kind, form->row);
    char value[64], range[96];
    form_show(form->kind, subject, form->row, value, sizeof value);
    json_field_range(&holds, range, sizeof range);
    out[0] = '\0';
    if (form->typed_on)
        text_append(out, size, "was %s; Enter takes it", value[0] ? value : "-");
    else
        text_copy(out, size,
                  field->allowed            ? field->allowed
                  : field->opens            ? "Enter opens the list"
                  : holds.kind == JSON_TEXT ? "type a new name"
                  : holds.kind == JSON_WORD ? "\u2190\u2192 to change it"
                                            : range);
}

static const char BOARDS[] = "boards";

/* A field that is not the current one: its value, and what is to be said of it. */
static void draw_value(const FormKind *kind, const void *subject, int i, Canvas *canvas, int row,
                       int column, int columns)
{
    char value[64], note[64] = "", line[160] = "";
    form_show(kind, subject, i, value, sizeof value);
    if (kind->note)
        kind->note(subject, i, note, sizeof note);
    const char *unit = value[0] ? kind->rows[i].unit : "";
    bool one = strcmp(value, "1") == 0 && strncmp(unit, BOARDS, strlen(BOARDS)) == 0;
    text_append(line, sizeof line, "%s%s%s%s", value[0] ? value : "-", unit[0] ? " " : "",
                one ? "board" : "", one ? unit + strlen(BOARDS) : unit);
    bool wider = columns + VALUE_AT >= FORM_WIDE_MIN, aside = wider && note[0] && note[0] != '(';
    int wide = canvas_text(canvas, row, column, aside ? HINT_AT - VALUE_AT - 1 : columns,
                           ROLE_PLAIN, line);
    int at = aside ? HINT_AT - VALUE_AT : wide + 1;
    if (wider)
        canvas_text(canvas, row, column + at, columns - at, ROLE_DIM, note);
}

static void draw_current(const Form *form, const void *subject, const Glyphs *glyphs,
                         Canvas *canvas, int row, int column, int columns)
{
    char value[64], hint[128];
    bool wide = columns >= FORM_WIDE_MIN;
    int room = wide ? VALUE_WIDE : columns - VALUE_AT;
    form_show(form->kind, subject, form->row, value, sizeof value);
    canvas_put(canvas, row, column, glyphs->breaks_right, ROLE_ACCENT);
    canvas_hline(canvas, row, column + VALUE_AT, room, ' ', ROLE_FIELD);
    int typed = canvas_text(canvas, row, column + VALUE_AT, room - form->typed_on, ROLE_FIELD,
                            form->typed_on ? form->typed
                            : value[0]     ? value
                                           : "-");
    canvas->cursor_row = row;
    canvas->cursor_column = column + VALUE_AT + (form->typed_on ? typed : 0);
    form_hint(form, subject, hint, sizeof hint);
    if (wide)
        canvas_text(canvas, row, column + HINT_AT, columns - HINT_AT, ROLE_DIM, hint);
}

void form_draw(const Form *form, const void *subject, const Glyphs *glyphs, Canvas *canvas,
               Area area)
{
    int count = form->kind->count, top = form->row - area.rows / 2;
    top = top < count - area.rows ? top : count - area.rows;
    top = top > 0 ? top : 0;
    for (int i = top; i < count && i < top + area.rows; i++) {
        int row = area.row + i - top;
        bool here = i == form->row;
        canvas_text(canvas, row, area.column + 2, VALUE_AT - 3, here ? ROLE_PLAIN : ROLE_DIM,
                    form->kind->rows[i].name);
        if (here)
            draw_current(form, subject, glyphs, canvas, row, area.column, area.columns);
        else
            draw_value(form->kind, subject, i, canvas, row, area.column + VALUE_AT,
                       area.columns - VALUE_AT);
    }
}

int form_caution_rows(const Form *form, int columns)
{
    Caution caution = form->kind->rows[form->row].caution;
    return caution == CAUTION_NONE ? 0 : canvas_lines(columns - 2, CAUTION_WORDS[caution]);
}

void form_caution(const Form *form, const char *words, const Glyphs *glyphs, Canvas *canvas,
                  Area area)
{
    Caution caution = form->kind->rows[form->row].caution;
    if (caution == CAUTION_NONE)
        return;
    canvas_put(canvas, area.row, area.column, glyphs->caution, ROLE_WARN);
    canvas_wrap(canvas, area.row, area.column + 2, area.columns - 2, area.rows, ROLE_WARN,
                words ? words : CAUTION_WORDS[caution]);
}
