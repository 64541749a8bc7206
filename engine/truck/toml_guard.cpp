#include "engine/truck/toml_guard.h"

#include <string_view>
#include <utility>

#include "engine/base/utf8.h"
#include "engine/truck/document.h"

namespace axlewright {

namespace {

constexpr int kDeepestNesting = 32;
constexpr int kMostDots = 16;

/// Walks the text as TOML's outermost grammar does: plain, in a comment, in one of the four kinds of quotes.
class Guard {
 public:
  Guard(const std::string& file, std::string_view text) : file_(file), text_(text) {}

  std::optional<Fault> run() {
    if (text_.substr(0, 3) == "\xEF\xBB\xBF") at_ = 3;
    while (at_ < text_.size()) {
      const std::size_t length = utf8_sequence_length(text_.substr(at_));
      if (length == 0) {
        return fault("the text is not UTF-8", "save the file as UTF-8 in the editor");
      }
      if (auto bad = look(length)) return bad;
    }
    return std::nullopt;
  }

 private:
  std::optional<Fault> look(std::size_t length) {
    const char c = text_[at_];
    if (comment_) {
      comment_ = c != '\n';
    } else if (!quote_.empty()) {
      if (look_in_quotes(c)) return std::nullopt;
    } else if (c == '"' || c == '\'') {
      open_quotes(c);
      return std::nullopt;
    } else if (auto bad = look_in_plain(c)) {
      return bad;
    }
    step(length);
    return std::nullopt;
  }

  /// True if it stepped on by itself.
  bool look_in_quotes(char c) {
    const bool basic = quote_[0] == '"';
    if (basic && c == '\\' && at_ + 1 < text_.size() && text_[at_ + 1] != '\n' &&
        static_cast<unsigned char>(text_[at_ + 1]) < 0x80) {
      step(1);
      step(1);
      return true;
    }
    if (text_.substr(at_, quote_.size()) == quote_) {
      for (std::size_t i = 0; i < quote_.size(); ++i) step(1);
      quote_.clear();
      return true;
    }
    // A line end closes what should have been closed: the parser will complain about it.
    if (c == '\n' && quote_.size() == 1) quote_.clear();
    return false;
  }

  void open_quotes(char c) {
    quote_ = std::string(1, c);
    const std::string triple(3, c);
    if (text_.substr(at_, 3) == triple) quote_ = triple;
    for (std::size_t i = 0; i < quote_.size(); ++i) step(1);
  }

  std::optional<Fault> look_in_plain(char c) {
    if (is_curly_quote()) {
      return fault("a typographer's quote stands where a plain one belongs",
                   "write plain quotes: \"...\"");
    }
    if (static_cast<unsigned char>(c) >= 0x80) {
      return fault("a character beyond plain a to z stands outside quotes",
                   "names are a to z, 0 to 9 and _; put other text in quotes");
    }
    if (c == '#') comment_ = true;
    if (c == '[' || c == '{') ++depth_;
    if ((c == ']' || c == '}') && depth_ > 0) --depth_;
    if (depth_ > kDeepestNesting) {
      return fault("brackets are nested too deep", "a truck file needs no more than four levels");
    }
    dots_ = c == '.' ? dots_ + 1 : dots_;
    if (c == ',' || c == '=' || c == '\n' || c == '[' || c == '{') dots_ = 0;
    if (dots_ > kMostDots) {
      return fault("a name has too many dots",
                   "a truck file needs no more than three names in a row");
    }
    return std::nullopt;
  }

  /// U+2018 to U+201F, as word processors write them.
  bool is_curly_quote() const {
    const std::string_view here = text_.substr(at_, 3);
    return here.size() == 3 && here.substr(0, 2) == "\xE2\x80" && here[2] >= '\x98' &&
           here[2] <= '\x9F';
  }

  void step(std::size_t length) {
    if (at_ >= text_.size()) return;
    const bool line_end = text_[at_] == '\n';
    at_ += length;
    column_ = line_end ? 1 : column_ + 1;
    if (line_end) ++line_;
  }

  Fault fault(std::string what, std::string fix) const {
    Fault fault;
    fault.file = file_;
    fault.line = line_;
    fault.column = column_;
    fault.what = std::move(what);
    fault.fix = std::move(fix);
    return fault;
  }

  const std::string& file_;
  std::string_view text_;
  std::size_t at_ = 0;
  int line_ = 1, column_ = 1;
  std::string quote_;  ///< what closes the quotes we are in; empty outside
  bool comment_ = false;
  int depth_ = 0, dots_ = 0;
};

}  // namespace

std::optional<Fault> guard_toml(const std::string& file, const std::string& text) {
  if (text.size() > kLargestFile) {
    Fault fault;
    fault.file = file;
    fault.what = "the file is larger than 2 MB";
    fault.fix = "give a truck file: it is text of some hundred lines";
    return fault;
  }
  return Guard(file, text).run();
}

}  // namespace axlewright
