#pragma once
// The commands of `flinch book`, and what they share.
#include <functional>

#include "book/call_text.hpp"
#include "command.hpp"
#include "files/case_files.hpp"

namespace flinch::cli {

extern Command const due_part, today_part, open_part;  // book_lists_command.cpp
extern Command const patient_part, history_part;       // book_patient_command.cpp
extern Command const close_part, rung_part;            // book_close_command.cpp
extern Command const ring_part;                        // call/call_command.cpp
extern Command const import_part;                      // book_import_command.cpp
extern Command const export_part;                      // book_export_command.cpp
extern Command const backup_part, restore_part;        // book_keep_command.cpp
extern Command const forget_part;                      // book_forget_command.cpp

/// `--book`
[[nodiscard]] Option book_option(std::string& book);
/// Why nobody can be called so; empty when anybody can. What the book knew stands under its own
/// name, and would be taken for what nobody said.
[[nodiscard]] std::string no_name_of_a_person(std::string const& by);
/// `--by`, who does it; the user's name otherwise.
[[nodiscard]] Option by_option(std::string& by);
[[nodiscard]] std::string who_does_it(std::string const& by);
inline constexpr char const* with_names_help =
    "Names, numbers and notes too: what tells who somebody is";

/// Does the work with the book of this name; what is wrong with the book ends it, told on
/// `session.err`.
[[nodiscard]] Status with_book(std::string const& named, Book::Missing missing,
                               Session const& session, std::function<Status(Book&)> const& work);

/// A call by its number in the book; nothing, and why on `session.err`, when there is none.
[[nodiscard]] std::optional<CallLine> call_numbered(Book& book, std::string const& number,
                                                    Session const& session);

/// The error of a call of which the pack cannot take the answers.
[[nodiscard]] std::string unreadable_call(CallLine const& call);

/// A time as "2026-11-25", its midnight in local time; nothing when it is no day.
[[nodiscard]] std::optional<std::time_t> day_of(std::string const& text);
[[nodiscard]] std::string no_day(std::string const& text);

}  // namespace flinch::cli
