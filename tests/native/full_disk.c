/*
 * A disk that runs full. Preloaded under a program, it lets the first writes to the files of one folder through and
 * answers every later one, every new file and every new folder with "no space left". The write at which it happens may get as
 * far as half, as a real one may. Removing and shrinking always work.
 *
 *   FULL_DIR    the folder, absolute
 *   FULL_AT     the write from which on nothing fits; 0 for never
 *   FULL_FOR    for how many writes it stays full; 0 for ever
 *   FULL_SYNC   1: a sync while it is full fails too, as on a file system that finds room only then
 *   FULL_COUNT  a file outside the folder that the number of writes is put into at the end
 *
 * Build: gcc -shared -fPIC -O2 -Wall -o full_disk.so full_disk.c -ldl -lpthread
 */
#define _GNU_SOURCE
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <pthread.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define MOST_HANDLES 4096

static char watched[MOST_HANDLES];
static char folder[PATH_MAX];
static size_t folder_length;
static long full_at, full_for, writes;
static int sync_fails;
static pthread_mutex_t gate = PTHREAD_MUTEX_INITIALIZER;
static pthread_once_t once = PTHREAD_ONCE_INIT;

static int (*real_open)(const char *, int, ...);
static int (*real_close)(int);
static ssize_t (*real_pwrite)(int, const void *, size_t, off_t);
static ssize_t (*real_write)(int, const void *, size_t);
static int (*real_ftruncate)(int, off_t);
static int (*real_mkdir)(const char *, mode_t);
static int (*real_fsync)(int);

static void *find(const char *name)
{
    void *found = dlsym(RTLD_NEXT, name);
    if (found == NULL)
        abort();
    return found;
}

static void start(void)
{
    const char *text;
    real_open = find("open");
    real_close = find("close");
    real_pwrite = find("pwrite");
    real_write = find("write");
    real_ftruncate = find("ftruncate");
    real_mkdir = find("mkdir");
    real_fsync = find("fsync");
    if ((text = getenv("FULL_DIR")) != NULL && strlen(text) < sizeof folder) {
        strcpy(folder, text);
        folder_length = strlen(folder);
    }
    full_at = (text = getenv("FULL_AT")) != NULL ? atol(text) : 0;
    full_for = (text = getenv("FULL_FOR")) != NULL ? atol(text) : 0;
    sync_fails = (text = getenv("FULL_SYNC")) != NULL && text[0] == '1';
}

__attribute__((destructor)) static void end(void)
{
    const char *path = getenv("FULL_COUNT");
    FILE *file = path != NULL ? fopen(path, "w") : NULL;
    if (file != NULL) {
        fprintf(file, "%ld\n", writes);
        fclose(file);
    }
}

static int is_watched(const char *path)
{
    size_t length = strlen(path);
    /* The shared memory of a database takes no room that was not there. */
    return folder_length > 0 && length > folder_length && strncmp(path, folder, folder_length) == 0
        && path[folder_length] == '/' && !(length > 4 && strcmp(path + length - 4, "-shm") == 0);
}

static int is_full_now(void)
{
    return full_at > 0 && writes >= full_at && (full_for == 0 || writes < full_at + full_for);
}

/* 0: it fits. 1: it does not. 2: half of it does. */
static int fits_not(void)
{
    int answer;
    pthread_mutex_lock(&gate);
    writes++;
    answer = !is_full_now() ? 0 : writes == full_at ? 2 : 1;
    pthread_mutex_unlock(&gate);
    return answer;
}

static int no_space(void)
{
    errno = ENOSPC;
    return -1;
}

int open(const char *path, int flags, ...)
{
    va_list rest;
    mode_t mode = 0;
    int handle;
    struct stat found;
    va_start(rest, flags);
    if (flags & O_CREAT)
        mode = (mode_t)va_arg(rest, int);
    va_end(rest);
    pthread_once(&once, start);
    if (is_watched(path) && (flags & O_CREAT) && stat(path, &found) != 0 && fits_not() != 0)
        return no_space();
    handle = real_open(path, flags, mode);
    if (handle >= 0 && handle < MOST_HANDLES)
        watched[handle] = (char)is_watched(path);
    return handle;
}

int open64(const char *path, int flags, ...)
{
    va_list rest;
    mode_t mode = 0;
    va_start(rest, flags);
    if (flags & O_CREAT)
        mode = (mode_t)va_arg(rest, int);
    va_end(rest);
    return open(path, flags, mode);
}

int close(int handle)
{
    pthread_once(&once, start);
    if (handle >= 0 && handle < MOST_HANDLES)
        watched[handle] = 0;
    return real_close(handle);
}

static int is_ours(int handle) { return handle >= 0 && handle < MOST_HANDLES && watched[handle]; }

ssize_t pwrite(int handle, const void *bytes, size_t length, off_t place)
{
    int fit;
    pthread_once(&once, start);
    if (!is_ours(handle) || (fit = fits_not()) == 0)
        return real_pwrite(handle, bytes, length, place);
    return fit == 2 && length > 1 ? real_pwrite(handle, bytes, length / 2, place) : no_space();
}

ssize_t pwrite64(int handle, const void *bytes, size_t length, off_t place)
{
    return pwrite(handle, bytes, length, place);
}

ssize_t write(int handle, const void *bytes, size_t length)
{
    int fit;
    pthread_once(&once, start);
    if (!is_ours(handle) || (fit = fits_not()) == 0)
        return real_write(handle, bytes, length);
    return fit == 2 && length > 1 ? real_write(handle, bytes, length / 2) : no_space();
}

int ftruncate(int handle, off_t size)
{
    struct stat found;
    pthread_once(&once, start);
    if (is_ours(handle) && fstat(handle, &found) == 0 && size > found.st_size && fits_not() != 0)
        return no_space();
    return real_ftruncate(handle, size);
}

int ftruncate64(int handle, off_t size) { return ftruncate(handle, size); }

int mkdir(const char *path, mode_t mode)
{
    pthread_once(&once, start);
    return is_watched(path) && fits_not() != 0 ? no_space() : real_mkdir(path, mode);
}

int fsync(int handle)
{
    pthread_once(&once, start);
    return sync_fails && is_ours(handle) && is_full_now() ? no_space() : real_fsync(handle);
}

int fdatasync(int handle) { return fsync(handle); }
