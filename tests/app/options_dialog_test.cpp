#include "app/dialogs/options_dialog.hpp"
#include "tests/app/tuning_at_hand.hpp"

#include <QCheckBox>
#include <QComboBox>
#include <QDoubleSpinBox>
#include <QPushButton>
#include <algorithm>

using namespace quillbench;
using namespace quillbench::test;

namespace {

template <typename Widget>
Widget& part(const QDialog& dialog, const char* name) {
    auto* found = dialog.findChild<Widget*>(QString::fromLatin1(name));
    REQUIRE(found != nullptr);
    return *found;
}

TuningChoice wholeWith(const SessionOptions& options) {
    TuningChoice choice = firstOctave();
    choice.extent = Extent::Whole;
    choice.options = options;
    return choice;
}

bool setsChoir(const TuningModel& model, std::size_t choir) {
    const auto& steps = model.session().plan->steps;
    return std::any_of(steps.begin(), steps.end(), [choir](const TuningStep& step) {
        return step.work == StepWork::Set && step.string.choir == choir;
    });
}

/// Compass of the keys in the order in which the reference is set beyond its bearings.
std::vector<std::size_t> outwardKeys(const TuningModel& model) {
    std::vector<std::size_t> keys;
    for (const TuningStep& step : model.session().plan->steps) {
        if (step.phase == Phase::Outward && step.string.choir == 0) {
            keys.push_back(step.key);
        }
    }
    return keys;
}

} // namespace

TEST_CASE("what is chosen for a whole session reaches its plan", "[ui]") {
    TuningModel model;
    REQUIRE(model.choose(wholeWith({})));
    const std::vector<std::size_t> usual = outwardKeys(model);
    REQUIRE(usual.size() > 2);
    CHECK(usual[0] > usual[1]); // down first
    REQUIRE(setsChoir(model, 2));
    const OptionsDialog dialog(SessionOptions{}, model.instrument(), model.choir());
    CHECK(dialog.options() == SessionOptions{});
    CHECK(dialog.findChild<QCheckBox*>(QStringLiteral("8")) == nullptr); // it is tuned first
    part<QCheckBox>(dialog, "4").setChecked(true);
    part<QComboBox>(dialog, "outward").setCurrentIndex(1);
    part<QComboBox>(dialog, "approach").setCurrentIndex(1);
    part<QDoubleSpinBox>(dialog, "bearingsTolerance").setValue(0.5);
    part<QDoubleSpinBox>(dialog, "extremesTolerance").setValue(3.0);
    part<QDoubleSpinBox>(dialog, "unisonsTolerance").setValue(0.7);
    part<QCheckBox>(dialog, "felt").setChecked(true);

    REQUIRE(model.choose(wholeWith(dialog.options())));
    const TuningPlan& plan = *model.session().plan;
    CHECK_FALSE(setsChoir(model, 2));
    CHECK(setsChoir(model, 1));
    CHECK(plan.approach == Approach::FromBelow);
    const std::vector<std::size_t> keys = outwardKeys(model);
    REQUIRE(keys.size() == usual.size());
    CHECK(keys[0] < keys[1]);
    const auto settled = [&](Phase phase, std::size_t choir) {
        Cents least(100.0);
        Cents most(0.0);
        for (const TuningStep& step : plan.steps) {
            if (step.phase == phase && step.work == StepWork::Set && step.string.choir == choir) {
                least = std::min(least, step.tolerance);
                most = std::max(most, step.tolerance);
            }
        }
        return std::pair(least, most);
    };
    CHECK(settled(Phase::Bearings, 0).first.value() == Approx(0.5));
    CHECK(settled(Phase::Outward, 0).second.value() == Approx(3.0));
    CHECK(settled(Phase::Unison, 1).first.value() == Approx(0.7));
    const auto felted = [](const TuningStep& step) { return !step.alone.felt.empty(); };
    CHECK(std::any_of(plan.steps.begin(), plan.steps.end(), felted));
}

TEST_CASE("a tolerance has sane ends, and all can be as usual again", "[ui]") {
    TuningModel model;
    chooseFirstOctave(model);
    SessionOptions options;
    options.leftAlone = QStringList{QStringLiteral("8b")};
    options.felt = true;
    options.tolerances.bearings = Cents(0.6);
    const OptionsDialog dialog(options, model.instrument(), model.choir());
    CHECK(dialog.options() == options);
    auto& bearings = part<QDoubleSpinBox>(dialog, "bearingsTolerance");
    bearings.setValue(0.0);
    CHECK(dialog.options().tolerances.bearings.value() == Approx(0.3));
    bearings.setValue(50.0);
    CHECK(dialog.options().tolerances.bearings.value() == Approx(5.0));
    part<QPushButton>(dialog, "asUsual").click();
    CHECK(dialog.options() == SessionOptions{});
}

TEST_CASE("at the ends of the compass no less is allowed than in the bearings", "[ui]") {
    TuningModel model;
    chooseFirstOctave(model);
    SessionOptions options;
    options.tolerances.bearings = Cents(2.5);
    options.tolerances.extremes = Cents(1.5); // as it may have been kept: it had no effect
    const OptionsDialog dialog(options, model.instrument(), model.choir());
    auto& ends = part<QDoubleSpinBox>(dialog, "extremesTolerance");
    CHECK(dialog.options().tolerances.extremes.value() == Approx(2.5));
    ends.setValue(1.0);
    CHECK(dialog.options().tolerances.extremes.value() == Approx(2.5));
    part<QDoubleSpinBox>(dialog, "bearingsTolerance").setValue(3.0);
    CHECK(dialog.options().tolerances.extremes.value() == Approx(3.0));
    part<QDoubleSpinBox>(dialog, "bearingsTolerance").setValue(1.0);
    ends.setValue(1.2);
    CHECK(dialog.options().tolerances.extremes.value() == Approx(1.2));
    CHECK(ends.accessibleDescription().contains(QStringLiteral("bearings")));
}

TEST_CASE("why felt helps is told to eyes and to a screen reader", "[ui]") {
    TuningModel model;
    chooseFirstOctave(model);
    const OptionsDialog dialog(SessionOptions{}, model.instrument(), model.choir());
    const auto& felt = part<QCheckBox>(dialog, "felt");
    CHECK(felt.toolTip().contains(QStringLiteral("two cents")));
    CHECK(felt.accessibleDescription() == felt.toolTip());
}

TEST_CASE("the keyboard goes through the options from top to bottom", "[ui]") {
    TuningModel model;
    chooseFirstOctave(model);
    const OptionsDialog dialog(SessionOptions{}, model.instrument(), model.choir());
    QStringList names;
    const QWidget* at = dialog.focusWidget();
    REQUIRE(at != nullptr);
    const QWidget* const first = at;
    do {
        // A spin box has a line of its own within, which passes the focus on.
        if (at->parentWidget() == &dialog && (at->focusPolicy() & Qt::TabFocus) == Qt::TabFocus &&
            !at->objectName().isEmpty()) {
            names << at->objectName();
        }
        at = at->nextInFocusChain();
    } while (at != first);
    const QStringList wanted{QStringLiteral("8b"),
                             QStringLiteral("4"),
                             QStringLiteral("outward"),
                             QStringLiteral("approach"),
                             QStringLiteral("bearingsTolerance"),
                             QStringLiteral("extremesTolerance"),
                             QStringLiteral("unisonsTolerance"),
                             QStringLiteral("felt")};
    CHECK(names.mid(0, wanted.size()).join(QLatin1Char(' ')).toStdString() ==
          wanted.join(QLatin1Char(' ')).toStdString());
}
