/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the lesson engine and the terminal's lesson say, English and Spanish.
 */
#ifndef SLOWLIFT_LESSON_WORDS_H
#define SLOWLIFT_LESSON_WORDS_H

#include "slowlift/estimate.h"

#define SL_SAID_LIST(ROW)                                                                                    \
    ROW(SL_SAID_LOCKED, "The run is locked until there are a prediction and a reason.",                      \
        "El cálculo está cerrado hasta que haya una predicción y una razón.")                                \
    ROW(SL_SAID_UNANSWERED, "Answer this question first.", "Contesta primero esta pregunta.")                \
    ROW(SL_SAID_LAST, "This is the end of the lesson.", "Aquí termina la lección.")                          \
    ROW(SL_SAID_STEP, "Step", "Paso")                                                                        \
    ROW(SL_SAID_OF, "of", "de")                                                                              \
    ROW(SL_SAID_ABOUT, "Takes about", "Dura unos")                                                           \
    ROW(SL_SAID_EXAMPLE, "A classroom example: the program estimates; label, training and law decide.",      \
        "Un ejemplo para la clase: el programa estima; deciden la etiqueta, la formación y la ley.")         \
    ROW(SL_SAID_HELP, "Type the number of an answer, Enter to go on, b to go back, q to stop.",              \
        "Escribe el número de una respuesta, Intro para seguir, b para volver, q para parar.")               \
    ROW(SL_SAID_HELP_EDUCATOR, "Educator: s leaves a step as it is, t shows the notes.",                     \
        "Quien enseña: s deja el paso como está, t muestra las notas.")                                      \
    ROW(SL_SAID_WHICH, "Your answer (number):", "Tu respuesta (número):")                                    \
    ROW(SL_SAID_ENTER, "Enter to go on:", "Intro para seguir:")                                              \
    ROW(SL_SAID_NO_CHOICE, "There is no such answer. Type a number from the list.",                          \
        "No existe esa respuesta. Escribe un número de la lista.")                                           \
    ROW(SL_SAID_FIRST, "The first answer counts; it stays as it is.",                                        \
        "Vale la primera respuesta; se queda como está.")                                                    \
    ROW(SL_SAID_KEPT, "Kept. The run will tell.", "Guardado. El cálculo lo dirá.")                           \
    ROW(SL_SAID_YOURS, "You answered", "Contestaste")                                                        \
    ROW(SL_SAID_RIGHT, "Right.", "Correcto.")                                                                \
    ROW(SL_SAID_NOT_RIGHT, "Not this one.", "Esta no.")                                                      \
    ROW(SL_SAID_PREDICTED, "You predicted", "Predijiste")                                                    \
    ROW(SL_SAID_RUN_GAVE, "The run gave", "El cálculo dio")                                                  \
    ROW(SL_SAID_NO_PREDICTION, "There was no prediction.", "No hubo predicción.")                            \
    ROW(SL_SAID_COLOUR_LEFT, "Colour left", "Color restante")                                                \
    ROW(SL_SAID_BASE_MOVED, "Base moved", "Base movida")                                                     \
    ROW(SL_SAID_HAIR_STRESS, "Hair stress", "Desgaste del cabello")                                          \
    ROW(SL_SAID_AFTER, "after", "después de")                                                                \
    ROW(SL_SAID_NOT_PREDICTED, "not predicted", "sin predicción")                                            \
    ROW(SL_SAID_STOPPED, "Stopped. Go on later with the same command.",                                      \
        "Parado. Sigue más tarde con la misma orden.")                                                       \
    ROW(SL_SAID_NOTES, "Notes for the educator", "Notas para quien enseña")                                  \
    ROW(SL_SAID_CAUTION, "Read this caution out", "Lee en voz alta esta precaución")                         \
    ROW(SL_SAID_SAVED, "Answers are kept in", "Las respuestas se guardan en")                                \
    ROW(SL_SAID_NOT_SAVED, "The answers are not on the disk yet; they are still here and are tried again.",  \
        "Las respuestas aún no están en el disco; siguen aquí y se intenta de nuevo.")                       \
    ROW(SL_SAID_WHY, "Why?", "¿Por qué?")                                                                    \
    ROW(SL_SAID_SKIPPED, "Left as it is.", "Se queda como está.")                                            \
    ROW(SL_SAID_ONE_CHANGE, "You changed more than one thing. Then nobody can tell which of them did it.",   \
        "Cambiaste más de una cosa. Así nadie puede saber cuál fue.")                                        \
    ROW(SL_SAID_ONLY_EDUCATOR, "Only the educator can leave a step open.",                                   \
        "Solo quien enseña puede dejar un paso abierto.")

#define SL_AS_ENUM(name, english, spanish) name,
typedef enum sl_said_what { SL_SAID_LIST(SL_AS_ENUM) SL_SAID_COUNT } sl_said_what;
#undef SL_AS_ENUM

const char *sl_lesson_said(sl_said_what what, const char *language);
/* The name of what is read under strips. */
const char *sl_said_quantity(sl_quantity quantity, const char *language);

#endif
