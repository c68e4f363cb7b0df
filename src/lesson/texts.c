/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Texts of a lesson: no digit outside braces, no word that promises, every {name} replaced by
 * its number with its unit; and the questions made of such texts.
 */
#include <ctype.h>
#include <string.h>

#include "lesson/reading.h"

/* Words that no text for people may hold (docs/file-format.md, "Lesson"); lower case. Stems
 * catch the endings. */
static const char *const banned[] = {"safe time",     "guarante",   "will be removed", "perfect",
                                     "tiempo seguro", "garantizad", "se eliminará"};

/* Lower case for ASCII only: the banned words need no more. */
static bool begins_with(const char *text, const char *word)
{
    for (; *word; text++, word++) {
        if (tolower((unsigned char)*text) != (int)(unsigned char)*word) {
            return false;
        }
    }
    return true;
}

static bool is_letter(char byte)
{
    return isalpha((unsigned char)byte) || (unsigned char)byte >= 0x80U;
}

static bool banned_check(const sl_reading *reading, const sl_node *node)
{
    const char *const text = node->text;
    for (size_t i = 0; text[i]; i++) {
        for (size_t b = 0; b < sizeof banned / sizeof banned[0]; b++) {
            if ((i == 0 || !is_letter(text[i - 1])) && begins_with(text + i, banned[b])) {
                sl_phrase found = {0};
                sl_phrase_add(&found, "the words ");
                sl_phrase_quote(&found, banned[b]);
                return sl_node_refuse(node, SL_ERR_NOT_ALLOWED, found.text,
                                      "a lesson promises nothing; say what the model says", reading->error);
            }
        }
    }
    return true;
}

static bool refuse_digit(const sl_reading *reading, const sl_node *node, const char *at)
{
    sl_phrase found = {0};
    sl_phrase_add(&found, "a digit typed by hand: ");
    sl_phrase_quote(&found, at);
    return sl_node_refuse(node, SL_ERR_NOT_ALLOWED, found.text,
                          "write the {name} of a number, or the number as a word", reading->error);
}

static int find_number(const sl_figures *figures, const char *name, size_t length)
{
    for (int i = 0; i < figures->n; i++) {
        if (strlen(figures->number[i].name) == length &&
            strncmp(figures->number[i].name, name, length) == 0) {
            return i;
        }
    }
    return -1;
}

static bool refuse_name(const sl_figures *figures, const sl_node *node, const char *name, size_t length)
{
    const char *names[SL_MOST_NUMBERS];
    char word[64];
    for (int i = 0; i < figures->n; i++) {
        names[i] = figures->number[i].name;
    }
    const sl_words known = {names, figures->n};
    const size_t kept = length < sizeof word ? length : sizeof word - 1;
    memcpy(word, name, kept);
    word[kept] = '\0';
    sl_phrase found = {0}, wanted = {0};
    sl_phrase_quote(&found, word);
    if (figures->n > 0) {
        sl_phrase_nearest(&wanted, &known, word);
    } else {
        sl_phrase_add(&wanted, "this file names no numbers");
    }
    return sl_node_refuse(node, SL_ERR_UNKNOWN_WORD, found.text, wanted.text, figures->reading->error);
}

static bool refuse_head(const sl_figures *figures, const sl_node *node)
{
    return sl_node_refuse(node, SL_ERR_NOT_ALLOWED, "a number of hair that counts as a head",
                          "tell an order, or a factor made by dividing two numbers of the model; minutes and "
                          "what is left at a minute belong to cut swatches below 30 °C",
                          figures->reading->error);
}

/* The text with its numbers, into room of `size` bytes; false with the error set. */
static bool fill(const sl_figures *figures, const sl_node *node, char *filled, size_t size)
{
    size_t used = 0;
    for (const char *at = node->text; *at;) {
        const char *piece = at;
        size_t length = 1;
        if (*at == '{') {
            const size_t name = strcspn(at + 1, "}");
            const int number = at[1 + name] == '}' ? find_number(figures, at + 1, name) : -1;
            if (number < 0) {
                return refuse_name(figures, node, at + 1, name);
            }
            if (figures->number[number].of_head) {
                return refuse_head(figures, node);
            }
            piece = figures->number[number].text;
            length = strlen(piece);
            at += name + 2;
        } else if (*at == '}' || isdigit((unsigned char)*at)) {
            return *at == '}' ? refuse_name(figures, node, "}", 1) : refuse_digit(figures->reading, node, at);
        } else {
            at++;
        }
        if (used + length + 1 > size) {
            return sl_node_refuse(node, SL_ERR_TOO_LARGE, "this text is too long with its numbers",
                                  "4000 bytes", figures->reading->error);
        }
        memcpy(filled + used, piece, length);
        used += length;
    }
    filled[used] = '\0';
    return true;
}

bool sl_filled_read(const sl_figures *figures, const sl_node *node, const char **text)
{
    char filled[SL_LONGEST_LESSON_TEXT];
    const sl_reading *const reading = figures->reading;
    if (!sl_node_is(node, SL_NODE_TEXT, "a text belongs here", reading->error)) {
        return false;
    }
    if (node->text[0] == '\0') {
        return sl_node_refuse_text(node, SL_ERR_WRONG_TYPE, "a text belongs here", reading->error);
    }
    if (!sl_text_check(node, SL_TEXT_LINES, reading->error) || !banned_check(reading, node) ||
        !fill(figures, node, filled, sizeof filled)) {
        return false;
    }
    *text = sl_arena_text(reading->kept, filled, strlen(filled), reading->error);
    return *text != NULL;
}

