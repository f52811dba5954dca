#pragma once
// One answer of a QuestionnaireResponse, as it is written in a case.
#include "exchange/json_reader.hpp"
#include "exchange/terms.hpp"

namespace flinch::cli {

class AnswerReader {
 public:
  AnswerReader(Pack const& pack, JsonReader& json);

  /// The answer of a sign as a scalar of a case: `yes`, `less`, `38.6 C`, `left elbow`, `can't
  /// tell`. Nothing when there is none, or it does not fit; then the report says why.
  [[nodiscard]] std::optional<Tree> of_sign(Sign const& sign, Tree const& answer);
  /// The code of a thing that a pack names; `what` says which, as "a cause".
  [[nodiscard]] std::optional<Tree> code(Tree const& answer, Vocabulary vocabulary,
                                         std::string_view what);
  [[nodiscard]] std::optional<Tree> words(Tree const& answer);

 private:
  /// The only member `value...` of an answer.
  struct Value {
    std::string_view type;  ///< "Coding"
    Tree const* node = nullptr;
    Place at;  ///< of the key
  };
  [[nodiscard]] std::optional<Value> value(Tree const& answer);
  /// Why there is no value, by the standard's extension; empty when it does not say.
  [[nodiscard]] std::optional<std::string> why_absent(Tree const& node);
  [[nodiscard]] std::optional<Tree> coded(Sign const& sign, Value const& value);
  [[nodiscard]] std::optional<Tree> number(Sign const& sign, Value const& value);
  [[nodiscard]] std::optional<Tree> amount(Sign const& sign, Tree const& quantity);
  std::optional<Tree> misfit(std::string_view link, Value const& value, std::string_view wanted);

  Pack const& pack_;
  JsonReader& json_;
  std::string values_, sites_, breeds_;  ///< addresses of the pack's code systems
};

/// A scalar of a case that stands where `at` points.
[[nodiscard]] Tree scalar(std::string text, Place at);

}  // namespace flinch::cli
