/*
 * A disk that forgets. Preloaded under a program, it keeps every write to the files of one folder in memory until
 * the file is synced, as a disk's cache and the system's page cache do. At the N-th change the power goes: of what
 * was not synced each write survives or not by chance, the last one perhaps in part, names of files that were made
 * and whose folder was not synced may be gone, and the process ends at once.
 *
 * The model: a synced write survives. An unsynced one survives with LOSSY_KEEP percent, in no order. So does a new name,
 * a new folder with all that is in it, and a renaming, until the folder they stand in was synced; a renaming that does
 * not survive gives back what it replaced. A removal of a file survives at once. The shared memory of a database (-shm)
 * is left alone: it lives in memory only and is rebuilt. One process at a time.
 *
 *   LOSSY_DIR   the folder, absolute
 *   LOSSY_CUT   the power goes at this change (write, truncation, sync, removal); 0 for never
 *   LOSSY_KEEP  percent of unsynced writes that survive
 *   LOSSY_SEED  of the chance
 *   LOSSY_DEAF  1: every sync answers that it is done and does nothing (the planted fault)
 *
 * Build: gcc -shared -fPIC -O2 -Wall -o lossy_disk.so lossy_disk.c -ldl -lpthread
 */
#define _GNU_SOURCE
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <ftw.h>
#include <limits.h>
#include <pthread.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <sys/uio.h>
#include <unistd.h>

#define MOST_HANDLES 4096
#define SECTOR 512

struct change {
    int is_truncation;
    off_t place;
    size_t length;
    unsigned char *bytes;
};

struct file {
    char path[PATH_MAX];
    unsigned char *bytes; /* what the program sees */
    size_t size, room;
    struct change *changes; /* what the disk has not got */
    size_t count, most;
    int name_is_new; /* made, and its folder not synced since */
    int removed;
    int writable; /* an open handle that can write, or -1 */
    struct file *next;
};

/* A new folder, or a renaming, that the disk has not got. */
struct naming {
    char path[PATH_MAX]; /* its new name */
    char before[PATH_MAX]; /* of a renaming: what it was called */
    char replaced[PATH_MAX]; /* of a renaming: where what it replaced is kept until then, or nothing */
    int is_folder;
    struct naming *next; /* the one before it */
};

static struct file *files;
static struct naming *namings;
static long kept_aside;
static int is_deaf;
static struct file *of_handle[MOST_HANDLES];
static off_t position[MOST_HANDLES];
static char folder[PATH_MAX];
static size_t folder_length;
static long cut_at, changes_seen;
static unsigned keep_percent;
static uint64_t chance_state;
static pthread_mutex_t gate = PTHREAD_RECURSIVE_MUTEX_INITIALIZER_NP;
static pthread_once_t once = PTHREAD_ONCE_INIT;

static int (*real_open)(const char *, int, ...);
static int (*real_openat)(int, const char *, int, ...);
static int (*real_close)(int);
static ssize_t (*real_pread)(int, void *, size_t, off_t);
static ssize_t (*real_pwrite)(int, const void *, size_t, off_t);
static ssize_t (*real_read)(int, void *, size_t);
static ssize_t (*real_write)(int, const void *, size_t);
static ssize_t (*real_pwritev)(int, const struct iovec *, int, off_t);
static ssize_t (*real_preadv)(int, const struct iovec *, int, off_t);
static off_t (*real_lseek)(int, off_t, int);
static int (*real_ftruncate)(int, off_t);
static int (*real_fsync)(int);
static int (*real_fdatasync)(int);
static int (*real_unlink)(const char *);
static int (*real_rename)(const char *, const char *);
static int (*real_mkdir)(const char *, mode_t);
static int (*real_rmdir)(const char *);
static int (*real_fstat)(int, struct stat *);
static int (*real_stat)(const char *, struct stat *);
static int (*real_lstat)(const char *, struct stat *);
static int (*real_fallocate)(int, off_t, off_t);

static void *find(const char *name)
{
    void *found = dlsym(RTLD_NEXT, name);
    if (found == NULL) {
        fprintf(stderr, "lossy_disk: no %s\n", name);
        abort();
    }
    return found;
}

