#include "engine/truck/toml_slip.h"

#include <algorithm>
#include <map>
#include <string_view>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "engine/base/utf8.h"
#include "engine/truck/bare_value.h"

namespace axlewright {

namespace {

constexpr int kDeepestNesting = 32;
constexpr std::size_t kLongestName = 60;   // that is shown
constexpr std::size_t kLongestPath = 500;  // of a section: it stands in front of each of its names
constexpr const char* kListForm = "part the values by commas: [a, b, c]";
constexpr const char* kTableForm = "part the keys by commas: { on = \"axle\", at = [x, y, z] }";

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

bool is_key_char(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || is_digit(c) || c == '_' || c == '-';
}

bool is_blank_char(char c) {
  return c == ' ' || c == '\t';
}

bool is_one_of(char c, std::string_view these) {
  return these.find(c) != std::string_view::npos;
}

/// Bytes of the text.
struct Span {
  std::size_t begin = 0, end = 0;
};

enum class Where { line, list, table };

/// A name with its dots: what it spells, and the parts in one line that no two names share.
struct Key {
  Span span;
  std::string path;
};

/// Walks the text by TOML's grammar up to the first place where it is none. Each step gives false there: then it has either
/// told a slip or given up.
class SlipFinder {
 public:
  SlipFinder(const std::string& file, std::string_view text) : file_(file), text_(text) {}

  std::optional<Fault> run() {
    if (text_.substr(0, 3) == "\xEF\xBB\xBF") first_ = at_ = 3;
    while (statement()) {
    }
    return std::move(slip_);
  }

 private:
  using Names = std::map<std::string, std::size_t>;  ///< path -> where it stands

  // --- the grammar ---

  bool statement() {
    skip_gaps();
    if (at_ >= text_.size()) return false;
    return is_at('[') ? header() : entry(names_, section_, Where::line) && line_ends();
  }

  bool header() {
    const std::size_t begin = at_;
    const std::string_view close = text_.substr(at_, 2) == "[[" ? "]]" : "]";
    at_ += close.size();
    skip_blanks();
    Key key;
    if (!read_key(key)) return false;
    skip_blanks();
    if (text_.substr(at_, close.size()) != close) return header_not_closed(begin, key);
    at_ += close.size();
    // Of a list of sections each may have the same names again.
    if (close.size() == 2) several_ = true;
    section_ = '\n' + key.path;
    const bool readable = section_.size() <= kLongestPath;
    return readable && is_first(names_, section_, {begin, at_}) && line_ends();
  }

  bool entry(Names& names, const std::string& section, Where where) {
    Key key;
    if (!read_key(key)) return false;
    skip_blanks();
    if (!is_at('=')) return no_equals(key, where);
    ++at_;
    if (!is_first(names, section + '\n' + key.path, key.span)) return false;
    skip_blanks();
    return value(where);
  }

  bool line_ends() {
    skip_blanks();
    if (is_at('#') || at_line_end()) return true;
    if (is_at('"') && string_.end == at_ && value_.end == at_)
      return slip({string_.begin, at_ + 1}, "a quote inside the text closes it",
                  fix_in_quotes(text_.substr(string_.begin + 1, at_ - string_.begin - 1)));
    if (!is_at(',') || value_.begin < line_begin(at_)) return false;
    const Span list{value_.begin, trimmed(at_, line_end(at_))};
    return slip(list, "a list stands without brackets",
                "write [ in front of the first value and ] behind the last");
  }

  bool value(Where where) {
    const std::size_t begin = at_;
    bool good = false;
    if (is_at('"') || is_at('\'')) {
      good = quoted(where);
    } else if (is_at('[')) {
      good = list();
    } else if (is_at('{')) {
      good = table();
    } else {
      good = bare(where);
    }
    value_ = {begin, at_};
    return good;
  }

  bool quoted(Where where) {
    const char quote = text_[at_];
    const std::size_t begin = at_;
    if (text_.substr(at_, 3) == std::string(3, quote)) return quoted_lines(quote);
    const std::size_t end = closing_quote(at_);
    if (end == std::string_view::npos) return quotes_not_closed(begin, where);
    at_ = end + 1;
    string_ = {begin, at_};
    return true;
  }

