#include "engine/truck/edit.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

#include <fmt/format.h>

#include "engine/base/invariant.h"
#include "engine/base/quantity_text.h"
#include "engine/base/units.h"
#include "engine/truck/complaints.h"
#include "engine/truck/document.h"
#include "engine/truck/fields.h"
#include "engine/truck/key_kinds.h"
#include "engine/truck/layers.h"
#include "engine/truck/paths.h"
#include "engine/truck/sections.h"
#include "engine/truck/setting.h"
#include "engine/truck/spell.h"
#include "engine/truck/value.h"

namespace axlewright {

namespace {

/// Beyond this a number is spelled in ways that TOML reads as something else; no value of ours comes near.
constexpr double kLargestNumber = 1e9;

BareUnit unit_of(const Node& document) {
  const Node* units = find(document, "units");
  return units != nullptr && units->text == "inch" ? BareUnit::inch : BareUnit::mm;
}

void set_unit(Node& node, BareUnit unit) {
  node.unit = unit;
  for (Node& item : node.items) set_unit(item, unit);
  for (Entry& entry : node.entries) set_unit(entry.value, unit);
}

/// The value that a setting means, or null.
const Node* find_value(const Node& document, const ParsedSetting& setting) {
  const Node* table = find(document, setting.section);
  if (table != nullptr && !setting.name.empty()) table = find(*table, setting.name);
  if (table == nullptr) return nullptr;
  if (setting.coordinate < 0) return find(*table, setting.key);
  const Node* at = find(*table, "at");
  if (at == nullptr || at->items.size() != 3) return nullptr;
  return &at->items[static_cast<std::size_t>(setting.coordinate)];
}

/// Equal in everything but places.
bool same_content(const Node& a, const Node& b) {
  const bool same_value = a.kind == b.kind && a.text == b.text && a.boolean == b.boolean &&
                          (a.number == b.number || (std::isnan(a.number) && std::isnan(b.number)));
  if (!same_value || a.items.size() != b.items.size() || a.entries.size() != b.entries.size()) {
    return false;
  }
  for (std::size_t i = 0; i < a.items.size(); ++i) {
    if (!same_content(a.items[i], b.items[i])) return false;
  }
  for (std::size_t i = 0; i < a.entries.size(); ++i) {
    const Entry &x = a.entries[i], &y = b.entries[i];
    if (x.key != y.key || !same_content(x.value, y.value)) return false;
  }
  return true;
}

class Editor {
 public:
  /// `unit`: what a bare length of a setting means; that of the file itself where none is given.
  Editor(std::string text, std::string path, const TextOf& text_of, Sources& sources,
         Complaints& complaints, std::optional<BareUnit> unit = std::nullopt)
      : text_(std::move(text)),
        path_(std::move(path)),
        text_of_(text_of),
        sources_(sources),
        complaints_(complaints),
        unit_(unit) {}

  /// False if the text is no TOML.
  bool parse() {
    auto document = parse_document(path_, text_);
    if (!document) {
      const Fault& bad = document.error();
      complaints_.error({path_, bad.line, bad.column, bad.length}, bad.what, bad.fix);
      return false;
    }
    document_ = std::move(*document);
    set_unit(document_, unit_of(document_));
    return true;
  }

  void apply(const Setting& setting, int line) {
    const auto parsed =
        parse_setting(setting, line, unit_.value_or(unit_of(document_)), complaints_);
    if (!parsed) return;
    const Node* value = find_value(document_, *parsed);
    if (value == nullptr) {
      complain_of_absence(*parsed);
      return;
    }
    const std::size_t begin = byte_offset(text_, value->place.line, value->place.column);
    const std::size_t end =
        byte_offset(text_, value->place.line, value->place.column + value->place.length);
    const std::optional<std::string> spelled =
        respell(*parsed, *value, text_.substr(begin, end - begin));
    if (spelled) splice(*parsed, begin, end, *spelled);
  }

  const std::string& text() const { return text_; }

 private:
  /// What stands in the file in place of `old`; nothing after a complaint.
  std::optional<std::string> respell(const ParsedSetting& setting, const Node& value,
                                     const std::string& old) {
    const KeyKind kind = kind_of(setting, document_);
    if (value.kind == NodeKind::boolean && setting.value.kind == NodeKind::boolean) {
      return setting.value.boolean ? "true" : "false";
    }
    const bool scalar = value.kind == NodeKind::number || value.kind == NodeKind::text;
    if (kind == KeyKind::words) {
      if (value.kind == NodeKind::text && setting.value.kind == NodeKind::text &&
          on_one_line(setting, old)) {
        return quoted(setting.value.text);
      }
    } else if (scalar && on_one_line(setting, old)) {
      return respell_number(setting, value, kind, old);
    }
    complaints_.error(setting.target,
                      fmt::format("{} stands there in {}:{}, which this does not replace",
                                  kind_words(value), path_, value.place.line),
                      "edit the file by hand");
    return std::nullopt;
  }

