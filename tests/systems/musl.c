/* The unwinder of Debian was compiled against another C library, whose checked printing musl does not have. */
#include <stdarg.h>
#include <stdio.h>

int __fprintf_chk(FILE *file, int flag, const char *format, ...) {
  va_list list;
  va_start(list, format);
  int written = vfprintf(file, format, list);
  va_end(list);
  return flag < 0 ? -1 : written;
}