  bool quoted_lines(char quote) {
    const std::size_t begin = at_;
    at_ += 3;
    while (at_ < text_.size() && text_.substr(at_, 3) != std::string(3, quote))
      at_ += quote == '"' && text_[at_] == '\\' ? 2 : 1;
    if (at_ >= text_.size()) {
      at_ = text_.size();
      return slip({begin, begin + 3}, "the quotes that open here are not closed",
                  fmt::format("write {} behind the text", std::string(3, quote)));
    }
    at_ += 3;
    // Up to two more belong to the text.
    for (int more = 0; more < 2 && is_at(quote); ++more) ++at_;
    return true;
  }

  bool list() {
    const std::size_t begin = at_++;
    value_ = {begin, at_};
    if (++depth_ > kDeepestNesting) return false;
    while (true) {
      skip_gaps();
      if (is_at(']')) break;
      if (list_must_end()) return not_closed(begin, ']');
      if (!value(Where::list)) return false;
      skip_gaps();
      if (is_at(']')) break;
      if (list_must_end()) return not_closed(begin, ']');
      if (!is_at(',')) return no_comma(Where::list);
      ++at_;
    }
    ++at_;
    --depth_;
    return true;
  }

  bool table() {
    const std::size_t begin = at_++;
    value_ = {begin, at_};
    if (++depth_ > kDeepestNesting) return false;
    Names names;
    skip_blanks();
    while (!is_at('}') || !names.empty()) {
      if (at_line_end() || is_at('#')) return not_closed(begin, '}');
      if (!entry(names, "", Where::table)) return false;
      skip_blanks();
      if (is_at('}')) break;
      if (at_line_end() || is_at('#')) return not_closed(begin, '}');
      if (!is_at(',')) return no_comma(Where::table);
      const std::size_t comma = at_++;
      skip_blanks();
      if (is_at('}'))
        return slip({comma, comma + 1}, "a comma stands before the closing }", "take it away");
    }
    ++at_;
    --depth_;
    return true;
  }

  bool bare(Where where) {
    const std::size_t begin = at_, end = bare_end(where);
    const std::string_view word = text_.substr(begin, end - begin);
    at_ = end;
    if (is_toml_scalar(word)) return true;
    if (const auto bad = slip_of_bare(word)) return slip({begin, end}, bad->what, bad->fix);
    // Of values with blanks between them the first may be good: then a comma is missing behind it.
    const std::size_t blank = word.find_first_of(" \t");
    if (where == Where::line || !is_toml_scalar(word.substr(0, blank))) return false;
    at_ = begin + blank;
    return true;
  }

  /// False if no name stands here.
  bool read_key(Key& key) {
    key.span.begin = at_;
    while (true) {
      const std::size_t begin = at_;
      if (is_at('"') || is_at('\'')) {
        const std::size_t end = closing_quote(at_);
        if (end == std::string_view::npos) return false;
        at_ = end + 1;
        key.path += text_.substr(begin + 1, end - begin - 1);
      } else {
        while (at_ < text_.size() && is_key_char(text_[at_])) ++at_;
        key.path += text_.substr(begin, at_ - begin);
      }
      if (at_ == begin) return false;
      key.span.end = at_;
      skip_blanks();
      if (!is_at('.')) break;
      ++at_;
      skip_blanks();
      key.path += '\n';
    }
    at_ = key.span.end;
    return true;
  }

  // --- what is wrong ---

  bool slip(Span span, std::string what, std::string fix) {
    const std::size_t line = line_begin(span.begin);
    Fault fault;
    fault.file = file_;
    fault.line = line_number(span.begin);
    fault.column = count_code_points(text_.substr(line, span.begin - line)) + 1;
    fault.length = std::max(1, count_code_points(text_.substr(span.begin, span.end - span.begin)));
    fault.what = std::move(what);
    fault.fix = std::move(fix);
    slip_ = std::move(fault);
    return false;
  }

  bool is_first(Names& names, const std::string& path, Span span) {
    const auto [first, is_new] = names.emplace(path, span.begin);
    const std::string_view name = spelled(span);
    if (is_new || several_ || name.empty()) return true;
    const int line = line_number(first->second);
    const bool same_line = line == line_number(span.begin), section = name[0] == '[';
    return slip(span,
                fmt::format("'{}' is given twice: {} has it already", name,
                            same_line ? "this line" : fmt::format("line {}", line)),
                section ? "put the two together, or give one another name"
                        : "give it another name, or take one of the two away");
  }

