#include "render/io/output_file.h"

#include <cerrno>
#include <cstdio>
#include <filesystem>
#include <system_error>

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include "render/io/interruption.h"
#include "render/io/system_error.h"

namespace leat::render {

namespace {

/// What to do about it.
const char* mending(int error) {
  switch (error) {
    case ENOSPC:
    case EDQUOT:
    case EFBIG:
      return "make room on that disk, or write to another";
    case ENOENT:
    case ENOTDIR:
      return "make the folder first, or write to another";
    case EACCES:
    case EPERM:
    case EROFS:
      return "write to a folder that is yours to write in";
    case ENAMETOOLONG:
      return "choose a shorter name";
    case ELOOP:
      return "the link leads back to itself: choose another name";
    default:
      return "";
  }
}

OutputProblem cannot_write(const std::string& path, int error) {
  return {
      "cannot-write", fmt::format("cannot write '{}': {}", path, reason_of(error)), mending(error)};
}

OutputProblem exists(const std::string& path) {
  return {"exists", fmt::format("'{}' is there already", path), "--replace writes over it"};
}

/// A file being written beside its target; removed unless it took the target's place.
class TemporaryFile {
 public:
  explicit TemporaryFile(const std::filesystem::path& folder) {
    constexpr int attempts = 100;
    const InterruptionHold hold;
    for (int attempt = 0; attempt < attempts && descriptor_ < 0; ++attempt) {
      path_ = (folder / fmt::format(".leat-{}-{}.part", getpid(), attempt)).string();
      descriptor_ = open(path_.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
      if (descriptor_ < 0 && errno != EEXIST) {
        break;
      }
    }
    error_ = descriptor_ < 0 ? errno : 0;
    if (descriptor_ >= 0) {
      is_made_ = true;
      half_done_.begin(hold, [path = path_] { unlink(path.c_str()); });
    }
  }
  TemporaryFile(const TemporaryFile&) = delete;
  TemporaryFile& operator=(const TemporaryFile&) = delete;
  TemporaryFile(TemporaryFile&&) = delete;
  TemporaryFile& operator=(TemporaryFile&&) = delete;
  ~TemporaryFile() {
    if (descriptor_ >= 0) {
      close(descriptor_);
    }
    const InterruptionHold hold;
    if (is_made_ && !is_placed_) {
      unlink(path_.c_str());
    }
    half_done_.end(hold);
  }

  /// Writes everything and waits for the disk; 0, or the error number.
  [[nodiscard]] int fill(std::string_view bytes) {
    if (error_ != 0) {
      return error_;
    }
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

  /// Takes over owner and permissions of the file it will replace.
  void take_permissions(const struct stat& old) {
    if (descriptor_ >= 0) {
      // Best effort: only some may give files away, and not every file system has permissions.
      static_cast<void>(!fchown(descriptor_, old.st_uid, old.st_gid));
      static_cast<void>(fchmod(descriptor_, old.st_mode & 07777U));
    }
  }

  /// Puts the file at `target`; 0, or the error number (EEXIST when it must be kept).
  [[nodiscard]] int place(const std::string& target, ExistingFile existing) {
    const InterruptionHold hold;
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
  HalfDone half_done_;  // while the file is there and not in its place
};

/// The file a chain of symbolic links ends in, there or not; `path` itself where there is none. Of
/// links that lead back to themselves one of them.
std::filesystem::path target_of(const std::string& path) {
  constexpr int longest_chain = 40;  // as the system's own
  std::filesystem::path target = path;
  std::error_code error;
  for (int i = 0; i < longest_chain && std::filesystem::is_symlink(target, error); ++i) {
    const std::filesystem::path next = std::filesystem::read_symlink(target, error);
    if (error) {
      break;
    }
    target = target.parent_path() / next;  // an absolute one takes the place of all
  }
  return target;
}

/// The folder a file stands in.
std::filesystem::path folder_of(const std::filesystem::path& file) {
  return file.has_parent_path() ? file.parent_path() : std::filesystem::path(".");
}

/// 0, or why the file's folder takes no new file (a file is written there first, then renamed).
int folder_fault(const std::filesystem::path& folder) {
  struct stat there {};
  if (stat(folder.c_str(), &there) != 0) {
    return errno;
  }
  if (!S_ISDIR(there.st_mode)) {
    return ENOTDIR;
  }
  return access(folder.c_str(), W_OK | X_OK) == 0 ? 0 : errno;
}

}  // namespace

std::optional<OutputProblem> output_problem(const std::string& path, ExistingFile existing) {
  const std::filesystem::path target = target_of(path);
  struct stat old {};
  if (stat(target.c_str(), &old) == 0) {
    if (!S_ISREG(old.st_mode)) {
      return OutputProblem{"not-a-file",
                           fmt::format("'{}' is there and is not a plain file", path),
                           "give the name of a new file"};
    }
    if (existing == ExistingFile::Keep) {
      return exists(path);
    }
  } else if (errno != ENOENT) {
    return cannot_write(path, errno);
  }
  if (const int error = folder_fault(folder_of(target)); error != 0) {
    return cannot_write(path, error);
  }
  return std::nullopt;
}

std::optional<OutputProblem> write_output_file(const std::string& path,
                                               std::string_view bytes,
                                               ExistingFile existing) {
  if (auto problem = output_problem(path, existing)) {
    return problem;
  }
  const std::filesystem::path target = target_of(path);
  TemporaryFile temporary(folder_of(target));
  struct stat old {};
  if (stat(target.c_str(), &old) == 0) {
    temporary.take_permissions(old);
  }
  if (const int error = temporary.fill(bytes); error != 0) {
    return cannot_write(path, error);
  }
  if (const int error = temporary.place(target.string(), existing); error != 0) {
    return error == EEXIST ? exists(path) : cannot_write(path, error);
  }
  output_is_written(path);
  return std::nullopt;
}

}  // namespace leat::render