  /// A text of several lines has no length of its own to splice.
  static bool on_one_line(const ParsedSetting& setting, const std::string& old) {
    const bool opens = !old.empty() && (old[0] == '"' || old[0] == '\'');
    return setting.value.kind != NodeKind::boolean &&
           (!opens || (old.size() >= 2 && old.back() == old[0]));
  }

  std::optional<std::string> respell_number(const ParsedSetting& setting, const Node& value,
                                            KeyKind kind, const std::string& old) {
    const std::optional<double> number = new_value(setting, value, kind);
    if (!number) return std::nullopt;
    const int wanted = wanted_decimals(setting);
    if (value.kind == NodeKind::number) return respell_bare(*number, value, kind, old, wanted);
    const auto quantity = read_quantity(value.text);
    const bool plain_quotes = old.size() == value.text.size() + 2;
    const bool same_kind =
        quantity && (quantity->kind == UnitKind::length) == (kind == KeyKind::length);
    if (!same_kind || !plain_quotes || kind == KeyKind::plain) {
      complaints_.error(value.place,
                        fmt::format("the value of '{}' cannot be read here", setting.target_words),
                        "mend it by hand first");
      return std::nullopt;
    }
    return old.substr(0, 1) + respelled_quantity(*number, value.text, *quantity, wanted) +
           old.substr(0, 1);
  }

  static std::string respell_bare(double number, const Node& value, KeyKind kind,
                                  const std::string& old, int wanted) {
    if (kind == KeyKind::length) {
      const bool inch = value.unit == BareUnit::inch;
      return respelled_number(inch ? to_inch(number) : to_mm(number), old, inch ? 4 : 3, wanted);
    }
    return respelled_number(kind == KeyKind::angle ? to_deg(number) : number, old, 4, wanted);
  }

  /// The places after the point that a setting spells; what it adds to may have its own.
  static int wanted_decimals(const ParsedSetting& setting) {
    return decimals_of(setting.value_words);
  }

  /// In SI.
  std::optional<double> new_value(const ParsedSetting& setting, const Node& value, KeyKind kind) {
    constexpr Range kAny{-kLargestNumber, kLargestNumber};
    if (setting.coordinate >= 0) return new_coordinate(setting, value, complaints_);
    if (kind == KeyKind::length) return read_length(setting.value, setting.key, kAny, complaints_);
    if (kind == KeyKind::angle) return read_angle(setting.value, setting.key, kAny, complaints_);
    return read_plain_number(setting.value, setting.key, kAny, complaints_);
  }

  void splice(const ParsedSetting& setting, std::size_t begin, std::size_t end,
              const std::string& spelled) {
    text_.replace(begin, end - begin, spelled);
    Node before = std::move(document_);
    auto after = parse_document(path_, text_);
    // What we wrote ourselves must read back, and read as the same file but for that one value.
    AXLEWRIGHT_INVARIANT(after.has_value());
    document_ = std::move(*after);
    set_unit(document_, unit_of(document_));
    const Node* written = find_value(document_, setting);
    AXLEWRIGHT_INVARIANT(written != nullptr);
    *const_cast<Node*>(find_value(before, setting)) = *written;
    AXLEWRIGHT_INVARIANT(same_content(before, document_));
  }

  void complain_of_absence(const ParsedSetting& setting) {
    const Node* section = find(document_, setting.section);
    const Node* entry =
        section != nullptr && !setting.name.empty() ? find(*section, setting.name) : section;
    const bool entry_is_here = entry != nullptr && !setting.name.empty();
    const std::string other = other_side(setting.name);
    const Node* mirrored = section != nullptr ? find(*section, other) : nullptr;
    if (entry_is_here) {
      complaints_.error(setting.target,
                        fmt::format("'{}' is not written in {}", setting.target_words, path_),
                        "add the key to the file by hand; then it can be set");
    } else if (mirrored != nullptr && find(*mirrored, "mirror") != nullptr) {
      complaints_.error(setting.target,
                        fmt::format("'{}' is made by the mirror of '{}'", setting.name, other),
                        fmt::format("set '{}': the mirror follows", other));
    } else {
      complain_of_layer(setting, section);
    }
  }

