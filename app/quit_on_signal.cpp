#include "app/quit_on_signal.hpp"

#include <sys/socket.h>
#include <unistd.h>

#include <QCoreApplication>
#include <csignal>

namespace quillbench {

namespace {

// A signal handler can reach nothing but what is static: [0] is written by it, [1] read by the window.
int ends[2] = {-1, -1};

void onSignal(int /*number*/) {
    const char byte = 1;
    // Nothing can be done about a failure inside a signal handler.
    [[maybe_unused]] const auto written = ::write(ends[0], &byte, sizeof byte);
}

constexpr int kSignals[] = {SIGTERM, SIGINT, SIGHUP};

} // namespace

QuitOnSignal::QuitOnSignal() {
    if (::socketpair(AF_UNIX, SOCK_STREAM, 0, ends) != 0) {
        return;
    }
    notifier_ = std::make_unique<QSocketNotifier>(ends[1], QSocketNotifier::Read);
    connect(notifier_.get(), &QSocketNotifier::activated, this, [] { QCoreApplication::quit(); });
    struct sigaction action = {};
    action.sa_handler = onSignal;
    sigemptyset(&action.sa_mask);
    for (const int number : kSignals) {
        ::sigaction(number, &action, nullptr);
    }
}

QuitOnSignal::~QuitOnSignal() {
    for (const int number : kSignals) {
        std::signal(number, SIG_DFL);
    }
}

} // namespace quillbench
