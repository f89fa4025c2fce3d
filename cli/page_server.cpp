#include "cli/page_server.hpp"

#include <arpa/inet.h>
#include <netinet/in.h>
#include <poll.h>
#include <sys/socket.h>
#include <sys/time.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <ostream>

#include "cli/refusals.hpp"
#include "cli/signals.hpp"

namespace rushlight {
namespace {

// A library for this would bring TLS and compression into every start of the program, for a page that is tried out.
constexpr std::size_t kMostHead = 16 * 1024;  // a browser's request has about one
constexpr std::size_t kMostOpen = 64;
constexpr int kBetweenLooks = 200;  // milliseconds until a signal is seen

struct Visitor {
  int socket;
  std::string head;
};

std::string answer(const std::string& status, const std::string& type, const std::string& body, bool with_body) {
  std::string text =
      "HTTP/1.1 " + status + "\r\nContent-Type: " + type + "\r\nContent-Length: " + std::to_string(body.size()) +
      "\r\nCache-Control: no-cache\r\nX-Content-Type-Options: nosniff\r\nReferrer-Policy: no-referrer\r\n"
      "Cross-Origin-Resource-Policy: same-origin\r\nConnection: close\r\n\r\n";
  return with_body ? text + body : text;
}

std::string small_letters_of(std::string text) {
  for (char& letter : text) {
    if (letter >= 'A' && letter <= 'Z') letter = static_cast<char>(letter - 'A' + 'a');
  }
  return text;
}

/// What stands behind "Host:"; empty when there is none.
std::string host_in(const std::string& head) {
  const std::string small = small_letters_of(head);
  const std::size_t at = small.find("\r\nhost:");
  if (at == std::string::npos) return "";
  const std::size_t from = small.find_first_not_of(' ', at + 7);
  return from == std::string::npos ? "" : small.substr(from, small.find('\r', from) - from);
}

class Server {
 public:
  Server(const std::vector<PageFile>& files, int port) : files_(files), port_(std::to_string(port)) {}

  std::string answer_to(const std::string& head) const {
    const std::size_t first = head.find(' ');
    const std::size_t second = head.find(' ', first + 1);
    if (second == std::string::npos || second > head.find('\r')) return plain("400 Bad Request", true);
    const std::string method = head.substr(0, first);
    std::string path = head.substr(first + 1, second - first - 1);
    path = path.substr(0, path.find_first_of("?#"));
    const std::string host = host_in(head);
    if (host != "127.0.0.1:" + port_ && host != "localhost:" + port_) return plain("403 Forbidden", true);
    if (method != "GET" && method != "HEAD") return plain("405 Method Not Allowed", true);
    if (path == "/") path = "/index.html";
    for (const PageFile& file : files_) {
      if ("/" + file.name == path) return answer("200 OK", file.type, file.bytes, method == "GET");
    }
    return plain("404 Not Found", method == "GET");
  }

 private:
  static std::string plain(const std::string& status, bool with_body) {
    return answer(status, "text/plain", status + "\n", with_body);
  }
  const std::vector<PageFile>& files_;
  std::string port_;
};

void send_all(int socket, const std::string& text) {
  std::size_t sent = 0;
  while (sent < text.size()) {
    const ssize_t count = ::send(socket, text.data() + sent, text.size() - sent, MSG_NOSIGNAL);
    if (count <= 0) return;  // the browser went away, or takes too long
    sent += static_cast<std::size_t>(count);
  }
}

/// True while there is more to read from this one.
bool read_more(Visitor& visitor, const Server& server) {
  char part[4096];
  const ssize_t count = ::recv(visitor.socket, part, sizeof part, 0);
  if (count <= 0) return false;
  visitor.head.append(part, static_cast<std::size_t>(count));
  if (visitor.head.find("\r\n\r\n") != std::string::npos) {
    send_all(visitor.socket, server.answer_to(visitor.head));
    return false;
  }
  return visitor.head.size() < kMostHead;
}

void take_in(int listening, std::vector<Visitor>& visitors) {
  const int socket = ::accept4(listening, nullptr, nullptr, SOCK_CLOEXEC);
  if (socket < 0) return;
  const timeval patience{5, 0};
  ::setsockopt(socket, SOL_SOCKET, SO_SNDTIMEO, &patience, sizeof patience);
  if (visitors.size() >= kMostOpen) {
    ::close(visitors.front().socket);
    visitors.erase(visitors.begin());
  }
  visitors.push_back({socket, ""});
}

int listening_socket(int& port) {
  const int listening = ::socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0);
  if (listening < 0) return -1;
  sockaddr_in address{};
  address.sin_family = AF_INET;
  address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
  socklen_t size = sizeof address;
  auto* const plain = reinterpret_cast<sockaddr*>(&address);
  if (::bind(listening, plain, size) != 0 || ::listen(listening, 16) != 0 ||
      ::getsockname(listening, plain, &size) != 0) {
    ::close(listening);
    return -1;
  }
  port = ntohs(address.sin_port);
  return listening;
}

}  // namespace

int serve_page(const std::vector<PageFile>& files, std::ostream& out, std::ostream& err) {
  int port = 0;
  const int listening = listening_socket(port);
  if (listening < 0) return tell_refusal(err, whole_error("page", NotReadable{std::strerror(errno)}));
  note_signals();
  out << "Open http://127.0.0.1:" << port << "/ in a browser on this machine. Ctrl-C ends it.\n" << std::flush;
  const Server server(files, port);
  std::vector<Visitor> visitors;
  while (signal_to_leave() == 0) {
    std::vector<pollfd> watched = {{listening, POLLIN, 0}};
    for (const Visitor& visitor : visitors) watched.push_back({visitor.socket, POLLIN, 0});
    if (::poll(watched.data(), watched.size(), kBetweenLooks) <= 0) continue;
    for (std::size_t at = visitors.size(); at-- > 0;) {
      if (watched[at + 1].revents == 0 || read_more(visitors[at], server)) continue;
      ::close(visitors[at].socket);
      visitors.erase(visitors.begin() + static_cast<std::ptrdiff_t>(at));
    }
    if (watched[0].revents != 0) take_in(listening, visitors);
  }
  for (const Visitor& visitor : visitors) ::close(visitor.socket);
  ::close(listening);
  return 0;
}

}  // namespace rushlight
