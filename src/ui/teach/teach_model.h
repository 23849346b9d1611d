/* teach_model.h - all that the lessons' screens show, the one function that changes it, and what it
 * asks for. Pure: the stage computes scenes and throws, and main keeps what the juniors did. */
#ifndef SETTEE_UI_TEACH_TEACH_MODEL_H
#define SETTEE_UI_TEACH_TEACH_MODEL_H

#include "core/teach/coach.h"
#include "core/teach/quiz.h"
#include "core/teach/teach.h"
#include "ui/draw/glyphs.h"
#include "ui/input/keytable.h"
#include "ui/search.h"

typedef enum TeachView {
    TEACH_JUNIORS, /* who is here */
    TEACH_NEW,     /* a new name is typed */
    TEACH_LIST,    /* the lessons by level */
    TEACH_LESSON,
    TEACH_COACH,
    TEACH_HELP,
    TEACH_SEARCH /* from there */
} TeachView;

/* Where a lesson is. */
typedef enum TeachPart {
    PART_SETTING, /* the lane is being prepared */
    PART_BALL,    /* a shot is on its way; any key ends it */
    PART_LOOK,    /* it has rolled */
    PART_ASK,     /* what did it do? */
    PART_CHOOSE,
    PART_ROLLING, /* the throws of every choice */
    PART_SHOWN,
    PART_WHY
} TeachPart;

/* The states of the keys' table. */
enum {
    ON_JUNIORS = 1,
    ON_NEW = 2,
    ON_LIST = 4,
    ON_GO = 8, /* Enter goes on */
    ON_ASK = 16,
    ON_CHOOSE = 32,
    ON_PAGE = 64, /* the coach's page, the help */
    ON_LESSON = 128,
    ON_HELP = 256,
    ON_SEARCH = 512
};

enum { TEACH_PATH_POINTS = 31 }; /* every two feet */

/* The throws of one choice. */
typedef struct TeachCloud {
    bool ready;
    int good; /* of TEACH_SHOWN */
    TeachBall balls[TEACH_SHOWN];
    float board[TEACH_SHOWN][TEACH_PATH_POINTS]; /* NAN once in the gutter */
} TeachCloud;

enum { TEACH_ITEMS_MAX = 256 + LESSON_LEVELS };

/* A row of the list: a lesson, or (index -1) the question of its level. */
typedef struct TeachItem {
    int lesson, level;
} TeachItem;

typedef struct TeachModel {
    const Lesson *lessons; /* main's */
    int lesson_count;
    Juniors *juniors; /* main's; changed here, kept by main */
    const Glyphs *glyphs;
    int columns, rows, theme, theme_count;
    TeachView view, before; /* `before`: where help or the coach's page was asked for */
    int item_count;
    TeachItem items[TEACH_ITEMS_MAX];
    int junior; /* who; -1 before somebody is chosen */
    int cursor; /* in the juniors or the list */
    int top;    /* first line of a page */
    Search search;
    char typed[32]; /* the new name */
    Hand hand;      /* and what else is asked of somebody new */
    bool hook;
    char message[200];
    Role message_role;

    /* The lesson. */
    int item;
    Lesson lesson;
    TeachPart part, after; /* after: PART_BALL, what comes then */
    Play play;
    int shot;         /* shown last */
    bool still;       /* shots are not shown on their way, */
    bool still_fixed; /* and M can't change that */
    double roll_s;    /* of PART_BALL: how long the shot has rolled */
    int chosen;       /* the choice tried last, -1 */
    bool own;         /* thrown by the lesson's own bag, since the reader's can't show it */
    uint64_t seed;
    /* What the stage has computed. */
    const TeachScene *scene;
    TeachShot shots[LESSON_SHOTS_MAX];
    TeachCloud cloud[LESSON_CHOICES_MAX];
    char score_words[160]; /* what a score lesson's game still needs */
} TeachModel;

typedef struct TeachEffects {
    bool draw, bell, end;
    bool set; /* prepare model->lesson, or a fresh question of its level when `fresh` */
    bool fresh;
    bool roll;   /* the throws of every choice */
    bool keep;   /* the juniors have changed */
    bool theme;  /* model->theme has */
    bool motion; /* model->still has */
} TeachEffects;

void teach_model_init(TeachModel *model, const Lesson *lessons, int count, Juniors *juniors,
                      const Glyphs *glyphs);

TeachEffects teach_key(TeachModel *model, uint32_t key);

/* Whether a shot is on its way; time passes then. */
bool teach_on_its_way(const TeachModel *model);
TeachEffects teach_pass(TeachModel *model, int milliseconds);

/* What the stage has found: the lane is ready; or it can't be, with why. The throws are ready. */
TeachEffects teach_set(TeachModel *model, const TeachScene *scene, bool own, const char *doubt);
TeachEffects teach_refused(TeachModel *model, const char *why);
TeachEffects teach_rolled(TeachModel *model);
void teach_say(TeachModel *model, Role role, const char *line);

const Junior *teach_junior(const TeachModel *model); /* NULL: nobody yet */
Hand teach_hand(const TeachModel *model);            /* of who throws in the lesson */
unsigned teach_where(const TeachModel *model);
extern const KeyTable TEACH_KEYS;

/* Lines of the page that is shown, and how many rows there are for it. */
int teach_page_lines(const TeachModel *model);
int teach_page_rows(const TeachModel *model);

void teach_draw(const TeachModel *model, Canvas *canvas);

#endif
