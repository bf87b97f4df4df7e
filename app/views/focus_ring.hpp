#pragma once

#include <QObject>
#include <QPointer>
#include <QWidget>
#include <vector>

namespace quillbench {

/// A ring around whatever in the program's windows has the keyboard, in the colour of what is wanted, so that it is
/// found at a glance whatever the thing draws of itself. It lies over the window, so that no neighbour covers it; where a
/// thing is scrolled away so is its ring. Pages that take the keys as a whole are left to their edge.
/// **Thread** GUI.
class FocusRing : public QObject {
    Q_OBJECT

public:
    explicit FocusRing(QObject* parent);
    FocusRing(const FocusRing&) = delete;
    FocusRing& operator=(const FocusRing&) = delete;
    ~FocusRing() override;

    /// A widget with this property (true) shows its focus itself.
    static constexpr const char* kShownItself = "showsItsFocus";

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    void follow(QWidget* now);
    void watch(QWidget* around);
    void place();

    QPointer<QWidget> around_;
    std::vector<QPointer<QWidget>> watched_; ///< it, and what it lies in
    QPointer<QWidget> ring_;                 ///< goes with the window that it was last in
};

} // namespace quillbench
