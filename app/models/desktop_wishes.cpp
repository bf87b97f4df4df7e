#include "app/models/desktop_wishes.hpp"

#include <QDBusConnection>
#include <QDBusMessage>
#include <QDBusPendingCallWatcher>
#include <QDBusPendingReply>

namespace quillbench {

namespace {

const char* const kPortal = "org.freedesktop.portal.Desktop";
const char* const kPortalPath = "/org/freedesktop/portal/desktop";
const char* const kPortalSettings = "org.freedesktop.portal.Settings";
const char* const kAppearanceGroup = "org.freedesktop.appearance";
const char* const kContrastName = "contrast";
const char* const kMotionName = "reduced-motion";

QString portalWord(const char* words) {
    return QString::fromLatin1(words);
}

/// Older portals wrap the value twice.
QVariant bare(QVariant value) {
    while (value.canConvert<QDBusVariant>()) {
        value = value.value<QDBusVariant>().variant();
    }
    return value;
}

} // namespace

DesktopWishes::DesktopWishes(QObject* parent) : QObject(parent) {
}

void DesktopWishes::ask() {
    QDBusConnection bus = QDBusConnection::sessionBus();
    if (!bus.isConnected()) {
        return;
    }
    bus.connect(portalWord(kPortal),
                portalWord(kPortalPath),
                portalWord(kPortalSettings),
                QStringLiteral("SettingChanged"),
                this,
                SLOT(settingChanged(QString, QString, QDBusVariant)));
    for (const char* name : {kContrastName, kMotionName}) {
        QDBusMessage call = QDBusMessage::createMethodCall(portalWord(kPortal),
                                                           portalWord(kPortalPath),
                                                           portalWord(kPortalSettings),
                                                           QStringLiteral("Read"));
        call << portalWord(kAppearanceGroup) << portalWord(name);
        auto* watcher = new QDBusPendingCallWatcher(bus.asyncCall(call), this);
        connect(watcher, &QDBusPendingCallWatcher::finished, this, [this, watcher, name] {
            const QDBusPendingReply<QDBusVariant> reply = *watcher;
            if (!reply.isError()) {
                take(portalWord(kAppearanceGroup), portalWord(name), reply.value().variant());
            }
            watcher->deleteLater();
        });
    }
}

void DesktopWishes::settingChanged(const QString& group,
                                   const QString& name,
                                   const QDBusVariant& value) {
    take(group, name, value.variant());
}

void DesktopWishes::take(const QString& group, const QString& name, const QVariant& value) {
    if (group != portalWord(kAppearanceGroup)) {
        return;
    }
    const bool wished = bare(value).toUInt() == 1;
    bool* which = name == portalWord(kContrastName) ? &highContrast_
                  : name == portalWord(kMotionName) ? &lessMotion_
                                                    : nullptr;
    if (which != nullptr && *which != wished) {
        *which = wished;
        Q_EMIT changed();
    }
}

} // namespace quillbench
