#pragma once
// LAKEBOUND_VECTOR_CLONES before a function: one copy for every kind of vector unit, chosen when the
// program starts. Files that use it are compiled without fused multiply-add (lib/paint/CMakeLists.txt), so
// that all copies give the same bits. The sanitizers do not get along with it; other compilers and
// machines take the plain copy.

#if defined(__x86_64__) && defined(__linux__) && defined(__GNUC__) && !defined(__clang__) &&                   \
    !defined(__SANITIZE_ADDRESS__) && !defined(__SANITIZE_THREAD__)
#define LAKEBOUND_VECTOR_CLONES __attribute__((target_clones("avx512f", "avx2", "default")))
#else
#define LAKEBOUND_VECTOR_CLONES
#endif

// Before a function that such a copy calls: a call would lead out of the copy into plain code.
#if defined(__GNUC__)
#define LAKEBOUND_INTO_CLONES [[gnu::always_inline]] inline
#else
#define LAKEBOUND_INTO_CLONES inline
#endif