  bool header_not_closed(std::size_t begin, const Key& key) {
    if (at_line_end() || is_one_of(text_[at_], "#})"))
      return slip({begin, key.span.end}, "the name of the section has no closing ]",
                  fmt::format("write {}{}", spelled({begin, key.span.end}),
                              text_.substr(begin, 2) == "[[" ? "]]" : "]"));
    return blank_in_name(key, ']');
  }

  /// Words where one name belongs: they end at `close`.
  bool blank_in_name(const Key& key, char close) {
    std::size_t end = key.span.end;
    while (end < text_.size() && (is_key_char(text_[end]) || is_blank_char(text_[end]))) ++end;
    if (end >= text_.size() || text_[end] != close) return false;
    const Span span{key.span.begin, trimmed(key.span.end, end)};
    if (span.end == key.span.end) return false;
    std::string name;
    for (const char c : spelled(span)) {
      if (!is_blank_char(c)) name += c;
      if (is_blank_char(c) && name.back() != '_') name += '_';
    }
    return slip(span, "a name has a blank in it",
                name.empty() ? "join its words by _" : "write " + name);
  }

  bool no_equals(const Key& key, Where where) {
    const std::string_view name = spelled(key.span);
    if (name.empty()) return false;
    const bool is_number =
        std::all_of(name.begin(), name.end(), [](char c) { return c == '-' || is_digit(c); });
    if (where == Where::table && is_number) return comma_in_number();
    if (is_at(']') && where == Where::line)
      return slip({key.span.begin, at_ + 1}, "the name of the section has no opening [",
                  fmt::format("write [{}]", name));
    blank_in_name(key, '=');
    if (!slip_)
      slip(key.span, fmt::format("no '=' stands behind '{}'", name),
           fmt::format("write {} = VALUE", name));
    return false;
  }

  /// In a table the comma of a number, or of a list without brackets, looks like the end of a value.
  bool comma_in_number() {
    const std::size_t begin = value_.begin;
    std::size_t end = std::min(text_.find_first_not_of("0123456789.+-, \t", begin), text_.size());
    while (end > begin && is_one_of(text_[end - 1], ", \t")) --end;
    const auto bad = slip_of_bare(spelled({begin, end}));
    return bad && slip({begin, end}, bad->what, bad->fix);
  }

  bool no_comma(Where where) {
    // A quote that is missing makes the next one close: then one too many is left on the line.
    const bool after_text = string_.end == value_.end && string_.begin >= line_begin(at_);
    const std::string_view left = text_.substr(at_, line_end(at_) - at_);
    if (after_text && std::count(left.begin(), left.end(), text_[string_.begin]) % 2 == 1)
      return quotes_not_closed(string_.begin, where);
    if (where == Where::table && !is_entry()) return false;
    std::size_t end = at_;
    while (end < text_.size() && !is_one_of(text_[end], " \t\r\n,]}")) ++end;
    return slip({at_, std::max(end, at_ + 1)}, "a comma is missing before this",
                where == Where::table ? kTableForm : kListForm);
  }

  bool quotes_not_closed(std::size_t begin, Where where) {
    std::size_t end = begin + 1;
    while (end < line_end(begin) && (where == Where::line || !is_one_of(text_[end], ",]}"))) ++end;
    const std::size_t comment = text_.substr(0, end).find(" #", begin);
    const Span span{begin, trimmed(begin + 1, std::min(comment, end))};
    return slip(span, "the quotes that open here are not closed",
                fix_in_quotes(text_.substr(begin + 1, span.end - begin - 1)));
  }

  bool not_closed(std::size_t begin, char close) {
    const bool one_line = line_begin(value_.end) == line_begin(begin);
    const Span span{begin, one_line ? std::max(value_.end, begin + 1) : begin + 1};
    if (close == ']')
      return slip(span, "the list that opens here has no closing ]",
                  "write ] behind its last value");
    return slip(span, "the { that opens here is not closed on its line",
                "write } behind its last value, all on one line");
  }

  // --- looking around ---

  bool is_at(char c) const { return at_ < text_.size() && text_[at_] == c; }

  bool at_line_end() const {
    return at_ >= text_.size() || text_[at_] == '\n' || text_.substr(at_, 2) == "\r\n";
  }

  void skip_blanks() {
    while (at_ < text_.size() && is_blank_char(text_[at_])) ++at_;
  }

  /// Blanks, comments and line ends.
  void skip_gaps() {
    while (at_ < text_.size()) {
      if (is_at('#')) {
        at_ = line_end(at_);
      } else if (is_one_of(text_[at_], " \t\r\n")) {
        ++at_;
      } else {
        return;
      }
    }
  }

