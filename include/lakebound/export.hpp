#pragma once
// What the shared libraries offer. A public header opens its namespace with LAKEBOUND_EXPORT, and so marks all that it
// declares; the rooms' own headers under lib/ do not, and the libraries are compiled with hidden visibility. Programs
// see the mark too, so that an exception thrown in a library is the same type to a program that hides its own symbols.

/// Given to those who link shared libraries by the CMake package and the pkg-config files. In static libraries nothing
/// is marked: a shared library made of them offers none of Lakebound unasked.
#if defined(LAKEBOUND_SHARED) && defined(__GNUC__)
#define LAKEBOUND_EXPORT [[gnu::visibility("default")]]
#else
#define LAKEBOUND_EXPORT
#endif
