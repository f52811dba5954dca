#pragma once
// The entry point that the fuzzer, and the plain replay program, call.
#include <cstddef>
#include <cstdint>

extern "C" int LLVMFuzzerTestOneInput(std::uint8_t const* data, std::size_t size);
