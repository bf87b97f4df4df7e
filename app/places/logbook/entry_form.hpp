#pragma once

#include "app/storage/logbook.hpp"
#include "core/instrument/instrument.hpp"

#include <QWidget>
#include <optional>

class QComboBox;
class QDoubleSpinBox;
class QLineEdit;
class QPushButton;
class QStackedWidget;

namespace quillbench {

/// Where something is written down: a remark on a string or the session, temperature and humidity, a new string.
/// It only says what was entered. **Thread** GUI.
class EntryForm : public QWidget {
    Q_OBJECT

public:
    explicit EntryForm(QWidget* parent = nullptr);

    /// The strings to choose from; nothing: nothing can be entered.
    void show(const std::optional<Instrument>& instrument);

Q_SIGNALS:
    void remarkEntered(const std::optional<quillbench::StringName>& string, const QString& text);
    void climateEntered(std::optional<double> temperatureC, std::optional<double> humidityPercent);
    void replacedEntered(const quillbench::StringName& string,
                         std::optional<double> diameterMm,
                         const QString& material,
                         const QString& reason);

private:
    [[nodiscard]] QWidget* remarkPage();
    [[nodiscard]] QWidget* airPage();
    [[nodiscard]] QWidget* replacedPage();
    void showKind();
    void fillKeys();
    void enter();
    [[nodiscard]] std::optional<StringName> string() const;

    std::optional<Instrument> instrument_;
    QComboBox* kind_;
    QWidget* which_;
    QComboBox* choir_;
    QComboBox* key_;
    QStackedWidget* pages_;
    QComboBox* remark_ = nullptr;
    QDoubleSpinBox* temperature_ = nullptr;
    QDoubleSpinBox* humidity_ = nullptr;
    QDoubleSpinBox* diameter_ = nullptr;
    QComboBox* material_ = nullptr;
    QComboBox* reason_ = nullptr;
    QPushButton* keep_;
};

} // namespace quillbench
