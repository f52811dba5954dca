#include <iostream>
#include <string>
#include <vector>

#include "run.hpp"

int main(int argc, char** argv) {
  std::vector<std::string> const args(argv + 1, argv + argc);
  return flinch::cli::run(args, std::cout, std::cerr, flinch::cli::look_of_stdout());
}
