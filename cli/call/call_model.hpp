#pragma once
// A telephone call without a terminal: keys in, answers, urgency and the next questions out.
//
//   CallModel call(tables, patient, Keeping::in_a_file, now);
//   call.press({Key::Kind::text, "2"});       // yes to the second line of the list
//   call.state().result.judgement.tier        // after every answer
#include <algorithm>
#include <ctime>
#include <optional>
#include <string>
#include <vector>

#include "desk/earlier_visits.hpp"
#include "flinch/assess/weight_doubt.hpp"
#include "flinch/interview/answer_entry.hpp"
#include "flinch/interview/interview.hpp"
#include "flinch/interview/sign_search.hpp"
#include "flinch/telling/practice.hpp"

namespace flinch::cli {

/// One key press, whatever the terminal sent for it; or a whole text that was pasted.
struct Key {
  enum class Kind : unsigned char {
    text,  ///< one character in UTF-8
    paste,
    enter,
    escape,
    erase,
    clear_line,
    next_page,
    previous_page,
    up,
    down,
    undo,
    show_keys,
    leave
  };
  Kind kind{};
  std::string text;
};

enum class CallPage : unsigned char { questions, details, answers, advice, note };
inline constexpr std::size_t call_page_count = 5;

/// What goes on in the page of questions.
enum class Activity : unsigned char {
  asking,    ///< the questions that the interview puts
  finding,   ///< a sign by a few letters
  choosing,  ///< one of the subject's steps or choices, by number; or yes or no
  typing     ///< a number, a breed, a place
};

/// Whether answers go to a file as they come.
enum class Keeping : bool { in_memory, in_a_file };

/// A line of the caller-and-patient page: free text of the case, or one of the patient's own signs.
struct DetailField {
  std::string_view label;
  std::string Case::*text = nullptr;
  SignId sign{};
};
[[nodiscard]] std::vector<DetailField> detail_fields(Pack const& pack);

/// How far the urgency on the screen may be from what it will be, by what a caller can answer.
enum class Urgency : unsigned char {
  one_answer_away,       ///< a single answer could still make an alarm raise it
  several_answers_away,  ///< only several answers together could
  settled                ///< none could
};

/// A tier that was told and no longer stands, until somebody has seen it.
struct Fall {
  TierId from{};
  std::string by;  ///< the answers that lowered it
};

struct CallState {
  Case patient;
  Assessment result;
  Outlook outlook;
  CallPage page = CallPage::questions;
  Activity activity = Activity::asking;
  bool shows_keys = false;
  bool is_over = false;
  std::size_t line = 0;          ///< of the list, the one being read out
  std::size_t cursor = 0;        ///< in what was found
  bool is_picked = false;        ///< that one was gone to with the arrows
  std::string typed;             ///< letters of a search, or an answer being typed
  std::vector<FoundSign> found;  ///< for `finding`
  SignId subject{};              ///< for `choosing` and `typing`
  std::size_t field = 0;         ///< on the page of details
  bool is_editing = false;       ///< that field: `typed` holds its text
  std::size_t row = 0;           ///< on the page of answers
  std::size_t scroll = 0;        ///< on the pages of advice and of the note
  std::string message;           ///< what the last key did
  bool is_trouble = false;       ///< the message says what went wrong
  std::string last_answer;       ///< what was recorded last, and undo would take back
  std::optional<Fall> fall;
  std::string unsaved;  ///< why the answers are in no file, as long as they are not
  std::time_t now = 0;
};

class CallModel {
 public:
  /// `patient` may hold answers already: a call that is taken up again.
  CallModel(Tables const& tables, Case patient, Keeping keeping, std::time_t now,
            Setting setting = {}, EarlierVisits earlier = {});