static void start(void)
{
    const char *text;
    real_open = find("open");
    real_openat = find("openat");
    real_close = find("close");
    real_pread = find("pread");
    real_pwrite = find("pwrite");
    real_read = find("read");
    real_write = find("write");
    real_pwritev = find("pwritev");
    real_preadv = find("preadv");
    real_lseek = find("lseek");
    real_ftruncate = find("ftruncate");
    real_fsync = find("fsync");
    real_fdatasync = find("fdatasync");
    real_unlink = find("unlink");
    real_rename = find("rename");
    real_mkdir = find("mkdir");
    real_rmdir = find("rmdir");
    real_fstat = find("fstat");
    real_stat = find("stat");
    real_lstat = find("lstat");
    real_fallocate = find("posix_fallocate");
    if ((text = getenv("LOSSY_DIR")) != NULL && strlen(text) < sizeof folder) {
        strcpy(folder, text);
        folder_length = strlen(folder);
    }
    is_deaf = (text = getenv("LOSSY_DEAF")) != NULL && text[0] == '1';
    cut_at = (text = getenv("LOSSY_CUT")) != NULL ? atol(text) : 0;
    keep_percent = (text = getenv("LOSSY_KEEP")) != NULL ? (unsigned)atoi(text) : 0;
    chance_state = (text = getenv("LOSSY_SEED")) != NULL ? strtoull(text, NULL, 10) : 1;
}

static void enter(void)
{
    pthread_once(&once, start);
    pthread_mutex_lock(&gate);
}

static void leave(void) { pthread_mutex_unlock(&gate); }

/* SplitMix64 (Steele, Lea and Flood 2014); constants from memory, and any would do here. */
static uint64_t chance(void)
{
    uint64_t z = (chance_state += 0x9E3779B97F4A7C15ULL);
    z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9ULL;
    z = (z ^ (z >> 27)) * 0x94D049BB133111EBULL;
    return z ^ (z >> 31);
}

static int survives(void) { return chance() % 100 < keep_percent; }

static int is_watched(const char *path)
{
    size_t length = strlen(path);
    return folder_length > 0 && length > folder_length + 1 && length < PATH_MAX
        && strncmp(path, folder, folder_length) == 0 && path[folder_length] == '/'
        && !(length > 4 && strcmp(path + length - 4, "-shm") == 0);
}

static struct file *by_path(const char *path)
{
    for (struct file *file = files; file != NULL; file = file->next)
        if (!file->removed && strcmp(file->path, path) == 0)
            return file;
    return NULL;
}

static struct file *by_handle(int handle)
{
    return handle >= 0 && handle < MOST_HANDLES ? of_handle[handle] : NULL;
}

static void need(void *memory)
{
    if (memory == NULL) {
        fprintf(stderr, "lossy_disk: out of memory\n");
        abort();
    }
}

static void resize(struct file *file, size_t size)
{
    if (size > file->room) {
        file->room = size * 2;
        need(file->bytes = realloc(file->bytes, file->room));
    }
    if (size > file->size)
        memset(file->bytes + file->size, 0, size - file->size);
    file->size = size;
}

static void remember(struct file *file, int is_truncation, off_t place, const void *bytes, size_t length)
{
    struct change *change;
    if (file->count == file->most) {
        file->most = file->most * 2 + 16;
        need(file->changes = realloc(file->changes, file->most * sizeof *file->changes));
    }
    change = &file->changes[file->count++];
    change->is_truncation = is_truncation;
    change->place = place;
    change->length = length;
    change->bytes = NULL;
    if (length > 0) {
        need(change->bytes = malloc(length));
        memcpy(change->bytes, bytes, length);
    }
}

static int writable(struct file *file)
{
    return file->writable >= 0 ? file->writable : real_open(file->path, O_RDWR | O_CLOEXEC);
}

static void put(int handle, const struct change *change, size_t length)
{
    size_t done = 0;
    if (change->is_truncation) {
        if (real_ftruncate(handle, change->place) != 0)
            abort();
        return;
    }
    while (done < length) {
        ssize_t put = real_pwrite(handle, change->bytes + done, length - done, change->place + (off_t)done);
        if (put <= 0)
            abort();
        done += (size_t)put;
    }
}

static void forget_changes(struct file *file)
{
    for (size_t i = 0; i < file->count; i++)
        free(file->changes[i].bytes);
    file->count = 0;
}

