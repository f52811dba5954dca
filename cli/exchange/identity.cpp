#include "exchange/identity.hpp"

#include <fmt/format.h>

#include <boost/uuid/name_generator_sha1.hpp>
#include <boost/uuid/random_generator.hpp>
#include <boost/uuid/string_generator.hpp>
#include <boost/uuid/uuid_io.hpp>
#include <filesystem>
#include <ostream>
#include <stdexcept>

#include "files/read_bytes.hpp"
#include "files/replace_file.hpp"
#include "files/state_folder.hpp"
#include "flinch/casefile/write_case.hpp"
#include "flinch/text/display.hpp"

namespace flinch::cli {
namespace {

std::optional<boost::uuids::uuid> read_key(std::string_view text) {
  while (!text.empty() && (text.back() == '\n' || text.back() == '\r')) text.remove_suffix(1);
  constexpr std::size_t length = 36;
  if (text.size() != length) return std::nullopt;
  try {
    auto const key = boost::uuids::string_generator()(std::string(text));
    return key.is_nil() ? std::nullopt : std::optional(key);
  } catch (std::runtime_error const&) {
    return std::nullopt;
  }
}

std::optional<Identity> refuse(std::string const& path, std::string const& why, std::ostream& err) {
  err << fmt::format("{}: error: {}\n", inert(path), why);
  return std::nullopt;
}

}  // namespace

std::string Identity::made_of(std::string_view text) const {
  boost::uuids::name_generator_sha1 const below(key_);
  return boost::uuids::to_string(below(std::string(text)));
}

std::string Identity::patient(Case const& patient, Pack const& pack) const {
  if (patient.name.empty() || patient.call_back.empty()) return piece("Patient", patient, pack);
  return made_of(fmt::format("Patient\n{}\n{}", patient.name, patient.call_back));
}

std::string Identity::program() const {
  return made_of(fmt::format("Device\nflinch {}", FLINCH_VERSION));
}

std::string Identity::piece(std::string_view kind, Case const& patient, Pack const& pack) const {
  return made_of(
      fmt::format("{}\n{} {}\n{}", kind, pack.name, pack.version, write_case(patient, pack)));
}

std::optional<Identity> open_identity(std::string const& path, std::ostream& err) {
  auto file = path;
  if (file.empty()) {
    auto const folder = state_folder();
    std::error_code trouble;
    if (!folder.empty()) std::filesystem::create_directories(folder, trouble);
    if (folder.empty() || trouble)
      return refuse("flinch",
                    "there is no folder for the key of the identifiers; name a file "
                    "for it with --key FILE",
                    err);
    file = folder + "/share.key";
  }
  if (auto const why = why_no_file(file)) return refuse(file, *why, err);
  std::error_code trouble;
  if (!std::filesystem::exists(file, trouble)) {
    auto const key = boost::uuids::random_generator()();
    if (auto const why = replace_file(file, boost::uuids::to_string(key) + '\n'))
      return refuse(file, "cannot write the key of the identifiers: " + *why, err);
    return Identity(key);
  }
  auto const bytes = read_file(file);
  if (!bytes)
    return refuse(file,
                  "cannot read the key of the identifiers: " +
                      why_unreadable(file).value_or("it may not be read"),
                  err);
  auto const key = read_key(*bytes);
  if (!key)
    return refuse(file,
                  "this is no key: it holds one UUID, such as `flinch share` writes where "
                  "there is no such file",
                  err);
  return Identity(*key);
}

}  // namespace flinch::cli
