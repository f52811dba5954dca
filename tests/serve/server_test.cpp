// The whole server on files in memory: what an editor asks, and what nobody should.
#include "serve/server.hpp"

#include <gtest/gtest.h>

#include <condition_variable>
#include <map>
#include <mutex>

#include "serve/background.hpp"

namespace flinch::cli::serve {
namespace {

using Files = std::map<std::string, std::string>;

FileAccess in_memory(Files const& files) {
  return {[&files](std::string const& path) -> std::optional<std::string> {
            auto const found = files.find(path);
            if (found == files.end()) return std::nullopt;
            return found->second;
          },
          [&files](std::string const& folder) {
            std::vector<std::string> out;
            for (auto const& [path, text] : files)
              if (path.substr(0, path.rfind('/')) == folder && path.ends_with(".flinch"))
                out.push_back(path);
            return out;
          }};
}

Files const small = {
    {"/p/pack.flinch",
     "pack p \"P\"\n  species dog\n  version 1\n  unlisted 60 per 1000\n"
     "source judgement\n  text \"J\"\n  grade judgement\n"
     "tier now \"Now\"\n  within 1 hour\n  harm 19\n  say \"Go.\"\n"
     "tier visit \"Visit\"\n  within 14 days\n  say \"Book.\"\n"
     "site paw \"paw\"\ninclude \"parts/rules.flinch\"\n"
     "sign lame \"limping\"\n  ask \"Limping?\"\n  answer yes or no\n  seen by anyone\n"
     "cause thorn \"Thorn\"\n  affects paw\n  base 10 per 1000\n  see visit\n  because \"x\"\n"
     "  cite judgement\n"},
    {"/p/parts/rules.flinch",
     "rule limps \"Limping\"\n  if lame\n  usual 10%\n  in thorn 80%\n  because \"x\"\n"
     "  cite judgement\n"},
    {"/p/alone.flinch", "rule q\n  if lame\n"},
    {"/q/odd.flinch", "site paw\n"},
};
std::string const rules = "file:///p/parts/rules.flinch";

class Editor {
 public:
  explicit Editor(Files const& files = small) : server_(in_memory(files)) {
    (void)request("initialize", {{"capabilities", Json::object()}});
  }
  std::vector<Json> raw(std::string const& body) {
    std::vector<Json> out;
    for (auto const& message : server_.handle(body)) out.push_back(Json::parse(message));
    return out;
  }
  Json request(std::string const& method, Json params) {
    auto const all =
        raw(Json{{"jsonrpc", "2.0"}, {"id", 1}, {"method", method}, {"params", std::move(params)}}
                .dump());
    EXPECT_EQ(all.size(), 1U) << method;
    return all.empty() ? Json() : all.front();
  }
  std::map<std::string, Json> note(std::string const& method, Json params) {
    std::map<std::string, Json> out;
    for (auto const& one :
         raw(Json{{"jsonrpc", "2.0"}, {"method", method}, {"params", std::move(params)}}.dump()))
      out[one["params"].value("uri", "")] = one["params"].value("diagnostics", Json());
    return out;
  }
  std::map<std::string, Json> open(std::string const& uri, std::string const& text) {
    return note("textDocument/didOpen",
                {{"textDocument", {{"uri", uri}, {"version", 1}, {"text", text}}}});
  }
  std::map<std::string, Json> change(std::string const& uri, Json changes) {
    return note("textDocument/didChange", {{"textDocument", {{"uri", uri}, {"version", 2}}},
                                           {"contentChanges", std::move(changes)}});
  }
  Json at(std::string const& method, std::string const& uri, int line, int character) {
    return request("textDocument/" + method,
                   {{"textDocument", {{"uri", uri}}},
                    {"position", {{"line", line}, {"character", character}}}})["result"];
  }
  Server& server() { return server_; }

