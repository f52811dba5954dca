#include "call/call_terminal.hpp"

#include <fmt/format.h>
#include <poll.h>
#include <sys/ioctl.h>
#include <unistd.h>

#include <clocale>
#include <cstdlib>
#include <string_view>

#include "call/call_view.hpp"
#include "files/clock.hpp"
#include "flinch/text/display.hpp"

// Last: its macros have everyday names.
#define NCURSES_NOMACROS
#include <curses.h>
#include <term.h>
#undef columns
#undef lines

namespace flinch::cli {
namespace {

constexpr int paste_begins = KEY_MAX + 1;  // ours, behind the codes of curses
constexpr int paste_ends = KEY_MAX + 2;
constexpr std::size_t pasted_bytes = 4096;
constexpr int burst_bytes = 3;  // behind a first one
constexpr int pause_ms = 200;   // longer than the bytes of one character or one paste stay apart
constexpr short urgency_pair = 1;
constexpr short hue = 30;  // the deep teal of `Page::strong`

constexpr int control(char letter) { return letter & 0x1F; }

// A capability of the terminal that may be missing.
char const* capability(char const* name) {
  char* const value = tigetstr(const_cast<char*>(name));
  return value == nullptr || value == reinterpret_cast<char*>(-1) ? nullptr : value;
}

// The screen for the life of this object. When it cannot be had, `trouble` says why.
class Terminal {
 public:
  explicit Terminal(Look const& look) : letters_(letters(look)) {
    char const* const name = std::getenv("TERM");
    screen_ = name == nullptr || *name == '\0' ? nullptr : newterm(name, stdout, stdin);
    if (screen_ == nullptr || capability("cup") == nullptr) {
      trouble_ = fmt::format("the terminal `{}` cannot show a full screen",
                             inert(name == nullptr ? "" : name));
      return;
    }
    raw();
    noecho();
    nonl();
    keypad(stdscr, TRUE);
    set_escdelay(50);
    has_urgency_colour_ = look.has_colour && has_colors() && start_color() == OK && COLORS >= 256 &&
                          use_default_colors() == OK && init_pair(urgency_pair, hue, -1) == OK;
    // Pasted text comes marked as such, so that its letters are not taken for answers.
    if (capability("BE") != nullptr && capability("BD") != nullptr) {
      define_key("\x1b[200~", paste_begins);
      define_key("\x1b[201~", paste_ends);
      putp(capability("BE"));
      marks_pastes_ = true;
    }
    auto const size = this->size();
    if (!is_large_enough(size))
      trouble_ =
          fmt::format("the screen is too small: {} x {} is needed, this one has {} x {}",
                      smallest_screen.columns, smallest_screen.rows, size.columns, size.rows);
  }
  Terminal(Terminal const&) = delete;
  Terminal& operator=(Terminal const&) = delete;
  ~Terminal() {
    if (screen_ == nullptr) return;
    if (marks_pastes_) putp(capability("BD"));
    endwin();
    delscreen(screen_);
  }

  [[nodiscard]] std::optional<std::string> const& trouble() const { return trouble_; }

  void draw(CallModel& call) {
    auto const screen = call_view(call, size(), letters_);
    call.limit_scroll(screen.scroll_at_most);
    erase();
    for (std::size_t row = 0; row < screen.lines.size(); ++row) {
      ::move(static_cast<int>(row), 0);
      for (auto const& piece : screen.lines[row]) {
        attrset(static_cast<int>(attributes(piece.weight)));
        addstr(piece.text.c_str());
      }
    }
    attrset(A_NORMAL);
    curs_set(screen.cursor ? 1 : 0);
    if (screen.cursor)
      ::move(static_cast<int>(screen.cursor->row), static_cast<int>(screen.cursor->column));
    refresh();
  }

  // The next key; nothing when the terminal has gone away.
  std::optional<Key> next(CallModel& call) {
    for (int failures = 0; failures < 100;) {
      int const code = getch();
      if (code == ERR) {
        if (is_gone()) return std::nullopt;
        ++failures;
        continue;
      }
      failures = 0;
      if (code == KEY_RESIZE || code == control('L')) {
        if (code != KEY_RESIZE) clearok(curscr, TRUE);
        draw(call);
        continue;
      }
      if (code == paste_begins) return Key{Key::Kind::paste, pasted()};
      auto key = key_of(code);
      if (!key) continue;
      // Where a paste comes without its marks, it comes at once, as no fingers do.
      if (!marks_pastes_ && key->kind == Key::Kind::text && bytes_waiting() >= burst_bytes)
        return Key{Key::Kind::paste, key->text + pasted()};
      return key;
    }
    return std::nullopt;
  }

 private:
  // Unicode only where curses can show it: the locale that the environment names, or the one that
  // every system with UTF-8 has.
  static Letters letters(Look const& look) {
    bool const is_named = std::setlocale(LC_CTYPE, "") != nullptr;
    if (!look.has_unicode) return Letters::ascii;
    return is_named || std::setlocale(LC_CTYPE, "C.UTF-8") != nullptr ? Letters::unicode
                                                                      : Letters::ascii;
  }

  [[nodiscard]] ScreenSize size() const {
    return {static_cast<std::size_t>(getmaxx(stdscr)), static_cast<std::size_t>(getmaxy(stdscr))};
  }

