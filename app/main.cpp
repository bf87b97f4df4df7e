#include "app/version.hpp"

#include <QApplication>
#include <QCommandLineParser>
#include <QLabel>

int main(int argc, char** argv) {
    QApplication application(argc, argv);
    QApplication::setApplicationName(QStringLiteral("Quillbench"));
    QApplication::setApplicationVersion(QString::fromLatin1(quillbench::kVersion));
    QCommandLineParser parser;
    parser.addHelpOption();
    parser.addVersionOption();
    parser.process(application);
    QLabel label(QStringLiteral("Quillbench"));
    label.show();
    return QApplication::exec();
}
