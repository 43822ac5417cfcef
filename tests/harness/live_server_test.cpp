// SPDX-License-Identifier: MIT
// The server over real sockets: who is let in, who is slowed down, who is shut out.
#include "harness/live/server.hpp"

#include "tests/harness/fake_room.hpp"
#include "tests/harness/live_program.hpp"
#include "tests/harness/web_client.hpp"
#include "tests/scratch.hpp"

#include "harness/live/hosts.hpp"

#include <thread>

BOOST_AUTO_TEST_SUITE(live_server)

using namespace noonbench::harness;
using namespace noonbench::harness::testing;
using std::chrono::steady_clock;

namespace {

/// A server in this process, stopped with it.
class Serving {
  public:
    explicit Serving(ServerWishes wishes = {}) {
        if (wishes.secret.empty()) wishes.secret = fake_secret;
        server_ = std::make_unique<Server>(whole_shelf(), wishes, &keeper_);
        thread_ = std::thread([this] { server_->run(); });
    }
    ~Serving() {
        server_->stop();
        thread_.join();
    }
    [[nodiscard]] std::uint16_t port() const { return server_->opened().port; }
    [[nodiscard]] const ServerOpened& opened() const { return server_->opened(); }

    [[nodiscard]] std::unique_ptr<WebClient> page() const {
        auto client = std::make_unique<WebClient>("127.0.0.1", port());
        BOOST_TEST_REQUIRE(client->hear("welcome").has_value());
        return client;
    }
    /// The word of the class.
    std::string open_class(WebClient& trainer) const {
        trainer.say({{"do", "class_open"}, {"secret", fake_secret}, {"title", "t"}});
        return std::string(trainer.hear("class").value().at("word").as_string());
    }

  private:
    FakeKeeper keeper_;
    std::unique_ptr<Server> server_;
    std::thread thread_;
};

struct HttpAnswer {
    unsigned status = 0;
    beast::http::fields fields;
    std::string body;
};

HttpAnswer fetch(const std::string& address, std::uint16_t port, const std::string& target,
                 const std::string& host, beast::http::verb verb = beast::http::verb::get) {
    asio::io_context context;
    asio::ip::tcp::socket socket(context);
    socket.connect({asio::ip::make_address(address), port});
    beast::http::request<beast::http::string_body> request(verb, target, 11);
    request.set(beast::http::field::host, host);
    request.set(beast::http::field::connection, "close");
    beast::http::write(socket, request);
    beast::flat_buffer buffer;
    beast::http::response<beast::http::string_body> response;
    beast::error_code error;
    beast::http::read(socket, buffer, response, error);
    return {error ? 0U : response.result_int(), response.base(), response.body()};
}

unsigned refused_line(const Serving& serving, const WebClient::Asked& asked) {
    unsigned status = 0;
    try {
        const WebClient client("127.0.0.1", serving.port(), asked, &status);
        return 101;
    } catch (const boost::system::system_error&) {
        return status;
    }
}

/// True once the line is shut from the other end.
bool becomes_shut(WebClient& client) {
    const auto until = steady_clock::now() + std::chrono::seconds(10);
    while (!client.is_shut() && steady_clock::now() < until) {
        static_cast<void>(client.hear(std::chrono::milliseconds(200)));
    }
    return client.is_shut();
}

}  // namespace

BOOST_AUTO_TEST_CASE(only_own_names_are_answered) {
    BOOST_TEST(is_own_host("localhost:8070", "127.0.0.1"));
    BOOST_TEST(is_own_host("LOCALHOST", "127.0.0.1"));
    BOOST_TEST(is_own_host("[::1]:8070", "::1"));
    BOOST_TEST(is_own_host("192.0.2.7:8070", "192.0.2.7"));
    BOOST_TEST(is_own_host("192.0.2.7:8070", "::ffff:192.0.2.7"));
    BOOST_TEST(is_own_host("[fd00::2]:80", "fd00::2"));
    for (const char* foreign :
         {"", "evil.example", "evil.example:8070", "192.0.2.8:8070", "localhost.evil.example",
          "localhost:", "localhost:x", "localhost:8070:1", "[::1", "127.0.0.1.evil.example",
          "localhost:123456", "user@localhost"}) {
        BOOST_TEST(!is_own_host(foreign, "192.0.2.7"), foreign);
    }
    const Serving serving;
    const std::string own = "127.0.0.1:" + std::to_string(serving.port());
    BOOST_TEST(fetch("127.0.0.1", serving.port(), "/", own).status == 200U);
    BOOST_TEST(fetch("127.0.0.1", serving.port(), "/", "evil.example").status == 421U);
    BOOST_TEST(refused_line(serving, {}) == 101U);
    BOOST_TEST(refused_line(serving, {"evil.example", "", 0}) == 421U);
    BOOST_TEST(refused_line(serving, {"", "http://evil.example", 0}) == 403U);
    BOOST_TEST(refused_line(serving, {"", "null", 0}) == 403U);
    BOOST_TEST(refused_line(serving, {"localhost:" + std::to_string(serving.port()),
                                      "http://127.0.0.1:" + std::to_string(serving.port()), 0}) ==
               403U);
}

