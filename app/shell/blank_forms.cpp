#include "app/shell/blank_forms.h"

#include "app/session/messages.h"
#include "core/base/file.h"
#include "core/catalogue/catalogue.h"
#include "core/letters/blank_form.h"
#include "core/paper/pages.h"

#include <QCoreApplication>
#include <QMenu>

using namespace Qt::StringLiterals;

namespace shell
{

namespace
{

struct BlankFormWords {
    Q_DECLARE_TR_FUNCTIONS(shell::BlankForms)
};

} // namespace

void writeBlankForm(const catalogue::Form& form, session::Session& session, session::Prompts& prompts)
{
    const auto path = prompts.fileToWrite(BlankFormWords::tr("Save the blank form"), form.id + u".pdf"_s,
                                          BlankFormWords::tr("Pages (*.pdf)"));
    if (!path)
        return;
    const auto pdf =
        paper::pdf(letters::blankForm(form, session.clinic(), session.catalogue(), session::screenPhrases()));
    if (const auto written = pdf ? base::write(*pdf, *path) : pdf.error(); !written)
        prompts.tell(written.error());
}

void addBlankForms(QMenu& menu, session::Session& session, session::Prompts& prompts)
{
    QObject::connect(&menu, &QMenu::aboutToShow, &menu, [&menu, &session, &prompts] {
        menu.clear();
        for (const catalogue::Form& form : session.catalogue().forms) {
            const QString id = form.id;
            QString words = form.title;
            menu.addAction(words.replace(u'&', u"&&"_s), &menu, [id, &session, &prompts] {
                if (const catalogue::Form* chosen = session.catalogue().form(id))
                    writeBlankForm(*chosen, session, prompts);
            });
        }
    });
}

} // namespace shell