static void reach_disk(struct file *file)
{
    int handle;
    if (file->count > 0 && !file->removed) {
        if ((handle = writable(file)) < 0)
            abort();
        for (size_t i = 0; i < file->count; i++)
            put(handle, &file->changes[i], file->changes[i].length);
        if (handle != file->writable)
            real_close(handle);
    }
    forget_changes(file);
}

static int remove_any(const char *path, const struct stat *found, int sort, struct FTW *place)
{
    (void)found;
    (void)place;
    return sort == FTW_DP || sort == FTW_D ? real_rmdir(path) : real_unlink(path);
}

/* The latest first, so that each finds the names as they were when it was made. */
static void lose_names(void)
{
    for (struct naming *naming = namings; naming != NULL; naming = naming->next) {
        if (survives()) {
            if (naming->replaced[0] != 0)
                real_unlink(naming->replaced);
        } else if (naming->is_folder) {
            nftw(naming->path, remove_any, 16, FTW_DEPTH | FTW_PHYS);
        } else {
            real_rename(naming->path, naming->before);
            if (naming->replaced[0] != 0)
                real_rename(naming->replaced, naming->path);
        }
    }
}

static void power_cut(void)
{
    size_t lost = 0, kept = 0;
    char said[160];
    int length;
    for (struct file *file = files; file != NULL; file = file->next) {
        int handle;
        if (file->removed)
            continue;
        handle = writable(file);
        for (size_t i = 0; i < file->count; i++) {
            struct change *change = &file->changes[i];
            size_t whole = change->length;
            if (!survives()) {
                lost++;
                continue;
            }
            /* The last write of a file may have got as far as some sector. */
            if (i + 1 == file->count && whole > SECTOR && chance() % 2 == 0)
                whole = (size_t)(chance() % (whole / SECTOR)) * SECTOR;
            if (handle >= 0) {
                put(handle, change, whole);
                kept++;
            }
        }
        /* Under a name that is itself not on the disk: given up with it. */
        if (file->name_is_new && !survives())
            real_unlink(file->path);
    }
    lose_names();
    length = snprintf(said, sizeof said, "power cut at change %ld: %zu unsynced writes lost, %zu kept\n",
                      changes_seen, lost, kept);
    if (real_write(2, said, (size_t)length) < 0)
        abort();
    syscall(SYS_exit_group, 137);
}

static void tick(void)
{
    changes_seen++;
    if (cut_at > 0 && changes_seen >= cut_at)
        power_cut();
}

static struct file *load(const char *path, int name_is_new)
{
    struct file *file = calloc(1, sizeof *file);
    struct stat found;
    int handle;
    need(file);
    strcpy(file->path, path);
    file->name_is_new = name_is_new;
    file->writable = -1;
    if ((handle = real_open(path, O_RDONLY | O_CLOEXEC)) >= 0) {
        if (real_fstat(handle, &found) == 0 && found.st_size > 0) {
            size_t done = 0, size = (size_t)found.st_size;
            resize(file, size);
            while (done < size) {
                ssize_t got = real_pread(handle, file->bytes + done, size - done, (off_t)done);
                if (got <= 0)
                    abort();
                done += (size_t)got;
            }
        }
        real_close(handle);
    }
    file->next = files;
    return files = file;
}

static int open_watched(const char *path, int flags, mode_t mode)
{
    struct stat before;
    struct file *file;
    int was_there, handle;
    enter();
    was_there = real_stat(path, &before) == 0;
    if (was_there && !S_ISREG(before.st_mode)) {
        leave();
        return real_open(path, flags, mode);
    }
    /* Truncation on opening is a change like any other. */
    handle = real_open(path, flags & ~O_TRUNC, mode);
    if (handle >= MOST_HANDLES)
        abort();
    if (handle >= 0) {
        if ((file = by_path(path)) == NULL)
            file = load(path, !was_there);
        of_handle[handle] = file;
        position[handle] = 0;
        if ((flags & O_ACCMODE) != O_RDONLY) {
            file->writable = handle;
            if ((flags & O_TRUNC) && file->size > 0) {
                resize(file, 0);
                remember(file, 1, 0, NULL, 0);
                tick();
            }
        }
    }
    leave();
    return handle;
}

static mode_t mode_of(int flags, va_list rest)
{
    return (flags & O_CREAT) || (flags & O_TMPFILE) == O_TMPFILE ? (mode_t)va_arg(rest, int) : 0;
}

