#include "render/commands/try/page_server.h"

#include <charconv>
#include <map>
#include <random>
#include <string_view>
#include <utility>

#include <fmt/format.h>
#include <httplib.h>

#include "model/catalogue/pipe_catalogue.h"
#include "render/commands/solve/json_report.h"
#include "render/page/page_files.h"
#include "render/page/page_profile.h"
#include "render/page/page_request.h"
#include "render/page/page_state.h"
#include "solver/steady/steady.h"

namespace leat::render {
namespace {

using httplib::Request;
using httplib::Response;

constexpr const char* json_type = "application/json; charset=utf-8";

/// 128 random bits in hexadecimal.
std::string random_word() {
  std::random_device chance;
  std::string word;
  for (int i = 0; i < 4; ++i) {
    word += fmt::format("{:08x}", chance());
  }
  return word;
}

/// Whether two words are one, in a time that does not tell where they part.
bool is_the_word(std::string_view given, std::string_view word) {
  unsigned difference = given.size() == word.size() ? 0U : 1U;
  for (std::size_t i = 0; i < word.size(); ++i) {
    const char letter = i < given.size() ? given[i] : '\0';
    difference |= letter == word[i] ? 0U : 1U;
  }
  return difference == 0U;
}

/// One line; text that is not UTF-8 is made so.
void answer(Response& response, const Json& object, int status = 200) {
  response.status = status;
  response.set_content(object.dump(-1, ' ', false, Json::error_handler_t::replace), json_type);
}

void refuse(Response& response, int status, const std::string& text) {
  // What is left of the body is not read, so the connection ends here.
  response.set_header("Connection", "close");
  answer(response, {{"problem", text}}, status);
}

void refuse_unreadable(Response& response) {
  refuse(response, 400, "leat does not understand this request");
}

std::optional<PageView> view_asked(const Request& request) {
  std::map<std::string, std::string> words;
  for (const auto& [key, value] : request.params) {
    words[key] = value;
  }
  return read_view(words);
}

}  // namespace

class PageServer::Inside {
 public:
  Inside(FarmOnTrial& farm, std::optional<model::UnitSystem> units)
      : farm_(farm), units_(units), word_(random_word()) {
    server_.set_tcp_nodelay(true);  // without it each request takes 40 ms more
    server_.set_payload_max_length(largest_body);
    server_.set_keep_alive_timeout(2);
    // A page that waits for a change holds a thread.
    server_.new_task_queue = [] { return new httplib::ThreadPool(32); };
    server_.set_default_headers(
        {{"Cache-Control", "no-store"},
         {"Referrer-Policy", "no-referrer"},
         {"X-Content-Type-Options", "nosniff"},
         {"X-Frame-Options", "DENY"},
         {"Content-Security-Policy",
          "default-src 'none'; script-src 'self'; style-src 'self' 'unsafe-inline'; "
          "connect-src 'self'; img-src 'self' data:; base-uri 'none'; form-action 'none'; "
          "frame-ancestors 'none'"}});
    server_.set_pre_routing_handler([this](const Request& request, Response& response) {
      return admit(request, response) ? httplib::Server::HandlerResponse::Unhandled
                                      : httplib::Server::HandlerResponse::Handled;
    });
    server_.set_exception_handler([](const Request&, Response& response, std::exception_ptr) {
      refuse(response, 500, "a fault of leat itself");
    });
    add_files();
    add_questions();
    add_changes();
  }

  httplib::Server& server() { return server_; }
  bool bind() {
    port_ = server_.bind_to_any_port("127.0.0.1");
    return port_ > 0;
  }
  [[nodiscard]] int port() const { return port_; }
  [[nodiscard]] std::string address() const {
    return fmt::format("http://127.0.0.1:{}/{}/", port_, word_);
  }

 private:
  /// Another page in the same browser may call this port, but not under this name and not from
  /// this origin.
  bool admit(const Request& request, Response& response) {
    const std::string host = request.get_header_value("Host");
    const std::string origin = request.get_header_value("Origin");
    const std::string numbers = fmt::format("127.0.0.1:{}", port_);
    const std::string name = fmt::format("localhost:{}", port_);
    const bool is_host =
        request.get_header_value_count("Host") == 1 && (host == numbers || host == name);
    const bool is_origin = !request.has_header("Origin") || origin == "http://" + numbers ||
                           origin == "http://" + name;
    if (!is_host || !is_origin || request.get_header_value("Sec-Fetch-Site") == "cross-site") {
      refuse(response, 403, "this page is for the browser on this machine");
      return false;
    }
    const std::string_view path = request.path;
    const std::size_t second = path.find('/', 1);
    const std::string_view given =
        path.empty() ? path
                     : path.substr(1, second == std::string_view::npos ? second : second - 1);
    if (!is_the_word(given, word_)) {
      refuse(response, 404, "there is no such page; the whole address stands where leat runs");
      return false;
    }
    return true;
  }

  [[nodiscard]] std::string at(const char* rest) const {
    return fmt::format("/{}/{}", word_, rest);
  }

