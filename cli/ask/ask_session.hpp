#pragma once
// One interview, line by line.
#include <functional>
#include <iosfwd>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "ask/ask_keys.hpp"
#include "ask/question_text.hpp"
#include "command.hpp"
#include "desk/case_keeper.hpp"
#include "desk/earlier_visits.hpp"
#include "flinch/assess/assessment.hpp"
#include "flinch/interview/answer_entry.hpp"
#include "flinch/interview/complaint.hpp"
#include "flinch/interview/interview.hpp"
#include "flinch/interview/sign_search.hpp"
#include "flinch/telling/script.hpp"

namespace flinch::cli {

/// Whether what is typed shows on the screen by itself; through a pipe it does not, and is
/// repeated.
enum class Echo : bool { by_terminal, by_us };

class AskSession {
 public:
  AskSession(Tables const& tables, Reader reader, CaseKeeper keeper, Date today, std::istream& in,
             Echo echo, Session const& session, EarlierVisits earlier = {});

  /// Asks until nothing more is worth asking, `stop` or the end of the input, and writes the
  /// assessment. Goes on from the answers of `patient`.
  struct Ended {
    Case patient;
    bool is_saved = true;  ///< as far as anything keeps it
  };
  [[nodiscard]] Ended run(Case patient);

 private:
  /// What `back` returns to.
  struct State {
    Case patient;
    std::vector<SignId> set_aside;       ///< skipped
    std::vector<SignId> places_untold;   ///< found, and nobody can tell where
    std::optional<SignId> clear_wanted;  ///< found at places; were the others looked at?
    bool is_complaint_over = false;      ///< what worries the keeper was asked
    bool is_said_worse = false;          ///< or something new, be it known what or not
    std::vector<std::string> unclear;    ///< words of the complaint that are not settled yet
    std::vector<SignId> to_ask;          ///< told of, in words that leave open whether, or how much
  };
  struct Step {
    State state;
    std::vector<SignId> from_book;       ///< as `EarlierVisits` has them
    std::vector<SignId> said_otherwise;  ///< the same
  };
  enum class After : std::uint8_t { go_on, end };

  [[nodiscard]] std::optional<std::string> read_line();
  void say(std::string const& text);
  void say_so_far();  ///< with the tier that may be told so far
  void say_assessment(Assessment const& result);
  void remark(std::string const& text);
  [[nodiscard]] Outlook look_ahead();
  void tell_course();
  void tell_since_then();
  [[nodiscard]] std::vector<Question> to_ask_again() const;
  [[nodiscard]] BesideQuestions beside(Screen const& screen) const;
  void ask_next_time();
  /// What was told of the urgency just now, and must not scroll away unread.
  enum class News : std::uint8_t { nothing, the_top, a_fall };
  [[nodiscard]] News note_tier(Assessment const& told, Outlook const& with_skipped);
  [[nodiscard]] After pause(News news);
  [[nodiscard]] After end_or_more(Outlook const& outlook, Outlook const& with_skipped);
  [[nodiscard]] std::string nothing_more_text(Outlook const& outlook,
                                              Outlook const& with_skipped) const;
  [[nodiscard]] bool offers_skipped();
  [[nodiscard]] After ask(Screen const& screen, Outlook const& outlook,
                          Outlook const& with_skipped);
  [[nodiscard]] After ask_clear();
  [[nodiscard]] After ask_complaint();
  [[nodiscard]] After take_words(std::function<bool(std::string const&)> const& take);
  [[nodiscard]] Complaint read_said(std::string const& line);
  [[nodiscard]] bool take_complaint(std::string const& line);
  void take_said(Complaint const& said);
  [[nodiscard]] bool take_facts_told(ComplaintPart const& part, std::string& noted,
                                     std::string& for_later);
  void keep_words(std::string const& words);
  void settle_words(std::string const& words);
  [[nodiscard]] bool take_out(std::size_t number);
  [[nodiscard]] After ask_unclear();
  [[nodiscard]] bool take_unclear(std::vector<FoundSign> const& found, std::string const& line);
  void take_meaning(FoundSign const& found);
  [[nodiscard]] std::string would_record(FoundSign const& found) const;
  [[nodiscard]] std::string complaint_line(SignId sign) const;
  [[nodiscard]] std::optional<SignId> next_told_of();
  void tell(ToldAnswer const& told);
  [[nodiscard]] Outlook outlook_with_skipped();
  [[nodiscard]] Setting setting_now() const;
  /// What a key does; whether the question is done with, or must be shown again.
  enum class Done : std::uint8_t { no, yes, again, end };
  [[nodiscard]] Done press(LineKey key, Screen const& screen);
  [[nodiscard]] Done press_beside(LineKey key);
  [[nodiscard]] Done go_back();
  [[nodiscard]] Done take_back_one();
  [[nodiscard]] bool take_line(Screen const& screen, std::string const& line);
  [[nodiscard]] bool take_list(Screen const& screen, std::string const& line);
  void take_reply(Screen const& screen, ListReply const& reply);
  void save_part(Screen const& screen);
  void keep_part(Screen const& screen);
  [[nodiscard]] std::string left_out_text(Screen const& screen, bool is_untold) const;
  void note(std::string const& what);
  [[nodiscard]] bool take_sex(Screen const& screen, std::string const& line);
  [[nodiscard]] std::string weight_question() const;
  [[nodiscard]] bool take_weight_again(std::string const& line);
  [[nodiscard]] bool take_facts(Screen const& screen, std::string const& line);
  [[nodiscard]] bool take_one(SignId sign, std::string const& line);
  [[nodiscard]] bool take_place(SignId sign, std::string const& line);
  [[nodiscard]] bool show_walk(SignId sign, std::string const& line);
  void set(SignId sign, Answer answer);
  void set_cannot_tell(SignId sign);
  void forget(SignId sign);
  void keep_state() { past_.push_back({now_, earlier_.from_book, earlier_.said_otherwise}); }
  void save();

  Tables const& tables_;
  Pack const& pack_;
  Assessor assessor_;
  Interview interview_;
  Reader reader_;
  SignSearch search_;
  CaseKeeper keeper_;
  EarlierVisits earlier_;
  std::string told_sentence_;     ///< what was told of the course last
  std::optional<Course> course_;  ///< against the call that is rung back for
  EntryContext context_;
  std::istream& in_;
  Echo echo_;
  Session const& session_;
  State now_;
  std::vector<Step> past_;
  Assessment result_;
  std::optional<TierId> told_tier_;
  Script told_script_;
  std::vector<AlarmId> told_alarms_;  ///< of that tier
  /// "Did you mean ...?" was asked last: what each of the names would record.
  std::vector<std::vector<std::pair<SignId, Answer>>> suggested_;
  bool is_untold_pending_ = false;      ///< ? once more says that nobody can tell any fact
  std::optional<ListReply> part_;       ///< of the list on the screen, as far as it was answered
  std::string last_noted_;              ///< what was recorded last
  bool has_taken_back_ = false;         ///< rather, it was taken back
  bool is_complaint_answered_ = false;  ///< the last line was no key
  bool goes_on_ = false;                ///< `more` was typed
  bool skipped_shown_ = false;          ///< skipped questions come back once
  bool save_failed_ = false;
};

}  // namespace flinch::cli
