#include "apps/serve/file_answers.h"

#include <utility>

#include <nlohmann/json.hpp>

#include "apps/serve/text_version.h"
#include "engine/base/utf8.h"

namespace axlewright {
namespace {

using Json = nlohmann::ordered_json;

int status_of(Obstacle obstacle) {
  switch (obstacle) {
    case Obstacle::missing:
      return 404;
    case Obstacle::forbidden:
    case Obstacle::not_plain:
      return 403;
    case Obstacle::too_large:
      return 413;
    case Obstacle::not_text:
      return 422;
    case Obstacle::disk_full:
      return 507;
    case Obstacle::too_many:
    case Obstacle::system:
      break;
  }
  return 500;
}

FileAnswer refused(const Refusal& refusal) {
  return error_answer(status_of(refusal.obstacle), refusal.words);
}

tl::expected<TruckPath, std::string> truck_path(std::string_view encoded) {
  return percent_decoded(encoded).and_then(
      [](const std::string& decoded) { return read_truck_path(decoded); });
}

std::string joined(const TruckPath& path) {
  std::string text;
  for (const std::string& folder : path.folders) text += folder + '/';
  return text + path.name;
}

/// What the folder holds now, so that the writer can choose.
FileAnswer conflict(const Conflict& conflict) {
  Json answer;
  if (!conflict.present) {
    answer["error"] = "the file is gone from the disk";
    answer["text"] = "";
    answer["version"] = kNoFile;
    return {409, answer.dump()};
  }
  answer["error"] = "the file on the disk is another one by now";
  // What is no text cannot be shown; saying so by an absent text beats a mangled one.
  if (is_utf8(*conflict.present)) answer["text"] = *conflict.present;
  answer["version"] = version_of(*conflict.present);
  return {409, answer.dump()};
}

bool is_text(const Json& body, const char* key) {
  const auto found = body.find(key);
  return found != body.end() && found->is_string();
}

}  // namespace

FileAnswer error_answer(int status, const std::string& words) {
  return {status, Json{{"error", words}}.dump()};
}

FileAnswer list_files(const TruckFolder& folder) {
  const auto listed = folder.list();
  if (!listed) return refused(listed.error());
  Json files = Json::array();
  for (const ListedFile& file : *listed) {
    if (file.wrong.empty()) {
      files.push_back({{"path", file.path}, {"size", file.size}, {"version", file.version}});
    } else {
      files.push_back({{"path", file.path}, {"error", file.wrong}});
    }
  }
  return {200, Json{{"folder", folder.name()}, {"files", std::move(files)}}.dump()};
}

FileAnswer read_truck_file(const TruckFolder& folder, std::string_view encoded_path) {
  const auto path = truck_path(encoded_path);
  if (!path) return error_answer(400, path.error());
  const auto text = folder.read(*path);
  if (!text) return refused(text.error());
  return {200,
          Json{{"path", joined(*path)}, {"text", *text}, {"version", version_of(*text)}}.dump()};
}

FileAnswer save_truck_file(TruckFolder& folder, std::string_view encoded_path,
                           const std::string& body) {
  const auto path = truck_path(encoded_path);
  if (!path) return error_answer(400, path.error());
  const Json asked = Json::parse(body, nullptr, /*allow_exceptions=*/false);
  if (!asked.is_object() || !is_text(asked, "text") || !is_text(asked, "version"))
    return error_answer(400, "the body has to be JSON in UTF-8: {\"text\": ..., \"version\": ...}");
  const auto version = folder.save(*path, asked["text"].get_ref<const std::string&>(),
                                   asked["version"].get_ref<const std::string&>());
  if (version) return {200, Json{{"version", *version}}.dump()};
  if (const auto* found = std::get_if<Conflict>(&version.error())) return conflict(*found);
  return refused(std::get<Refusal>(version.error()));
}

}  // namespace axlewright
