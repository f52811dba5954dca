#pragma once
// Identifiers of what is sent: the same for the same case, and of no use to anyone without the key.
#include <boost/uuid/uuid.hpp>
#include <iosfwd>
#include <optional>
#include <string>
#include <string_view>

#include "flinch/model/case.hpp"
#include "flinch/model/pack.hpp"

namespace flinch::cli {

/// Makes UUIDs (RFC 4122, version 5) below a secret key, itself a UUID drawn at random: from an
/// identifier nobody without the key can try names out.
class Identity {
 public:
  explicit Identity(boost::uuids::uuid key) : key_(key) {}

  /// Of the patient: by its name and the number to ring back, where the case has both, so that
  /// later calls about it share the identifier; otherwise of this case alone, since two patients
  /// taken for one are worse than one taken for two.
  [[nodiscard]] std::string patient(Case const& patient, Pack const& pack) const;

  /// Of this program, whatever the case.
  [[nodiscard]] std::string program() const;

  /// Of a piece of what is sent of this case.
  [[nodiscard]] std::string piece(std::string_view kind, Case const& patient,
                                  Pack const& pack) const;

 private:
  [[nodiscard]] std::string made_of(std::string_view text) const;

  boost::uuids::uuid key_;
};

/// With the key in `path`, a file that holds one UUID; empty: `share.key` of the state folder. A
/// file that is not there is made, for its owner alone. Nothing when it cannot be had: why goes to
/// `err`.
[[nodiscard]] std::optional<Identity> open_identity(std::string const& path, std::ostream& err);

}  // namespace flinch::cli
