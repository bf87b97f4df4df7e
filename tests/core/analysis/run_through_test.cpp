#include "core/instrument/examples.hpp"
#include "tests/support/run_through.hpp"

#include <catch2/catch.hpp>

using namespace quillbench;
using namespace quillbench::trials;

TEST_CASE("keys of the virtual instrument are recognised as they are played", "[analysis]") {
    const Instrument& instrument = exampleInstruments().front();
    const RunThrough run = runThrough(instrument, 0, 14, 1);
    CHECK(run.plucks == run.keys);
    CHECK(run.right == run.keys);
    CHECK(run.readings >= run.keys - 2);
    // Half a second of a string that starts up to 5 cents sharp.
    CHECK(run.worstCents < 4.0);
}