  void add_file(const char* name, std::string_view text, const char* type) {
    server_.Get(at(name), [text, type](const Request&, Response& response) {
      response.set_content(text.data(), text.size(), type);
    });
  }

  void add_files() {
    add_file("", page_html(), "text/html; charset=utf-8");
    add_file("page\\.js", page_script(), "text/javascript; charset=utf-8");
    add_file("page\\.css", page_style(), "text/css; charset=utf-8");
  }

  PageView with_units(PageView view) const {
    view.units = units_;
    return view;
  }

  Json state_of(const FarmMoment& moment, const PageView& view) {
    DrawnForm form = form_.use([](const DrawnForm& known) { return known; });
    Json state = page_state(moment, view, farm_.free_name(), form);
    form_.change([&form](DrawnForm& known) { known = std::move(form); });
    return state;
  }

  /// Answers with what `make` makes of the farm as it stands and of the view asked for.
  template <class Make>
  void add_question(const char* name, Make make) {
    server_.Get(at(name), [this, make](const Request& request, Response& response) {
      const auto view = view_asked(request);
      if (!view) {
        refuse_unreadable(response);
        return;
      }
      make(*farm_.now(), with_units(*view), request, response);
    });
  }

  void add_questions() {
    add_question(
        "state",
        [this](const FarmMoment& moment, const PageView& view, const Request&, Response& response) {
          answer(response, state_of(moment, view));
        });
    add_question(
        "answer",
        [](const FarmMoment& moment, const PageView& view, const Request&, Response& response) {
          response.set_content(page_answer(moment, view), json_type);
        });
    add_question("profile",
                 [](const FarmMoment& moment,
                    const PageView& view,
                    const Request& request,
                    Response& response) {
                   answer(response, page_profile(moment, view, request.get_param_value("pipe")));
                 });
    add_question("text",
                 [](const FarmMoment& moment, const PageView&, const Request&, Response& response) {
                   response.set_content(moment.tried.source, "text/plain; charset=utf-8");
                 });
    add_question("sizes",
                 [](const FarmMoment&, const PageView&, const Request&, Response& response) {
                   Json sizes = Json::array();
                   for (const model::CataloguePipe& pipe : model::pipe_catalogue()) {
                     sizes.push_back({{"name", pipe.size.text}, {"system", pipe.system}});
                   }
                   answer(response, sizes);
                 });
    server_.Get(at("wait"), [this](const Request& request, Response& response) {
      constexpr int longest_ms = 20'000;
      const std::string since = request.get_param_value("since");
      int known = 0;
      if (std::from_chars(since.data(), since.data() + since.size(), known).ec != std::errc()) {
        refuse_unreadable(response);
        return;
      }
      answer(response, {{"version", farm_.wait_for_change(known, longest_ms)}});
    });
  }

  void add_changes() {
    server_.Post(at("edit"), [this](const Request& request, Response& response) {
      const auto edit = read_edit(request.body);
      if (!edit) {
        refuse_unreadable(response);
        return;
      }
      if (const auto refusal = farm_.change(edit->parts, edit->run)) {
        answer(response, {{"refused", refusal->text}}, 422);
        return;
      }
      answer(response, state_of(*farm_.now(), with_units(edit->view)));
    });
    server_.Post(at("undo"), [this](const Request& request, Response& response) {
      const auto view = read_view_of(request.body);
      if (!view) {
        refuse_unreadable(response);
        return;
      }
      farm_.undo();
      answer(response, state_of(*farm_.now(), with_units(*view)));
    });
    server_.Post(at("save"), [this](const Request& request, Response& response) {
      const auto name = read_name(request.body);
      if (!name) {
        refuse_unreadable(response);
        return;
      }
      if (const auto problem = farm_.save_as(*name)) {
        const std::string words =
            problem->hint.empty() ? problem->text : problem->text + "; " + problem->hint;
        answer(response,
               {{"problem", words}},
               problem->code == "exists"     ? 409
               : problem->code == "bad-name" ? 403
                                             : 500);
        return;
      }
      answer(response, {{"saved", *name}});
    });
  }

  FarmOnTrial& farm_;
  std::optional<model::UnitSystem> units_;
  std::string word_;
  int port_ = 0;
  Shared<DrawnForm> form_{DrawnForm()};
  httplib::Server server_;
};

std::string page_answer(const FarmMoment& moment, const PageView& view) {
  const model::Farm& farm = *moment.tried.farm;
  return solve_json(
      farm, solver::solve_steady(farm, options_of(view)), view.units.value_or(farm.show));
}

PageServer::PageServer(FarmOnTrial& farm, std::optional<model::UnitSystem> units)
    : inside_(std::make_unique<Inside>(farm, units)) {}
PageServer::~PageServer() = default;

bool PageServer::bind() {
  return inside_->bind();
}
std::string PageServer::address() const {
  return inside_->address();
}
int PageServer::port() const {
  return inside_->port();
}
void PageServer::serve() {
  static_cast<void>(inside_->server().listen_after_bind());
}
void PageServer::stop() {
  inside_->server().stop();
}

}  // namespace leat::render