int open(const char *path, int flags, ...)
{
    va_list rest;
    mode_t mode;
    va_start(rest, flags);
    mode = mode_of(flags, rest);
    va_end(rest);
    pthread_once(&once, start);
    return is_watched(path) ? open_watched(path, flags, mode) : real_open(path, flags, mode);
}

int open64(const char *path, int flags, ...)
{
    va_list rest;
    mode_t mode;
    va_start(rest, flags);
    mode = mode_of(flags, rest);
    va_end(rest);
    return open(path, flags, mode);
}

int openat(int at, const char *path, int flags, ...)
{
    va_list rest;
    mode_t mode;
    va_start(rest, flags);
    mode = mode_of(flags, rest);
    va_end(rest);
    pthread_once(&once, start);
    return is_watched(path) ? open_watched(path, flags, mode) : real_openat(at, path, flags, mode);
}

int openat64(int at, const char *path, int flags, ...)
{
    va_list rest;
    mode_t mode;
    va_start(rest, flags);
    mode = mode_of(flags, rest);
    va_end(rest);
    return openat(at, path, flags, mode);
}

int close(int handle)
{
    int result;
    enter();
    if (by_handle(handle) != NULL) {
        struct file *file = by_handle(handle);
        of_handle[handle] = NULL;
        if (file->writable == handle) {
            file->writable = -1;
            for (int other = 0; other < MOST_HANDLES; other++)
                if (of_handle[other] == file && (fcntl(other, F_GETFL) & O_ACCMODE) != O_RDONLY)
                    file->writable = other;
        }
    }
    result = real_close(handle);
    leave();
    return result;
}

static ssize_t see(struct file *file, void *bytes, size_t length, off_t place)
{
    size_t from = (size_t)place;
    if (from >= file->size)
        return 0;
    if (length > file->size - from)
        length = file->size - from;
    memcpy(bytes, file->bytes + from, length);
    return (ssize_t)length;
}

static ssize_t change(struct file *file, const void *bytes, size_t length, off_t place)
{
    if ((size_t)place + length > file->size)
        resize(file, (size_t)place + length);
    memcpy(file->bytes + place, bytes, length);
    remember(file, 0, place, bytes, length);
    tick();
    return (ssize_t)length;
}

ssize_t pread(int handle, void *bytes, size_t length, off_t place)
{
    struct file *file;
    ssize_t result;
    enter();
    file = by_handle(handle);
    result = file != NULL ? see(file, bytes, length, place) : 0;
    leave();
    return file != NULL ? result : real_pread(handle, bytes, length, place);
}

ssize_t pread64(int handle, void *bytes, size_t length, off_t place)
{
    return pread(handle, bytes, length, place);
}

ssize_t pwrite(int handle, const void *bytes, size_t length, off_t place)
{
    struct file *file;
    ssize_t result;
    enter();
    file = by_handle(handle);
    result = file != NULL ? change(file, bytes, length, place) : 0;
    leave();
    return file != NULL ? result : real_pwrite(handle, bytes, length, place);
}

ssize_t pwrite64(int handle, const void *bytes, size_t length, off_t place)
{
    return pwrite(handle, bytes, length, place);
}

ssize_t read(int handle, void *bytes, size_t length)
{
    struct file *file;
    ssize_t result = 0;
    enter();
    if ((file = by_handle(handle)) != NULL) {
        result = see(file, bytes, length, position[handle]);
        position[handle] += result;
    }
    leave();
    return file != NULL ? result : real_read(handle, bytes, length);
}

ssize_t write(int handle, const void *bytes, size_t length)
{
    struct file *file;
    ssize_t result = 0;
    enter();
    if ((file = by_handle(handle)) != NULL) {
        result = change(file, bytes, length, position[handle]);
        position[handle] += result;
    }
    leave();
    return file != NULL ? result : real_write(handle, bytes, length);
}

/* Nothing under test writes or reads several pieces at once; if it begins to, this must be seen. */
ssize_t pwritev(int handle, const struct iovec *pieces, int count, off_t place)
{
    pthread_once(&once, start);
    if (by_handle(handle) != NULL)
        abort();
    return real_pwritev(handle, pieces, count, place);
}

