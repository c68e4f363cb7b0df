/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See day_room.h. Ctrl-C is a key here: it leaves the day in order, and the clock goes on in the log.
 */
#include "command/day/day_room.h"

#include <errno.h>
#include <poll.h>
#include <signal.h>
#include <string.h>
#include <termios.h>
#include <unistd.h>

#include "base/program.h"
#include "day/acts.h"

enum { SEQUENCE_MS = 50 }; /* in which the bytes of one key follow each other */

/* A signal's handler has no room of its own to look at. Written before the handlers stand. */
static struct termios as_found, raw;
static bool takes_keys, draws_foot;

/* The shell's line begins on a clean one: colours off, the foot of the screen gone. */
static void put_back(void)
{
    static const char clean[] = "\r\033[0m\033[J";
    const int reason = errno;
    if (takes_keys) {
        tcsetattr(STDIN_FILENO, TCSANOW, &as_found);
    }
    if (draws_foot && write(STDOUT_FILENO, clean, sizeof clean - 1) < 0) {
        draws_foot = false; /* the terminal went away */
    }
    errno = reason;
}

/* Put aside (kill -TSTP; Ctrl-Z is no signal here), the terminal is somebody else's until the program is
 * called back. */
static void rest(int number)
{
    const int reason = errno;
    (void)number;
    put_back();
    raise(SIGSTOP);
    tcsetattr(STDIN_FILENO, TCSANOW, &raw);
    errno = reason;
}

static void take_keys(sl_day_room *room)
{
    struct sigaction resting = {.sa_handler = rest};
    raw = as_found;
    raw.c_lflag &= (tcflag_t) ~(ICANON | ECHO | ISIG);
    raw.c_cc[VMIN] = 1;
    raw.c_cc[VTIME] = 0;
    sigemptyset(&resting.sa_mask);
    sigaction(SIGTSTP, &resting, &room->rested);
    tcsetattr(STDIN_FILENO, TCSADRAIN, &raw);
}

void sl_day_room_open(sl_day_room *room, bool draws)
{
    memset(room, 0, sizeof *room);
    room->keys = isatty(STDIN_FILENO) == 1 && tcgetattr(STDIN_FILENO, &as_found) == 0;
    takes_keys = room->keys;
    draws_foot = draws;
    sl_signals_wait();
    sl_undo_put(put_back);
    if (room->keys) {
        take_keys(room);
    }
}

void sl_day_room_close(const sl_day_room *room)
{
    if (room->keys) {
        sigaction(SIGTSTP, &room->rested, NULL);
        tcsetattr(STDIN_FILENO, TCSANOW, &as_found);
    }
    sl_undo_drop(put_back);
}

int sl_day_room_wait(sl_day_room *room, int ms)
{
    struct pollfd in = {.fd = STDIN_FILENO, .events = POLLIN};
    if (poll(&in, 1, ms) <= 0) {
        return 0;
    }
    if (room->n == sizeof room->read) { /* a line that no key is: let it go */
        room->n = 0;
    }
    const ssize_t got = read(STDIN_FILENO, room->read + room->n, sizeof room->read - room->n);
    if (got <= 0) {
        return -1;
    }
    room->n += (size_t)got;
    return (int)got;
}

/* Of ESC [ A, ESC [ 1 ; 5 A, ESC O A: what it ends in. */
static int sequence_key(char last)
{
    return last == 'A'   ? SL_KEY_UP
           : last == 'B' ? SL_KEY_DOWN
           : last == 'C' ? SL_KEY_RIGHT
           : last == 'D' ? SL_KEY_LEFT
           : last == 'P' ? SL_KEY_F1
                         : SL_KEY_OTHER;
}

/* Bytes of the sequence that begins with ESC; 1: the key alone; 0: its end has not come yet. */
static size_t sequence_length(const sl_day_room *room)
{
    size_t i = 2;
    if (room->n < 2 || (room->read[1] != '[' && room->read[1] != 'O')) {
        return 1;
    }
    while (i < room->n && room->read[1] == '[' && (room->read[i] < '@' || room->read[i] > '~')) {
        i++;
    }
    return i < room->n ? i + 1 : 0;
}

int sl_day_room_key(sl_day_room *room)
{
    if (room->n == 0) {
        return -1;
    }
    int key = (unsigned char)room->read[0];
    size_t length = 1;
    if (key == SL_KEY_ESCAPE) {
        if (room->n == 1 || sequence_length(room) == 0) {
            sl_day_room_wait(room, SEQUENCE_MS);
        }
        length = sequence_length(room);
        length = length == 0 ? room->n : length; /* cut off: nobody's key */
        key = length > 1 ? sequence_key(room->read[length - 1]) : key;
    }
    room->n -= length;
    memmove(room->read, room->read + length, room->n);
    return key == 3 || key == 4 ? SL_KEY_LEAVE : key; /* Ctrl-C, Ctrl-D */
}

bool sl_day_room_line(sl_day_room *room, char line[SL_DAY_READ])
{
    const char *const end = memchr(room->read, '\n', room->n);
    if (!end) {
        return false;
    }
    const size_t length = (size_t)(end - room->read);
    memcpy(line, room->read, length);
    line[length] = '\0';
    room->n -= length + 1;
    memmove(room->read, end + 1, room->n);
    return true;
}
