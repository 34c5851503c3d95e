#include "app/keys/sealing_acts.h"

#include "app/keys/code_dialog.h"
#include "app/keys/password_form.h"
#include "app/keys/waiting.h"
#include "app/widgets/long_work.h"

#include <QCoreApplication>
#include <QDir>
#include <QFileInfo>

using namespace Qt::StringLiterals;

namespace keys
{

namespace
{

struct SealingWords {
    Q_DECLARE_TR_FUNCTIONS(SealingWords)
};

/// What lies beside the records from before and was not sealed with them.
QStringList plainBeside(const QString& records)
{
    const QFileInfo file(records);
    QStringList plain;
    for (const QString& name : file.dir().entryList({file.fileName() + u".version-*"_s}, QDir::Files)) {
        const QString path = file.dir().filePath(name);
        if (!name.endsWith(u".keys"_s) && !sealing::isSealed(path))
            plain += QDir::toNativeSeparators(path);
    }
    return plain;
}

} // namespace

std::optional<sealing::Seal> newSeal(const QString& password, const QString& records,
                                     session::Prompts& prompts, QWidget* window)
{
    const auto seal = waiting([&] { return sealing::made(password); });
    if (!seal) {
        prompts.tell(seal.error());
        return std::nullopt;
    }
    CodeDialog code(seal->key.code(), records, CodeDialog::Kind::New, window);
    return code.exec() == QDialog::Accepted ? std::optional(*seal) : std::nullopt;
}

void sealRecords(session::Session& session, session::Prompts& prompts, QWidget* window)
{
    QString chosen;
    PasswordForm form(SealingWords::tr("Seal the records"),
                      SealingWords::tr("Whoever gets hold of the file can read it now. Sealed, it opens with "
                                       "this password, which is asked at every start."),
                      SealingWords::tr("Continue"), PasswordForm::New, window);
    form.onAccept([&](const QString&, const QString& password) -> base::Result<void> {
        chosen = password;
        return {};
    });
    if (form.exec() != QDialog::Accepted)
        return;
    const auto seal = newSeal(chosen, session.path(), prompts, window);
    if (!seal)
        return;
    widgets::LongWork work(SealingWords::tr("Sealing the records …"), window);
    const auto done = session.seal(*seal, [&work](int percent) { return work.went(percent); });
    work.reset();
    if (!done) {
        prompts.tell(done.error());
        return;
    }
    const QStringList plain = plainBeside(session.path());
    QString words =
        SealingWords::tr("Every page was read again and none is plain. Backups made before are still "
                         "not sealed, and the disk may keep traces of the plain file.");
    if (!plain.isEmpty())
        words += u"\n\n"_s + SealingWords::tr("Older records that lie beside them are still plain:") + u'\n' +
                 plain.join(u'\n');
    prompts.say(SealingWords::tr("The records are sealed."), words);
}

void changePassword(session::Session& session, QWidget* window)
{
    PasswordForm form(SealingWords::tr("Change the password"),
                      SealingWords::tr("The printed code stays as it is. Backups keep the password they were "
                                       "made with."),
                      SealingWords::tr("Change"), PasswordForm::KnownAndNew, window);
    form.onAccept([&](const QString& known, const QString& password) {
        return waiting([&] { return session.changePassword(known, password); });
    });
    form.exec();
}

void showCode(const session::Session& session, QWidget* window)
{
    QStringList code;
    PasswordForm form(SealingWords::tr("Show the code of the records"), {}, SealingWords::tr("Show"),
                      PasswordForm::Known, window);
    form.onAccept([&](const QString& known, const QString&) -> base::Result<void> {
        const auto found = waiting([&] { return session.code(known); });
        if (!found)
            return found.error();
        code = *found;
        return {};
    });
    if (form.exec() != QDialog::Accepted)
        return;
    CodeDialog dialog(code, session.path(), CodeDialog::Kind::Again, window);
    dialog.exec();
}

} // namespace keys
