#include "book/server_driver.hpp"

#include <dlfcn.h>

namespace flinch::cli {

ServerDriver const* server_driver() {
  // Where it lies stands in the program's own search path (cli/CMakeLists.txt). It is never
  // unloaded: what it made lives on until the end.
  static auto const* const driver = [] {
    void* const file = ::dlopen("flinch_server_driver.so", RTLD_NOW | RTLD_LOCAL);
    return static_cast<ServerDriver const*>(file ? ::dlsym(file, "flinch_server_driver") : nullptr);
  }();
  return driver;
}

}  // namespace flinch::cli
