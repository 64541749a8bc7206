#include <atomic>
#include <csignal>
#include <thread>
#include <vector>

#include <gtest/gtest.h>

#include <sys/inotify.h>
#include <sys/mount.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

#include <fmt/format.h>

#include "tests/serve/privileges.h"
#include "tests/serve/served_folder.h"

// Saving: whole or not at all, over the text that the writer saw or not at all.

namespace axlewright::test {
namespace {

namespace fs = std::filesystem;

class Save : public ServedFolder {
 protected:
  /// The answer that shows what is there instead.
  void expect_conflict(const Reply& reply, const std::string& present) const {
    EXPECT_EQ(reply.status, 409);
    EXPECT_EQ(reply.json().value("text", "absent"), present);
    EXPECT_FALSE(reply.error().empty());
    expect_no_leftovers();
  }

  fs::path small() const { return shop_ / "small.toml"; }
};

TEST_F(Save, PutsTheTextInPlaceOfTheOneThatWasRead) {
  const Reply reply = save("small.toml", "name = \"New\"\n", version("small.toml"));
  EXPECT_EQ(reply.status, 200);
  EXPECT_EQ(read(small()), "name = \"New\"\n");
  EXPECT_EQ(reply.json().at("version"), version("small.toml"));
  expect_no_leftovers();
}

TEST_F(Save, GoesOnFromTheVersionItGave) {
  std::string version = this->version("small.toml");
  for (const char* text : {"one", "two", "three"}) {
    const Reply reply = save("small.toml", text, version);
    ASSERT_EQ(reply.status, 200);
    version = reply.json().at("version");
  }
  EXPECT_EQ(read(small()), "three");
}

TEST_F(Save, KeepsEveryByte) {
  // Line ends of both kinds, a byte order mark, no line end at the end, a zero byte, characters beyond the first plane.
  const std::string text("\xEF\xBB\xBF# \xF0\x9F\x9B\xBB\r\nx = 1\n\ty = \"\\u00e4\"\0 z", 33);
  ASSERT_EQ(save("small.toml", text, version("small.toml")).status, 200);
  EXPECT_EQ(read(small()), text);
  EXPECT_EQ(get("/files/small.toml").json().at("text"), text);
}

TEST_F(Save, TakesWorkInProgress) {
  // Faults are the engine's to tell; what was typed must not be lost over them.
  for (const char* text : {"", "this is no truck", "[points\n"}) {
    ASSERT_EQ(save("small.toml", text, version("small.toml")).status, 200);
    EXPECT_EQ(read(small()), text);
  }
}

TEST_F(Save, KeepsThePermissions) {
  ASSERT_EQ(::chmod(small().c_str(), 0640), 0);
  ASSERT_EQ(save("small.toml", "changed", version("small.toml")).status, 200);
  struct stat now {};
  ASSERT_EQ(::stat(small().c_str(), &now), 0);
  EXPECT_EQ(now.st_mode & 07777, 0640u);
}

TEST_F(Save, MakesANewFile) {
  const mode_t mask = ::umask(027);
  const Reply reply = save("kits/new%20one.toml", "x = 1\n", "");
  ::umask(mask);
  EXPECT_EQ(reply.status, 200);
  EXPECT_EQ(read(shop_ / "kits" / "new one.toml"), "x = 1\n");
  struct stat now {};
  ASSERT_EQ(::stat((shop_ / "kits" / "new one.toml").c_str(), &now), 0);
  EXPECT_EQ(now.st_mode & 07777, 0640u);
  EXPECT_EQ(reply.json().at("version"), version("kits/new%20one.toml"));
}

TEST_F(Save, MakesNoFolder) {
  const Reply reply = save("no-such/new.toml", "x = 1\n", "");
  EXPECT_EQ(reply.status, 404);
  EXPECT_EQ(reply.error(), "there is no such folder");
  EXPECT_FALSE(fs::exists(shop_ / "no-such"));
}

TEST_F(Save, OverAFileThatChangedUnderneathIsAConflict) {
  const std::string seen = version("small.toml");
  write(small(), "theirs");
  const Reply reply = save("small.toml", "ours", seen);
  expect_conflict(reply, "theirs");
  EXPECT_EQ(read(small()), "theirs");
  // Whoever has seen theirs may then choose ours.
  EXPECT_EQ(save("small.toml", "ours", reply.json().at("version")).status, 200);
  EXPECT_EQ(read(small()), "ours");
}

TEST_F(Save, OverAFileThatIsGoneIsAConflict) {
  const std::string seen = version("small.toml");
  fs::remove(small());
  const Reply reply = save("small.toml", "ours", seen);
  expect_conflict(reply, "");
  EXPECT_EQ(reply.json().at("version"), "");
  EXPECT_FALSE(fs::exists(small()));
  EXPECT_EQ(save("small.toml", "ours", "").status, 200);
}

TEST_F(Save, OfANewFileOverOneThatIsThereIsAConflict) {
  expect_conflict(save("small.toml", "ours", ""), kSmall);
  EXPECT_EQ(read(small()), kSmall);
}

TEST_F(Save, OverAFileThatIsNoTextAnyMoreIsAConflict) {
  const std::string seen = version("small.toml");
  write(small(), "L\xE4nge");
  const Reply reply = save("small.toml", "ours", seen);
  EXPECT_EQ(reply.status, 409);
  EXPECT_EQ(reply.json().count("text"), 0u);
  EXPECT_EQ(read(small()), "L\xE4nge");
}

TEST_F(Save, OfTheVeryTextThatIsThereWritesNothing) {
  // As when an answer was lost and the page asks again.
  const std::string seen = version("small.toml");
  ASSERT_EQ(save("small.toml", "ours", seen).status, 200);
  const auto written = fs::last_write_time(small());
  const Reply again = save("small.toml", "ours", seen);
  EXPECT_EQ(again.status, 200);
  EXPECT_EQ(again.json().at("version"), version("small.toml"));
  EXPECT_EQ(fs::last_write_time(small()), written);
}

TEST_F(Save, OfWhatIsNoTextIsRefused) {
  const std::string head = R"({"version": ")" + version("small.toml") + R"(", "text": ")";
  for (const std::string& text :
       {std::string("L\xE4nge"), std::string("\xC0\xAE"), std::string("\xED\xA0\x80"),
        std::string("\xF4\x90\x80\x80"), std::string("cut \xF0\x9F"), std::string("\\ud800"),
        std::string("\\x41"), std::string("bare\nline end")}) {
    SCOPED_TRACE(text);
    const Reply reply = put("/files/small.toml", head + text + "\"}");
    EXPECT_EQ(reply.status, 400);
    EXPECT_NE(reply.error().find("UTF-8"), std::string::npos);
    expect_nothing_happened();
  }
}

TEST_F(Save, OfABodyThatSaysSomethingElseIsRefused) {
  for (const std::string& body :
       {std::string(), std::string("null"), std::string("[]"), std::string("\"text\""),
        std::string("{}"), std::string("{"), std::string(R"({"text": "x"})"),
        std::string(R"({"version": ""})"), std::string(R"({"text": 1, "version": ""})"),
        std::string(R"({"text": "x", "version": null})"),
        std::string(R"({"text": ["x"], "version": ""})"),
        std::string(R"({"text": "x", "version": ""} trailing)"), std::string(1000000, '['),
        std::string(R"({"text":)") + std::string(1000000, '[')}) {
    SCOPED_TRACE(body.substr(0, 40));
    EXPECT_EQ(put("/files/small.toml", body).status, 400);
    expect_nothing_happened();
  }
}

TEST_F(Save, OfATextThatIsTooLargeIsRefused) {
  const std::size_t most = std::size_t{1} << 20;
  EXPECT_EQ(save("large.toml", std::string(most + 1, '\n'), "").status, 413);
  EXPECT_FALSE(fs::exists(shop_ / "large.toml"));
  // The largest text fits, though each of its line ends takes two bytes on the way.
  EXPECT_EQ(save("large.toml", std::string(most - 1, '#') + '\n', "").status, 200);
  EXPECT_EQ(fs::file_size(shop_ / "large.toml"), most);
}

TEST_F(Save, OnlyOneOfManyWritersWins) {
  constexpr int kWriters = 12;
  const std::string seen = version("small.toml");
  std::atomic<int> ready = 0;
  std::vector<Reply> replies(kWriters);
  std::vector<std::thread> writers;
  writers.reserve(kWriters);
  for (int k = 0; k < kWriters; ++k) {
    writers.emplace_back([&, k] {
      for (++ready; ready < kWriters;) std::this_thread::yield();
      replies[static_cast<std::size_t>(k)] = save("small.toml", fmt::format("writer {}", k), seen);
    });
  }
  for (std::thread& writer : writers) writer.join();
  int won = 0;
  for (const Reply& reply : replies) {
    if (reply.status == 200) {
      ++won;
    } else {
      expect_conflict(reply, read(small()));
    }
  }
  EXPECT_EQ(won, 1);
}

TEST_F(Save, NothingThatWasSavedIsLost) {
  // Each writer adds its lines to what is there, and tries again after a conflict: in the end all lines stand there.
  constexpr int kWriters = 6, kLines = 15;
  ASSERT_EQ(save("all.toml", "", "").status, 200);
  std::atomic<int> conflicts = 0;
  std::vector<std::thread> writers;
  writers.reserve(kWriters);
  for (int k = 0; k < kWriters; ++k) {
    writers.emplace_back([&, k] {
      auto seen = get("/files/all.toml").json();
      for (int line = 0; line < kLines;) {
        const std::string text =
            seen.at("text").get<std::string>() + fmt::format("# {} {}\n", k, line);
        const Reply reply = save("all.toml", text, seen.at("version"));
        if (reply.status == 200) {
          seen = {{"text", text}, {"version", reply.json().at("version")}};
          ++line;
        } else {
          seen = reply.json();
          ++conflicts;
        }
      }
    });
  }
  for (std::thread& writer : writers) writer.join();
  const std::string text = read(shop_ / "all.toml");
  for (int k = 0; k < kWriters; ++k) {
    for (int line = 0; line < kLines; ++line)
      EXPECT_NE(text.find(fmt::format("# {} {}\n", k, line)), std::string::npos);
  }
  EXPECT_EQ(std::count(text.begin(), text.end(), '\n'), kWriters * kLines);
  EXPECT_GT(conflicts, 0);
  expect_no_leftovers();
}

TEST_F(Save, ThatIsOvertakenWhileItIsWrittenIsAConflict) {
  // Another program changes the file as soon as ours appears beside it, before that has its name. It may come too late, and
  // then writes over ours; coming in time, it must not be written over.
  int in_time = 0;
  for (int k = 0; k < 200 && in_time < 3; ++k) {
    const std::string theirs = fmt::format("theirs {}", k);
    const std::string ours = std::string(std::size_t{1} << 19, '#') + std::to_string(k);
    const std::string seen = version("small.toml");
    const int watch = ::inotify_init1(IN_CLOEXEC);
    ASSERT_GE(::inotify_add_watch(watch, shop_.c_str(), IN_CREATE), 0);
    std::thread other([&] {
      char event[4096];
      EXPECT_GT(::read(watch, event, sizeof event), 0);
      write(small(), theirs);
    });
    const Reply reply = save("small.toml", ours, seen);
    other.join();
    ::close(watch);
    if (reply.status == 409) {
      ++in_time;
      EXPECT_EQ(read(small()), theirs);
    }
  }
  EXPECT_EQ(in_time, 3);
  expect_no_leftovers();
}

TEST_F(Save, AReaderNeverSeesHalfAText) {
  const std::string even(300000, 'a'), odd(300000, 'b');
  ASSERT_EQ(save("large.toml", even, "").status, 200);
  std::atomic<bool> done = false;
  std::thread reader([&] {
    while (!done) {
      const std::string text = read(shop_ / "large.toml");
      EXPECT_TRUE(text == even || text == odd) << text.size();
    }
  });
  std::string version = this->version("large.toml");
  for (int k = 0; k < 20; ++k) {
    const Reply reply = save("large.toml", k % 2 == 0 ? odd : even, version);
    EXPECT_EQ(reply.status, 200);
    version = reply.json().value("version", "");
  }
  done = true;
  reader.join();
}

TEST_F(Save, IntoAFolderThatIsClosedToWritingIsRefused) {
  ASSERT_EQ(::chmod(shop_.c_str(), 0555), 0);
  {
    const WithoutPrivileges stranger;
    const std::string seen = version("small.toml");
    for (const Reply& reply :
         {save("small.toml", "changed", seen), save("new.toml", "changed", "")}) {
      EXPECT_EQ(reply.status, 403);
      EXPECT_EQ(reply.error(), "you are not allowed to write there");
    }
  }
  ASSERT_EQ(::chmod(shop_.c_str(), 0755), 0);
  expect_nothing_happened();
}

TEST_F(Save, OverAFileThatIsClosedToWritingIsRefused) {
  // Renaming needs the folder's permission alone; the file's own counts all the same.
  ASSERT_EQ(::chmod(shop_.c_str(), 0777), 0);
  ASSERT_EQ(::chmod(small().c_str(), 0444), 0);
  {
    const WithoutPrivileges stranger;
    const Reply reply = save("small.toml", "changed", version("small.toml"));
    EXPECT_EQ(reply.status, 403);
    EXPECT_EQ(reply.error(), "you are not allowed to write there");
  }
  expect_nothing_happened();
}

TEST_F(Save, ThatTheSystemBreaksOffLeavesTheOldText) {
  const std::string seen = version("small.toml");
  rlimit before{};
  ASSERT_EQ(::getrlimit(RLIMIT_FSIZE, &before), 0);
  const auto handler = std::signal(SIGXFSZ, SIG_IGN);
  rlimit small_files = before;
  small_files.rlim_cur = 1000;
  ASSERT_EQ(::setrlimit(RLIMIT_FSIZE, &small_files), 0);
  const Reply reply = save("small.toml", std::string(5000, '#'), seen);
  ASSERT_EQ(::setrlimit(RLIMIT_FSIZE, &before), 0);
  std::signal(SIGXFSZ, handler);
  EXPECT_EQ(reply.status, 500);
  EXPECT_FALSE(reply.error().empty());
  expect_nothing_happened();
}

TEST_F(Save, OnAFullDiskIsSaidAndLeavesTheOldText) {
  // A disk of 64 KiB, under the folder "kits".
  const std::string disk = (shop_ / "kits").string();
  if (::mount("small-disk", disk.c_str(), "tmpfs", 0, "size=64k") != 0)
    GTEST_SKIP() << "only root mounts a disk";
  write(shop_ / "kits" / "kit.toml", kKit);
  const Reply over = save("kits/kit.toml", std::string(200000, '#'), version("kits/kit.toml"));
  const Reply fresh = save("kits/new.toml", std::string(200000, '#'), "");
  for (const Reply& reply : {over, fresh}) {
    EXPECT_EQ(reply.status, 507);
    EXPECT_EQ(reply.error(), "the disk is full");
  }
  EXPECT_FALSE(fs::exists(shop_ / "kits" / "new.toml"));
  expect_nothing_happened();
  stop();
  ASSERT_EQ(::umount(disk.c_str()), 0);
}

}  // namespace
}  // namespace axlewright::test