bool sl_passage_read(const sl_figures *figures, const sl_node *node, sl_passage *passage)
{
    passage->n = 0;
    if (node->kind != SL_NODE_LIST) {
        passage->n = 1;
        return sl_filled_read(figures, node, &passage->paragraph[0]);
    }
    if (node->n < 1 || node->n > SL_MOST_PARAGRAPHS) {
        return sl_node_refuse(node, SL_ERR_OUT_OF_RANGE, "the number of paragraphs", "1 to 16 belong here",
                              figures->reading->error);
    }
    for (const sl_node *child = node->first; child; child = child->next) {
        if (!sl_filled_read(figures, child, &passage->paragraph[passage->n])) {
            return false;
        }
        passage->n++;
    }
    return true;
}

/* ---- questions ---------------------------------------------------------------------------------- */

/* The right one rests on a claim that holds, a wrong one on one that does not. */
static bool proof_read(const sl_figures *figures, const sl_node *node, bool proved, sl_choice *choice)
{
    const sl_node *const by = sl_node_child(node, "by");
    choice->claim = -1;
    if (!by) {
        return !proved || !choice->right ||
               sl_node_refuse_missing(node, "by", "the claim that makes this answer right",
                                      figures->reading->error);
    }
    if (!sl_claim_named(figures, by, &choice->claim)) {
        return false;
    }
    return figures->claim[choice->claim].holds == choice->right ||
           sl_node_refuse_text(by, SL_ERR_INCONSISTENT,
                               choice->right ? "the right answer rests on a claim that holds"
                                             : "a wrong answer rests on a claim with \"holds: no\"",
                               figures->reading->error);
}

static bool choice_read(sl_figures *figures, const sl_node *node, bool proved, sl_choice *choice)
{
    static const char *const keys[] = {"say", "right", "thinks", "reply", "by", "draws"};
    static const sl_words known = {keys, sizeof keys / sizeof keys[0]};
    const sl_reading *const reading = figures->reading;
    if (!sl_node_keys_known(node, &known, reading->error)) {
        return false;
    }
    const sl_node *const say = sl_needed_child(reading, node, "say", "what a student would answer");
    const sl_node *const right = sl_node_child(node, "right");
    if (!say || !sl_filled_read(figures, say, &choice->say) ||
        (right && !sl_yes_read(right, &choice->right, reading->error))) {
        return false;
    }
    const sl_node *const thinks = sl_node_child(node, "thinks");
    if (!thinks && !choice->right) {
        return sl_node_refuse_missing(node, "thinks", "a wrong answer says what misconception is behind it",
                                      reading->error);
    }
    if (thinks && choice->right) {
        return sl_node_refuse_key(thinks, SL_ERR_INCONSISTENT, "a misconception behind the right answer",
                                  "leave it out", reading->error);
    }
    const sl_node *const reply =
        sl_needed_child(reading, node, "reply", "every answer gets feedback of its own");
    const sl_node *const draws = sl_node_child(node, "draws");
    choice->draws = -1;
    return reply && (!thinks || sl_filled_read(figures, thinks, &choice->thinks)) &&
           sl_filled_read(figures, reply, &choice->reply) &&
           (!draws || (sl_number_named(figures, draws, SL_AS_COUNT_OF, &choice->draws) &&
                       (!figures->number[choice->draws].of_head || refuse_head(figures, draws)))) &&
           proof_read(figures, node, proved, choice);
}

static bool right_found(const sl_reading *reading, const sl_node *list, sl_question *question)
{
    int right = 0;
    for (int i = 0; i < question->n; i++) {
        if (question->choice[i].right) {
            question->right = i;
            right++;
        }
    }
    return right == 1 ||
           sl_node_refuse_key(list, SL_ERR_INCONSISTENT,
                              right == 0 ? "no answer is right" : "more than one answer is right",
                              "exactly one has \"right: yes\"", reading->error);
}

bool sl_tier_read(sl_figures *figures, const sl_node *node, const char *key, bool proved,
                  sl_question *question)
{
    const sl_reading *const reading = figures->reading;
    *question = (sl_question){.n = 0};
    const sl_node *const ask = sl_needed_child(reading, node, "ask", "a question asks something");
    const sl_node *const list = ask ? sl_list_child(reading, node, "answers", 2, SL_MOST_CHOICES) : NULL;
    if (!list || !sl_filled_read(figures, ask, &question->ask)) {
        return false;
    }
    for (const sl_node *answer = list->first; answer; answer = answer->next) {
        if (!choice_read(figures, answer, proved, &question->choice[question->n])) {
            return false;
        }
        question->n++;
    }
    question->key = sl_arena_text(reading->kept, key, strlen(key), reading->error);
    return question->key && right_found(reading, list, question);
}

bool sl_question_read(sl_figures *figures, const sl_node *node, const char *key, bool proved,
                      sl_question *question)
{
    static const char *const keys[] = {"ask", "answers"};
    static const sl_words known = {keys, 2};
    return sl_node_keys_known(node, &known, figures->reading->error) &&
           sl_tier_read(figures, node, key, proved, question);
}
