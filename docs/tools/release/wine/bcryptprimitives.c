// What Go's runtime asks Windows for, and what Wine before 9 does not have (SEEN): random bytes. `make oracle` builds it for Wine alone.
#include <windows.h>

BOOLEAN NTAPI SystemFunction036(PVOID, ULONG); // RtlGenRandom of advapi32

__declspec(dllexport) BOOL WINAPI ProcessPrng(PBYTE data, SIZE_T n) { return SystemFunction036(data, (ULONG)n); }
