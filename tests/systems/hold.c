/* Another program that has a file open, as a viewer of drawings does: hold FILE [share], until its input ends.
   Without `share` nobody else may even read it. */
#include <stdio.h>
#include <windows.h>

int main(int count, char **words) {
  if (count < 2) return 2;
  DWORD share = count > 2 ? FILE_SHARE_READ : 0;
  HANDLE file = CreateFileA(words[1], GENERIC_READ, share, NULL, OPEN_EXISTING, 0, NULL);
  if (file == INVALID_HANDLE_VALUE) return 3;
  puts("held");
  fflush(stdout);
  getchar();
  CloseHandle(file);
  return 0;
}