  [[nodiscard]] attr_t attributes(Weight weight) const {
    switch (weight) {
      case Weight::plain:
        return A_NORMAL;
      case Weight::bold:
        return A_BOLD;
      case Weight::chosen:
        return A_REVERSE;
      case Weight::urgency:
        break;
    }
    return A_BOLD | A_REVERSE |
           (has_urgency_colour_ ? static_cast<attr_t>(COLOR_PAIR(urgency_pair)) : A_NORMAL);
  }

  static int bytes_waiting() {
    int count = 0;
    return ioctl(STDIN_FILENO, FIONREAD, &count) == 0 ? count : 0;
  }

  static bool is_gone() {
    pollfd input{STDIN_FILENO, POLLIN, 0};
    return poll(&input, 1, 0) > 0 && (input.revents & (POLLHUP | POLLERR | POLLNVAL)) != 0;
  }

  std::optional<Key> key_of(int code) {
    switch (code) {
      case KEY_ENTER:
      case '\r':
      case '\n':
        return Key{Key::Kind::enter, {}};
      case 0x1B:
        if (drops_sequence()) return std::nullopt;
        return Key{Key::Kind::escape, {}};
      case KEY_BACKSPACE:
      case 0x7F:
      case '\b':
        return Key{Key::Kind::erase, {}};
      case control('U'):
        return Key{Key::Kind::clear_line, {}};
      case '\t':
        return Key{Key::Kind::next_page, {}};
      case KEY_BTAB:
        return Key{Key::Kind::previous_page, {}};
      case KEY_UP:
        return Key{Key::Kind::up, {}};
      case KEY_DOWN:
        return Key{Key::Kind::down, {}};
      case control('Z'):
        return Key{Key::Kind::undo, {}};
      case KEY_F(1):
      case control('K'):
        return Key{Key::Kind::show_keys, {}};
      case control('C'):
        return Key{Key::Kind::leave, {}};
      default:
        break;
    }
    if (code < 0x20 || code > 0xFF) return std::nullopt;
    auto text = character(static_cast<char>(code));
    if (text.empty()) return std::nullopt;
    return Key{Key::Kind::text, std::move(text)};
  }

  // Whether a key that curses does not know was pressed, or a control sequence arrived: its bytes
  // follow the escape at once, and are no answers.
  bool drops_sequence() {
    timeout(0);
    int code = getch();
    bool const is_sequence = code >= 0x20 && code < 0x100;
    if (code == '[') {
      do code = getch();
      while (code >= 0x20 && code < 0x40);  // up to the letter that ends it
    } else if (code == ']' || code == 'P' || code == '^' || code == '_') {
      do code = getch();
      while (code != ERR && code != '\a' && code != '\\');  // a text, up to its end
    } else if (code == 'O') {
      code = getch();
    } else if (code != ERR && !is_sequence) {
      ungetch(code);
    }
    timeout(-1);
    return is_sequence;
  }

  // A whole character from its first byte on; empty when the bytes are none.
  std::string character(char first) {
    std::string text(1, first);
    auto const lead = static_cast<unsigned char>(first);
    if (lead < 0x80) return text;
    std::size_t const length = lead >= 0xF0 ? 4 : lead >= 0xE0 ? 3 : 2;
    timeout(pause_ms);
    while (text.size() < length && lead >= 0xC2) {
      int const code = getch();
      if (code < 0x80 || code > 0xBF) {
        if (code != ERR) ungetch(code);
        break;
      }
      text += static_cast<char>(code);
    }
    timeout(-1);
    bool const is_sound = find_invalid_utf8(text) == std::string_view::npos;
    return is_sound && letters_ == Letters::unicode ? text : std::string();
  }

  // What was pasted, up to its end mark or the pause behind it; keys within it are dropped.
  std::string pasted() {
    std::string text;
    timeout(pause_ms);
    for (int code = getch(); code != ERR && code != paste_ends; code = getch())
      if (code < 0x100 && text.size() < pasted_bytes) text += static_cast<char>(code);
    timeout(-1);
    return text;
  }

  Letters letters_;
  SCREEN* screen_ = nullptr;
  std::optional<std::string> trouble_;
  bool has_urgency_colour_ = false;
  bool marks_pastes_ = false;
};

}  // namespace

std::optional<std::string> run_on_terminal(CallModel& call, Look const& look,
                                           CaseKeeper const& keeper) {
  Terminal terminal(look);
  if (terminal.trouble()) return terminal.trouble();
  auto kept = call.state().patient;
  auto const keep = [&] {
    auto const& now = call.state().patient;
    // What could not be kept is tried again with every key.
    if (now == kept && call.state().unsaved.empty()) return;
    auto const told = keeper.keep(now, call.earlier().from_book);
    call.set_unsaved(told.trouble);
    if (!told.notice.empty()) call.tell(told.notice);
    kept = now;
  };
  while (!call.state().is_over) {
    terminal.draw(call);
    auto const key = terminal.next(call);
    if (!key) break;
    call.set_now(now_or_fixed());
    call.press(*key);
    if (keeper.takes_letters || !call.state().is_editing) keep();
  }
  keep();
  return std::nullopt;
}

}  // namespace flinch::cli
