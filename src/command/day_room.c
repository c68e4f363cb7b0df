/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See day_room.h. Ctrl-C is a key here: it leaves the day in order, and the clock goes on in the log.
 */
#include "command/day_room.h"

#include <poll.h>
#include <string.h>
#include <unistd.h>

void sl_day_room_open(sl_day_room *room)
{
    memset(room, 0, sizeof *room);
    room->keys = isatty(STDIN_FILENO) == 1 && tcgetattr(STDIN_FILENO, &room->before) == 0;
    if (room->keys) {
        struct termios raw = room->before;
        raw.c_lflag &= (tcflag_t) ~(ICANON | ECHO | ISIG);
        raw.c_cc[VMIN] = 1;
        raw.c_cc[VTIME] = 0;
        tcsetattr(STDIN_FILENO, TCSADRAIN, &raw);
    }
}

void sl_day_room_close(const sl_day_room *room)
{
    if (room->keys) {
        tcsetattr(STDIN_FILENO, TCSADRAIN, &room->before);
    }
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