  void complain_of_layer(const ParsedSetting& setting, const Node* section) {
    const std::string home = file_with(setting);
    const Node* below = find(document_, "based_on");
    if (!home.empty()) {
      complaints_.error(
          setting.target,
          fmt::format("'{}' is not written in {} but in {}", setting.target_words, path_, home),
          fmt::format("set it in {}, or {}", home, write_again(setting)));
    } else if (below != nullptr && !below->items.empty()) {
      std::vector<std::string> layers;
      for (const Node& layer : below->items) layers.push_back(path_from(path_, layer.text));
      complaints_.error(setting.target,
                        fmt::format("'{}' is not written in {}", setting.target_words, path_),
                        fmt::format("if a layer gives it, set it there ({}), or {}", one_of(layers),
                                    write_again(setting)));
    } else {
      const std::vector<std::string> names =
          section != nullptr ? keys(*section) : std::vector<std::string>();
      complaints_.error(setting.target,
                        fmt::format("'{}' is not written in {}", setting.target_words, path_),
                        fix_for_name(setting.name, names, "name an entry that the file gives"));
    }
  }

  /// What a file above the layer may do instead: its own entry replaces that of the layer.
  std::string write_again(const ParsedSetting& setting) const {
    if (setting.name.empty()) return fmt::format("write the key again, in {}", path_);
    return fmt::format("write '{}.{}' again in {}, the whole entry: there it can be set",
                       setting.section, setting.name, path_);
  }

  /// The layer that gives the value, if it can be told.
  std::string file_with(const ParsedSetting& setting) {
    if (!text_of_) return {};
    Complaints unheard(sources_);
    const auto layered = read_layers(
        path_,
        [&](const std::string& path) {
          return path == path_ ? tl::expected<std::string, std::string>(text_) : text_of_(path);
        },
        sources_, unheard);
    const Node* value = layered ? find_value(layered->root, setting) : nullptr;
    return value != nullptr && value->place.file != path_ ? value->place.file : std::string();
  }

  std::string text_;
  std::string path_;
  const TextOf& text_of_;
  Sources& sources_;
  Complaints& complaints_;
  std::optional<BareUnit> unit_;
  Node document_;
};

/// The file of the layers in which a setting's value is written; the top one where none has it.
std::string home_of(const Setting& setting, int line, const std::string& path,
                    const Layered& layered, Sources& sources) {
  Complaints unheard(sources);
  const auto parsed = parse_setting(setting, line, layered.unit, unheard);
  if (!parsed) return path;
  if (const Node* value = find_value(layered.root, *parsed)) return value->place.file;
  // Where the entry stands that lacks the value, or the one that it is the mirror of, it can be said what to do.
  const Node* section = find(layered.root, parsed->section);
  if (section == nullptr || parsed->name.empty()) return path;
  for (const std::string& name : {parsed->name, other_side(parsed->name)}) {
    if (const Node* entry = find(*section, name)) return entry->place.file;
  }
  return path;
}

}  // namespace

Result<std::string> edit_text(const std::string& text, const std::string& path,
                              const std::vector<Setting>& settings, const TextOf& text_of) {
  Sources sources;
  sources.add(path, text);
  add_settings_source(settings, sources);
  Complaints complaints(sources);
  Editor editor(text, path, text_of, sources, complaints);
  if (editor.parse()) {
    for (std::size_t i = 0; i < settings.size(); ++i)
      editor.apply(settings[i], static_cast<int>(i) + 1);
  }
  if (complaints.has_errors()) return tl::unexpected<std::vector<Fault>>(complaints.sorted());
  return editor.text();
}

Result<std::vector<EditedFile>> edit_files(const std::string& path,
                                           const std::vector<Setting>& settings,
                                           const TextOf& text_of) {
  Sources sources;
  Complaints complaints(sources);
  const auto layered = read_layers(path, text_of, sources, complaints);
  if (!layered || complaints.has_errors()) return tl::unexpected(complaints.sorted());
  add_settings_source(settings, sources);
  std::vector<EditedFile> edited;
  std::vector<Editor> editors;
  for (std::size_t i = 0; i < settings.size(); ++i) {
    const int line = static_cast<int>(i) + 1;
    const std::string home = home_of(settings[i], line, path, *layered, sources);
    std::size_t k = 0;
    while (k < edited.size() && edited[k].file != home) ++k;
    if (k == edited.size()) {
      const auto text = text_of(home);
      AXLEWRIGHT_INVARIANT(text.has_value());  // it was just read
      edited.push_back({home, *text, *text});
      editors.emplace_back(*text, home, text_of, sources, complaints, layered->unit);
      const bool parsed = editors.back().parse();
      AXLEWRIGHT_INVARIANT(parsed);
    }
    editors[k].apply(settings[i], line);
    edited[k].after = editors[k].text();
  }
  if (complaints.has_errors()) return tl::unexpected(complaints.sorted());
  return edited;
}

}  // namespace axlewright
