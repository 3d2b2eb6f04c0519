#include "render/output_file.h"

#include <cerrno>
#include <cstdio>
#include <filesystem>
#include <system_error>

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

namespace leat::render {

namespace {

std::string reason_of(int error) {
  return std::generic_category().message(error);
}

OutputProblem cannot_write(const std::string& path, int error) {
  return {"cannot-write", fmt::format("cannot write '{}': {}", path, reason_of(error)), ""};
}

OutputProblem exists(const std::string& path) {
  return {"exists", fmt::format("'{}' is there already", path), "--replace writes over it"};
}

/// A file being written beside its target; removed unless it took the target's place.
class TemporaryFile {
 public:
  explicit TemporaryFile(const std::filesystem::path& folder) {
    constexpr int attempts = 100;
    for (int attempt = 0; attempt < attempts && descriptor_ < 0; ++attempt) {
      path_ = (folder / fmt::format(".leat-{}-{}.part", getpid(), attempt)).string();
      descriptor_ = open(path_.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
      if (descriptor_ < 0 && errno != EEXIST) {
        break;
      }
    }
    error_ = descriptor_ < 0 ? errno : 0;
  }
  TemporaryFile(const TemporaryFile&) = delete;
  TemporaryFile& operator=(const TemporaryFile&) = delete;
  TemporaryFile(TemporaryFile&&) = delete;
  TemporaryFile& operator=(TemporaryFile&&) = delete;
  ~TemporaryFile() {
    if (descriptor_ >= 0) {
      close(descriptor_);
    }
    if (is_made_ && !is_placed_) {
      unlink(path_.c_str());
    }
  }

  /// Writes everything and waits for the disk; 0, or the error number.
  [[nodiscard]] int fill(std::string_view bytes) {
    if (error_ != 0) {
      return error_;
    }
    is_made_ = true;
    while (!bytes.empty()) {
      const ssize_t written = write(descriptor_, bytes.data(), bytes.size());
      if (written < 0 && errno != EINTR) {
        return errno;
      }
      if (written > 0) {
        bytes.remove_prefix(static_cast<std::size_t>(written));
      }
    }
    if (fsync(descriptor_) != 0) {
      return errno;
    }
    const int closed = close(descriptor_);
    descriptor_ = -1;
    return closed == 0 ? 0 : errno;
  }

  /// Takes over the permissions of the file it will replace.
  void take_permissions(mode_t mode) {
    if (descriptor_ >= 0) {
      // Best effort: on a file system without permissions there is nothing to keep.
      static_cast<void>(fchmod(descriptor_, mode & 07777U));
    }
  }

  /// Puts the file at `target`; 0, or the error number (EEXIST when it must be kept).
  [[nodiscard]] int place(const std::string& target, ExistingFile existing) {
    if (existing == ExistingFile::Keep) {
      // A link never lands on an existing file, however late that file came.
      if (link(path_.c_str(), target.c_str()) == 0) {
        return 0;  // the second name is removed by the destructor
      }
      if (errno != EPERM && errno != EOPNOTSUPP && errno != ENOSYS) {
        return errno;
      }
    }
    if (std::rename(path_.c_str(), target.c_str()) != 0) {
      return errno;
    }
    is_placed_ = true;
    return 0;
  }

 private:
  std::string path_;      // of the temporary file
  int descriptor_ = -1;   // open while it is written
  int error_ = 0;         // why it could not be made
  bool is_made_ = false;  // this object made a file at `path_`
  bool is_placed_ = false;
};

/// The file a chain of symbolic links ends in; `path` itself where there is none.
std::filesystem::path target_of(const std::string& path) {
  std::error_code error;
  if (std::filesystem::is_symlink(path, error)) {
    const std::filesystem::path resolved = std::filesystem::weakly_canonical(path, error);
    if (!error) {
      return resolved;
    }
  }
  return path;
}

}  // namespace

std::optional<OutputProblem> write_output_file(const std::string& path,
                                               std::string_view bytes,
                                               ExistingFile existing) {
  const std::filesystem::path target = target_of(path);
  struct stat old {};
  const bool is_there = stat(target.c_str(), &old) == 0;
  if (is_there && !S_ISREG(old.st_mode)) {
    return OutputProblem{
        "not-a-file", fmt::format("'{}' is there and is not a plain file", path), ""};
  }
  if (is_there && existing == ExistingFile::Keep) {
    return exists(path);
  }
  const std::filesystem::path folder =
      target.has_parent_path() ? target.parent_path() : std::filesystem::path(".");
  TemporaryFile temporary(folder);
  if (is_there) {
    temporary.take_permissions(old.st_mode);
  }
  if (const int error = temporary.fill(bytes); error != 0) {
    return cannot_write(path, error);
  }
  if (const int error = temporary.place(target.string(), existing); error != 0) {
    return error == EEXIST ? exists(path) : cannot_write(path, error);
  }
  return std::nullopt;
}

}  // namespace leat::render