 private:
  Server server_;
};

Json range(int line, int begin, int end) {
  return {{"start", {{"line", line}, {"character", begin}}},
          {"end", {{"line", line}, {"character", end}}}};
}

TEST(Server, ShowsTheMistakesOfTheWholePackByOpenTexts) {
  Editor editor;
  auto shown = editor.open(rules, small.at("/p/parts/rules.flinch"));
  EXPECT_EQ(shown.at(rules), Json::array()) << shown.at(rules).dump();
  // Changed by a range: the text on the disk would be sound still.
  shown = editor.change(rules, {{{"range", range(3, 5, 10)}, {"text", "\xF0\x9F\x90\xB6"}}});
  ASSERT_EQ(shown.at(rules).size(), 1U) << shown.at(rules).dump();
  EXPECT_EQ(shown.at(rules)[0]["code"], "expected");
  EXPECT_EQ(shown.at(rules)[0]["severity"], 1);
  EXPECT_EQ(shown.at(rules)[0]["range"]["start"], range(3, 5, 0)["start"]);
  shown = editor.change(rules, {{{"range", range(3, 5, 7)}, {"text", "thron"}}});
  ASSERT_EQ(shown.at(rules).size(), 1U);
  EXPECT_EQ(shown.at(rules)[0]["range"], range(3, 5, 10));
  EXPECT_NE(shown.at(rules)[0]["message"].get<std::string>().find("thron"), std::string::npos);
  // And the entry is to blame when its own text in the editor is.
  shown = editor.change(rules, {{{"text", small.at("/p/parts/rules.flinch")}}});
  EXPECT_EQ(shown.at(rules), Json::array());
  shown = editor.open("file:///p/pack.flinch", "pack p\ninclude \"parts/rules.flinch\"\n");
  EXPECT_FALSE(shown.at(rules).empty());
  EXPECT_FALSE(shown.at("file:///p/pack.flinch").empty());
  // Closed again: what is on the disk counts.
  shown =
      editor.note("textDocument/didClose", {{"textDocument", {{"uri", "file:///p/pack.flinch"}}}});
  EXPECT_EQ(shown.at(rules), Json::array());
  EXPECT_EQ(shown.at("file:///p/pack.flinch"), Json::array());
}

// Runs the checks that are due, and gives what is shown of each file.
std::map<std::string, Json> checked(Server& server, std::vector<CheckJob> const& jobs) {
  std::map<std::string, Json> out;
  for (auto const& job : jobs) {
    auto const result = full_check(job, [] { return false; });
    if (!result) continue;
    for (auto const& message : server.finish(*result)) {
      auto const params = Json::parse(message)["params"];
      out[params["uri"]] = params["diagnostics"];
    }
  }
  return out;
}

std::vector<std::string> codes(Json const& list) {
  std::vector<std::string> out;
  for (auto const& one : list) out.push_back(one["code"]);
  return out;
}

TEST(Server, ShowsWhatCheckWarnsOfOnceThePackIsChecked) {
  Editor editor;
  auto const text = small.at("/p/parts/rules.flinch");
  auto shown = editor.open(rules, text +
                                      "site ear \"ear\"\nexample e\n  yes lame\n"
                                      "  expect first thorn, tier now\n");
  EXPECT_EQ(shown.at(rules), Json::array()) << "nothing is wrong as far as it loads";
  auto const jobs = editor.server().due();
  ASSERT_EQ(jobs.size(), 1U);
  EXPECT_TRUE(editor.server().due().empty()) << "each is due once";
  shown = checked(editor.server(), jobs);
  EXPECT_EQ(codes(shown.at(rules)), (std::vector<std::string>{"unused-site", "broken-promise"}));
  EXPECT_EQ(shown.at(rules)[0]["severity"], 2);
  EXPECT_EQ(shown.at(rules)[0]["range"], range(6, 5, 8));
  EXPECT_NE(shown.at(rules)[1]["message"].get<std::string>().find("expects tier now"),
            std::string::npos);
  // The next edit takes them away: they spoke of another text.
  EXPECT_EQ(editor.change(rules, {{{"text", text}}}).at(rules), Json::array());
  EXPECT_FALSE(checked(editor.server(), editor.server().due()).contains(rules));
}

TEST(Server, NeverShowsWhatWasFoundInAnOlderText) {
  Editor editor;
  auto const text = small.at("/p/parts/rules.flinch");
  (void)editor.open(rules, text + "site ear \"ear\"\n");
  auto const older = editor.server().due();
  (void)editor.change(rules, {{{"text", text + "site eye \"eye\"\n"}}});
  EXPECT_TRUE(checked(editor.server(), older).empty());
  EXPECT_TRUE(checked(editor.server(), editor.server().due()).contains(rules));
  // Nor of a text that was only open, and has been closed.
  (void)editor.change(rules, {{{"text", text + "site ear \"ear\"\n"}}});
  auto const closed = editor.server().due();
  (void)editor.note("textDocument/didClose", {{"textDocument", {{"uri", rules}}}});
  EXPECT_TRUE(checked(editor.server(), closed).empty());
}

TEST(Server, ChecksNoFurtherWhileThereAreErrorsAndEndsWhenNobodyWaits) {
  Editor editor;
  (void)editor.open(rules, "rule oops\n");
  auto const broken = editor.server().due();
  ASSERT_EQ(broken.size(), 1U) << "what runs of this pack is to end";
  EXPECT_FALSE(full_check(broken.front(), [] { return false; }).has_value());
  (void)editor.change(rules, {{{"text", small.at("/p/parts/rules.flinch")}}});
  auto const sound = editor.server().due();
  EXPECT_FALSE(full_check(sound.front(), [] { return true; }).has_value());
  EXPECT_TRUE(full_check(sound.front(), [] { return false; }).has_value());
}

TEST(Background, ChecksTheNewestOfAPackOnceNothingHasComeForAWhile) {
  Editor editor;
  auto const text = small.at("/p/parts/rules.flinch");
  std::mutex mutex;
  std::condition_variable changed;
  std::vector<CheckResult> done;
  {
    Background background(std::chrono::milliseconds(30), [&](CheckResult const& result) {
      std::lock_guard const lock(mutex);
      done.push_back(result);
      changed.notify_one();
    });
    (void)editor.open(rules, text);
    std::shared_ptr<PackView const> newest;
    for (int i = 0; i < 5; ++i) {
      (void)editor.change(rules, {{{"text", text + "# " + std::to_string(i) + "\n"}}});
      auto due = editor.server().due();
      newest = due.front().view;
      background.submit(std::move(due));
    }
    std::unique_lock lock(mutex);
    ASSERT_TRUE(changed.wait_for(lock, std::chrono::minutes(2),
                                 [&] { return !done.empty() && done.back().job.view == newest; }));
    // One that is never done: there are errors, so it only drops what waits.
    lock.unlock();
    (void)editor.change(rules, {{{"text", "rule oops\n"}}});
    background.submit(editor.server().due());
  }
  EXPECT_EQ(done.back().job.view->diagnostics.size(), 0U);
}

TEST(Server, OffersTheNameThatWasMeant) {
  Editor editor;
  auto text = small.at("/p/parts/rules.flinch");
  text.replace(text.find("thorn"), 5, "thron");
  (void)editor.open(rules, text + "alram a\n");
  auto const fixes = [&](Json const& where, Json context) {
    return editor.request("textDocument/codeAction", {{"textDocument", {{"uri", rules}}},
                                                      {"range", where},
                                                      {"context", std::move(context)}})["result"];
  };
  Json const any = {{"diagnostics", Json::array()}};
  auto const cause = fixes(range(3, 6, 6), any);
  ASSERT_EQ(cause.size(), 1U) << cause.dump();
  EXPECT_EQ(cause[0]["title"], "Change to `thorn`");
  EXPECT_EQ(cause[0]["kind"], "quickfix");
  EXPECT_EQ(cause[0]["edit"]["changes"][rules],
            Json::array({{{"range", range(3, 5, 10)}, {"newText", "thorn"}}}));
  EXPECT_EQ(cause[0]["diagnostics"][0]["code"], "unknown-name");
  auto const statement = fixes(range(6, 0, 5), {{"only", {"quickfix", "source"}}});
  ASSERT_EQ(statement.size(), 1U);
  EXPECT_EQ(statement[0]["edit"]["changes"][rules][0]["newText"], "alarm");
  EXPECT_EQ(fixes(range(0, 0, 4), any), Json::array()) << "nothing is wrong there";
  EXPECT_EQ(fixes(range(3, 6, 6), {{"only", Json::array({"refactor"})}}), Json::array());
}

TEST(Server, SaysOfAFileThatNoPackIncludesThatItIsAlone) {
  Editor editor;
  auto const shown = editor.open("file:///p/alone.flinch", "rule q\n  if lame and\n");
  auto const& list = shown.at("file:///p/alone.flinch");
  ASSERT_EQ(list.size(), 2U) << list.dump();
  EXPECT_EQ(list[0]["severity"], 1);
  EXPECT_EQ(list[1]["severity"], 3);
}

TEST(Server, TellsWhatANameMeansAndWeighsAndWhereItIsDefined) {
  Editor editor;
  (void)editor.open(rules, small.at("/p/parts/rules.flinch"));
  auto const cause = editor.at("hover", rules, 3, 6);
  auto const text = cause["contents"]["value"].get<std::string>();
  EXPECT_EQ(cause["range"], range(3, 5, 10));
  // 10 log10(0.8/0.1) = 9.03; 10 log10(0.2/0.9) = -6.53.
  EXPECT_NE(text.find("if so: +9.0 decibans, clearly for"), std::string::npos) << text;
  EXPECT_NE(text.find("if not: -6.5 decibans, clearly against"), std::string::npos) << text;
  EXPECT_NE(editor.at("hover", rules, 5, 9)["contents"]["value"].get<std::string>().find("J"),
            std::string::npos);
  EXPECT_EQ(editor.at("hover", rules, 2, 4), nullptr) << "a keyword";
  auto const definition = editor.at("definition", rules, 1, 5);
  EXPECT_EQ(definition["uri"], "file:///p/pack.flinch");
  EXPECT_EQ(definition["range"], range(16, 5, 9));
  EXPECT_EQ(editor.at("definition", rules, 99, 99), nullptr);
  EXPECT_EQ(editor.at("definition", "file:///p/not_open.flinch", 0, 0), nullptr);
}

TEST(Server, GoesOnTellingWhileThePackHasErrors) {
  Editor editor;
  (void)editor.open(rules, small.at("/p/parts/rules.flinch") + "alarm\n");
  EXPECT_NE(
      editor.at("hover", rules, 3, 6)["contents"]["value"].get<std::string>().find("cause thorn"),
      std::string::npos);
  EXPECT_EQ(editor.at("definition", rules, 3, 6)["uri"], "file:///p/pack.flinch");
}

TEST(Server, LaysOutAsTidyDoes) {
  Editor editor;
  std::string const uri = "untitled:x";
  (void)editor.open(uri, "site   \"\xF0\x9F\x90\xB6\"");
  auto const format = [&] {
    return editor.request("textDocument/formatting", {{"textDocument", {{"uri", uri}}},
                                                      {"options", Json::object()}})["result"];
  };
  EXPECT_EQ(format(), Json::array()) << "it has errors";
  (void)editor.change(uri, {{{"text", "site  paw  \"\xF0\x9F\x90\xB6\""}}});
  EXPECT_EQ(
      format(),
      Json::array({{{"range", range(0, 0, 15)}, {"newText", "site paw \"\xF0\x9F\x90\xB6\"\n"}}}));
  (void)editor.change(uri, {{{"text", "site paw\n"}}});
  EXPECT_EQ(format(), Json::array()) << "it is tidy";
}

TEST(Server, StartsAndEndsAsTheProtocolSays) {
  Server server(in_memory(small));
  auto const code = [&](std::string const& method) {
    auto const out =
        server.handle(Json{{"jsonrpc", "2.0"}, {"id", "a"}, {"method", method}}.dump());
    auto const answer = Json::parse(out.at(0));
    EXPECT_EQ(answer["id"], "a");
    return answer.contains("error") ? answer["error"]["code"].get<int>() : 0;
  };
  EXPECT_EQ(code("textDocument/hover"), -32002);
  EXPECT_EQ(code("initialize"), 0);
  EXPECT_EQ(code("initialize"), -32600);
  EXPECT_EQ(code("flinch/none"), -32601);
  EXPECT_EQ(code("textDocument/hover"), -32602);
  EXPECT_EQ(code("shutdown"), 0);
  EXPECT_EQ(code("textDocument/hover"), -32600);
  EXPECT_FALSE(server.is_finished());
  EXPECT_TRUE(server.handle(R"({"jsonrpc":"2.0","method":"exit"})").empty());
  EXPECT_TRUE(server.is_finished() && server.ended_well());
  Server abandoned(in_memory(small));
  EXPECT_TRUE(abandoned.handle(R"({"jsonrpc":"2.0","method":"exit"})").empty());
  EXPECT_TRUE(abandoned.is_finished() && !abandoned.ended_well());
}

TEST(Server, AnswersWhatNobodyShouldSendWithAnError) {
  Editor editor;
  struct Row {
    std::string body;
    int code;
  };
  for (
      auto const& [body, code] : std::vector<Row>{
          {"", -32700},
          {"{", -32700},
          {"\xFF\xFE", -32700},
          {std::string(1'000'000, '['), -32700},
          {"[]", -32600},
          {"1", -32600},
          {R"({"jsonrpc":"2.0"})", -32600},
          {R"({"jsonrpc":"1.0","id":1,"method":"x"})", -32600},
          {R"({"jsonrpc":"2.0","id":{},"method":"x"})", -32600},
          {R"({"jsonrpc":"2.0","id":1,"method":7})", -32600},
          {R"({"jsonrpc":"2.0","id":1,"method":"textDocument/hover","params":[1]})", -32602},
          {R"({"jsonrpc":"2.0","id":1,"method":"textDocument/hover","params":{"textDocument":{"uri":"a"},"position":{"line":-1,"character":0}}})",
           -32602},
          {R"({"jsonrpc":"2.0","id":1,"method":"textDocument/hover","params":{"textDocument":{"uri":7},"position":{"line":1,"character":0}}})",
           -32602},
      }) {
    auto const answers = editor.raw(body);
    ASSERT_EQ(answers.size(), 1U) << body.substr(0, 100);
    EXPECT_EQ(answers[0]["error"]["code"], code) << body.substr(0, 100);
  }
  // To notifications there is no answer, whatever they hold.
  for (
      auto const* body :
      {R"({"jsonrpc":"2.0","method":"textDocument/didOpen"})",
       R"({"jsonrpc":"2.0","method":"$/odd","params":7})",
       R"({"jsonrpc":"2.0","method":"textDocument/didChange","params":{"textDocument":{"uri":"a"},"contentChanges":7}})",
       R"({"jsonrpc":"2.0","id":4,"result":null})"})
    EXPECT_TRUE(editor.raw(body).empty()) << body;
}

TEST(Server, DoesNotFollowMoreThanItsMemoryAllows) {
  Editor editor;
  auto const text = '#' + std::string(7'000'000, 'x');
  std::size_t refused = 0;
  for (int i = 0; i < 12; ++i) {
    auto const uri = "untitled:" + std::to_string(i);
    refused += editor.open(uri, text).contains(uri) ? 0 : 1;
  }
  EXPECT_EQ(refused, 3U) << "9 of 7 MB fit into 64 MiB";
  // Changes without end are not worked through one by one.
  Json many = Json::array();
  for (int i = 0; i < 2000; ++i) many.push_back({{"range", range(0, 0, 0)}, {"text", ""}});
  (void)editor.change("untitled:0", many);
  EXPECT_EQ(editor.server().is_finished(), false);
}

}  // namespace
}  // namespace flinch::cli::serve
