#include <atomic>
#include <thread>

#include <gtest/gtest.h>

#include <fcntl.h>
#include <sys/socket.h>
#include <sys/stat.h>
#include <sys/un.h>
#include <unistd.h>

#include "tests/serve/served_folder.h"

// Names in the folder that are no plain files: links, pipes, devices.

namespace axlewright::test {
namespace {

namespace fs = std::filesystem;

/// Lets two names change places, as fast as the system can.
class Swapper {
 public:
  Swapper(const fs::path& one, const fs::path& other)
      : thread_([this, one, other] {
          while (!done_)
            ::renameat2(AT_FDCWD, one.c_str(), AT_FDCWD, other.c_str(), RENAME_EXCHANGE);
        }) {}
  ~Swapper() {
    done_ = true;
    thread_.join();
  }

 private:
  std::atomic<bool> done_ = false;
  std::thread thread_;
};

class Links : public ServedFolder {
 protected:
  /// Of a path that is ours and leads out by turns.
  void expect_never_led_out(const std::string& path, const fs::path& swapped) const {
    const Swapper swapper(root_ / "spare", swapped);
    int inside = 0, refused = 0;
    for (int k = 0; k < 2000; ++k) {
      const Reply got = get("/files/" + path);
      EXPECT_EQ(got.body.find("Secret"), std::string::npos);
      (got.status == 200 ? inside : refused) += 1;
      if (k % 10 == 0) {
        EXPECT_NE(save(path, "changed", version_of_secret_).status, 200);
      }
    }
    // Both were met, else nothing was tried.
    EXPECT_GT(inside, 0);
    EXPECT_GT(refused, 0);
  }

  void expect_refused(const std::string& path, const std::string& words) const {
    SCOPED_TRACE(path);
    const Reply got = get("/files/" + path);
    EXPECT_EQ(got.status, 403);
    EXPECT_EQ(got.error(), words);
    // Neither as a new file nor in place of what the link leads to.
    for (const std::string& version : {std::string(), version_of_secret_}) {
      const Reply saved = save(path, "changed", version);
      EXPECT_EQ(saved.status, 403);
      EXPECT_EQ(saved.error(), words);
    }
    const Reply listed = get("/files");
    EXPECT_EQ(listed.status, 200);
    EXPECT_EQ(listed.body.find("Secret"), std::string::npos);
    EXPECT_EQ(listed.body.find(version_of_secret_), std::string::npos);
    expect_nothing_happened();
  }

  /// As if the secret were one of ours.
  std::string version_of_text(const std::string& text) const {
    write(shop_ / "for-its-version.toml", text);
    std::string version = this->version("for-its-version.toml");
    fs::remove(shop_ / "for-its-version.toml");
    return version;
  }