BOOST_AUTO_TEST_CASE(nothing_but_the_programs_own_files_and_sheets_is_served) {
    const Serving serving;
    const auto get = [&](const std::string& target) {
        return fetch("127.0.0.1", serving.port(), target, "localhost");
    };
    const HttpAnswer sheet = get("/sheets/01_what_it_compares/learner");
    BOOST_TEST(sheet.status == 200U);
    BOOST_TEST(sheet.body.find("What the controller compares") != std::string::npos);
    BOOST_TEST(sheet.fields[beast::http::field::content_type] == "text/html; charset=utf-8");
    BOOST_TEST(sheet.fields["X-Content-Type-Options"] == "nosniff");
    BOOST_TEST(std::string(sheet.fields["Content-Security-Policy"]).find("default-src 'none'") ==
               0U);
    for (const char* target :
         {"/sheets/01_what_it_compares/instructor", "/sheets/none/learner", "/sheets//learner",
          "/sheets/../01_what_it_compares/learner", "/sheets/01_what_it_compares/learner/",
          "/../../etc/passwd", "/scenarios/days/clear_spring_day.yaml", "/%2e%2e/etc/passwd",
          "//etc/passwd"}) {
        BOOST_TEST(get(target).status == 404U, target);
    }
    BOOST_TEST(
        fetch("127.0.0.1", serving.port(), "/", "localhost", beast::http::verb::post).status ==
        405U);
    BOOST_TEST(get("/" + std::string(20000, 'a')).status == 0U);  // unread, shut
}

BOOST_AUTO_TEST_CASE(too_large_too_fast_and_no_text_are_shut_out) {
    const Serving serving;
    const auto large = serving.page();
    large->say_text(std::string(20000, ' '));
    BOOST_TEST(becomes_shut(*large));

    const auto bytes = serving.page();
    bytes->say_text("{\"do\":\"\xff\xfe\"}");
    BOOST_TEST(becomes_shut(*bytes));

    const auto fast = serving.page();
    for (int i = 0; i < 200; ++i) fast->say({{"do", "step"}});
    int answers = 0;
    bool told = false;
    while (auto message = fast->hear(std::chrono::milliseconds(500))) {
        ++answers;
        const auto what = message->at("what").as_string();
        told = told || what.find("50 messages a second") != std::string::npos;
    }
    BOOST_TEST(told);
    BOOST_TEST(answers >= 51);
    BOOST_TEST(answers <= 150);  // of one or two seconds
    BOOST_TEST(!fast->is_shut());
    for (int i = 0; i < 3000 && fast->say({{"do", "step"}}); ++i) {
    }
    BOOST_TEST(becomes_shut(*fast));

    const auto other = serving.page();  // and the server is as before
    other->say({{"do", "open"}, {"path", "days/clear_spring_day"}});
    BOOST_TEST(other->hear("frame").has_value());
}

BOOST_AUTO_TEST_CASE(wrong_words_end_the_line) {
    const Serving serving;
    const auto trainer = serving.page();
    const std::string word = serving.open_class(*trainer);
    const auto guesser = serving.page();
    for (int i = 0; i < 6; ++i) {
        guesser->say({{"do", "join"}, {"word", "wrong-word-11"}, {"seat", "G"}});
    }
    int refusals = 0;
    while (guesser->hear("error")) ++refusals;
    BOOST_TEST(refusals == 6);
    BOOST_TEST(guesser->is_shut());
    // from now on the whole server looks at one try a second
    const auto second = serving.page();
    const auto began = steady_clock::now();
    second->say({{"do", "join"}, {"word", word}, {"seat", "Anna"}});
    BOOST_TEST(second->hear().has_value());
    const auto third = serving.page();
    int tries = 0;
    for (bool in = false; !in && tries < 100; ++tries) {
        third->say({{"do", "join"}, {"word", word}, {"seat", "Zoe"}});
        in = third->hear().value().at("is").as_string() == "seated";
        if (!in) std::this_thread::sleep_for(std::chrono::milliseconds(50));
    }
    BOOST_TEST(tries > 1);
    BOOST_TEST((steady_clock::now() - began >= std::chrono::milliseconds(900)));
}

