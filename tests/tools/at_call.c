/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Preloaded into a program (LD_PRELOAD): at the n-th system call that changes files below a folder the
 * program is killed, or that call fails; or its n-th allocation fails. Deterministic; no clock. System calls
 * themselves are caught, by a seccomp filter that turns them into SIGSYS (seccomp(2), SECCOMP_RET_TRAP),
 * since the C library's own streams write past every function that could be put in front. A call that shall
 * go on is made again with a sixth argument that the filter knows.
 *
 *   AT_CALL_ROOT   the folder; AT_CALL_KINDS  which calls count, letters: c create, w write, s sync,
 *   r rename and link, u unlink and rmdir, m mkdir, t truncate, h chmod, l lock; a
 *   instead: allocations that the program itself asks for, not its libraries (they fail with NULL)
 *   AT_CALL_N      from 1; AT_CALL_DOES  the number of an errno, or minus the number of a signal, which
 *   comes before the call; AT_CALL_LASTS  from then on
 *   AT_CALL_MARK   this file is made when the call was met
 *   AT_CALL_COUNT  at its end the program writes here how many calls there were
 */
#define _GNU_SOURCE
#include <errno.h>
#include <fcntl.h>
#include <link.h>
#include <linux/filter.h>
#include <linux/seccomp.h>
#include <signal.h>
#include <stdatomic.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/prctl.h>
#include <sys/syscall.h>
#include <ucontext.h>
#include <unistd.h>

#if !defined(__x86_64__)
#error "registers of this processor are not known here"
#endif

enum { LET_IT_PASS = 0x51056105 };

static char root[4096], mark[4096];
static long wanted, does;
static int lasts, kinds;
static atomic_long met;

static long raw(long number, long a, long b, long c, long d, long e)
{
    long result;
    register long r10 __asm__("r10") = d;
    register long r8 __asm__("r8") = e;
    register long r9 __asm__("r9") = LET_IT_PASS;
    __asm__ volatile("syscall"
                     : "=a"(result)
                     : "a"(number), "D"(a), "S"(b), "d"(c), "r"(r10), "r"(r8), "r"(r9)
                     : "rcx", "r11", "memory");
    return result;
}

static int kind_of(long number, const long *at)
{
    switch (number) {
    case SYS_open:
        return (at[1] & O_CREAT) != 0 ? 'c' : 0;
    case SYS_openat:
        return (at[2] & O_CREAT) != 0 ? 'c' : 0;
    case SYS_creat:
        return 'c';
    case SYS_write:
    case SYS_pwrite64:
    case SYS_writev:
    case SYS_pwritev:
        return 'w';
    case SYS_fsync:
    case SYS_fdatasync:
        return 's';
    case SYS_rename:
    case SYS_renameat:
    case SYS_renameat2:
    case SYS_link:
    case SYS_linkat:
        return 'r';
    case SYS_unlink:
    case SYS_unlinkat:
    case SYS_rmdir:
        return 'u';
    case SYS_mkdir:
    case SYS_mkdirat:
        return 'm';
    case SYS_truncate:
    case SYS_ftruncate:
    case SYS_fallocate:
        return 't';
    case SYS_chmod:
    case SYS_fchmod:
    case SYS_fchmodat:
        return 'h';
    case SYS_flock:
        return 'l';
    default:
        return 0;
    }
}

static int below(const char *path)
{
    return strncmp(path, root, strlen(root)) == 0;
}

static int descriptor_is_below(long file)
{
    char name[64], path[4096];
    snprintf(name, sizeof name, "/proc/self/fd/%ld", file);
    const long length = raw(SYS_readlink, (long)name, (long)path, sizeof path - 1, 0, 0);
    path[length > 0 ? length : 0] = '\0';
    return below(path);
}

static int is_ours(long number, const long *at)
{
    switch (number) {
    case SYS_open:
    case SYS_creat:
    case SYS_rename:
    case SYS_link:
    case SYS_unlink:
    case SYS_rmdir:
    case SYS_mkdir:
    case SYS_truncate:
    case SYS_chmod: { /* the program works in the folder */
        const char *const path = (const char *)at[0];
        return path[0] != '/' || below(path);
    }
    case SYS_openat:
    case SYS_renameat:
    case SYS_renameat2:
    case SYS_linkat:
    case SYS_unlinkat:
    case SYS_mkdirat:
    case SYS_fchmodat: {
        const char *const path = (const char *)at[1];
        return path[0] == '/' ? below(path) : (int)at[0] == AT_FDCWD || descriptor_is_below((int)at[0]);
    }
    default:
        return descriptor_is_below((int)at[0]);
    }
}