  void press(Key const& key);
  /// The clock, for ages and for the time to ring back.
  /// Where somebody is sent, and what is promised, goes by the clock too.
  void set_now(std::time_t now);
  /// Why the answers could not be kept, or nothing once they are.
  void set_unsaved(std::string why) { state_.unsaved = std::move(why); }
  /// Something that is worth telling beside what the last key did.
  void tell(std::string const& notice);
  /// How far the page of advice can be scrolled on the screen that shows it.
  void limit_scroll(std::size_t rows) { state_.scroll = std::min(state_.scroll, rows); }

  [[nodiscard]] CallState const& state() const { return state_; }
  /// The practice that answers, and the time at which the call began.
  [[nodiscard]] Setting const& setting() const { return setting_; }
  [[nodiscard]] Tables const& tables() const { return tables_; }
  [[nodiscard]] Pack const& pack() const { return tables_.pack(); }
  /// Answered, or nobody could tell: a line of the list that is done with.
  [[nodiscard]] bool is_settled(SignId sign) const;
  /// Found, and nobody has said where.
  [[nodiscard]] bool lacks_place(SignId sign) const;
  /// The sign whose question is to be read out now.
  [[nodiscard]] std::optional<SignId> focus() const;
  /// The sign that "yes" and "no" answer.
  [[nodiscard]] std::optional<SignId> asked() const;
  /// What Enter would record of what is typed in a search: "collapsed: no"; nothing where it would
  /// record nothing.
  [[nodiscard]] std::string on_enter() const;
  /// What the number of something found would record: "gum colour: pale".
  [[nodiscard]] std::string would_record(FoundSign const& found) const;
  /// What `choosing` chooses from: the labels of the subject's values, or yes and no.
  [[nodiscard]] std::vector<std::string> choices() const;
  /// The tier rests on how likely causes are, and no alarm asks for it.
  [[nodiscard]] bool rests_on_likelihood() const;
  /// And on facts of the patient that nobody has asked for yet.
  [[nodiscard]] std::vector<SignId> unasked_ground() const;
  /// Signs answered so far, those that could not be told included, in the order of the pack; the
  /// patient's own are left out.
  [[nodiscard]] std::vector<SignId> answered() const;
  /// What a caller could still answer that could raise the urgency, what decides first.
  [[nodiscard]] std::vector<OpenQuestion> const& open_danger() const { return open_danger_; }
  /// All that is open, the patient's own facts and what needs hands or a clinic included.
  [[nodiscard]] std::vector<OpenQuestion> const& all_open() const { return all_open_; }
  [[nodiscard]] Urgency urgency() const;
  /// What earlier calls of the book say, and which answers are theirs alone.
  [[nodiscard]] EarlierVisits const& earlier() const { return earlier_; }
  /// How it fares, when this call rings back for an earlier one.
  [[nodiscard]] std::optional<Course> const& course() const { return course_; }
  /// What stands in a field of the details.
  [[nodiscard]] std::string field_text(DetailField const& field) const;

  static constexpr std::size_t found_at_most = 9;  ///< as many as have a digit of their own
  static constexpr std::size_t list_lines = 7;

 private:
  // What keys do, page by page.
  void press_on_questions(Key const& key);
  void ask_by_key(Key const& key);
  void ask_by_letter(std::string const& letter);
  void find_by_key(Key const& key);
  void begin_search(std::string letters);
  void take_found(std::size_t at);
  void take_search();
  [[nodiscard]] std::optional<SignId> kind_named(SignId sign, std::string const& typed) const;
  void answer_found(Key const& key);
  [[nodiscard]] bool answer_by_word();
  [[nodiscard]] bool answer_sex();
  [[nodiscard]] bool tells_sex(std::string const& typed) const;
  [[nodiscard]] std::string sex_words(SexEntry const& entry) const;
  [[nodiscard]] bool says_worse(std::string const& typed) const;
  [[nodiscard]] bool is_said_worse() const;
  [[nodiscard]] bool note_worse();
  void tell_clash();
  void choose_by_key(Key const& key);
  void type_by_key(Key const& key);
  void press_on_details(Key const& key);
  void press_on_answers(Key const& key);
  void press_on_advice(Key const& key);
  void open_advice();
  void turn_page(std::size_t by);
  [[nodiscard]] bool commit_typing();
  void keep_field();
  void undo_field();
  void leave();
  void edit_text(Key const& key);

