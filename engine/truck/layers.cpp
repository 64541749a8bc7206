#include "engine/truck/layers.h"

#include <algorithm>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "engine/base/did_you_mean.h"
#include "engine/truck/merge.h"
#include "engine/truck/paths.h"
#include "engine/truck/sections.h"
#include "engine/truck/value.h"

namespace axlewright {

namespace {

constexpr std::size_t kMostFiles = 64;

TextPlace start_of(const std::string& file) {
  return {file, 1, 1, 1};
}

/// What a file begins with, before its sections.
const std::vector<std::string>& head_keys() {
  static const std::vector<std::string> keys{"format", "units", "name", "based_on", "remove"};
  return keys;
}

bool is_in(const std::string& name, const std::vector<std::string>& names) {
  return std::find(names.begin(), names.end(), name) != names.end();
}

void set_unit(Node& node, BareUnit unit) {
  node.unit = unit;
  for (Node& item : node.items) set_unit(item, unit);
  for (Entry& entry : node.entries) set_unit(entry.value, unit);
}

/// Reads files depth first: a file's layers stand below it, left to right.
class LayerReader {
 public:
  LayerReader(const TextOf& text_of, Sources& sources, Complaints& complaints)
      : text_of_(text_of), sources_(sources), complaints_(complaints) {}

  /// `named_at`: what names the file; the file itself if nothing does.
  void read(const std::string& path, const TextPlace& named_at) {
    if (std::find(open_.begin(), open_.end(), path) != open_.end()) {
      complain_of_circle(path, named_at);
      return;
    }
    // Reached a second time, over another layer: it counts once, where it stands first.
    if (std::find(seen_.begin(), seen_.end(), path) != seen_.end()) return;
    if (seen_.size() >= kMostFiles) {
      stop(named_at, "more than 64 files are stacked", "merge some of the layers");
      return;
    }
    seen_.push_back(path);
    open_.push_back(path);
    read_new(path, named_at);
    open_.pop_back();
  }

  bool stopped() const { return stopped_; }
  bool has_unknown_sections() const { return unknown_sections_; }
  const std::vector<Layer>& layers() const { return layers_; }

 private:
  void stop(const TextPlace& place, std::string what, std::string fix) {
    complaints_.error(place, std::move(what), std::move(fix));
    stopped_ = true;
  }

  void read_new(const std::string& path, const TextPlace& named_at) {
    const auto text = text_of_(path);
    if (!text) {
      stop(named_at, fmt::format("'{}' cannot be read: {}", path, text.error()),
           named_at.line == 0
               ? "check the path"
               : "check the path; it counts from the folder of the file that names it");
      return;
    }
    sources_.add(path, *text);
    auto document = parse_document(path, *text);
    if (!document) {
      const Fault& bad = document.error();
      stop({path, bad.line, bad.column, bad.length}, bad.what, bad.fix);
      return;
    }
    read_head(path, std::move(*document));
  }

  void read_head(const std::string& path, Node document) {
    Layer layer;
    layer.file = path;
    mend_names(document);
    check_format(path, document);
    layer.unit = read_unit(path, document);
    set_unit(document, layer.unit);
    layer.remove = read_list(document, "remove", "remove = [\"parts.track_bar\"]");
    for (const Node& below : read_list(document, "based_on", "based_on = [\"platform.toml\"]")) {
      read(path_from(path, below.text), below.place);
    }
    if (const Node* name = find(document, "name")) {
      layer.name = read_text(*name, "name", complaints_).value_or("");
    }
    take_sections(path, std::move(document), layer);
    layers_.push_back(std::move(layer));
  }

  void check_format(const std::string& path, const Node& document) {
    const Node* format = find(document, "format");
    if (format == nullptr) {
      complaints_.error(start_of(path), "'format' is missing", "begin the file with format = 1");
    } else if (format->kind != NodeKind::number || format->number != 1) {
      stop(format->place, "this format is not known here",
           "write format = 1, or use a newer program");
    }
  }

  BareUnit read_unit(const std::string& path, const Node& document) {
    const Node* units = find(document, "units");
    if (units == nullptr) {
      complaints_.error(start_of(path), "'units' is missing",
                        "write units = \"mm\" or units = \"inch\" after the format");
      return BareUnit::unknown;
    }
    const std::string word = units->kind == NodeKind::text ? units->text : "";
    if (word == "mm") return BareUnit::mm;
    if (word == "inch") return BareUnit::inch;
    complaints_.error(units->place, "these units are not known",
                      "write units = \"mm\" or units = \"inch\"");
    return BareUnit::unknown;
  }

  /// The texts of a list; what is no text is complained of and left out.
  std::vector<Node> read_list(const Node& document, const std::string& key,
                              const std::string& form) {
    std::vector<Node> texts;
    const Node* list = find(document, key);
    if (list == nullptr) return texts;
    if (list->kind != NodeKind::array) {
      complaints_.error(list->place,
                        fmt::format("'{}' is {} where a list belongs", key, kind_words(*list)),
                        "write " + form);
      return texts;
    }
    for (const Node& item : list->items) {
      if (read_text(item, key, complaints_)) texts.push_back(item);
    }
    return texts;
  }

