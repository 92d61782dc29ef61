/* A library of Windows that wine 8 lacks: random bytes, by the older function that it has. */
#include <windows.h>

BOOLEAN NTAPI SystemFunction036(PVOID bytes, ULONG count);

__declspec(dllexport) BOOL WINAPI ProcessPrng(PBYTE bytes, SIZE_T count) { return SystemFunction036(bytes, (ULONG)count); }
