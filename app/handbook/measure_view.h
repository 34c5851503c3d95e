#pragma once

#include "app/session/session.h"

#include <QWidget>

class QTabWidget;
class QTableView;
class QTextBrowser;
class QUrl;

namespace widgets
{
class EmptyState;
class Notice;
} // namespace widgets

namespace handbook
{

class EvidenceTable;
class UsesTable;

/// One measure as a handbook shows it: the page to read, and below it the evidence of change, the reference
/// values, and the visits that used it.
class MeasureView : public QWidget
{
    Q_OBJECT

public:
    MeasureView(session::Session& session, QWidget* parent);

    void showMeasure(const QString& id);
    const QString& measure() const { return m_measure; }
    void print(); ///< its page of the handbook

Q_SIGNALS:
    void measureAsked(const QString& id); ///< by a link to a related measure
    void visitAsked(const records::PatientId& patient, const records::VisitId& visit, const QString& measure);

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;
    void showEvent(QShowEvent* event) override;
    void changeEvent(QEvent* event) override;

private:
    QTextBrowser* madeBrowser(const QString& name, const QString& accessibleName);
    QWidget* madeEvidence();
    QWidget* madeUses();
    void write();
    void showEvidence();
    void showDetail();
    void showReferences();
    void showUses();
    void openLink(const QUrl& link);
    void openUse();

    session::Session& m_session;
    QString m_measure;
    QTextBrowser* m_page;
    QTabWidget* m_tabs;
    EvidenceTable* m_evidence;
    QTableView* m_evidenceView = nullptr;
    QTextBrowser* m_detail = nullptr;
    widgets::EmptyState* m_noEvidence = nullptr;
    QTextBrowser* m_references;
    UsesTable* m_uses;
    QTableView* m_usesView = nullptr;
    widgets::Notice* m_usesFault = nullptr;
    widgets::EmptyState* m_noUses = nullptr;
};

} // namespace handbook
