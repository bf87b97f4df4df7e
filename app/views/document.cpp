#include "app/views/document.hpp"

#include "app/formats/temperament_file.hpp"
#include "app/text/core_text.hpp"

#include <QFileInfo>
#include <QKeyEvent>
#include <array>
#include <utility>

namespace quillbench {

namespace {

using Does = std::function<void()> DocumentKeys::*;

constexpr std::array<std::pair<QKeySequence::StandardKey, Does>, 5> kDocumentKeys{
    {{QKeySequence::Undo, &DocumentKeys::undo},
     {QKeySequence::Redo, &DocumentKeys::redo},
     {QKeySequence::Open, &DocumentKeys::open},
     {QKeySequence::Save, &DocumentKeys::save},
     {QKeySequence::Print, &DocumentKeys::print}}};

} // namespace

bool isDocumentKey(const QKeyEvent& event) {
    for (const auto& [key, does] : kDocumentKeys) {
        if (event.matches(key)) {
            return true;
        }
    }
    return false;
}

bool staysInPlace(const QKeyEvent& key) {
    const bool function =
        (key.key() >= Qt::Key_F1 && key.key() <= Qt::Key_F35) || key.key() == Qt::Key_Escape;
    const bool plain = key.modifiers() == Qt::NoModifier || key.modifiers() == Qt::ShiftModifier ||
                       key.modifiers() == Qt::KeypadModifier;
    return !function && (plain || isDocumentKey(key));
}

bool takeDocumentKey(const QKeyEvent& event, const DocumentKeys& keys) {
    for (const auto& [key, does] : kDocumentKeys) {
        if (event.matches(key)) {
            (keys.*does)();
            return true;
        }
    }
    return false;
}

QString withSuffix(const QString& file) {
    return QFileInfo(file).suffix().isEmpty() ? file + QStringLiteral(".quillbench") : file;
}

QString temperamentCalled(const QString& idOrFile) {
    const Result<Temperament> read = loadTemperament(idOrFile.toStdString());
    return read ? coreText(read->description().name) : QFileInfo(idOrFile).completeBaseName();
}

QString documentFilter(const QString& what) {
    return what + QStringLiteral(" (*.quillbench *.json)");
}

} // namespace quillbench