ssize_t preadv(int handle, const struct iovec *pieces, int count, off_t place)
{
    pthread_once(&once, start);
    if (by_handle(handle) != NULL)
        abort();
    return real_preadv(handle, pieces, count, place);
}

ssize_t pwritev64(int handle, const struct iovec *pieces, int count, off_t place)
{
    return pwritev(handle, pieces, count, place);
}

ssize_t preadv64(int handle, const struct iovec *pieces, int count, off_t place)
{
    return preadv(handle, pieces, count, place);
}

off_t lseek(int handle, off_t place, int from)
{
    struct file *file;
    off_t result = 0;
    enter();
    if ((file = by_handle(handle)) != NULL) {
        result = place + (from == SEEK_CUR ? position[handle] : from == SEEK_END ? (off_t)file->size : 0);
        position[handle] = result;
    }
    leave();
    return file != NULL ? result : real_lseek(handle, place, from);
}

off_t lseek64(int handle, off_t place, int from) { return lseek(handle, place, from); }

int ftruncate(int handle, off_t size)
{
    struct file *file;
    enter();
    if ((file = by_handle(handle)) != NULL) {
        resize(file, (size_t)size);
        remember(file, 1, size, NULL, 0);
        tick();
    }
    leave();
    return file != NULL ? 0 : real_ftruncate(handle, size);
}

int ftruncate64(int handle, off_t size) { return ftruncate(handle, size); }

int posix_fallocate(int handle, off_t place, off_t length)
{
    pthread_once(&once, start);
    return by_handle(handle) != NULL ? EOPNOTSUPP : real_fallocate(handle, place, length);
}

int posix_fallocate64(int handle, off_t place, off_t length)
{
    return posix_fallocate(handle, place, length);
}

/* The path of a handle on a watched folder; 0 for any other. */
static int is_folder(int handle, char *path)
{
    char link[64];
    ssize_t length;
    struct stat found;
    snprintf(link, sizeof link, "/proc/self/fd/%d", handle);
    length = readlink(link, path, PATH_MAX - 1);
    if (length < 0 || folder_length == 0)
        return 0;
    path[length] = 0;
    return strncmp(path, folder, folder_length) == 0
        && (path[folder_length] == 0 || path[folder_length] == '/')
        && real_fstat(handle, &found) == 0 && S_ISDIR(found.st_mode);
}

static int stands_in(const char *path, const char *inside)
{
    const char *end = strrchr(path, '/');
    return end != NULL && (size_t)(end - path) == strlen(inside) && strncmp(path, inside, strlen(inside)) == 0;
}

static void keep_names(const char *inside)
{
    struct naming **at = &namings;
    for (struct file *file = files; file != NULL; file = file->next)
        if (stands_in(file->path, inside))
            file->name_is_new = 0;
    while (*at != NULL) {
        struct naming *naming = *at;
        if (!stands_in(naming->path, inside)) {
            at = &naming->next;
            continue;
        }
        if (naming->replaced[0] != 0)
            real_unlink(naming->replaced);
        *at = naming->next;
        free(naming);
    }
}

static int sync_handle(int handle, int (*real)(int))
{
    struct file *file;
    char inside[PATH_MAX];
    int result = 0;
    enter();
    if ((file = by_handle(handle)) != NULL) {
        tick();
        if (!is_deaf)
            reach_disk(file);
    } else if (is_folder(handle, inside)) {
        tick();
        if (!is_deaf)
            keep_names(inside);
    } else {
        result = real(handle);
    }
    leave();
    return result;
}

int fsync(int handle)
{
    pthread_once(&once, start);
    return sync_handle(handle, real_fsync);
}

int fdatasync(int handle)
{
    pthread_once(&once, start);
    return sync_handle(handle, real_fdatasync);
}

int unlink(const char *path)
{
    int result;
    pthread_once(&once, start);
    if (!is_watched(path))
        return real_unlink(path);
    enter();
    tick();
    result = real_unlink(path);
    if (result == 0 && by_path(path) != NULL) {
        struct file *file = by_path(path);
        forget_changes(file);
        file->removed = 1;
    }
    leave();
    return result;
}

static struct naming *note(const char *path, const char *before)
{
    struct naming *naming = calloc(1, sizeof *naming);
    need(naming);
    strcpy(naming->path, path);
    if (before != NULL)
        strcpy(naming->before, before);
    naming->is_folder = before == NULL;
    naming->next = namings;
    return namings = naming;
}

