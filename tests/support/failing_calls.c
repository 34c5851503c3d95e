/* Loaded before a test program: lets the nth system call on files that follows fail, or that and all that write after it. */
#define _GNU_SOURCE
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <stdarg.h>
#include <sys/stat.h>
#include <sys/types.h>
#include <unistd.h>

static long calls = 0;
static long fails_at = 0; /* 0: none */
static int fails_with = 0;
static int lasts = 0;

/* From now on counts anew; the call numbered `at` fails with `error`, with `on` every writing call after it too. */
void arm_failing_calls(long at, int error, int on)
{
    calls = 0;
    fails_at = at;
    fails_with = error;
    lasts = on;
}

long counted_calls(void)
{
    return calls;
}

static int fails(int writes)
{
    ++calls;
    if (fails_at == 0 || !(calls == fails_at || (lasts && writes && calls > fails_at)) || (lasts && !writes))
        return 0;
    errno = fails_with;
    return 1;
}

#define REAL(name) ((__typeof__(&name))dlsym(RTLD_NEXT, #name))

ssize_t write(int file, const void* bytes, size_t size)
{
    return file > 2 && fails(1) ? -1 : REAL(write)(file, bytes, size);
}

ssize_t pwrite64(int file, const void* bytes, size_t size, off64_t place)
{
    return fails(1) ? -1 : REAL(pwrite64)(file, bytes, size, place);
}

ssize_t pwrite(int file, const void* bytes, size_t size, off_t place)
{
    return fails(1) ? -1 : REAL(pwrite)(file, bytes, size, place);
}

ssize_t pread64(int file, void* bytes, size_t size, off64_t place)
{
    return fails(0) ? -1 : REAL(pread64)(file, bytes, size, place);
}

int fsync(int file)
{
    return fails(1) ? -1 : REAL(fsync)(file);
}

int fdatasync(int file)
{
    return fails(1) ? -1 : REAL(fdatasync)(file);
}

int ftruncate64(int file, off64_t size)
{
    return fails(1) ? -1 : REAL(ftruncate64)(file, size);
}

int open64(const char* path, int flags, ...)
{
    va_list further;
    va_start(further, flags);
    const mode_t mode = (flags & O_CREAT) != 0 ? va_arg(further, mode_t) : 0;
    va_end(further);
    return fails((flags & O_CREAT) != 0) ? -1 : REAL(open64)(path, flags, mode);
}

int rename(const char* from, const char* to)
{
    return fails(1) ? -1 : REAL(rename)(from, to);
}

int renameat2(int from_folder, const char* from, int to_folder, const char* to, unsigned int flags)
{
    return fails(1) ? -1 : REAL(renameat2)(from_folder, from, to_folder, to, flags);
}

int link(const char* from, const char* to)
{
    return fails(1) ? -1 : REAL(link)(from, to);
}