static int is_its_turn(long number, const long *at)
{
    const int kind = kind_of(number, at);
    if (kind == 0 || (kinds & (1 << (kind - 'a'))) == 0 || !is_ours(number, at)) {
        return 0;
    }
    const long n = atomic_fetch_add(&met, 1) + 1;
    return n == wanted || (lasts && n > wanted);
}

static void caught(int signal_number, siginfo_t *info, void *context)
{
    (void)signal_number;
    const int errno_before = errno;
    greg_t *const reg = ((ucontext_t *)context)->uc_mcontext.gregs;
    const long number = info->si_syscall;
    const long at[] = {reg[REG_RDI], reg[REG_RSI], reg[REG_RDX], reg[REG_R10], reg[REG_R8]};
    long result = 0;
    if (is_its_turn(number, at)) {
        const long made = raw(SYS_open, (long)mark, O_CREAT | O_WRONLY, 0600, 0, 0);
        raw(SYS_close, made, 0, 0, 0, 0);
        if (does < 0) {
            raw(SYS_kill, raw(SYS_getpid, 0, 0, 0, 0, 0), -does, 0, 0, 0);
        }
        result = -does;
    }
    if (result >= 0) {
        result = raw(number, at[0], at[1], at[2], at[3], at[4]);
    }
    reg[REG_RAX] = result;
    errno = errno_before;
}

/* Opening alone changes nothing, and a program that was just begun must open its libraries. */
static unsigned short add_open(struct sock_filter *at, unsigned number, unsigned flags_at)
{
    const struct sock_filter part[] = {
        BPF_JUMP(BPF_JMP | BPF_JEQ | BPF_K, number, 0, 4), BPF_STMT(BPF_LD | BPF_W | BPF_ABS, flags_at),
        BPF_JUMP(BPF_JMP | BPF_JSET | BPF_K, O_CREAT, 0, 1), BPF_STMT(BPF_RET | BPF_K, SECCOMP_RET_TRAP),
        BPF_STMT(BPF_RET | BPF_K, SECCOMP_RET_ALLOW)};
    memcpy(at, part, sizeof part);
    return sizeof part / sizeof part[0];
}

/* ---- allocations --------------------------------------------------------------------------------- */

extern void *__libc_malloc(size_t size);
extern void *__libc_calloc(size_t count, size_t size);
extern void *__libc_realloc(void *memory, size_t size);

#define SEEN __attribute__((visibility("default")))
static uintptr_t text_begins, text_ends; /* of the program itself */

static int note_text(struct dl_phdr_info *info, size_t size, void *nothing)
{
    (void)size;
    (void)nothing;
    for (int i = 0; i < info->dlpi_phnum; i++) {
        const ElfW(Phdr) *const part = &info->dlpi_phdr[i];
        if (part->p_type == PT_LOAD && (part->p_flags & PF_X) != 0) {
            text_begins = info->dlpi_addr + part->p_vaddr;
            text_ends = text_begins + part->p_memsz;
        }
    }
    return 1; /* the program comes first */
}

static int allocation_fails(const void *caller)
{
    const uintptr_t at = (uintptr_t)caller;
    if (at < text_begins || at >= text_ends) {
        return 0;
    }
    const long n = atomic_fetch_add(&met, 1) + 1;
    if (n != wanted && !(lasts && n > wanted)) {
        return 0;
    }
    raw(SYS_close, raw(SYS_open, (long)mark, O_CREAT | O_WRONLY, 0600, 0, 0), 0, 0, 0, 0);
    errno = ENOMEM;
    return does > 0;
}

SEEN void *malloc(size_t size)
{
    return allocation_fails(__builtin_return_address(0)) ? NULL : __libc_malloc(size);
}

SEEN void *calloc(size_t count, size_t size)
{
    return allocation_fails(__builtin_return_address(0)) ? NULL : __libc_calloc(count, size);
}

SEEN void *realloc(void *memory, size_t size)
{
    return allocation_fails(__builtin_return_address(0)) ? NULL : __libc_realloc(memory, size);
}

/* ---- handlers ---------------------------------------------------------------------------------------- */

extern int __sigaction(int number, const struct sigaction *wanted_action, struct sigaction *before);

/* A handler of the program's that keeps every signal out would keep out SIGSYS too, and a call in it would
 * then end the process. */