/* What stands under a folder that is renamed stands under its new name. */
static void follow(char *path, const char *before, const char *after)
{
    size_t length = strlen(before);
    char moved[PATH_MAX];
    if (strncmp(path, before, length) != 0 || (path[length] != 0 && path[length] != '/'))
        return;
    if (snprintf(moved, sizeof moved, "%s%s", after, path + length) >= (int)sizeof moved)
        abort();
    strcpy(path, moved);
}

int rename(const char *before, const char *after)
{
    struct naming *naming;
    struct file *old;
    struct stat found;
    char aside[PATH_MAX];
    int result;
    pthread_once(&once, start);
    if (!is_watched(before) && !is_watched(after))
        return real_rename(before, after);
    if (!is_watched(before) || !is_watched(after)) {
        fprintf(stderr, "lossy_disk: a renaming into or out of the folder\n");
        abort();
    }
    enter();
    tick();
    aside[0] = 0;
    if (real_stat(after, &found) == 0 && S_ISREG(found.st_mode)) {
        snprintf(aside, sizeof aside, "%.3000s-aside-%d-%ld", folder, (int)getpid(), ++kept_aside);
        if (link(after, aside) != 0)
            abort();
    }
    if ((result = real_rename(before, after)) == 0) {
        if ((old = by_path(after)) != NULL && strcmp(before, after) != 0) {
            if (aside[0] != 0)
                strcpy(old->path, aside);
            else
                old->removed = 1;
        }
        for (struct file *file = files; file != NULL; file = file->next)
            if (!file->removed)
                follow(file->path, before, after);
        for (naming = namings; naming != NULL; naming = naming->next)
            if (naming->is_folder)
                follow(naming->path, before, after);
        strcpy(note(after, before)->replaced, aside);
    } else if (aside[0] != 0) {
        real_unlink(aside);
    }
    leave();
    return result;
}

int mkdir(const char *path, mode_t mode)
{
    int result;
    pthread_once(&once, start);
    if (!is_watched(path))
        return real_mkdir(path, mode);
    enter();
    tick();
    if ((result = real_mkdir(path, mode)) == 0)
        note(path, NULL);
    leave();
    return result;
}

int rmdir(const char *path)
{
    int result;
    pthread_once(&once, start);
    if (!is_watched(path))
        return real_rmdir(path);
    enter();
    tick();
    if ((result = real_rmdir(path)) == 0) {
        for (struct naming **at = &namings; *at != NULL;) {
            if ((*at)->is_folder && strcmp((*at)->path, path) == 0) {
                struct naming *gone = *at;
                *at = gone->next;
                free(gone);
            } else {
                at = &(*at)->next;
            }
        }
    }
    leave();
    return result;
}

static void tell_size(struct file *file, struct stat *found)
{
    if (file != NULL)
        found->st_size = (off_t)file->size;
}

int fstat(int handle, struct stat *found)
{
    int result;
    enter();
    if ((result = real_fstat(handle, found)) == 0)
        tell_size(by_handle(handle), found);
    leave();
    return result;
}

int stat(const char *path, struct stat *found)
{
    int result;
    enter();
    if ((result = real_stat(path, found)) == 0)
        tell_size(by_path(path), found);
    leave();
    return result;
}

int lstat(const char *path, struct stat *found)
{
    int result;
    enter();
    if ((result = real_lstat(path, found)) == 0)
        tell_size(by_path(path), found);
    leave();
    return result;
}

/* On the machines this runs on (64 bits) the two shapes are one. */
_Static_assert(sizeof(struct stat) == sizeof(struct stat64), "64-bit machines only");

int fstat64(int handle, struct stat64 *found) { return fstat(handle, (struct stat *)found); }
int stat64(const char *path, struct stat64 *found) { return stat(path, (struct stat *)found); }
int lstat64(const char *path, struct stat64 *found) { return lstat(path, (struct stat *)found); }

/* What programs ask that were linked against an older C library. */
int __fxstat64(int version, int handle, struct stat64 *found) { (void)version; return fstat64(handle, found); }
int __xstat64(int version, const char *path, struct stat64 *found) { (void)version; return stat64(path, found); }
int __lxstat64(int version, const char *path, struct stat64 *found) { (void)version; return lstat64(path, found); }