BOOST_AUTO_TEST_CASE(the_newer_page_has_the_seat) {
    const Serving serving;
    const auto trainer = serving.page();
    const std::string word = serving.open_class(*trainer);
    const auto old_page = serving.page();
    old_page->say({{"do", "join"}, {"word", word}, {"seat", "<script>alert(\"1\")"}});
    const json::object seated = old_page->hear("seated").value();
    BOOST_TEST(seated.at("seat").as_string() == "<script>alert(\"1\")");
    old_page->say({{"do", "open"}, {"path", "days/clear_spring_day"}});
    BOOST_TEST(old_page->hear("frame").has_value());
    const auto new_page = serving.page();
    new_page->say({{"do", "rejoin"}, {"ticket", seated.at("ticket")}});
    BOOST_TEST(new_page->hear("frame").has_value());
    BOOST_TEST(old_page->hear("taken_over").has_value());
    BOOST_TEST(becomes_shut(*old_page));
    new_page->say({{"do", "step"}});
    BOOST_TEST(new_page->hear("frame").has_value());
    for (int i = 0; i < 30; ++i) {
        const json::object state = trainer->hear("class_state").value();
        const json::array& seats = state.at("seats").as_array();
        if (seats.empty()) continue;
        BOOST_TEST(seats.at(0).at("seat").as_string() == "<script>alert(\"1\")");
        break;
    }
}

// A page that reads nothing: its own time stands, everybody else's frames come as before.
BOOST_AUTO_TEST_CASE(a_slow_page_slows_nobody) {
    const Serving serving;
    WebClient slow("127.0.0.1", serving.port(), {"", "", 4096});
    const auto quick = serving.page();
    for (WebClient* each : {&slow, quick.get()}) {
        each->say({{"do", "open"}, {"path", "days/clear_spring_day"}});
        each->say({{"do", "pace"}, {"times", 60}});
    }
    int frames = 0;
    while (frames < 40 && quick->hear("frame")) ++frames;
    BOOST_TEST(frames == 40);
    slow.say({{"do", "step"}});  // it is still heard
    int at_s = 0;
    for (int i = 0; i < 200 && at_s == 0; ++i) {
        const auto frame = slow.hear("frame", std::chrono::seconds(2));
        if (!frame) break;
        at_s = frame->at("at_s").to_number<int>();
    }
    BOOST_TEST(at_s > 0);
}

BOOST_AUTO_TEST_CASE(one_machine_has_so_many_lines) {
    ServerWishes wishes;
    wishes.lan = true;
    wishes.most_lines_of_one = 3;
    wishes.most_lines = 6;
    const Serving serving(wishes);
    std::vector<std::unique_ptr<WebClient>> pages;
    for (int i = 0; i < 6; ++i) pages.push_back(serving.page());  // this machine: up to the whole
    BOOST_TEST(refused_line(serving, {}) == 503U);
    pages.clear();
    if (serving.opened().addresses.empty() ||
        serving.opened().addresses.front().find('[') != std::string::npos) {
        BOOST_TEST_MESSAGE("no network here: limits of other machines are not looked at");
        return;
    }
    const std::string& page = serving.opened().addresses.front();
    const std::string address = page.substr(7, page.rfind(':') - 7);
    std::this_thread::sleep_for(std::chrono::milliseconds(200));
    BOOST_TEST(fetch(address, serving.port(), "/", address).status == 200U);
    BOOST_TEST(fetch(address, serving.port(), "/", "192.0.2.99").status == 421U);
    for (int i = 0; i < 3; ++i) {
        pages.push_back(std::make_unique<WebClient>(address, serving.port()));
    }
    unsigned status = 0;
    BOOST_CHECK_THROW(WebClient(address, serving.port(), {}, &status), boost::system::system_error);
    BOOST_TEST(status == 503U);
    // on a network a visitor joins first
    const json::object welcome = pages.front()->hear("welcome").value();
    BOOST_TEST(welcome.at("class").at("must_join").as_bool());
    BOOST_TEST(welcome.at("shelf").as_array().empty());
    pages.front()->say({{"do", "open"}, {"path", "days/clear_spring_day"}});
    BOOST_TEST(pages.front()->hear("error").has_value());
}

BOOST_AUTO_TEST_CASE(the_program_says_how_to_get_in) {
    const noonbench::testing::ScratchFolder folder;
    const std::vector<std::string> file{"--class-file", (folder / "class.sqlite").string()};
    LiveProgram alone(file);
    BOOST_TEST(alone.said.find("For this computer only") != std::string::npos);
    BOOST_TEST(alone.secret.size() == 14U);
    const HttpAnswer sheet =
        fetch("127.0.0.1", alone.port, "/sheets/01_what_it_compares/learner", "localhost");
    BOOST_TEST(sheet.status == 200U);
    BOOST_TEST(sheet.body.find("<script") == std::string::npos);  // its policy would stop it
    BOOST_TEST(sheet.body.find("</html>") != std::string::npos);
    BOOST_TEST(alone.end(SIGTERM) == 0);
    BOOST_TEST(std::filesystem::is_empty(folder.path()));
    LiveProgram lan({"--lan", file[0], file[1]});
    BOOST_TEST(lan.said.find("Caution: anyone on this network") != std::string::npos);
    BOOST_TEST(lan.secret != alone.secret);
    BOOST_TEST(lan.end(SIGINT) == 0);
}

BOOST_AUTO_TEST_SUITE_END()
