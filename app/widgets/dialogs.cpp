#include "app/widgets/dialogs.h"

#include "app/session/messages.h"
#include "app/widgets/question.h"
#include "core/base/text.h"

#include <QApplication>
#include <QDir>
#include <QFileDialog>
#include <QFileInfo>
#include <QLineEdit>
#include <QStandardPaths>

using namespace Qt::StringLiterals;

namespace widgets
{

namespace
{

/// What is safe and what to do, by the kind of error.
QString advice(base::ErrorKind kind)
{
    switch (kind) {
    case base::ErrorKind::Invalid:
        return Dialogs::tr("Nothing was changed. Correct the entry and try again.");
    case base::ErrorKind::NotFound:
        return Dialogs::tr("Nothing was changed. Look whether it is still where it was.");
    case base::ErrorKind::Conflict:
        return Dialogs::tr(
            "Nothing was overwritten and what you typed is kept. Look at what was saved meanwhile "
            "before you save again.");
    case base::ErrorKind::Refused:
        return Dialogs::tr("Nothing was changed.");
    case base::ErrorKind::Foreign:
    case base::ErrorKind::Newer:
    case base::ErrorKind::Unreadable:
        return Dialogs::tr("The file was left as it is.");
    case base::ErrorKind::Unwritable:
        return Dialogs::tr(
            "What was saved before is safe. Check the disk's space and permissions, then try again.");
    }
    return {};
}

QWidget* front()
{
    return QApplication::activeWindow();
}

/// What is answered to a question for a person. Who signs has a registration number; not everybody who sits
/// at the keyboard does.
std::optional<records::Author> named(Question& dialog, const records::Author& known, bool needsNumber)
{
    const QLineEdit* name = dialog.addField(Dialogs::tr("Name"), known.name, u"authorName"_s, true);
    const QLineEdit* role = dialog.addField(Dialogs::tr("Role"), known.role, u"authorRole"_s, true);
    const QLineEdit* number = dialog.addField(Dialogs::tr("Registration number"), known.registration,
                                              u"authorRegistration"_s, needsNumber);
    if (dialog.exec() != QDialog::Accepted)
        return std::nullopt;
    return records::Author{base::tidied(name->text()), base::tidied(role->text()),
                           base::tidied(number->text())};
}

} // namespace

QString usualFolder()
{
    const QString documents = QStandardPaths::writableLocation(QStandardPaths::DocumentsLocation);
    return QFileInfo(documents).isDir() ? documents : QDir::homePath();
}

bool Dialogs::confirmed(const QString& question, const QString& explanation, const QString& accept)
{
    Question dialog(question, explanation, accept, front());
    return dialog.exec() == QDialog::Accepted;
}

bool Dialogs::mayLose(const QString& question, const QString& loss, const QString& act)
{
    Question dialog(question, loss, act, front());
    dialog.preferRefusal();
    return dialog.exec() == QDialog::Accepted;
}

std::optional<qsizetype> Dialogs::chosen(const QString& question, const QString& explanation,
                                         const QStringList& answers)
{
    Question dialog(question, explanation, answers.value(0), front());
    for (qsizetype answer = 1; answer < answers.size(); ++answer)
        dialog.addAnswer(answers.at(answer));
    return dialog.exec() == QDialog::Rejected ? std::nullopt : std::optional(dialog.answer());
}

std::optional<QString> Dialogs::line(const QString& question, const QString& label, const QString& initial)
{
    Question dialog(question.section(u'\n', 0, 0), question.section(u'\n', 1), tr("Continue"), front());
    const QLineEdit* field = dialog.addField(label, initial, u"line"_s, true);
    if (dialog.exec() != QDialog::Accepted)
        return std::nullopt;
    return base::tidied(field->text());
}

std::optional<records::Author> Dialogs::author(const QString& question, const records::Author& last)
{
    Question dialog(question,
                    tr("Your name, role and registration number are kept with it and printed on letters."),
                    tr("Sign"), front());
    return named(dialog, last, true);
}

std::optional<records::Author> Dialogs::person(const records::Author& known)
{
    Question dialog(tr("Who sits at the keyboard?"),
                    tr("Your name stands in every log from now on. It is changed at the top of the window."),
                    tr("Continue"), front());
    return named(dialog, known, false);
}

std::optional<QString> Dialogs::fileToWrite(const QString& title, const QString& suggested,
                                            const QString& filter)
{
    const QString start =
        QFileInfo(suggested).isAbsolute() ? suggested : QDir(usualFolder()).filePath(suggested);
    const QString chosen = QFileDialog::getSaveFileName(front(), title, start, filter);
    return chosen.isEmpty() ? std::nullopt : std::optional(chosen);
}

std::optional<QString> Dialogs::fileToRead(const QString& title, const QString& filter)
{
    const QString chosen = QFileDialog::getOpenFileName(front(), title, usualFolder(), filter);
    return chosen.isEmpty() ? std::nullopt : std::optional(chosen);
}

std::optional<QString> Dialogs::folderToWrite(const QString& title, const QString& suggested)
{
    const QString chosen = QFileDialog::getExistingDirectory(front(), title, suggested);
    return chosen.isEmpty() ? std::nullopt : std::optional(chosen);
}

void Dialogs::say(const QString& what, const QString& explanation)
{
    Question dialog(what, explanation, tr("Close"), front());
    dialog.withoutRefusal();
    dialog.exec();
}

void Dialogs::tell(const base::Error& error)
{
    Question dialog(session::sentence(error), advice(error.kind), tr("Close"), front());
    dialog.withoutRefusal();
    dialog.exec();
}

} // namespace widgets
