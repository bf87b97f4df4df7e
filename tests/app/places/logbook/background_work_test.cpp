#include "app/models/background_work.hpp"

#include <catch2/catch.hpp>

#include <thread>
#include <vector>

using namespace quillbench;

TEST_CASE("work is done elsewhere, in order, and its outcome taken back here", "[ui]") {
    BackgroundWork work;
    std::vector<int> outcomes;
    std::vector<bool> busy;
    QObject::connect(&work, &BackgroundWork::busyChanged, [&](bool is) { busy.push_back(is); });
    const std::thread::id here = std::this_thread::get_id();
    for (int i = 0; i < 20; ++i) {
        work.begin([&, i] {
            const bool elsewhere = std::this_thread::get_id() != here;
            return [&, i, elsewhere] { outcomes.push_back(elsewhere ? i : -1); };
        });
    }
    CHECK(work.busy());
    work.finish();
    CHECK_FALSE(work.busy());
    REQUIRE(outcomes.size() == 20);
    for (int i = 0; i < 20; ++i) {
        CHECK(outcomes[static_cast<std::size_t>(i)] == i);
    }
    CHECK(busy == std::vector<bool>{true, false});
}

TEST_CASE("an outcome may begin more work", "[ui]") {
    BackgroundWork work;
    int reached = 0;
    work.begin([&] {
        return [&] {
            reached = 1;
            work.begin([&] { return [&] { reached = 2; }; });
        };
    });
    work.finish();
    CHECK(reached == 2);
}

TEST_CASE("work that was begun is done when its owner ends, its outcome dropped", "[ui]") {
    bool done = false;
    bool taken = false;
    {
        BackgroundWork work;
        work.begin([&] {
            done = true;
            return [&] { taken = true; };
        });
    }
    CHECK(done);
    CHECK_FALSE(taken);
}
