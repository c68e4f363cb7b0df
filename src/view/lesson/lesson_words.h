/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the lesson in the window says beside the texts of the lesson itself, in the language of
 * the lesson; what the terminal says too is in lesson/words.h.
 */
#ifndef SLOWLIFT_VIEW_LESSON_WORDS_H
#define SLOWLIFT_VIEW_LESSON_WORDS_H

#define SL_SHOWN_LIST(ROW)                                                                                   \
    ROW(SL_SHOWN_KEYS_ANSWER, "1 to 9: answer · Enter: on · Backspace: back · Esc: leave · H: keys",         \
        "1 a 9: contestar · Intro: seguir · Retroceso: volver · Esc: salir · H: teclas")                     \
    ROW(SL_SHOWN_KEYS_ON, "Enter: on · Backspace: back · Esc: leave · H: keys",                              \
        "Intro: seguir · Retroceso: volver · Esc: salir · H: teclas")                                        \
    ROW(SL_SHOWN_KEYS_RUN, "Enter: run to the next stop · Backspace: back · Esc: leave · H: keys",           \
        "Intro: probar hasta la próxima parada · Retroceso: volver · Esc: salir · H: teclas")                \
    ROW(SL_SHOWN_KEYS_READ, "Enter: read on · Backspace: back · Esc: leave · H: keys",                       \
        "Intro: seguir leyendo · Retroceso: volver · Esc: salir · H: teclas")                                \
    ROW(SL_SHOWN_KEYS_SHUT, "Esc: close", "Esc: cerrar")                                                     \
    ROW(SL_SHOWN_BEFORE_RUN, "Nothing has run yet. Enter runs the strips to the first stop.",                \
        "Todavía no ha pasado nada. Intro lleva las tiras hasta la primera parada.")                         \
    ROW(SL_SHOWN_NEXT, "Next", "Siguiente")                                                                  \
    ROW(SL_SHOWN_BACK, "Back", "Volver")                                                                     \
    ROW(SL_SHOWN_KEY_NEXT, "Enter", "Intro")                                                                 \
    ROW(SL_SHOWN_KEY_BACK, "Backspace", "Retroceso")                                                         \
    ROW(SL_SHOWN_STOP, "Stop", "Parada")                                                                     \
    ROW(SL_SHOWN_START, "at the start", "al principio")                                                      \
    ROW(SL_SHOWN_PREDICTED, "predicted", "predicho")                                                         \
    ROW(SL_SHOWN_FOUND, "found", "encontrado")                                                               \
    ROW(SL_SHOWN_AGREE, "Your prediction and the run agree.", "Tu predicción y el cálculo coinciden.")       \
    ROW(SL_SHOWN_DIFFER, "Your prediction and the run differ. What could be behind it?",                     \
        "Tu predicción y el cálculo no coinciden. ¿Qué puede haber detrás?")                                 \
    ROW(SL_SHOWN_YOUR_ANSWER, "your answer", "tu respuesta")                                                 \
    ROW(SL_SHOWN_STRIPS_STAY,                                                                                \
        "The strips hang as the run left them; their figures come back with the next "                       \
        "step.",                                                                                             \
        "Las tiras siguen como las dejó el cálculo; sus cifras vuelven en el paso siguiente.")               \
    ROW(SL_SHOWN_SPACE,                                                                                      \
        "Enter goes on, P runs the strips. Space does nothing here: on the day of a test it asks to "        \
        "STOP AND RINSE.",                                                                                   \
        "Intro sigue, P pone las tiras en marcha. Espacio no hace nada aquí: el día de una prueba "        \
        "pregunta si PARA Y ACLARA.")                                                                        \
    ROW(SL_SHOWN_NOT_KEPT, "No answers are kept: no file was named.",                                        \
        "No se guardan respuestas: no se indicó ningún archivo.")                                            \
    ROW(SL_SHOWN_LEAVE_UNSAVED,                                                                              \
        "Esc again leaves; the answers are then printed where the program was started.",                     \
        "Esc otra vez sale; las respuestas se escriben entonces donde se inició el programa.")               \
    ROW(SL_SHOWN_KEYS, "Keys", "Teclas")                                                                     \
    ROW(SL_SHOWN_HELP_ANSWER, "1 to 9: your answer. The first one counts.",                                  \
        "1 a 9: tu respuesta. Vale la primera.")                                                             \
    ROW(SL_SHOWN_HELP_ON,                                                                                    \
        "Enter: read on, run to the next stop, next step. P: run to the next stop. Backspace: back.",        \
        "Intro: seguir leyendo, próxima parada, paso siguiente. P: próxima parada. Retroceso: volver.")      \
    ROW(SL_SHOWN_HELP_READ, "Up, Down, Page Up, Page Down: move the text.",                                  \
        "Arriba, Abajo, Re Pág, Av Pág: mover el texto.")                                                    \
    ROW(SL_SHOWN_HELP_LOOK,                                                                                  \
        "C: for the whole room. T: larger text. D: theme. V: whose eyes. F11: full screen.",                 \
        "C: para toda el aula. T: texto más grande. D: tema. V: con qué ojos. F11: pantalla completa.")      \
    ROW(SL_SHOWN_HELP_LEAVE, "Esc: close a page; leave. Every answer is kept as soon as it is given.",       \
        "Esc: cerrar una página; salir. Cada respuesta se guarda en cuanto se da.")                          \
    ROW(SL_SHOWN_HELP_EDUCATOR, "Educator: S leaves a step as it is, N shows the notes.",                    \
        "Quien enseña: S deja el paso como está, N muestra las notas.")                                      \
    ROW(SL_SHOWN_CLASS_KEYS, "Up, Down: move the text · Esc: leave",                                         \
        "Arriba, Abajo: mover el texto · Esc: salir")                                                        \
    ROW(SL_SHOWN_UNCALIBRATED, "No screen is calibrated.", "Ninguna pantalla está calibrada.")

#define SL_AS_SHOWN(name, english, spanish) name,
typedef enum sl_shown { SL_SHOWN_LIST(SL_AS_SHOWN) SL_SHOWN_COUNT } sl_shown;
#undef SL_AS_SHOWN

const char *sl_shown_word(sl_shown what, const char *language);

#endif
