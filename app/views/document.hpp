#pragma once

#include <QString>
#include <functional>

class QKeyEvent;

namespace quillbench {

/// What the usual keys of a document do at a place that edits one.
struct DocumentKeys {
    std::function<void()> undo;
    std::function<void()> redo;
    std::function<void()> open;
    std::function<void()> save;
    std::function<void()> print;
};

/// Whether this is one of those keys, as the desktop has them.
[[nodiscard]] bool isDocumentKey(const QKeyEvent& event);

/// Whether a key means something inside a place that edits, and must not reach the commands of Tune.
[[nodiscard]] bool staysInPlace(const QKeyEvent& key);

/// Does what the key asks for; false where it is none of them.
bool takeDocumentKey(const QKeyEvent& event, const DocumentKeys& keys);

/// The file that a person named, with the suffix by which a desktop knows our files where they gave none.
[[nodiscard]] QString withSuffix(const QString& file);

/// For a file dialog: our files, newer and older, by what they hold: "Instrument (*.quillbench *.json)".
[[nodiscard]] QString documentFilter(const QString& what);

/// What a temperament is called: as the catalogue or its file does, else as the file is. **Thread** any.
[[nodiscard]] QString temperamentCalled(const QString& idOrFile);

} // namespace quillbench
