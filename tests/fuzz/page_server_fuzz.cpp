// Any bytes sent to the port of the live page, through the system's own sockets. WORD and PORT in
// them become the page's word and port, so that what is sent may pass the door.
#include <array>
#include <chrono>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>
#include <string_view>
#include <thread>

#include <arpa/inet.h>
#include <fmt/format.h>
#include <netinet/in.h>
#include <poll.h>
#include <sys/socket.h>
#include <unistd.h>

#include "model/keys/farm_file.h"
#include "render/commands/try/page_server.h"
#include "tests/fuzz/page_farm.h"

namespace {

void demand(bool is_so) {
  if (!is_so) {
    __builtin_trap();
  }
}

std::string with(std::string text, std::string_view mark, const std::string& value) {
  for (std::size_t at = text.find(mark); at != std::string::npos;
       at = text.find(mark, at + value.size())) {
    text.replace(at, mark.size(), value);
  }
  return text;
}

/// Whether the answer's head and the body it promises are there.
bool is_complete(const std::string& answer) {
  const std::size_t head = answer.find("\r\n\r\n");
  const std::size_t length = answer.find("Content-Length: ");
  if (head == std::string::npos || length > head) {
    return false;
  }
  constexpr std::size_t before = std::string_view("Content-Length: ").size();
  return answer.size() >= head + 4 + std::strtoul(answer.c_str() + length + before, nullptr, 10);
}

/// What the port answers to these bytes; empty where nothing comes.
std::string answer_to(const std::string& request, int port, int longest_wait_ms) {
  const int line = socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0);
  demand(line >= 0);
  sockaddr_in where{};
  where.sin_family = AF_INET;
  where.sin_port = htons(static_cast<std::uint16_t>(port));
  where.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
  demand(connect(line, reinterpret_cast<const sockaddr*>(&where), sizeof where) == 0);
  for (std::size_t sent = 0; sent < request.size();) {
    const ssize_t count = send(line, request.data() + sent, request.size() - sent, MSG_NOSIGNAL);
    if (count <= 0) {
      break;  // it has heard enough
    }
    sent += static_cast<std::size_t>(count);
  }
  // The server answers only while the line stands open both ways, and keeps it open for more.
  const bool is_whole = request.find("\r\n\r\n") != std::string::npos;
  std::string answer;
  std::array<char, 65536> buffer{};
  pollfd ready{line, POLLIN, 0};
  while (!is_complete(answer) && poll(&ready, 1, is_whole ? longest_wait_ms : 1) > 0) {
    const ssize_t count = recv(line, buffer.data(), buffer.size(), 0);
    if (count <= 0) {
      break;
    }
    answer.append(buffer.data(), static_cast<std::size_t>(count));
  }
  close(line);
  return answer;
}

/// A farm file in a folder of its own, served until the process ends.
class Served {
 public:
  Served() : folder_(new_folder()), file_((folder_ / "farm.yaml").string()) {
    std::ofstream(file_) << leat::fuzz::page_farm;
    farm_ = new leat::render::FarmOnTrial(file_, leat::model::load_farm_file(file_));
    farm_->release_waiting();  // nobody waits for a change
    server_ = new leat::render::PageServer(*farm_, std::nullopt);
    demand(server_->bind());
    thread_ = std::thread([this] { server_->serve(); });
    // What answering needs for good is made now, so that it outlives the server's threads.
    for (const char* const question :
         {"", "state", "answer", "profile?pipe=main", "text", "sizes"}) {
      demand(
          !answer_to(
               fmt::format(
                   "GET /{}/{} HTTP/1.1\r\nHost: 127.0.0.1:{}\r\n\r\n", word(), question, port()),
               port(),
               20000)
               .empty());
    }
  }
  ~Served() {
    server_->stop();
    thread_.join();
    std::filesystem::remove_all(folder_);
  }
  Served(const Served&) = delete;
  Served& operator=(const Served&) = delete;

  [[nodiscard]] int port() const { return server_->port(); }
  [[nodiscard]] std::string word() const {
    const std::string address = server_->address();
    return address.substr(address.size() - 33, 32);
  }

  /// The farm file never changes, nothing but farm files is written beside it, and the farm is one
  /// at any time. A request without a length is only read when its line is closed, so what it does
  /// may come late.
  void check_and_clear() {
    bool is_clear = false;
    for (int tries = 0; tries < 500 && !is_clear; ++tries) {
      if (tries > 0) {
        std::this_thread::sleep_for(std::chrono::milliseconds(10));
      }
      demand(farm_->now()->tried.farm.has_value());
      while (farm_->now()->undo_steps > 0) {
        farm_->undo();
      }
      is_clear = is_folder_clear() && farm_->now()->tried.source == leat::fuzz::page_farm;
    }
    demand(is_clear);
    std::ifstream stream(file_, std::ios::binary);
    const std::string text{std::istreambuf_iterator<char>(stream), {}};
    demand(text == leat::fuzz::page_farm);
  }

 private:
  static std::filesystem::path new_folder() {
    std::string pattern = (std::filesystem::temp_directory_path() / "leat-fuzz-XXXXXX").string();
    demand(mkdtemp(pattern.data()) != nullptr);
    return pattern;
  }

  /// Takes what was saved away; whether there was nothing.
  [[nodiscard]] bool is_folder_clear() const {
    bool is_clear = true;
    for (const auto& entry : std::filesystem::directory_iterator(folder_)) {
      if (entry.path() == file_) {
        continue;
      }
      is_clear = false;
      const std::filesystem::path ending = entry.path().extension();
      demand(ending == ".yaml" || ending == ".yml" || ending == ".part");
      if (ending != ".part") {  // one that is being written goes by itself
        std::filesystem::remove(entry.path());
      }
    }
    return is_clear;
  }

  std::filesystem::path folder_;
  std::string file_;
  leat::render::FarmOnTrial* farm_ = nullptr;
  leat::render::PageServer* server_ = nullptr;
  std::thread thread_;
};

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
  static Served served;
  std::string request(reinterpret_cast<const char*>(bytes), size);
  request = with(std::move(request), "WORD", served.word());
  request = with(std::move(request), "PORT", std::to_string(served.port()));
  const std::string answer = answer_to(request, served.port(), 300);
  // Whatever comes back is HTTP, and never a fault of leat itself.
  demand(answer.empty() || answer.rfind("HTTP/1.", 0) == 0);
  demand(answer.find("\r\n\r\n{\"problem\":\"a fault of leat") == std::string::npos);
  served.check_and_clear();
  return 0;
}
