#pragma once
// A loaded pack as bytes, so that the shipped one need not be read from its text at each start. The
// bytes are for the very program that they were made for: nothing in them is checked again.
#include <memory>
#include <string>
#include <string_view>

#include "flinch/model/pack.hpp"

namespace flinch::cli {

/// All of the pack, places in its texts included.
[[nodiscard]] std::string prepare_pack(Pack const& pack);

/// The pack that `prepare_pack` made `bytes` of.
/// Throws std::exception where they end early; other bytes than those have no meaning.
[[nodiscard]] std::shared_ptr<Pack const> prepared_pack(std::string_view bytes);

}  // namespace flinch::cli