  const std::string version_of_secret_ = version_of_text(kSecret);
  static constexpr const char* kLink = "it is a symbolic link, and links are not followed";
  static constexpr const char* kNotPlain = "it is not a plain file";
};

TEST_F(Links, ALinkOutOfTheFolderIsRefused) {
  fs::create_symlink(secret_, shop_ / "link.toml");
  fs::create_symlink("../outside/secret.toml", shop_ / "relative.toml");
  expect_refused("link.toml", kLink);
  expect_refused("relative.toml", kLink);
}

TEST_F(Links, ALinkedFolderIsRefused) {
  fs::create_directory_symlink(secret_.parent_path(), shop_ / "linked");
  fs::create_directory_symlink("/", shop_ / "kits" / "root");
  expect_refused("linked/secret.toml", kLink);
  expect_refused("linked/new.toml", kLink);
  expect_refused("kits/root" + secret_.string(), kLink);
}

TEST_F(Links, ALinkWithinTheFolderIsRefusedToo) {
  fs::create_symlink("small.toml", shop_ / "same.toml");
  expect_refused("same.toml", kLink);
}

TEST_F(Links, LinksToNothingAndToThemselvesAreRefused) {
  fs::create_symlink("nothing.toml", shop_ / "nowhere.toml");
  fs::create_symlink("round.toml", shop_ / "round.toml");
  fs::create_directory_symlink(".", shop_ / "again");
  expect_refused("nowhere.toml", kLink);
  expect_refused("round.toml", kLink);
  expect_refused("again/small.toml", kLink);
  EXPECT_FALSE(fs::exists(shop_ / "nothing.toml"));
}

TEST_F(Links, ALinkToADeviceIsRefused) {
  fs::create_symlink("/dev/zero", shop_ / "zero.toml");
  expect_refused("zero.toml", kLink);
}

TEST_F(Links, ALinkMadeAfterTheListIsRefused) {
  const auto files = get("/files").json().at("files");
  ASSERT_EQ(files[1].at("path"), "small.toml");
  const std::string version = files[1].at("version");
  fs::remove(shop_ / "small.toml");
  fs::create_symlink(secret_, shop_ / "small.toml");
  EXPECT_EQ(get("/files/small.toml").status, 403);
  EXPECT_EQ(save("small.toml", "changed", version).status, 403);
  EXPECT_EQ(save("small.toml", "changed", version_of_secret_).status, 403);
  EXPECT_EQ(read(secret_), kSecret);
}

TEST_F(Links, AFolderThatBecomesALinkIsRefused) {
  const std::string version = this->version("kits/kit.toml");
  fs::rename(shop_ / "kits", shop_ / "moved");
  fs::create_directory_symlink(secret_.parent_path(), shop_ / "kits");
  EXPECT_EQ(get("/files/kits/secret.toml").status, 403);
  EXPECT_EQ(save("kits/secret.toml", "changed", version_of_secret_).status, 403);
  EXPECT_EQ(save("kits/kit.toml", "changed", version).status, 403);
  EXPECT_EQ(save("kits/new.toml", "changed", "").status, 403);
  EXPECT_EQ(read(secret_), kSecret);
  EXPECT_EQ(std::distance(fs::directory_iterator(secret_.parent_path()), {}), 1);
}

TEST_F(Links, AFolderThatKeepsChangingIntoALinkNeverLeadsOut) {
  fs::create_directory(shop_ / "door");
  write(shop_ / "door" / "secret.toml", kSmall);
  fs::create_directory_symlink(secret_.parent_path(), root_ / "spare");
  expect_never_led_out("door/secret.toml", shop_ / "door");
  expect_nothing_happened();
}

TEST_F(Links, AFileThatKeepsChangingIntoALinkNeverLeadsOut) {
  write(shop_ / "door.toml", kSmall);
  fs::create_symlink(secret_, root_ / "spare");
  expect_never_led_out("door.toml", shop_ / "door.toml");
  expect_nothing_happened();
}

TEST_F(Links, APipeIsRefusedAtOnce) {
  // Opened as a file is, it would wait for somebody to write.
  ASSERT_EQ(::mkfifo((shop_ / "pipe.toml").c_str(), 0600), 0);
  expect_refused("pipe.toml", kNotPlain);
}

TEST_F(Links, ASocketIsRefused) {
  const int socket = ::socket(AF_UNIX, SOCK_STREAM, 0);
  sockaddr_un name{};
  name.sun_family = AF_UNIX;
  (shop_ / "socket.toml").string().copy(name.sun_path, sizeof name.sun_path - 1);
  ASSERT_EQ(::bind(socket, reinterpret_cast<const sockaddr*>(&name), sizeof name), 0);
  expect_refused("socket.toml", kNotPlain);
  ::close(socket);
}

TEST_F(Links, ADeviceIsRefused) {
  constexpr dev_t kZero = 0x105;  // major 1, minor 5: /dev/zero
  if (::mknod((shop_ / "zero.toml").c_str(), S_IFCHR | 0666, kZero) != 0)
    GTEST_SKIP() << "only root makes devices";
  expect_refused("zero.toml", kNotPlain);
}

TEST_F(Links, AFolderNamedLikeATruckIsRefused) {
  fs::create_directory(shop_ / "folder.toml");
  expect_refused("folder.toml", "it is a folder, not a file");
}

TEST_F(Links, TheFolderItselfMayBeReachedThroughALink) {
  fs::create_directory_symlink(shop_, root_ / "by-link");
  const auto folder = TruckFolder::open((root_ / "by-link").string());
  ASSERT_TRUE(folder.has_value());
  EXPECT_EQ(folder->name(), "shop");
  EXPECT_EQ(folder->list()->size(), 2u);
}

TEST_F(Links, AFolderThatIsMovedAwayIsStillTheOneServed) {
  fs::rename(shop_, root_ / "moved");
  fs::create_directory_symlink(secret_.parent_path(), shop_);
  EXPECT_EQ(get("/files/secret.toml").status, 404);
  EXPECT_EQ(get("/files/small.toml").json().value("text", ""), kSmall);
}

}  // namespace
}  // namespace axlewright::test
