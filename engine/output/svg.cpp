#include "engine/output/svg.h"

#include <cmath>
#include <numbers>

#include <fmt/format.h>

#include "engine/base/units.h"

namespace axlewright {
namespace {

// In line widths of the thin line, ISO 128-2: dash 12, gap 3, long dash 24, dot at most half.
constexpr double kDash = 12, kGap = 3, kLongDash = 24, kDot = 0.5;
// A font's size for letters of a height: capitals take about 0.73 of it in the usual plain faces.
constexpr double kFontPerLetter = 1 / 0.73;

const char* const kFaint = "#9a9a9a";

std::string escaped(const std::string& text) {
  std::string out;
  for (const char c : text) {
    switch (c) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '"':
        out += "&quot;";
        break;
      default:
        out += c;
    }
  }
  return out;
}

/// At most three places, no trailing zeros, no negative zero.
std::string number(double value) {
  const double rounded = std::round(value * 1000) / 1000;
  return fmt::format("{:g}", rounded == 0 ? 0.0 : rounded);
}

class SvgWriter {
 public:
  explicit SvgWriter(const Json& drawing)
      : drawing_(drawing), height_(drawing["paper_mm"][1].get<double>()) {}

  std::string write() {
    const std::string width = number(drawing_["paper_mm"][0].get<double>());
    const std::string height = number(height_);
    out_ += fmt::format(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{0}mm\" height=\"{1}mm\" "
        "viewBox=\"0 0 {0} {1}\">\n<title>{2}</title>\n"
        "<rect width=\"{0}\" height=\"{1}\" fill=\"#fff\"/>\n",
        width, height, escaped(drawing_["words"].get<std::string>()));
    for (const Json& layer : drawing_["layers"]) write_layer(layer);
    return out_ + "</svg>\n";
  }

 private:
  void write_layer(const Json& layer) {
    const std::string name = layer["name"].get<std::string>();
    std::string inside;
    for (const Json& item : drawing_["items"]) {
      if (item["layer"] == name) inside += element(item);
    }
    if (inside.empty()) return;
    out_ += fmt::format("<g id=\"{}\" {}>\n{}</g>\n", name, style(layer), inside);
  }

  static std::string style(const Json& layer) {
    const std::string name = layer["name"].get<std::string>();
    if (name == "text")
      return "fill=\"#000\" stroke=\"none\" font-family=\"DejaVu Sans, Arial, sans-serif\"";
    if (name == "area") return "fill=\"#fff\" stroke=\"none\"";
    const double weight = layer["weight_mm"].get<double>();
    std::string style =
        fmt::format("fill=\"none\" stroke=\"{}\" stroke-width=\"{}\" stroke-linejoin=\"round\"",
                    name == "beside" ? kFaint : "#000", number(weight));
    const std::string dashes = dash_array(layer["line"].get<std::string>(), weight);
    if (!dashes.empty()) style += fmt::format(" stroke-dasharray=\"{}\"", dashes);
    return style;
  }

  static std::string dash_array(const std::string& line, double weight) {
    const std::string dash = number(kDash * weight), gap = number(kGap * weight);
    const std::string long_dash = number(kLongDash * weight), dot = number(kDot * weight);
    if (line == "dashed") return dash + " " + gap;
    if (line == "chain") return long_dash + " " + gap + " " + dot + " " + gap;
    if (line == "double dot")
      return long_dash + " " + gap + " " + dot + " " + gap + " " + dot + " " + gap;
    return {};
  }

  std::string element(const Json& item) const {
    if (item.contains("line")) return fmt::format("<path d=\"{}\"/>\n", path(item["line"]));
    if (item.contains("area")) return fmt::format("<path d=\"{}Z\"/>\n", path(item["area"]));
    if (item.contains("arc")) return arc(item["arc"]);
    return text(item["text"]);
  }

  std::string place(double x, double y) const { return number(x) + " " + number(height_ - y); }

  std::string path(const Json& numbers) const {
    std::string d;
    for (std::size_t k = 0; k + 1 < numbers.size(); k += 2)
      d += (k == 0 ? "M" : "L") + place(numbers[k].get<double>(), numbers[k + 1].get<double>());
    return d;
  }

  std::string arc(const Json& arc) const {
    const double x = arc[0].get<double>(), y = arc[1].get<double>(), radius = arc[2].get<double>();
    const double from = from_deg(arc[3].get<double>()), to = from_deg(arc[4].get<double>());
    constexpr double kNearlyWhole = 2 * std::numbers::pi - 1e-3;
    if (to - from > kNearlyWhole) {
      return fmt::format("<circle cx=\"{}\" cy=\"{}\" r=\"{}\"/>\n", number(x), number(height_ - y),
                         number(radius));
    }
    // Anticlockwise on the paper is sweep 0.
    return fmt::format("<path d=\"M{}A{} {} 0 {} 0 {}\"/>\n",
                       place(x + radius * std::cos(from), y + radius * std::sin(from)),
                       number(radius), number(radius), to - from > std::numbers::pi ? 1 : 0,
                       place(x + radius * std::cos(to), y + radius * std::sin(to)));
  }

  std::string text(const Json& text) const {
    const double x = text["at"][0].get<double>(), y = text["at"][1].get<double>();
    const double turn = text["turn_deg"].get<double>();
    std::string where = fmt::format("x=\"{}\" y=\"{}\"", number(x), number(height_ - y));
    if (turn != 0) where += fmt::format(" transform=\"rotate({} {})\"", number(-turn), place(x, y));
    return fmt::format("<text {} font-size=\"{}\" text-anchor=\"{}\">{}</text>\n", where,
                       number(kFontPerLetter * text["height_mm"].get<double>()),
                       text["anchor"].get<std::string>(), escaped(text["text"].get<std::string>()));
  }

  const Json& drawing_;
  double height_;
  std::string out_;
};

}  // namespace

std::string svg_of(const Json& drawing) {
  return SvgWriter(drawing).write();
}

}  // namespace axlewright