  /// The quote that closes the one at `begin`, on the same line; npos if none does.
  std::size_t closing_quote(std::size_t begin) const {
    const char quote = text_[begin];
    for (std::size_t i = begin + 1; i < text_.size() && text_[i] != '\n'; ++i) {
      if (text_[i] == quote) return i;
      const bool escapes = quote == '"' && text_[i] == '\\';
      if (escapes && i + 1 < text_.size() && text_[i + 1] != '\n') ++i;
    }
    return std::string_view::npos;
  }

  /// Where a value without quotes ends, blanks behind it left out.
  std::size_t bare_end(Where where) const {
    std::size_t end = at_;
    while (end < text_.size() && !is_one_of(text_[end], "\n#=") &&
           (where == Where::line || !ends_inside(end)))
      ++end;
    const bool equals = end < text_.size() && text_[end] == '=';
    end = trimmed(at_, end);
    // The next key stands on the same line: it is no part of the value.
    while (equals && end > at_ && (is_key_char(text_[end - 1]) || text_[end - 1] == '.')) --end;
    return trimmed(at_, end);
  }

  bool ends_inside(std::size_t i) const {
    const bool quote = text_[i] == '"' || text_[i] == '\'';
    return is_one_of(text_[i], ",[]{}") || (quote && i > 0 && is_blank_char(text_[i - 1]));
  }

  /// Whether what follows can be no value of a list.
  bool list_must_end() const {
    return at_ >= text_.size() || is_at('}') || is_entry() || is_header();
  }

  bool is_entry() const {
    std::size_t i = at_;
    while (i < text_.size() && (is_key_char(text_[i]) || text_[i] == '.')) ++i;
    if (i == at_) return false;
    while (i < text_.size() && is_blank_char(text_[i])) ++i;
    return i < text_.size() && text_[i] == '=';
  }

  bool is_header() const {
    if (!is_at('[')) return false;
    std::size_t line = at_;
    while (line > first_ && is_blank_char(text_[line - 1])) --line;
    if (line > first_ && text_[line - 1] != '\n') return false;
    const std::size_t begin = text_.find_first_not_of('[', at_);
    std::size_t end = std::min(begin, text_.size());
    while (end < text_.size() && (is_key_char(text_[end]) || text_[end] == '.')) ++end;
    if (begin >= end || end >= text_.size() || text_[end] != ']') return false;
    const std::string_view name = text_.substr(begin, end - begin);
    return name[0] >= 'a' && name[0] <= 'z' && !is_toml_scalar(name);
  }

  /// The text of a name, fit to be shown; empty if it is not.
  std::string_view spelled(Span span) const {
    const std::string_view name = text_.substr(span.begin, span.end - span.begin);
    const bool odd = std::any_of(name.begin(), name.end(), [](char c) {
      return static_cast<unsigned char>(c) < 0x20 || c == 0x7F;
    });
    return odd || name.size() > kLongestName ? std::string_view() : name;
  }

  std::size_t line_begin(std::size_t at) const {
    const std::size_t end = at == 0 ? std::string_view::npos : text_.rfind('\n', at - 1);
    return end == std::string_view::npos ? first_ : end + 1;
  }

  std::size_t line_end(std::size_t at) const {
    return std::min(text_.find('\n', at), text_.size());
  }

  int line_number(std::size_t at) const {
    const std::string_view before = text_.substr(0, at);
    return 1 + static_cast<int>(std::count(before.begin(), before.end(), '\n'));
  }

  /// The end without the blanks in front of it.
  std::size_t trimmed(std::size_t begin, std::size_t end) const {
    while (end > begin && is_one_of(text_[end - 1], " \t\r")) --end;
    return end;
  }

  const std::string& file_;
  std::string_view text_;
  std::size_t first_ = 0;  ///< behind a byte order mark
  std::size_t at_ = 0;
  int depth_ = 0;
  bool several_ = false;
  Names names_;
  std::string section_;
  Span value_;   ///< the last value read, or the bracket that opened the one we are in
  Span string_;  ///< the last text in quotes
  std::optional<Fault> slip_;
};

}  // namespace

std::optional<Fault> slip_in_toml(const std::string& file, const std::string& text) {
  return SlipFinder(file, text).run();
}

}  // namespace axlewright
