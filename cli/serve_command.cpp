// rigproof serve --catalog DIR [--store URL] [--port N] [--listen ADDRESS --token TOKEN] [--open]
#include <fmt/format.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <filesystem>
#include <memory>
#include <thread>

#include "app/first_visit.hpp"
#include "cli/commands.hpp"
#include "cli/session.hpp"
#include "server/service.hpp"

namespace rigproof::cli {
namespace {

struct Options {
  std::string catalog;
  std::string store = "sqlite:rigproof.db";
  std::vector<std::string> add;
  std::string listen = "127.0.0.1";
  std::string token;
  std::vector<std::string> names;
  int port = 8460;
  int jobs = 2;
  bool open = false;
  bool skip_bad = false;
};

// Asks the desktop to show the address; says so when there is none that could.
void open_in_browser(const std::string& address) {
  const pid_t child = fork();
  if (child == 0) {
    execlp("xdg-open", "xdg-open", address.c_str(), static_cast<char*>(nullptr));
    _exit(127);
  }
  if (child < 0) return;
  std::thread([child] {
    int status = 0;
    if (waitpid(child, &status, 0) == child && WIFEXITED(status) && WEXITSTATUS(status) != 0)
      complain("No browser could be opened here; open the address yourself.\n");
  }).detach();
}

// Where the store is a file, the folder it goes into.
void make_folder_of(const std::string& store) {
  constexpr std::string_view sqlite = "sqlite:";
  if (!store.starts_with(sqlite)) return;
  const auto folder = std::filesystem::path(store.substr(sqlite.size())).parent_path();
  std::error_code told_by_the_store;
  if (!folder.empty()) std::filesystem::create_directories(folder, told_by_the_store);
}

Exit run(const Options& options, const Common& common) {
  auto library = server::Library::open(options.catalog, options.skip_bad);
  if (!library) return failed(library.error());
  make_folder_of(options.store);
  auto opened = store::open_store(options.store);
  if (!opened) return failed(opened.error());
  const auto added = app::add_first_documents(**opened, options.add, now());
  if (!added) return failed(added.error());

  server::Memory memory(std::move(*opened));
  server::Jobs jobs(options.jobs);
  server::Desk desk{
      .library = **library, .jobs = jobs, .memory = memory, .now = now, .pages = server::assets()};
  const auto service = server::Service::open(desk, {.address = options.listen,
                                                    .port = options.port,
                                                    .token = options.token,
                                                    .names = options.names});
  if (!service) return failed(service.error());
  const std::string said =
      common.json ? fmt::format("{{\"schema\": \"rigproof.serve/1\", \"address\": \"{}\"}}\n",
                                (*service)->address())
                  : fmt::format("The pages are at {}\nCtrl-C ends the service; nothing is lost.\n",
                                (*service)->address());
  if (!print(said)) return Exit::bad_input;
  if (options.open) open_in_browser((*service)->address());

  std::jthread watch([&](const std::stop_token& over) {
    while (!over.stop_requested()) {
      if (stop_asked()) {
        (*service)->stop();
        return;
      }
      std::this_thread::sleep_for(std::chrono::milliseconds(50));
    }
  });
  (*service)->run();
  return stop_asked() ? Exit::done : Exit::internal_fault;
}

}  // namespace

Command serve_command() {
  return {
      .name = "serve",
      .about = "The pages: the whole job in a browser, on this machine only unless told otherwise.",
      .examples = {{.arguments = "--catalog demo/catalog --add demo/briefs --add demo/builds "
                                 "--store sqlite:out/workshop.db --port 0",
                    .shows = "The pages over the demo, on a free port, with a store of their own.",
                    .until_stopped = true}},
      .declare = [](CLI::App& app, Common& common) -> Run {
        const auto options = std::make_shared<Options>();
        add_catalog(app, options->catalog);
        app.add_option("--store", options->store,
                       "Where briefs, builds and prices are kept: sqlite:FILE")
            ->type_name("URL")
            ->capture_default_str();
        app.add_option(
               "--add", options->add,
               "A brief or build file, or a folder of them, to be kept where the store does "
               "not have one of its name yet; can be given more than once")
            ->type_name("FILE")
            ->expected(1)
            ->multi_option_policy(CLI::MultiOptionPolicy::TakeAll);
        app.add_option("--port", options->port, "0 takes any free one")
            ->type_name("N")
            ->check(CLI::Range(0, 65535))
            ->capture_default_str();
        app.add_option("--listen", options->listen,
                       "Numeric address to listen on; one that others can reach needs --token")
            ->type_name("ADDRESS")
            ->capture_default_str();
        app.add_option("--token", options->token,
                       "What has to come with every request: 16 to 200 letters, digits, - or _")
            ->type_name("TOKEN")
            ->check(CLI::Validator(
                [](const std::string& text) {
                  return server::is_token(text)
                             ? std::string()
                             : std::string("expected 16 to 200 letters, digits, - or _");
                },
                "", "token"));
        app.add_option("--name", options->names,
                       "A name this machine is called by, for --listen; can be given more than "
                       "once")
            ->type_name("NAME")
            ->expected(1)
            ->multi_option_policy(CLI::MultiOptionPolicy::TakeAll);
        app.add_option("--jobs", options->jobs,
                       "How many searches run at a time, 1 to 64; what takes a moment "
                       "never waits for them")
            ->type_name("N")
            ->check(CLI::Range(1, 64))
            ->capture_default_str();
        app.add_flag("--open", options->open, "Also open them in the browser of this desktop");
        add_skip_bad(app, options->skip_bad);
        return [options, &common] { return run(*options, common); };
      }};
}

}  // namespace rigproof::cli
