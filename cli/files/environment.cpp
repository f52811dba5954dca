#include "files/environment.hpp"

#include <cstdlib>

namespace flinch::cli {

std::string environment(char const* name) {
  char const* value = std::getenv(name);
  return value == nullptr ? "" : value;
}

std::string folder_of_environment(char const* name) {
  auto folder = environment(name);
  return folder.starts_with('/') ? folder : "";
}

}  // namespace flinch::cli
