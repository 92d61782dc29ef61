/* Runs a program and writes down the status with which it ended: launch FILE PROGRAM WORDS…
   Wine ends with SIGKILL what takes long to leave after its end, and then the system's own status says nothing of the
   program's; the status that Windows keeps does. The words pass on as they came. */
#include <stdio.h>
#include <string.h>
#include <windows.h>

/* The command line behind its first word. */
static WCHAR *behind(WCHAR *line) {
  WCHAR end = *line == '"' ? '"' : ' ';
  if (end == '"') line++;
  while (*line && *line != end) line++;
  if (*line == '"') line++;
  while (*line == ' ') line++;
  return line;
}

int main(int count, char **words) {
  STARTUPINFOW how = {.cb = sizeof how, .dwFlags = STARTF_USESTDHANDLES};
  PROCESS_INFORMATION program;
  DWORD status;
  WCHAR *command = behind(behind(GetCommandLineW()));
  if (count < 3) return 2;
  how.hStdInput = GetStdHandle(STD_INPUT_HANDLE);
  how.hStdOutput = GetStdHandle(STD_OUTPUT_HANDLE);
  how.hStdError = GetStdHandle(STD_ERROR_HANDLE);
  /* On a busy machine wine at times does not get a program to begin: nothing of it has run then, and it is begun again. */
  for (int tries = 1; !CreateProcessW(NULL, command, NULL, NULL, TRUE, 0, NULL, NULL, &how, &program); tries++) {
    fprintf(stderr, "wine: not begun, error %lu\n", GetLastError());
    if (tries == 5) return 3;
    Sleep(1000);
  }
  WaitForSingleObject(program.hProcess, INFINITE);
  if (!GetExitCodeProcess(program.hProcess, &status)) return 4;
  FILE *file = fopen(words[1], "w");
  if (!file) return 5;
  fprintf(file, "%lu\n", (unsigned long)status);
  return fclose(file) ? 6 : 0;
}
