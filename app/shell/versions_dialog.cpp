#include "app/shell/versions_dialog.h"

#include "app/session/messages.h"
#include "app/shell/version_rows.h"
#include "app/shell/visit_words.h"
#include "app/widgets/table_menu.h"
#include "app/widgets/theme.h"
#include "app/widgets/window_place.h"

#include <QCheckBox>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QLabel>
#include <QPushButton>
#include <QScreen>
#include <QTableWidget>
#include <QVBoxLayout>

using namespace Qt::StringLiterals;

namespace shell
{

namespace
{

/// How it was signed; that it was entered in error is said of the whole visit, by someone else at another
/// time.
QString headWords(records::Visit version)
{
    version.withdrawn.reset();
    if (version.state == records::VisitState::Draft)
        return VersionsDialog::tr("Version %1\n%2").arg(version.version).arg(stateWords(version));
    const QString at = session::instantInWords(version.signedAt);
    return VersionsDialog::tr("Version %1\n%2 %3\n%4, %5")
        .arg(QString::number(version.version), stateWords(version), at, version.author.name,
             version.author.role);
}

QString reasonWords(const std::vector<records::Visit>& versions)
{
    QStringList lines;
    if (!versions.empty() && versions.front().withdrawn)
        lines += inErrorWords(versions.front());
    for (const records::Visit& version : versions) {
        if (!version.amendmentReason.isEmpty())
            lines += VersionsDialog::tr("Version %1, reason: %2")
                         .arg(version.version)
                         .arg(version.amendmentReason);
    }
    return lines.join(u'\n');
}

QTableWidgetItem* cell(const QString& text, bool isStrong, bool isStruck = false)
{
    auto* item = new QTableWidgetItem(text);
    QFont font = widgets::bodyFont();
    font.setBold(isStrong);
    font.setStrikeOut(isStruck);
    item->setFont(font);
    item->setFlags(Qt::ItemIsEnabled | Qt::ItemIsSelectable);
    return item;
}

QTableWidget* madeTable(const std::vector<records::Visit>& versions, const std::vector<VersionRow>& rows,
                        QWidget* parent)
{
    auto* table =
        new QTableWidget(static_cast<int>(rows.size()), static_cast<int>(versions.size()) + 2, parent);
    table->setObjectName(u"versionTable"_s);
    table->setAccessibleName(VersionsDialog::tr("Versions of the visit"));
    widgets::dress(*table);
    const bool isInError = !versions.empty() && versions.front().withdrawn;
    QStringList heads = {VersionsDialog::tr("Finding")};
    for (const records::Visit& version : versions)
        heads += headWords(version);
    table->setHorizontalHeaderLabels(heads + QStringList{VersionsDialog::tr("Differs")});
    for (int row = 0; row < table->rowCount(); ++row) {
        const VersionRow& source = rows.at(static_cast<size_t>(row));
        table->setItem(row, 0, cell(source.name, false));
        for (int i = 0; i < source.values.size(); ++i)
            table->setItem(row, i + 1, cell(source.values.at(i), source.isChanged, isInError));
        table->setItem(row, table->columnCount() - 1,
                       cell(source.isChanged ? VersionsDialog::tr("differs") : QString(), false));
    }
    table->horizontalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
    table->horizontalHeader()->setStretchLastSection(true);
    return table;
}

} // namespace

VersionsDialog::VersionsDialog(const std::vector<records::Visit>& versions,
                               const catalogue::Catalogue& catalogue, const widgets::Sheet& sheet,
                               QWidget* parent)
    : QDialog(parent)
{
    setWindowTitle(tr("Versions"));
    auto* title = new QLabel(this);
    title->setFont(widgets::headingFont());
    if (!versions.empty())
        title->setText(tr("Visit of %1: every version").arg(session::dayInWords(versions.front().day)));
    auto* reasons = new QLabel(reasonWords(versions), this);
    reasons->setWordWrap(true);
    reasons->setObjectName(u"versionReasons"_s);
    reasons->setTextFormat(Qt::PlainText);
    const std::vector<VersionRow> rows = versionRows(versions, catalogue);
    QTableWidget* table = madeTable(versions, rows, this);
    new widgets::TableMenu(*table, [sheet] { return sheet; });
    auto* onlyChanged = new QCheckBox(tr("Only what differs"), this);
    onlyChanged->setObjectName(u"onlyChanged"_s);
    connect(onlyChanged, &QCheckBox::toggled, table, [table, rows](bool isOn) {
        for (int row = 0; row < table->rowCount(); ++row)
            table->setRowHidden(row, isOn && !rows.at(static_cast<size_t>(row)).isChanged);
    });
    onlyChanged->setChecked(versions.size() > 1);
    auto* close = new QPushButton(tr("Close"), this);
    close->setProperty("kind", u"primary"_s);
    connect(close, &QPushButton::clicked, this, &QDialog::accept);

    auto* foot = new QHBoxLayout;
    foot->addWidget(onlyChanged);
    foot->addStretch();
    foot->addWidget(close);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(widgets::space6, widgets::space6, widgets::space6, widgets::space4);
    column->setSpacing(widgets::space3);
    column->addWidget(title);
    column->addWidget(reasons);
    column->addWidget(table, 1);
    column->addLayout(foot);
    widgets::resizeTo({1000, 620}, *this);
}

} // namespace shell
