/* form.h - fields to fill in, one to a line: figures, words to choose from, texts. What a field may
 * hold is said beside it, what was typed stays until it is taken or dropped. Knows nothing of what
 * is filled in: a FormKind puts values in and shows them. */
#ifndef SETTEE_UI_FORM_FORM_H
#define SETTEE_UI_FORM_FORM_H

#include "base/json_field.h"
#include "core/advice/caution.h"
#include "ui/draw/widgets.h"

typedef struct FormRow {
    const char *name, *unit; /* as shown */
    const char *allowed;     /* said beside it; NULL: the range, or how to type it */
    Caution caution;
    bool opens; /* Enter opens something instead of taking what was typed */
} FormRow;

typedef struct FormKind {
    const FormRow *rows;
    int count;
    /* What a row may hold: kind, range or words. Without functions of the form's own its member of
     * the subject is shown and put. */
    const JsonField *fields;
    JsonField (*holds)(int row); /* in their place */
    /* The value as it would be typed. */
    void (*show)(const void *subject, int row, char *out, size_t size);
    /* Puts what was typed into the subject. False: error says why in one line, the subject is
     * unchanged. */
    bool (*put)(void *subject, int row, const char *typed, Error *error);
    /* What to say of the value: where it came from, for instance; "": nothing. NULL: never. */
    void (*note)(const void *subject, int row, char *out, size_t size);
} FormKind;

/* A form on the screen. */
typedef struct Form {
    const FormKind *kind;
    int row;       /* the current field */
    bool typed_on; /* something was typed for it: `typed` */
    char typed[64];
} Form;

Form form_begin(const FormKind *kind, int row);
JsonKind form_holds(const Form *form); /* of the current field */
JsonField form_field(const FormKind *kind, int row);
void form_show(const FormKind *kind, const void *subject, int row, char *out, size_t size);
bool form_put(const FormKind *kind, void *subject, int row, const char *typed, Error *error);

/* Puts what was typed into the subject; true also if nothing was. */
bool form_take(Form *form, void *subject, Error *error);
void form_go(Form *form, int step); /* to another field, as far as there is one */
bool form_drop(Form *form);         /* what was typed; false: nothing was */

/* The word `step` places on; a character more (false: no room); one less. */
void form_word(Form *form, const void *subject, int step);
bool form_type(Form *form, const void *subject, uint32_t key);
void form_back(Form *form, const void *subject);

/* Draws the fields, a line each, as many around the current one as fit; sets the cursor. In a
 * narrow area, under FORM_WIDE_MIN columns, what form_hint says is left to be drawn elsewhere. */
enum { FORM_WIDE_MIN = 70 };
void form_hint(const Form *form, const void *subject, char *out, size_t size);
void form_draw(const Form *form, const void *subject, const Glyphs *glyphs, Canvas *canvas,
               Area area);
/* The current field's caution, and how many lines it takes; `words` in its place if not NULL. */
int form_caution_rows(const Form *form, int columns);
void form_caution(const Form *form, const char *words, const Glyphs *glyphs, Canvas *canvas,
                  Area area);

#endif