  // What they lead to.
  void remember(std::string what);
  void set(SignId sign, std::optional<Answer> answer);
  void forget(SignId sign);
  void answer(SignId sign, std::optional<Answer> answer);
  void say_yes(SignId sign);
  void say_no(SignId sign);
  void say_none_of_these();
  [[nodiscard]] std::optional<WeightDoubt> doubt_to_settle() const;
  void put_weight_behind_dangers();
  void say_weight_is_right();
  void say_weight_is_wrong();
  void take_weight_again(Entry entry);
  void begin(SignId sign);
  void begin_choice(SignId sign);
  void commit_typed();
  [[nodiscard]] Entry read_typed(SignId sign);
  [[nodiscard]] bool commit_field();
  [[nodiscard]] bool is_found(SignId sign) const;
  [[nodiscard]] bool commit_places(SignId sign, flinch::Entry const& entry);
  void search_again();
  void go_on_asking();
  void reassess();
  void report_trouble(std::string message);
  void refuse(std::string const& why);
  [[nodiscard]] bool is_answered_by_yes(SignId sign) const;
  void tell_change_of_urgency(std::optional<TierId> before);
  void keep_promise(std::optional<TierId> before);
  void acknowledge_fall();
  void put_ground_first();
  [[nodiscard]] bool is_list_kept(std::vector<Question> const& first) const;
  void deal(std::vector<Question> first);
  void tell_what_hangs_on(Screen& screen) const;
  [[nodiscard]] std::vector<Question> follow_ups() const;
  [[nodiscard]] bool are_life_threats_open() const;
  [[nodiscard]] std::optional<Question> degree_of_found() const;
  [[nodiscard]] std::vector<Question> first_questions() const;
  void undo();
  void agree_to_ring_back();
  void date_ring_back();

  struct Step {
    Case before;
    std::optional<Screen> list;
    std::string what;
    std::vector<SignId> from_book;
    std::vector<SignId> said_otherwise;
  };
  /// What an answer is to, and so what becomes of the list that was read out.
  enum class Answering : unsigned char {
    a_number,    ///< of the list: more of them may follow, and none of the rest
    the_line,    ///< that is being read out
    the_choice,  ///< that stands there in place of a list
    the_rest,    ///< of the list
    elsewhere    ///< a sign that was searched for, changed or undone
  };
  Tables const& tables_;
  Keeping keeping_;
  Assessor assessor_;
  Interview interview_;
  SignSearch search_;
  CallState state_;
  Setting setting_;
  EarlierVisits earlier_;
  std::optional<Course> course_;  ///< against the call that is rung back for
  std::vector<OpenQuestion> all_open_;
  std::vector<OpenQuestion> open_danger_;
  std::vector<Step> history_;
  Answering answering_ = Answering::elsewhere;
  std::optional<TierId> promised_;  ///< the highest told since a fall was last seen
  std::vector<std::string> clashes_told_;
  std::vector<Answer> offered_;  ///< breeds that were meant, perhaps, by what was refused last
  std::optional<SignId> chosen_from_;  ///< whose choices the search took the place of
  std::optional<SignId> kind_told_;    ///< what was typed may say which it was: asked next
  bool is_told_unasked_ = false;       ///< the answer that comes is to what was searched for
  bool is_complaint_over_ = false;     ///< a list has been answered: what is told now was asked for
  bool is_none_pending_ = false;       ///< 0 once more says no to what is still open
  bool was_none_pending_ = false;      ///< when the present key was pressed
  bool is_refused_ = false;            ///< what stands in the line was not understood
  bool is_field_begun_ = false;        ///< letters of the field being edited are in the case
  bool is_list_unread_ =
      false;  ///< it, or its question, took the place of what may have been read out
  bool leave_was_refused_ = false;
};

}  // namespace flinch::cli
