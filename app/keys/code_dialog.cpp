#include "app/keys/code_dialog.h"

#include "app/widgets/theme.h"

#include <QCheckBox>
#include <QDir>
#include <QFontDatabase>
#include <QHBoxLayout>
#include <QLabel>
#include <QPrintDialog>
#include <QPrinter>
#include <QPushButton>
#include <QTextDocument>
#include <QVBoxLayout>

using namespace Qt::StringLiterals;

namespace keys
{

namespace
{

constexpr qsizetype groupsALine = 2;

/// Two groups a line, each with a gap in its middle.
QString inLines(const QStringList& code)
{
    QString lines;
    for (qsizetype i = 0; i < code.size(); ++i) {
        const QString& group = code.at(i);
        lines += group.left(group.size() / 2) + u' ' + group.sliced(group.size() / 2);
        lines += i % groupsALine + 1 == groupsALine ? u"\n"_s : u"   "_s;
    }
    return lines.trimmed();
}

} // namespace

CodeDialog::CodeDialog(const QStringList& code, const QString& records, Kind kind, QWidget* parent)
    : FittedDialog(parent), m_code(code), m_records(QDir::toNativeSeparators(records))
{
    setWindowTitle(tr("Aplomb"));
    auto* title = new QLabel(tr("The code of these records"), this);
    title->setFont(widgets::headingFont());
    auto* words = new QLabel(tr("Print it, or write it down, and keep it where nobody looks for it, apart "
                                "from this computer. Who has "
                                "forgotten the password opens the records with it. Without both nobody can, "
                                "and the records are lost."),
                             this);
    words->setWordWrap(true);
    auto* shown = new QLabel(inLines(code), this);
    shown->setObjectName(u"codeShown"_s);
    shown->setAccessibleName(tr("Code"));
    QFont font = QFontDatabase::systemFont(QFontDatabase::FixedFont);
    font.setPointSizeF(widgets::titleFont().pointSizeF());
    shown->setFont(font);
    shown->setTextInteractionFlags(Qt::TextSelectableByMouse | Qt::TextSelectableByKeyboard);
    shown->setAlignment(Qt::AlignCenter);
    shown->setMargin(widgets::space4);
    shown->setLayoutDirection(Qt::LeftToRight);

    auto* print = new QPushButton(tr("Print…"), this);
    print->setObjectName(u"printCode"_s);
    print->setAutoDefault(false);
    auto* printed = new QCheckBox(tr("I have it on paper"), this);
    printed->setObjectName(u"onPaper"_s);
    auto* back = new QPushButton(tr("Cancel"), this);
    auto* go = new QPushButton(kind == Kind::New ? tr("Continue") : tr("Close"), this);
    go->setObjectName(u"continue"_s);
    go->setProperty("kind", u"primary"_s);
    go->setDefault(true);
    go->setEnabled(kind == Kind::Again);
    printed->setVisible(kind == Kind::New);
    back->setVisible(kind == Kind::New);

    auto* answers = new QHBoxLayout;
    answers->setSpacing(widgets::space2);
    answers->addStretch();
    answers->addWidget(back);
    answers->addWidget(go);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(widgets::space6, widgets::space6, widgets::space6, widgets::space4);
    column->setSpacing(widgets::space3);
    column->addWidget(title);
    column->addWidget(words);
    column->addWidget(shown);
    column->addWidget(print, 0, Qt::AlignHCenter);
    column->addWidget(printed);
    column->addSpacing(widgets::space3);
    column->addLayout(answers);
    connect(printed, &QCheckBox::toggled, go, &QWidget::setEnabled);
    connect(print, &QPushButton::clicked, this, &CodeDialog::print);
    connect(back, &QPushButton::clicked, this, &QDialog::reject);
    connect(go, &QPushButton::clicked, this, &QDialog::accept);
    (kind == Kind::New ? print : go)->setFocus();
}

void CodeDialog::print()
{
    QPrinter printer(QPrinter::HighResolution);
    printer.setPageSize(QPageSize(QPageSize::A4));
    printer.setDocName(tr("Code of the records"));
    QPrintDialog dialog(&printer, this);
    if (dialog.exec() != QDialog::Accepted)
        return;
    QTextDocument page;
    page.setHtml(u"<h2>%1</h2><p>%2</p><pre style=\"font-size:20pt\">%3</pre><p>%4</p>"_s.arg(
        tr("Aplomb: code of the records").toHtmlEscaped(), m_records.toHtmlEscaped(), inLines(m_code),
        tr("It opens these records where the password is forgotten. Keep it apart from the computer, where "
           "nobody looks for it.")
            .toHtmlEscaped()));
    page.print(&printer);
}

} // namespace keys
