#include "app/dialogs/sound_picker.hpp"

#include <QFileDialog>
#include <QFileInfo>

namespace quillbench {

namespace {

constexpr int kKindRole = Qt::UserRole + 1;

} // namespace

void addMicrophones(QComboBox* box, const QStringList& names, const QString& now) {
    box->addItem(SoundPicker::tr("default microphone"), QString());
    for (const QString& name : names) {
        box->addItem(name, name);
    }
    if (box->findData(now) < 0) {
        box->addItem(SoundPicker::tr("%1 (not there now)").arg(now), now);
    }
}

SoundPicker::SoundPicker(const SourceChoice& now,
                         const QStringList& devices,
                         const QString& asks,
                         QWidget* parent)
    : QComboBox(parent),
      asks_(asks),
      file_(now.file) {
    addMicrophones(this, devices, now.device);
    addItem(QString());
    setItemData(count() - 1, static_cast<int>(SourceKind::File), kKindRole);
    if (now.kind == SourceKind::Virtual) {
        insertItem(0, tr("Virtual instrument"));
        setItemData(0, static_cast<int>(SourceKind::Virtual), kKindRole);
    }
    showFile();
    setCurrentIndex(now.kind == SourceKind::Virtual ? 0
                    : now.kind == SourceKind::File  ? count() - 1
                                                    : findData(now.device));
    connect(this, &QComboBox::activated, this, [this] {
        if (chosen().kind == SourceKind::File) {
            const QString file = QFileDialog::getOpenFileName(
                this, asks_, file_, tr("Sound (*.wav *.flac *.aiff *.aif *.ogg);;All files (*)"));
            file_ = file.isEmpty() ? file_ : file;
            showFile();
        }
        Q_EMIT picked();
    });
}

void SoundPicker::showFile() {
    setItemText(count() - 1, file_.isEmpty() ? tr("a recording…") : QFileInfo(file_).fileName());
}

SourceChoice SoundPicker::chosen() const {
    const QVariant kind = currentData(kKindRole);
    if (!kind.isValid()) {
        return {SourceKind::Microphone, currentData().toString(), {}};
    }
    return kind.toInt() == static_cast<int>(SourceKind::Virtual)
               ? SourceChoice{SourceKind::Virtual, {}, {}}
               : SourceChoice{SourceKind::File, {}, file_};
}

bool SoundPicker::ready() const {
    const SourceChoice now = chosen();
    return now.kind == SourceKind::Microphone ||
           (now.kind == SourceKind::File && !now.file.isEmpty());
}

} // namespace quillbench
