#pragma once

#include "app/models/choices.hpp"

#include <QComboBox>
#include <QStringList>

namespace quillbench {

/// What a dialog listens with: a microphone, or a recording that is asked for. **Thread** GUI.
class SoundPicker : public QComboBox {
    Q_OBJECT

public:
    /// `now`: what is listened to; the virtual instrument is shown as such and gives nothing. `devices`: names of the
    /// inputs. `asks`: over the question for a file.
    SoundPicker(const SourceChoice& now,
                const QStringList& devices,
                const QString& asks,
                QWidget* parent = nullptr);

    [[nodiscard]] SourceChoice chosen() const;

    /// Something that can be listened to is chosen.
    [[nodiscard]] bool ready() const;

Q_SIGNALS:
    void picked();

private:
    void showFile();

    QString asks_;
    QString file_;
};

/// The default microphone and all others, also the one in use where it is gone.
void addMicrophones(QComboBox* box, const QStringList& names, const QString& now);

} // namespace quillbench