SEEN int sigaction(int number, const struct sigaction *restrict wanted_action,
                   struct sigaction *restrict before)
{
    struct sigaction ours;
    if (wanted_action != NULL) {
        ours = *wanted_action;
        sigdelset(&ours.sa_mask, SIGSYS);
    }
    return __sigaction(number, wanted_action != NULL ? &ours : NULL, before);
}

/* ---- start and end --------------------------------------------------------------------------------- */

static void set_filter(void)
{
    static const unsigned numbers[] = {SYS_creat,     SYS_write,    SYS_pwrite64,  SYS_writev,    SYS_pwritev,
                                       SYS_fsync,     SYS_link,     SYS_linkat,    SYS_unlink,    SYS_rmdir,
                                       SYS_rename,    SYS_renameat, SYS_unlinkat,  SYS_fdatasync, SYS_mkdir,
                                       SYS_chmod,     SYS_fchmod,   SYS_flock,     SYS_renameat2, SYS_mkdirat,
                                       SYS_ftruncate, SYS_truncate, SYS_fallocate, SYS_fchmodat};
    enum { N = sizeof numbers / sizeof numbers[0] };
    struct sock_filter filter[2 * N + 24];
    unsigned short n = 0;
    filter[n++] =
        (struct sock_filter)BPF_STMT(BPF_LD | BPF_W | BPF_ABS, offsetof(struct seccomp_data, args[5]));
    filter[n++] = (struct sock_filter)BPF_JUMP(BPF_JMP | BPF_JEQ | BPF_K, LET_IT_PASS, 0, 1);
    filter[n++] = (struct sock_filter)BPF_STMT(BPF_RET | BPF_K, SECCOMP_RET_ALLOW);
    filter[n++] = (struct sock_filter)BPF_STMT(BPF_LD | BPF_W | BPF_ABS, offsetof(struct seccomp_data, nr));
    n = (unsigned short)(n + add_open(filter + n, SYS_open, offsetof(struct seccomp_data, args[1])));
    n = (unsigned short)(n + add_open(filter + n, SYS_openat, offsetof(struct seccomp_data, args[2])));
    for (unsigned i = 0; i < N; i++) {
        filter[n++] = (struct sock_filter)BPF_JUMP(BPF_JMP | BPF_JEQ | BPF_K, numbers[i], 0, 1);
        filter[n++] = (struct sock_filter)BPF_STMT(BPF_RET | BPF_K, SECCOMP_RET_TRAP);
    }
    filter[n++] = (struct sock_filter)BPF_STMT(BPF_RET | BPF_K, SECCOMP_RET_ALLOW);
    const struct sock_fprog program = {.len = n, .filter = filter};
    if (prctl(PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0) != 0 ||
        prctl(PR_SET_SECCOMP, SECCOMP_MODE_FILTER, &program) != 0) {
        _exit(77); /* where filters are not allowed nothing can be tried */
    }
}

static const char *value(const char *name)
{
    const char *const found = getenv(name);
    return found ? found : "";
}

__attribute__((destructor)) static void count(void)
{
    FILE *const file =
        wanted != 0 && value("AT_CALL_COUNT")[0] != '\0' ? fopen(value("AT_CALL_COUNT"), "w") : NULL;
    if (file != NULL) {
        fprintf(file, "%ld\n", atomic_load(&met));
        fclose(file);
    }
}

__attribute__((constructor)) static void begin(void)
{
    struct sigaction ours = {.sa_sigaction = caught, .sa_flags = SA_SIGINFO | SA_NODEFER | SA_RESTART};
    snprintf(root, sizeof root, "%s", value("AT_CALL_ROOT"));
    snprintf(mark, sizeof mark, "%s", value("AT_CALL_MARK"));
    wanted = atol(value("AT_CALL_N"));
    does = atol(value("AT_CALL_DOES"));
    lasts = value("AT_CALL_LASTS")[0] != '\0';
    for (const char *kind = value("AT_CALL_KINDS"); *kind != '\0'; kind++) {
        kinds |= 1 << (*kind - 'a');
    }
    if (root[0] == '\0' || wanted == 0) {
        return;
    }
    if (strcmp(value("AT_CALL_KINDS"), "a") == 0) {
        dl_iterate_phdr(note_text, NULL);
        return;
    }
    sigemptyset(&ours.sa_mask);
    sigaction(SIGSYS, &ours, NULL);
    set_filter();
}