  /// Complains of misspelt names, and takes each for the one that was meant, so that what it holds is not missed elsewhere.
  void mend_names(Node& document) {
    std::vector<std::string> known = known_sections();
    known.insert(known.end(), head_keys().begin(), head_keys().end());
    std::vector<Entry> entries = std::move(document.entries);
    document.entries.clear();
    for (Entry& entry : entries) {
      if (!is_in(entry.key, known)) entry.key = meant_by(entry, known);
      if (!entry.key.empty()) add_entry(document, std::move(entry));
    }
  }

  /// What a name that nothing knows most likely means; empty if that cannot be told.
  std::string meant_by(const Entry& entry, const std::vector<std::string>& known) {
    // The one name that is far from its plural.
    std::string meant = entry.key == "body" ? "bodies" : did_you_mean(entry.key, known);
    complaints_.error(entry.key_place, fmt::format("a truck file has no '{}'", entry.key),
                      meant.empty() ? "its sections are listed in docs/truck-file.md"
                                    : fmt::format("did you mean '{}'?", meant));
    const bool is_section = entry.value.kind == NodeKind::table;
    if (!meant.empty() && is_section != is_in(meant, head_keys())) return meant;
    unknown_sections_ = unknown_sections_ || is_section;
    return {};
  }

  /// Of two sections of one name, one of them misspelt, the entries count together.
  static void add_entry(Node& document, Entry entry) {
    Node* same = find(document, entry.key);
    if (same == nullptr) {
      document.entries.push_back(std::move(entry));
    } else {
      for (Entry& more : entry.value.entries) same->entries.push_back(std::move(more));
    }
  }

  void take_sections(const std::string& path, Node document, Layer& layer) {
    for (Entry& entry : document.entries) {
      if (is_in(entry.key, head_keys())) continue;
      if (entry.value.kind == NodeKind::table) {
        layer.sections.entries.push_back(std::move(entry));
        continue;
      }
      unknown_sections_ = true;
      complaints_.error(
          entry.value.place,
          fmt::format("'{}' is {} where a section belongs", entry.key, kind_words(entry.value)),
          fmt::format("write [{}] and its entries below", entry.key));
    }
    layer.sections.place = start_of(path);
  }

  void complain_of_circle(const std::string& path, const TextPlace& named_at) {
    std::string way;
    const auto begin = std::find(open_.begin(), open_.end(), path);
    for (auto file = begin; file != open_.end(); ++file) way += *file + " -> ";
    stop(named_at, fmt::format("'based_on' goes in a circle: {}{}", way, path),
         "take this file out of the list");
  }

  const TextOf& text_of_;
  Sources& sources_;
  Complaints& complaints_;
  std::vector<std::string> open_, seen_;
  std::vector<Layer> layers_;
  bool stopped_ = false, unknown_sections_ = false;
};

/// What a kit has on top: a whole truck would put its own platform over the one at hand.
void check_kit(const std::string& kit, const Layer& layer, Complaints& complaints) {
  const Node* truck = find(layer.sections, "truck");
  const Node* wheelbase = truck == nullptr ? nullptr : find(*truck, "wheelbase");
  if (wheelbase == nullptr) return;
  complaints.error(
      wheelbase->place,
      fmt::format("this makes '{}' a whole truck, no kit: it gives the wheelbase", kit),
      "put on top only what is bolted on to a platform, without the platform below it");
}

std::string name_of_kit(const std::string& kit, const std::vector<Layer>& layers) {
  const auto named = std::find_if(layers.begin(), layers.end(),
                                  [&](const Layer& layer) { return layer.file == kit; });
  return named == layers.end() || named->name.empty() ? stem_of(kit) : named->name;
}

}  // namespace

std::optional<Layered> read_layers(const std::string& path, const TextOf& text_of, Sources& sources,
                                   Complaints& complaints, const std::vector<std::string>& kits) {
  LayerReader reader(text_of, sources, complaints);
  reader.read(path, {path, 0, 0, 1});
  const std::size_t own = reader.layers().size();
  for (const std::string& kit : kits) {
    const std::size_t below = reader.layers().size();
    if (!reader.stopped()) reader.read(kit, {kit, 0, 0, 1});
    for (std::size_t k = below; k < reader.layers().size(); ++k)
      check_kit(kit, reader.layers()[k], complaints);
  }
  if (reader.stopped()) return std::nullopt;
  const std::vector<Layer>& layers = reader.layers();
  Layered layered;
  layered.root = merge_layers(layers, complaints);
  layered.unit = layers[own - 1].unit;
  layered.unknown_sections = reader.has_unknown_sections();
  layered.head = start_of(path);
  for (std::size_t k = 0; k < own; ++k) {
    if (!layers[k].name.empty()) layered.name = layers[k].name;
  }
  if (layered.name.empty()) layered.name = stem_of(path);
  for (const std::string& kit : kits) layered.kits.push_back(name_of_kit(kit, layers));
  return layered;
}

}  // namespace axlewright
