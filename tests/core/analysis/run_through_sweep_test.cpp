#include "core/instrument/examples.hpp"
#include "tests/support/run_through.hpp"

#include <catch2/catch.hpp>

using namespace quillbench;
using namespace quillbench::trials;

TEST_CASE("every key of every example is recognised as it is played", "[analysis][slow]") {
    int keys = 0;
    int right = 0;
    int extra = 0;
    for (const Instrument& instrument : exampleInstruments()) {
        for (std::size_t choir = 0; choir < instrument.choirs.size(); ++choir) {
            const RunThrough run = runThrough(instrument, choir, 1, 7);
            UNSCOPED_INFO(instrument.id << " " << instrument.choirs[choir].id << ": " << run.right
                                        << " right, " << run.wrong << " wrong, " << run.unknown
                                        << " unknown of " << run.keys << "; " << run.plucks
                                        << " plucks counted, " << run.readings << " read");
            keys += run.keys;
            right += run.right;
            extra += std::abs(run.plucks - run.keys);
            CHECK(run.wrong <= 1);
        }
    }
    CHECK(right >= keys * 995 / 1000);
    CHECK(extra <= keys / 100);
}
