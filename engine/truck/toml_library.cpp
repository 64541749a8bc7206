// Compiles toml++ where there is no packaged library of it (WebAssembly). Natively the system's library is linked.
#define TOML_IMPLEMENTATION
#include <toml++/toml.h>
