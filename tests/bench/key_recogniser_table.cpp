// How many keys are recognised: the whole compass of 16′, 8′ and 4′, strings up to 45 cents off.
#include "tests/support/key_trials.hpp"

#include <cstdio>
#include <cstdlib>

int main(int argc, char** argv) {
    using namespace quillbench;
    using namespace quillbench::trials;
    const int repeats = argc > 1 ? std::atoi(argv[1]) : 3;
    if (repeats < 1) {
        std::fputs("usage: key_recogniser_table [REPEATS], a whole number from 1 on\n", stderr);
        return 2;
    }
    std::puts("around              plucks  right %  wrong %  unknown %  late %  offset error");
    for (const Around around : kAround) {
        const KeyScore score = scoreKeys(around, repeats, 1, SampleRate(48000.0));
        const double percent = 100.0 / score.plucks;
        std::printf("%-19s %6d  %7.2f  %7.2f  %9.2f  %6.2f  %9.2f ct\n",
                    nameOf(around).c_str(),
                    score.plucks,
                    percent * score.right,
                    percent * score.wrong,
                    percent * score.unknown,
                    percent * score.late,
                    score.meanOffsetError);
        std::fflush(stdout);
    }
    return 0;
}
