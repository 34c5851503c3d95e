#pragma once

#include "app/session/session.h"
#include "app/visits/examination_page.h"
#include "core/catalogue/reader.h"
#include "core/records/history.h"
#include "tests/support/answers.h"

#include <QCoreApplication>
#include <QSettings>
#include <QTemporaryDir>
#include <QTest>

/// What the page tests stand on: a records file of their own, a patient, and prompts that answer.
namespace desk
{

using namespace Qt::StringLiterals;

inline const catalogue::Catalogue& book()
{
    static const auto read = catalogue::readCatalogue(u":/catalogue"_s);
    return *read;
}

inline std::unique_ptr<session::Session> openSession(const QString& path)
{
    const auto clock = [] { return QDateTime(QDate(2026, 3, 4), QTime(9, 30), Qt::UTC); };
    auto opened = session::Session::open(path, book(), {u"tester"_s, clock}, records::Opening::MayCreate);
    return opened ? std::move(*opened) : nullptr;
}

/// One clinic with one patient, in focus and without a visit.
struct Desk {
    QTemporaryDir folder;
    std::unique_ptr<session::Session> session;
    Answers answers;

    Desk()
    {
        QCoreApplication::setOrganizationName(u"tests"_s);
        QCoreApplication::setApplicationName(u"examination"_s);
        QSettings::setDefaultFormat(QSettings::IniFormat);
        QSettings::setPath(QSettings::IniFormat, QSettings::UserScope, folder.path());
        session = openSession(path());
        records::Patient patient;
        patient.id = records::PatientId::make();
        patient.family = u"Halden"_s;
        patient.given = u"Mirrit"_s;
        patient.born = QDate(1951, 3, 4);
        patient.population = u"stroke-chronic"_s;
        patient.recordNumber = u"L-0042"_s;
        const auto saved = session->savePatient(patient);
        if (saved)
            session->choosePatient(saved->id);
    }

    QString path() const { return folder.filePath(u"clinic.aplomb"_s); }

    const records::Visit& startVisit(QDate day)
    {
        const auto started = session->startVisit(day);
        Q_ASSERT(started);
        return *session->visitInFocus();
    }

    const records::Finding* found(const QString& measure, records::Side side = records::Side::None) const
    {
        return session->visitInFocus()->finding(measure, side);
    }

    /// A signed visit with these findings, before today.
    void addSignedVisit(QDate day, const std::vector<records::Finding>& findings,
                        const records::Conditions& conditions)
    {
        const auto id = startVisit(day).id;
        (void)bool(session->saveConditions(id, conditions, true));
        (void)bool(session->saveFindings(id, findings));
        (void)bool(session->signVisit(id, {u"A. Tester"_s, u"physiotherapist"_s, u"P-1"_s}));
    }
};

/// The page on a visit of this day, in a window that has the keyboard.
struct Open : Desk {
    std::unique_ptr<visits::ExaminationPage> page;

    explicit Open(QSize size = {1280, 860}, const QString& form = {})
    {
        const bool isStarted = bool(session->startVisit(QDate(2026, 3, 4), form));
        page = std::make_unique<visits::ExaminationPage>(*session, answers);
        page->resize(size);
        page->show();
        if (!isStarted || !QTest::qWaitForWindowActive(page.get()))
            qFatal("no visit is shown");
    }
    template <class Widget = QWidget>
    Widget* at(const char* name) const
    {
        auto* found = page->findChild<Widget*>(QString::fromLatin1(name));
        if (found == nullptr)
            qFatal("no widget is named %s", name);
        return found;
    }
    /// What has the keyboard within the window.
    QString holder() const
    {
        const QWidget* holder = page->focusWidget();
        return holder == nullptr ? QString() : holder->objectName();
    }
};

inline records::Finding finding(const QString& measure, records::Side side, const values::Value& value)
{
    records::Finding made;
    made.measure = measure;
    made.side = side;
    made.value = value;
    return made;
}

} // namespace desk
